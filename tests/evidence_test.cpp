// SPDX-License-Identifier: MIT
// Every row of tables/published.toml against our own calculation.
#include "caseload/evidence.hpp"
#include "support.hpp"

#include <filesystem>
#include <fstream>
#include <map>
#include <set>
#include <string>

using namespace caseload;

TEST_CASE(
    "evidence: every published figure is calculated and met, or deviates for a stated reason") {
    std::map<std::string, double (*)()> by_id;
    for (const Calculation& one : calculations()) by_id[std::string(one.id)] = one.value;
    const auto rows = published_rows();
    CHECK(rows.size() == by_id.size());
    for (const PublishedRow& row : rows) {
        CAPTURE(row.id);
        REQUIRE(by_id.count(row.id) == 1);
        const double ours = by_id[row.id]();
        CAPTURE(ours);
        CAPTURE(row.published);
        CHECK(row.tolerance >= 0);  // 0: a whole number
        CHECK(!row.source.empty());
        CHECK(!row.reason.empty());
        CHECK((row.seen == "seen" || row.seen == "recomputed" || row.seen == "from memory"));
        const bool met = within(ours, row.published, row.tolerance * (1 + 1e-9));
        if (row.deviates.empty())
            CHECK(met);
        else
            CHECK(!met);
    }
}

TEST_CASE("evidence: every cited source is in the bibliography") {
    const std::string root = CASELOAD_ROOT;
    std::set<std::string> known;
    std::ifstream table(root + "/tables/sources.toml");
    for (std::string line; std::getline(table, line);)
        if (line.size() > 2 && line.front() == '[') known.insert(line.substr(1, line.size() - 2));
    CHECK(known.size() > 40);
    int cited = 0;
    for (const auto& entry :
         std::filesystem::directory_iterator(root + "/include/caseload/formulas")) {
        std::ifstream header(entry.path());
        for (std::string line; std::getline(header, line);) {
            if (line.rfind("/// Source ", 0) != 0) continue;
            std::string key = line.substr(11);
            key.erase(0, key.find_first_not_of(' '));
            key = key.substr(0, key.find(','));
            CAPTURE(entry.path().string());
            CAPTURE(key);
            CHECK(known.count(key) == 1);
            ++cited;
        }
    }
    CHECK(cited > 50);
    for (const PublishedRow& row : published_rows()) {
        CAPTURE(row.source);
        CHECK(known.count(row.source) == 1);
    }
}
