// SPDX-License-Identifier: MIT
// The service book: its commands; due, show, replay, fleet, export, import, merge, backup.
#include "caseload/show/book.hpp"
#include "caseload/book/state.hpp"
#include "cli/book_store.hpp"
#include "cli/book_write.hpp"
#include "cli/commands.hpp"
#include "cli/files.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <filesystem>
#include <memory>
#include <optional>
#include <string>
#include <vector>

namespace caseload {
namespace {

using book::Record;
using book::Records;

Records all_of(const BookArguments& a) {
    return BookStore(a.file, BookStore::Open::read).records();
}

void show(const BookArguments& a) {
    const Records all = all_of(a);
    if (!a.serial.empty()) book::require_known_case(all, a.serial);
    if (a.json) {
        print(book_json(book::state_of(all), a.serial));
        return;
    }
    if (a.strike) {
        for (const Record& one : all)
            print(fmt::format("{:<24} {} {:<8} {}\n", one.id, one.date, one.kind, one.serial));
        return;
    }
    print(book::case_screen(book::state_of(all), a.serial));
}

void due(const BookArguments& a) {
    const Records all = all_of(a);
    if (!a.serial.empty()) book::require_known_case(all, a.serial);
    std::vector<book::DueOfCase> found = book::due(all);
    if (!a.serial.empty())
        found.erase(std::remove_if(found.begin(), found.end(),
                                   [&](const auto& one) { return one.serial != a.serial; }),
                    found.end());
    print(a.json ? due_json(found) : book::due_screen(found));
}

int replay(const BookArguments& a) {
    const book::Replayed result = book::recalculate(all_of(a));
    for (const std::string& difference : result.differences) print(difference + "\n");
    const std::string again =
        fmt::format("{} event{} calculated again", result.events, result.events == 1 ? "" : "s");
    print(result.differences.empty()
              ? again + ": all agree with the book\n"
              : fmt::format("{}, {} number{} differ{}: another program version wrote them\n", again,
                            result.differences.size(), result.differences.size() == 1 ? "" : "s",
                            result.differences.size() == 1 ? "s" : ""));
    return result.differences.empty() ? 0 : 1;
}

/// The case's last setup with the readings in the book, for calibrate.
void export_readings(const BookArguments& a) {
    const book::Readings found = book::readings_of(all_of(a), a.serial);
    write_file(a.path, found.setup);
    print(fmt::format(
        "{}: {} reading{}{}; then: caseload calibrate {} -o FILE\n", a.path, found.taken,
        found.taken == 1 ? "" : "s",
        found.left_out == 0 ? "" : fmt::format(", {} of another setup left out", found.left_out),
        a.path));
}

void export_book(const BookArguments& a) {
    std::error_code none;
    if (std::filesystem::equivalent(path_of(a.path), path_of(a.file), none))
        throw Error(Error::Kind::input,
                    fmt::format("{}: that is the book itself; name another file", a.path));
    if (!a.force && std::filesystem::exists(path_of(a.path), none))
        throw Error(Error::Kind::file,
                    fmt::format("{}: exists already; choose another name, or --force", a.path));
    if (!a.serial.empty()) {
        export_readings(a);
        return;
    }
    const Records all = book::by_date(all_of(a));
    const bool csv = a.csv || std::filesystem::path(a.path).extension() == ".csv";
    write_file(a.path, csv ? book::to_csv(all) : book::to_text(all));
    print(fmt::format("{}: {} records\n", a.path, all.size()));
}

/// `ordered`: a file written in the order of the days; two books go on side by side.
void take(const BookArguments& a, const book::Incoming& fresh, bool ordered) {
    for (const Record& record : fresh.records) refuse_future(record);
    BookStore store(a.file, BookStore::Open::create);
    std::vector<std::string> twice;
    const Records added = store.add_checked([&](const Records& all) {
        Records both = all;
        both.insert(both.end(), fresh.records.begin(), fresh.records.end());
        book::require_references(both);
        book::require_positions(all, fresh);
        if (ordered && !a.late) book::require_order(all, fresh);
        twice = book::begun_twice(all, fresh);
        return fresh.records;
    });
    print(fmt::format("{} of {} records added, {} were there already\n", added.size(),
                      fresh.records.size(), fresh.records.size() - added.size()));
    for (const std::string& serial : twice)
        print(fmt::format("case {}: begun in both; taken as one case\n", serial));
}

void import_book(const BookArguments& a) {
    const std::optional<std::string> text = file_text(path_of(a.path));
    if (!text) throw Error(Error::Kind::file, fmt::format("{}: cannot be read", a.path));
    const bool csv = a.csv || std::filesystem::path(a.path).extension() == ".csv";
    take(a, csv ? book::from_csv(*text, a.path) : book::from_text(*text, a.path), true);
}

void merge_book(const BookArguments& a) {
    take(a, {BookStore(a.path, BookStore::Open::read).records(), {}, a.path}, false);
}

std::string finding_help() {
    std::string out = "what was seen:\n";
    for (const book::Word& word : book::finding_words())
        out += fmt::format("  {:<22}{}\n", word.name, word.words);
    return out;
}

}  // namespace

Command book_command(CLI::App& program) {
    auto* command = program.add_subcommand("book", "service book: what is due on which case");
    command->require_subcommand(1);
    const auto a = std::make_shared<BookArguments>();
    const auto run = std::make_shared<std::function<void()>>();
    const auto add_to = [&](CLI::App* parent, const char* name, const char* words,
                            std::function<void(const BookArguments&)> what) {
        auto* one = parent->add_subcommand(name, words);
        one->add_option("--book", a->file, "the book's file, shop.book if not given");
        one->callback([run, a, what = std::move(what)] { *run = [a, what] { what(*a); }; });
        return one;
    };
    auto* adds = command->add_subcommand("add", "write something into the book");
    adds->require_subcommand(1);
    const auto added = [&](const char* name, const char* words) {
        const std::string kind = name;
        auto* one = add_to(adds, name, words, [kind](const BookArguments& given) {
            kind == "event" ? add_event(given) : add(given, kind);
        });
        one->add_option("CASE", a->serial, "serial of the case")->required();
        one->add_option("--date", a->date, "day, 2026-11-20; today if not given");
        one->add_option("--words", a->words, "in your own words");
        one->add_flag("--late", a->late, "written up afterwards: the date may lie before others");
        return one;
    };
    added("case", "a case; begins the book if there is none");
    auto* event = added("event", "an event that was run");
    event->add_option("SETUP", a->setup, "setup file of the case in that event")->required();
    event->add_option("--times", a->times, "so many such events")->check(CLI::Range(1, 1000));
    added("oil", "the oil was changed");
    added("look", "drained and looked: nothing found");
    added("opening", "the case was opened; then add findings and parts");
    auto* found = added("finding", "something was seen; it beats every number");
    found->add_option("POSITION", a->position, "bearing.NAME, gear.SHAFT, or case for a symptom")
        ->required();
    found->add_option("WHAT", a->word, "see below")->required();
    found->footer(finding_help());
    auto* part = added("part", "a part was fitted here, new or from another case");
    part->add_option("POSITION", a->position, "bearing.NAME or gear.SHAFT")->required();
    part->add_option("PART", a->part, "number of the part; it keeps its damage")->required();
    part->add_option("--set", a->set, "drop set the gear belongs to");
    auto* reading = added("reading", "something measured");
    reading
        ->add_option("WHAT", a->position,
                     "for example end-play; a place of calibrate: scavenge-line, oil-bath, "
                     "housing-below-oil, housing-above-oil")
        ->required();
    reading->add_option("READS", a->word, "with its unit, \"0.12 mm\"")->required();
    for (const std::string_view key : book::reading_keys()) a->reading.emplace_back(key, "");
    for (auto& [key, text] : a->reading) {
        std::string option = "--" + key;
        std::replace(option.begin(), option.end(), '_', '-');
        reading->add_option(option, text, fmt::format("reading.NAME.{} of a setup", key));
    }

    auto* corrects =
        add_to(command, "correct", "set a record right; the old one stays readable", correct);
    corrects->add_option("RECORD", a->id, "its id: caseload book show --records")->required();
    corrects->add_option("--with", a->changes, "key=value, for example date=2026-11-20");
    corrects->add_option("--setup", a->setup, "setup file an event was really run with");
    corrects->add_flag("--strike", a->strike, "it never happened");
    corrects->add_option("--words", a->words, "why");
    corrects->add_option("--date", a->date, "day of the correction");
    auto* dues = add_to(command, "due", "the next action of each case", due);
    dues->add_option("CASE", a->serial, "only this case");
    dues->add_flag("--json", a->json, "one JSON document");
    auto* shows = add_to(command, "show", "each case with its parts", show);
    shows->add_option("CASE", a->serial, "only this case");
    shows->add_flag("--json", a->json, "one JSON document");
    shows->add_flag("--records", a->strike, "every record with its id");
    const auto code = std::make_shared<int>(0);
    add_to(command, "replay", "calculate every event again and compare; exit code 1: they differ",
           [code](const BookArguments& given) { *code = replay(given); });
    auto* fleet = add_to(
        command, "fleet", "what all cases say about bearing life", [](const BookArguments& given) {
            const book::Fleet told =
                book::fleet_of(book::state_of(all_of(given)), given.position, given.shape);
            print(given.json ? fleet_json(told) : book::fleet_screen(told));
        });
    fleet->add_flag("--json", a->json, "one JSON document");
    fleet->add_option("POSITION", a->position, "only this position");
    fleet->add_option("--shape", a->shape, "slope of life; 1.5 if not given")
        ->check(CLI::Range(0.3, 10.0));
    auto* exports = add_to(command, "export", "as plain dated text, or CSV", export_book);
    exports->add_option("FILE", a->path, "file to write; .csv means CSV")->required();
    auto* as_csv = exports->add_flag("--csv", a->csv, "CSV whatever its name");
    exports
        ->add_option("--readings", a->serial,
                     "only the readings of this case, as a setup for caseload calibrate")
        ->excludes(as_csv);
    exports->add_flag("--force", a->force, "overwrite that file");
    auto* imports = add_to(command, "import", "read what export wrote", import_book);
    imports->add_option("FILE", a->path, "file to read")->required();
    imports->add_flag("--csv", a->csv, "CSV whatever its name");
    imports->add_flag("--late", a->late, "written up afterwards: dates may lie before others");
    add_to(command, "merge", "add what another book holds (trailer and shop)", merge_book)
        ->add_option("OTHER", a->path, "the other book")
        ->required();
    add_to(command, "backup", "a checked copy",
           [](const BookArguments& given) {
               BookStore(given.file, BookStore::Open::read).backup(given.path);
               print(fmt::format("{}: written and checked\n", given.path));
           })
        ->add_option("FILE", a->path, "file to write")
        ->required();
    return {command, [run] { (*run)(); }, code};
}

}  // namespace caseload
