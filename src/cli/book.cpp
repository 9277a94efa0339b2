// SPDX-License-Identifier: MIT
// The service book: its commands.
#include "caseload/book/state.hpp"
#include "caseload/error.hpp"
#include "cli/book_commands.hpp"
#include "cli/commands.hpp"
#include "input/harmless.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <functional>
#include <memory>
#include <string>
#include <utility>
#include <vector>

namespace caseload {
namespace {

/// Text of a record, for a message: on one line.
[[noreturn]] void refuse_in_lines(const Error& error) {
    std::vector<Problem> problems = error.problems();
    for (Problem& problem : problems) {
        problem.text = input::harmless(problem.text);
        problem.hint = input::harmless(problem.hint);
    }
    throw Error(error.kind(), std::move(problems));
}

std::string finding_help() {
    std::string out = "what was seen:\n";
    for (const book::Word& word : book::finding_words())
        out += fmt::format("  {:<22}{}\n", word.name, word.words);
    return out;
}

}  // namespace

// Long: a list, one command after the other with its options.
Command book_command(Syntax program) {
    Syntax command = program.command("book", "service book: what is due on which case");
    command.needs_command();
    const auto a = std::make_shared<BookArguments>();
    const auto commands = std::make_shared<std::vector<Command>>();
    const auto add_to = [&](Syntax parent, const char* name, const char* words,
                            std::function<void(const BookArguments&)> what) {
        Syntax one = parent.command(name, words);
        const Option file =
            one.option("--book", a->file, "the book's file, shop.book if not given");
        commands->push_back({one, [a, what = std::move(what)] {
                                 try {
                                     what(*a);
                                 } catch (const Error& error) {
                                     refuse_in_lines(error);
                                 }
                             }});
        return std::pair{one, file};
    };
    const auto read_by = [&](const char* name, const char* words,
                             std::function<void(const BookArguments&)> what) {
        auto [one, file] = add_to(command, name, words, std::move(what));
        file.describe(
            "the book: its file, or .txt or .csv as export wrote it; shop.book if not given");
        return one;
    };
    const auto code = std::make_shared<int>(0);
    const auto write_by = [&](Syntax parent, const char* name, const char* words,
                              std::function<int(const BookArguments&)> what) {
        return add_to(parent, name, words,
                      [code, what = std::move(what)](const BookArguments& given) {
                          require_file(given.file);
                          *code = what(given);
                      })
            .first;
    };
    Syntax adds = command.command("add", "write something into the book");
    adds.needs_command();
    const auto added = [&](const char* name, const char* words) {
        const std::string kind = name;
        Syntax one = write_by(adds, name, words, [kind](const BookArguments& given) {
            return kind == "event" ? add_event(given) : add(given, kind);
        });
        one.option("CASE", a->serial, "serial of the case").required();
        one.option("--date", a->date, "day, 2026-11-20; today if not given");
        one.option("--words", a->words, "in your own words");
        one.flag("--late", a->late, "written up afterwards: the date may lie before others");
        return one;
    };
    added("case", "a case; begins the book if there is none");
    Syntax event = added("event", "an event that was run");
    event.option("SETUP", a->setup, "setup file of the case in that event").required();
    event.option("--times", a->times, "so many such events")
        .within(1, static_cast<int>(book::most::times));
    added("oil", "the oil was changed");
    added("look", "drained and looked: nothing found");
    added("opening", "the case was opened; then add findings and parts");
    Syntax found = added("finding", "something was seen; it beats every number");
    found.option("POSITION", a->position, "bearing.NAME, gear.SHAFT, or case for a symptom")
        .required();
    found.option("WHAT", a->word, "see below").required();
    found.footer(finding_help());
    Syntax part = added("part", "a part was fitted here, new or from another case");
    part.option("POSITION", a->position, "bearing.NAME or gear.SHAFT").required();
    part.option("PART", a->part, "number of the part; it keeps its damage").required();
    part.option("--set", a->set, "drop set the gear belongs to");
    Syntax reading = added("reading", "something measured");
    reading
        .option("WHAT", a->position,
                "for example end-play; a place of calibrate: scavenge-line, oil-bath, "
                "housing-below-oil, housing-above-oil")
        .required();
    reading.option("READS", a->word, "with its unit, \"0.12 mm\"").required();
    for (const std::string_view key : book::reading_keys()) a->reading.emplace_back(key, "");
    for (auto& [key, text] : a->reading) {
        std::string option = "--" + key;
        std::replace(option.begin(), option.end(), '_', '-');
        reading.option(option, text, fmt::format("reading.NAME.{} of a setup", key));
    }

    Syntax corrects =
        write_by(command, "correct", "set a record right; the old one stays readable", correct);
    corrects.option("RECORD", a->id, "its id: caseload book show --records").required();
    corrects.option("--with", a->changes, "key=value, for example date=2026-11-20");
    corrects.option("--setup", a->setup, "setup file an event was really run with");
    corrects.flag("--strike", a->strike, "it never happened");
    corrects.option("--words", a->words, "why");
    corrects.option("--date", a->date, "day of the correction");
    Syntax dues = read_by("due", "the next action of each case", show_due);
    dues.option("CASE", a->serial, "only this case");
    dues.flag("--json", a->json, "one JSON document");
    Syntax shows = read_by("show", "each case with its parts", show_book);
    shows.option("CASE", a->serial, "only this case");
    shows.flag("--json", a->json, "one JSON document");
    shows.flag("--records", a->strike, "every record with its id");
    read_by("replay", "calculate every event again and compare; exit code 1: they differ",
            [code](const BookArguments& given) { *code = replay_book(given); });
    Syntax fleet = read_by("fleet", "what all cases say about bearing life", show_fleet);
    fleet.flag("--json", a->json, "one JSON document");
    fleet.option("POSITION", a->position, "only this position");
    fleet.option("--shape", a->shape, "slope of life; 1.5 if not given").within(0.3, 10.0);
    Syntax exports = read_by("export", "as plain dated text, or CSV", export_book);
    exports.option("FILE", a->path, "file to write; .csv means CSV").required().names_an_output();
    exports.flag("--csv", a->csv, "CSV whatever its name");
    exports
        .option("--readings", a->serial,
                "only the readings of this case, as a setup for caseload calibrate")
        .excludes({"--csv"});
    exports.flag("--force", a->force, "overwrite that file");
    Syntax imports = write_by(command, "import", "read what export wrote", import_book);
    imports.option("FILE", a->path, "file to read").required();
    imports.flag("--csv", a->csv, "CSV whatever its name");
    imports.flag("--late", a->late, "written up afterwards: dates may lie before others");
    write_by(command, "merge", "add what another book holds (trailer and shop)", merge_book)
        .option("OTHER", a->path, "the other book")
        .required();
    write_by(command, "backup", "a checked copy", backup_book)
        .option("FILE", a->path, "file to write")
        .required()
        .names_an_output();
    return {command,
            [commands] {
                for (const Command& one : *commands)
                    if (one.declared.given()) one.run();
            },
            code};
}

}  // namespace caseload
