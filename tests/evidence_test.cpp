// SPDX-License-Identifier: MIT
// Every row of tables/published.toml against our own calculation.
#include "caseload/evidence.hpp"
#include "caseload/show/evidence.hpp"
#include "formula_use.hpp"
#include "program.hpp"
#include "support.hpp"

#include <filesystem>
#include <fstream>
#include <map>
#include <set>
#include <string>

namespace caseload::evidence_tests {

TEST_CASE("evidence: every published figure is reproduced, or deviates for a stated reason") {
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
        CHECK((row.seen == "seen" || row.seen == "recomputed" || row.seen == "from memory" ||
               row.seen == "digitised"));
        const bool met = row.bound ? ours <= row.published
                                   : within(ours, row.published, row.tolerance * (1 + 1e-9));
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

TEST_CASE("evidence: a row that is not reproduced fails, and is listed first") {
    PublishedRow good;
    good.id = "two";
    good.source = "iso-281-2007";
    good.published = 2;
    good.tolerance = 0.5;
    PublishedRow bad = good;
    bad.id = "three";
    PublishedRow told = bad;
    told.id = "told";
    told.deviates = "printed with another constant";
    PublishedRow lost = good;
    lost.id = "nothing calculates it";
    const std::vector<Calculation> ours{
        {"two", [] { return 2.4; }}, {"three", [] { return 2.6; }}, {"told", [] { return 2.6; }}};
    const Evidence evidence = recompute({good, told, bad, lost}, ours);
    CHECK(evidence.reproduced == 1);
    CHECK(evidence.differs == 1);
    CHECK(evidence.fails == 2);
    CHECK(evidence.rows.front().outcome == Outcome::fails);
    CHECK(evidence.rows[2].row.id == "told");
    CHECK(evidence.rows.back().row.id == "two");
    CHECK(evidence.worst_share == rel(0.8, 1e-9));
    CHECK(evidence_screen(evidence).find("2 FAIL") != std::string::npos);
}

TEST_CASE("evidence: figures printed outside and recomputed by ourselves are counted apart") {
    PublishedRow printed;
    printed.id = "two";
    printed.source = "iso-281-2007";
    printed.published = 2;
    printed.tolerance = 0.5;
    printed.seen = "seen";
    PublishedRow remembered = printed;
    remembered.seen = "from memory";
    PublishedRow own = printed;
    own.seen = "recomputed";
    own.published = 3;
    own.deviates = "printed with another constant";
    PublishedRow measured = printed;
    measured.measured = true;
    measured.published = 1.6;
    PublishedRow bound = measured;
    bound.bound = true;
    bound.published = 9;
    bound.tolerance = 0;
    const Evidence evidence =
        recompute({printed, remembered, own, measured, bound}, {{"two", [] { return 2.0; }}});
    CHECK(evidence_counts(evidence) ==
          "2 figures printed in an outside source, all of functions an answer uses; 1 figures "
          "recomputed by ourselves; 2 measured by others");
    CHECK(evidence.measured.met == 2);
    CHECK(evidence.least_ratio == 1.25);
    CHECK(evidence.largest_ratio == 1.25);
    CHECK(evidence.printed.met == 2);
    CHECK(evidence.printed.from_memory == 1);
    CHECK(evidence.recomputed.met == 0);
}

// The ratios of the 15 torques with f0 of 5.5, calculated apart from this program in Python.
TEST_CASE("evidence: measured torques of tapered bearings against an outside calculation") {
    const std::map<std::string, double> ratios{
        {"trb-80x140-axial-500", 1.25},     {"trb-80x140-axial-2000", 0.93},
        {"trb-80x140-axial-4000", 0.98},    {"trb-80x140-combined-500", 1.04},
        {"trb-80x140-combined-1000", 1.01}, {"trb-80x140-combined-2000", 1.06},
        {"trb-80x140-combined-4000", 1.14}, {"trb-40x68-55-1000", 1.02},
        {"trb-40x68-55-1400", 0.99},        {"trb-40x68-55-1800", 0.99},
        {"trb-40x68-55-2200", 0.99},        {"trb-40x68-65-1000", 1.25},
        {"trb-40x68-65-1400", 1.20},        {"trb-40x68-65-1800", 1.11},
        {"trb-40x68-65-2200", 1.07}};
    std::size_t seen = 0;
    for (const Recomputed& one : recompute(published_rows(), calculations()).rows) {
        const auto found = ratios.find(one.row.id);
        if (found == ratios.end()) continue;
        CAPTURE(one.row.id);
        CHECK(within(one.ours / one.row.published, found->second, 0.0051));  // two decimals
        ++seen;
    }
    CHECK(seen == ratios.size());
}

TEST_CASE("evidence: a figure above a bound fails") {
    PublishedRow bound;
    bound.id = "two";
    bound.source = "iso-281-2007";
    bound.published = 1.9;
    bound.measured = true;
    bound.bound = true;
    CHECK(recompute({bound}, {{"two", [] { return 2.0; }}}).fails == 1);
    CHECK(recompute({bound}, {{"two", [] { return 1.0; }}}).fails == 0);
}

TEST_CASE("evidence: what was only recomputed is a test, but for what does not reproduce") {
    for (const PublishedRow& row : published_rows()) {
        CAPTURE(row.id);
        CHECK((row.seen != "recomputed" || !row.deviates.empty()));
    }
}

TEST_CASE("evidence: every formula is used by an answer, as the source has it") {
    const test_files::Sources sources = test_files::project_sources();
    const test_files::Names used = test_files::used_by_answers(sources);
    CHECK(used.size() > 100);
    for (const std::string& name : test_files::formula_functions(sources))
        if (used.count(name) == 0) FAIL_CHECK("no answer uses " << name);
}

TEST_CASE("evidence: use by an answer is read from the source") {
    const test_files::Sources sources{
        {"include/caseload/formulas/a.hpp",
         "namespace caseload::a {\n[[nodiscard]] double used_N(int);\n[[nodiscard]] double "
         "inner_N();\n[[nodiscard]] double idle_N();\n[[nodiscard]] double told_N();\n}\n"},
        {"src/formulas/a.cpp",
         "namespace caseload::a {\nnamespace {\ndouble half() {\n    return inner_N() / 2;\n}\n}\n"
         "double used_N(int idle_N) {\n    return half() + idle_N;\n}\n"
         "double inner_N() {\n    return 2;\n}\ndouble idle_N() {\n    return inner_N();\n}\n}\n"},
        {"src/why/w.cpp", "void w() {\n    a::told_N();\n}\n"},
        {"src/evidence/e.cpp", "void e() {\n    a::idle_N();\n}\n"},
        {"src/loads/l.cpp",
         "namespace caseload {\ndouble l() {\n    return a::used_N(1);\n}\n}\n"}};
    CHECK(test_files::used_by_answers(sources) == test_files::Names{"a::inner_N", "a::used_N"});
}

TEST_CASE("evidence: README has the numbers the program prints") {
    const std::string readme = file_text(std::string(CASELOAD_ROOT) + "/README.md");
    const std::string counts = evidence_counts(recompute(published_rows(), calculations()));
    CAPTURE(counts);
    CHECK(readme.find("`caseload evidence` recalculates on your machine: " + counts) !=
          std::string::npos);
}

TEST_CASE("evidence: constants from memory are counted from bibliography and tables") {
    const Places places = constant_places();
    const std::string text = file_text(std::string(CASELOAD_ROOT) + "/tables/sources.toml");
    int sources = 0;
    int memory = 0;
    for (const std::string& line : test_files::lines(text)) {
        sources += line.rfind("title = ", 0) == 0 ? 1 : 0;
        memory += line.rfind("seen = ", 0) == 0 && line.find("from memory") != std::string::npos;
    }
    CHECK(places.sources == sources);
    CHECK(places.sources_from_memory == memory);
    // Counted by hand in the tables: clearances 10 + 10, materials 3.
    CHECK(places.rows_from_memory > 20);
    CHECK(places.rows >= places.rows_from_memory + places.rows_judged);
    CHECK(places.rows_judged > 20);
}

TEST_CASE("evidence: docs/validation.md is what the program writes") {
    const Run now = run_program_as_user("evidence --markdown");
    CHECK(now.code == 0);
    CHECK(now.out == file_text(std::string(CASELOAD_ROOT) + "/docs/validation.md"));
    const Run screen = run_program_as_user("evidence");
    CHECK(screen.code == 0);
    CHECK(screen.out.rfind("No comparison with a running, instrumented transfer case", 0) == 0);
    for (const std::string& line : test_files::lines(screen.out)) {
        CAPTURE(line);
        CHECK(line.size() <= 100);
    }
    const Run json = run_program_as_user("evidence --json");
    CHECK(json.out.rfind(R"({"schema":1,"instrumented_case":false,)", 0) == 0);
}

}  // namespace caseload::evidence_tests
