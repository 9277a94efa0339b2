// SPDX-License-Identifier: MIT
// The service book: its commands.
#include "caseload/book/state.hpp"
#include "cli/book_read.hpp"
#include "cli/book_write.hpp"
#include "cli/commands.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <functional>
#include <memory>
#include <string>
#include <vector>

namespace caseload {
namespace {

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
    const auto read_by = [&](const char* name, const char* words,
                             std::function<void(const BookArguments&)> what) {
        auto* one = add_to(command, name, words, std::move(what));
        one->get_option("--book")->description(
            "the book: its file, or .txt or .csv as export wrote it; shop.book if not given");
        return one;
    };
    const auto write_by = [&](CLI::App* parent, const char* name, const char* words,
                              std::function<void(const BookArguments&)> what) {
        return add_to(parent, name, words, [what = std::move(what)](const BookArguments& given) {
            require_file(given.file);
            what(given);
        });
    };
    auto* adds = command->add_subcommand("add", "write something into the book");
    adds->require_subcommand(1);
    const auto added = [&](const char* name, const char* words) {
        const std::string kind = name;
        auto* one = write_by(adds, name, words, [kind](const BookArguments& given) {
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
    event->add_option("--times", a->times, "so many such events")
        ->check(CLI::Range(1, static_cast<int>(book::most::times)));
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
        write_by(command, "correct", "set a record right; the old one stays readable", correct);
    corrects->add_option("RECORD", a->id, "its id: caseload book show --records")->required();
    corrects->add_option("--with", a->changes, "key=value, for example date=2026-11-20");
    corrects->add_option("--setup", a->setup, "setup file an event was really run with");
    corrects->add_flag("--strike", a->strike, "it never happened");
    corrects->add_option("--words", a->words, "why");
    corrects->add_option("--date", a->date, "day of the correction");
    auto* dues = read_by("due", "the next action of each case", show_due);
    dues->add_option("CASE", a->serial, "only this case");
    dues->add_flag("--json", a->json, "one JSON document");
    auto* shows = read_by("show", "each case with its parts", show_book);
    shows->add_option("CASE", a->serial, "only this case");
    shows->add_flag("--json", a->json, "one JSON document");
    shows->add_flag("--records", a->strike, "every record with its id");
    const auto code = std::make_shared<int>(0);
    read_by("replay", "calculate every event again and compare; exit code 1: they differ",
            [code](const BookArguments& given) { *code = replay_book(given); });
    auto* fleet = read_by("fleet", "what all cases say about bearing life", show_fleet);
    fleet->add_flag("--json", a->json, "one JSON document");
    fleet->add_option("POSITION", a->position, "only this position");
    fleet->add_option("--shape", a->shape, "slope of life; 1.5 if not given")
        ->check(CLI::Range(0.3, 10.0));
    auto* exports = read_by("export", "as plain dated text, or CSV", export_book);
    exports->add_option("FILE", a->path, "file to write; .csv means CSV")->required();
    auto* as_csv = exports->add_flag("--csv", a->csv, "CSV whatever its name");
    exports
        ->add_option("--readings", a->serial,
                     "only the readings of this case, as a setup for caseload calibrate")
        ->excludes(as_csv);
    exports->add_flag("--force", a->force, "overwrite that file");
    auto* imports = write_by(command, "import", "read what export wrote", import_book);
    imports->add_option("FILE", a->path, "file to read")->required();
    imports->add_flag("--csv", a->csv, "CSV whatever its name");
    imports->add_flag("--late", a->late, "written up afterwards: dates may lie before others");
    write_by(command, "merge", "add what another book holds (trailer and shop)", merge_book)
        ->add_option("OTHER", a->path, "the other book")
        ->required();
    write_by(command, "backup", "a checked copy", backup_book)
        ->add_option("FILE", a->path, "file to write")
        ->required();
    return {command, [run] { (*run)(); }, code};
}

}  // namespace caseload
