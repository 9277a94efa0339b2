// SPDX-License-Identifier: MIT
// Every row of tables/published.toml against our own calculation.
#include "caseload/evidence.hpp"
#include "support.hpp"

#include <cmath>
#include <map>
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
