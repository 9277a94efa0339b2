// SPDX-License-Identifier: MIT
// The service book: records, their text, what is due; and the program with its file.
#include "caseload/book/record.hpp"
#include "caseload/book/state.hpp"
#include "caseload/error.hpp"
#include "files.hpp"
#include "own_folder.hpp"
#include "program.hpp"
#include "support.hpp"

#include <cmath>
#include <cstddef>
#include <functional>
#include <string>
#include <utility>
#include <vector>

namespace caseload::book_tests {

using book::Record;
using book::Records;

namespace {

using test_files::root;

/// Books in a folder of their own.
class Folder : public OwnFolder {
public:
    Folder() : OwnFolder("book") {}
    [[nodiscard]] Run book(const std::string& arguments, const std::string& file = "a.book") const {
        return run_program_as_user("book " + arguments + " --book " + path(file));
    }
};

Record record(const std::string& id, const std::string& date, const std::string& kind,
              std::vector<std::pair<std::string, std::string>> fields) {
    return {id, date, kind, "A", "", "0", std::move(fields)};
}

Record ran(const std::string& id, const std::string& date, const std::string& times) {
    return record(
        id, date, "event",
        {{"times", times}, {"bearing.x.share", "0.1"}, {"oil.dose", "0.2"}, {"driving_h", "5"}});
}

using test_files::has;

}  // namespace

TEST_CASE("book: dates that no calendar has are refused") {
    for (const char* good : {"2026-11-20", "2024-02-29", "2000-02-29"})
        CHECK_NOTHROW(book::require_date(good));
    for (const char* bad : {"2026-02-29", "1900-02-29", "2026-13-01", "2026-00-01", "2026-1-1",
                            "20.11.2026", "2026-04-31", "", "2026-11-2x"}) {
        CAPTURE(bad);
        CHECK_THROWS_AS(book::require_date(bad), Error);
    }
}

TEST_CASE("book: setups of last events are calculated once each, by any order of the work") {
    const std::string light = test_files::file_text(test_files::light_file);
    std::string hot = light;
    const std::string ambient = "ambient = \"34 degC\"";
    hot.replace(hot.find(ambient), ambient.size(), "ambient = \"60 degC\"");
    hot += "\n[limits]\noil_stop = \"64 degC\"\noil_watch = \"62 degC\"\n";
    Records records{
        record("1", "2026-01-01", "setup", {{"hash", "h1"}, {"text", light}}),
        record("2", "2026-01-01", "setup", {{"hash", "h2"}, {"text", hot}}),
        record("3", "2026-01-01", "setup", {{"hash", "h3"}, {"text", "caseload = 1\nno = 1\n"}})};
    const auto event_of = [&](const std::string& serial, const std::string& hash) {
        Record event = ran("e" + serial, "2026-01-02", "1");
        event.serial = serial;
        event.setup = hash;
        event.fields.emplace_back("oil.peak_degC", "100");
        Record begun = record("c" + serial, "2026-01-01", "case", {});
        begun.serial = serial;
        records.push_back(begun);
        records.push_back(event);
    };
    for (const auto& [serial, hash] : {std::pair{"A", "h1"}, {"B", "h2"}, {"C", "h1"}, {"D", "h2"}})
        event_of(serial, hash);
    const std::vector<book::DueOfCase> alone = book::due(records);
    std::size_t pieces = 0;
    const ForEach backwards = [&](std::size_t n, const std::function<void(std::size_t)>& body) {
        pieces += n;
        for (std::size_t i = n; i > 0; --i) body(i - 1);
    };
    CHECK(book::due_screen(book::due(records, backwards)) == book::due_screen(alone));
    CHECK(pieces == 2);
    for (const book::DueOfCase& one : alone) {
        const bool stops = one.actions.front().action == "do_not_run";
        CHECK(stops == (one.serial == "B" || one.serial == "D"));
    }
    // A setup that no case ran last is not read; one that cannot be read is refused as itself.
    event_of("E", "h3");
    CHECK_THROWS_WITH_AS(static_cast<void>(book::due(records, backwards)), doctest::Contains("no"),
                         Error);
    event_of("F", "h4");
    records.erase(records.end() - 4, records.end() - 2);
    CHECK_THROWS_WITH_AS(static_cast<void>(book::due(records, backwards)),
                         "setup h4 is named by an event but not in this book", Error);
}

TEST_CASE("book: a part carries its damage to another place and case") {
    Records records{record("1", "2026-01-01", "case", {}), ran("2", "2026-01-02", "3"),
                    record("3", "2026-01-03", "part", {{"position", "bearing.x"}, {"id", "new"}}),
                    ran("4", "2026-01-04", "1")};
    book::State state = book::state_of(records);
    CHECK(state.parts.at("first bearing.x of A").used.at("share") == rel(0.3, 1e-12));
    CHECK(state.parts.at("first bearing.x of A").serial.empty());
    CHECK(state.parts.at("new").used.at("share") == rel(0.1, 1e-12));
    CHECK(state.cases.at("A").oil_dose == rel(0.8, 1e-12));
    Record other = record("5", "2026-01-05", "part",
                          {{"position", "bearing.y"}, {"id", "first bearing.x of A"}});
    other.serial = "B";
    Record there = ran("6", "2026-01-06", "1");
    there.serial = "B";
    there.fields[1].first = "bearing.y.share";
    records.push_back(other);
    records.push_back(there);
    state = book::state_of(records);
    CHECK(state.parts.at("first bearing.x of A").used.at("share") == rel(0.4, 1e-12));
    CHECK(state.parts.at("first bearing.x of A").serial == "B");
    // Written later, but earlier by its date: order is that of the days.
    records.push_back(ran("7", "2026-01-02", "1"));
    state = book::state_of(records);
    CHECK(state.parts.at("first bearing.x of A").used.at("share") == rel(0.5, 1e-12));
}

TEST_CASE("book: a correction replaces values, strikes a record and keeps the old one readable") {
    Records records{record("1", "2026-01-01", "case", {}), ran("2", "2026-01-02", "3"),
                    record("3", "2026-01-09", "correct", {{"record", "2"}, {"times", "1"}})};
    CHECK(book::state_of(records).cases.at("A").events == 1);
    records.push_back(record("4", "2026-01-09", "correct", {{"record", "2"}, {"times", "2"}}));
    CHECK(book::state_of(records).cases.at("A").events == 2);
    records.push_back(record("5", "2026-01-09", "correct", {{"record", "2"}, {"strike", "yes"}}));
    CHECK(book::state_of(records).cases.at("A").events == 0);
    CHECK(book::state_of(records).parts.empty());
}

TEST_CASE("book: fleet lives are failed, between two openings, or still running") {
    const Records records{
        record("1", "2026-01-01", "case", {}), ran("2", "2026-01-02", "2"),
        record("3", "2026-01-03", "finding", {{"position", "bearing.x"}, {"mode", "good"}}),
        ran("4", "2026-01-04", "3")};
    auto lives = book::fleet_lives(book::state_of(records), "");
    REQUIRE(lives.size() == 1);
    CHECK(lives[0].from == rel(0.5, 1e-12));
    CHECK(std::isinf(lives[0].to));
    Records failed = records;
    failed.push_back(record("5", "2026-01-05", "finding",
                            {{"position", "bearing.x"}, {"mode", "surface-fatigue"}}));
    lives = book::fleet_lives(book::state_of(failed), "");
    CHECK(lives[0].from == rel(0.2, 1e-12));
    CHECK(lives[0].to == rel(0.5, 1e-12));
    CHECK(book::fleet_lives(book::state_of(failed), "bearing.y").empty());
    const auto median = [](const Records& all) {
        return weibull_fit::quantile(book::fleet_multiplier(book::state_of(all)), 0.5);
    };
    CHECK(median(failed) < 1);
    CHECK(median(records) > 1);
    // Another mode does not count as fatigue: still running.
    Records other = records;
    other.push_back(
        record("5", "2026-01-05", "finding", {{"position", "bearing.x"}, {"mode", "ring-turned"}}));
    CHECK(std::isinf(book::fleet_lives(book::state_of(other), "")[0].to));
}

TEST_CASE("book: before five failures what 9 in 10 outlive, chi squared of 4 from tables") {
    Records records{
        record("1", "2026-01-01", "case", {}), ran("2", "2026-01-02", "2"),
        record("3", "2026-01-03", "finding", {{"position", "bearing.x"}, {"mode", "good"}}),
        ran("4", "2026-01-04", "3")};
    records.push_back(record("5", "2026-01-05", "finding",
                             {{"position", "bearing.x"}, {"mode", "surface-fatigue"}}));
    // The failure counts from 0.2, where the part was last good. Chi squared of 2 * 1 + 2 degrees
    // at 0.9 is 7.779 (tables of the distribution); Nelson's bound for a given slope.
    const book::Fleet fleet = book::fleet_of(book::state_of(records), "bearing.x", 2);
    REQUIRE(fleet.ten_percent_above.has_value());
    CHECK(*fleet.ten_percent_above ==
          rel(0.2 * std::sqrt(2 / 7.779) * std::sqrt(-std::log(0.9)), 1e-4));
    CHECK(!fleet.ten_percent.has_value());
}

TEST_CASE("book: a whole season from new case to fleet by the program") {
    const Folder folder;
    const std::string light = root + "/docs/examples/light.toml";
    CHECK(folder.book("due").code == 5);
    CHECK(folder.book("add case TC-07 --date 2026-01-01").code == 0);
    CHECK(folder.book("add case TC-08 --date 2026-01-01").code == 0);
    const Run wrong = folder.book("add event TC-70 " + light);
    CHECK(wrong.code == 2);
    CHECK(has(wrong.out, "did you mean TC-07?"));
    CHECK(folder.book("add event TC-07 " + light + " --date 2026-02-30").code == 2);
    CHECK(folder.book("add event TC-07 " + light + " --times 2 --date 2026-03-01").code == 0);
    const Run order = folder.book("add oil TC-07 --date 2026-02-01");
    CHECK(order.code == 2);
    CHECK(has(order.out, "--late"));
    CHECK(folder.book("add oil TC-07 --date 2026-02-01 --late").code == 0);

    Run due = folder.book("due TC-07");
    CHECK(due.code == 0);
    CHECK(due.out.rfind("TC-07     NOW, before the next event: change the oil: oil\n", 0) == 0);
    CHECK(has(due.out, "after 2 more events: open the case: case"));
    CHECK(folder.book("add oil TC-07 --date 2026-03-02").code == 0);
    CHECK(folder.book("add look TC-07 --date 2026-03-02").code == 0);
    due = folder.book("due TC-07");
    CHECK(due.out.rfind("TC-07     after the next event: change the oil", 0) == 0);

    // What was seen beats every number, and is answered by a new part.
    const Run spelt = folder.book("add finding TC-07 bearing.output_raer surface-fatigue");
    CHECK(spelt.code == 2);
    CHECK(has(spelt.out, "did you mean bearing.output_rear?"));
    CHECK(has(folder.book("add finding TC-07 bearing.output_rear surfacefatigue").out,
              "did you mean surface-fatigue?"));
    CHECK(folder.book("add finding TC-07 bearing.output_rear surface-fatigue --date 2026-03-03")
              .code == 0);
    due = folder.book("due");
    CHECK(due.out.rfind("TC-07     NOW, before the next event: open the case: bearing.output_rear",
                        0) == 0);
    CHECK(has(due.out, "surface initiated fatigue found 2026-03-03"));
    CHECK(folder.book("add part TC-07 bearing.output_rear B-113 --date 2026-03-04").code == 0);
    CHECK(!has(folder.book("due").out, "open the case: bearing.output_rear"));
    CHECK(folder.book("add finding TC-07 case noise --date 2026-03-05").code == 0);
    CHECK(has(folder.book("due").out, "NOW, before the next event: open the case: case"));
    CHECK(folder.book("add opening TC-07 --date 2026-03-06").code == 0);
    CHECK(!has(folder.book("due").out, "rising noise"));
    CHECK(has(folder.book("show TC-07").out, "B-113"));
    CHECK(has(folder.book("fleet").out, "1 found with fatigue"));
    CHECK(has(folder.book("fleet").out, "not calculated from fewer than 5 failures"));
    CHECK(has(folder.book("fleet").out, "1 failure, slope given as 1.50: 10 % fail above"));

    CHECK(has(folder.book("replay").out, "1 event calculated again: all agree"));
    for (const std::string& line : test_files::lines(folder.book("due").out))
        CHECK(line.size() <= 100);

    // Out and in again, by both forms; the same twice adds nothing.
    for (const std::string name : {"all.txt", "all.csv"}) {
        const std::string file = folder.path(name);
        CHECK(folder.book("export " + file).code == 0);
        CHECK(folder.book("import " + file, name + ".book").code == 0);
        CHECK(has(folder.book("import " + file, name + ".book").out, "0 of "));
        CHECK(folder.book("export " + file + ".again.txt", name + ".book").code == 0);
        CHECK(folder.book("export --force " + folder.path("plain.txt")).code == 0);
        CHECK(test_files::file_text(file + ".again.txt") ==
              test_files::file_text(folder.path("plain.txt")));
        CHECK(folder.book("due", name + ".book").out == folder.book("due").out);
    }
    // The trailer's copy and the shop's go on apart and come together.
    CHECK(folder.book("backup " + folder.path("trailer.book")).code == 0);
    CHECK(folder.book("backup " + folder.path("trailer.book")).code == 5);
    CHECK(folder.book("add event TC-07 " + light + " --date 2026-04-01", "trailer.book").code == 0);
    CHECK(folder.book("add oil TC-08 --date 2026-04-01").code == 0);
    CHECK(has(folder.book("merge " + folder.path("trailer.book")).out, "1 of "));
    CHECK(has(folder.book("merge " + folder.path("a.book"), "trailer.book").out, "1 of "));
    CHECK(folder.book("due").out == folder.book("due", "trailer.book").out);

    // A wrong event set right: struck, or by another setup.
    std::string id;
    for (const std::string& line : test_files::lines(folder.book("show --records").out))
        if (has(line, "2026-03-01 event")) id = line.substr(0, line.find(' '));
    CHECK(folder.book("correct " + id + " --setup " + root + "/docs/examples/heavy.toml").code ==
          0);
    CHECK(has(folder.book("replay").out, "2 events calculated again: all agree"));
    CHECK(folder.book("correct " + id + " --with times=none").code == 2);
    CHECK(folder.book("correct " + id).code == 2);
    CHECK(folder.book("correct " + id + " --strike --words 'not run'").code == 0);
    CHECK(has(folder.book("replay").out, "1 event calculated again: all agree"));
    CHECK(folder.book("correct nothing --strike").code == 2);
}

}  // namespace caseload::book_tests
