// SPDX-License-Identifier: MIT
// The service book: add, correct, due, show, replay, fleet, export, import, merge, backup.
#include "caseload/book/state.hpp"
#include "cli/book_store.hpp"
#include "cli/commands.hpp"
#include "cli/files.hpp"
#include "cli/today.hpp"
#include "cli/version.hpp"
#include "input/nearest.hpp"

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

struct BookArguments {
    std::string file = "shop.book";
    std::string date;
    std::string serial;
    std::string setup;
    std::string position;
    std::string word;
    std::string part;
    std::string set;
    std::string words;
    std::string id;
    std::string path;
    std::vector<std::string> changes;
    int times = 1;
    double shape = 1.5;
    bool late = false;
    bool strike = false;
    bool csv = false;
    bool force = false;
};
using Shared = std::shared_ptr<BookArguments>;

[[noreturn]] void refuse(const std::string& text, const std::string& hint) {
    throw Error(Error::Kind::input, {Problem{{}, text, hint}});
}

/// A day more than this machine's is taken: the writer may be ahead by a time zone.
void refuse_future(const Record& record) {
    book::require_date(record.date);
    if (record.date > days_after_today(1))
        refuse(fmt::format("{}{}{} lies in the future", record.id, record.id.empty() ? "" : ": ",
                           record.date),
               fmt::format("today is {}; check the date and this machine's clock", today()));
}

/// Date, case and the order of days, as for every record about a case.
Record begun(const BookArguments& a, const std::string& kind, const Records& all) {
    Record record;
    record.kind = kind;
    record.serial = a.serial;
    record.version = program_version;
    record.date = a.date.empty() ? today() : a.date;
    refuse_future(record);
    if (kind != "case") book::require_known_case(all, a.serial);
    for (const Record& one : book::corrected(all)) {
        if (one.serial != a.serial) continue;
        if (one.kind == "event") record.setup = one.setup;
        if (one.date > record.date && !a.late)
            refuse(fmt::format("{} lies before the {} of {} in the book ({})", record.date,
                               one.kind, one.date, one.id),
                   "check the date; if it is written up afterwards, add --late");
    }
    if (!a.words.empty()) book::set(record, "words", a.words);
    return record;
}

void require_position(const BookArguments& a, const Records& all, bool or_case) {
    const book::State state = book::state_of(all);
    const auto one = state.cases.find(a.serial);
    std::vector<std::string> known;
    if (one != state.cases.end())
        for (const auto& [position, id] : one->second.parts) known.push_back(position);
    if (or_case && a.position == "case") return;
    const bool formed = a.position.rfind("bearing.", 0) == 0 || a.position.rfind("gear.", 0) == 0 ||
                        a.position.rfind("seal.", 0) == 0;
    const bool measured = one != state.cases.end() && !one->second.last_event.id.empty() &&
                          a.position.rfind("seal.", 0) != 0;
    if (formed && (!measured || std::find(known.begin(), known.end(), a.position) != known.end()))
        return;
    const std::string near = input::nearest_word(known, a.position);
    refuse(fmt::format("no position \"{}\" in {}", a.position, a.serial),
           !near.empty()   ? fmt::format("did you mean {}?", near)
           : known.empty() ? "written bearing.NAME, gear.SHAFT or seal.SHAFT, as in the setup"
                           : fmt::format("known: {}{}", fmt::join(known, ", "),
                                         or_case ? "; case for a symptom" : ""));
}

void told(const Records& added) {
    for (const Record& record : added)
        print(fmt::format("added {}: {} {} {}\n", record.id, record.date, record.kind,
                          record.serial));
}

Record setup_record(const std::string& path, const std::string& date) {
    const ReadSetup read = read_document(path).complete();
    Record record;
    record.kind = "setup";
    record.date = date;
    record.version = program_version;
    const std::string text = completed_text(read);
    record.setup = book::hash(text);
    record.id = "setup-" + record.setup;
    record.fields = {{"hash", record.setup}, {"text", text}};
    return record;
}

/// The setup's record (first day it was used stands) unless the book holds it.
void with_setup(Records& fresh, const Records& all, const Record& setup) {
    for (const Record& one : all)
        if (one.id == setup.id) return;
    fresh.push_back(setup);
}

void add_event(const BookArguments& a) {
    const Record setup = setup_record(a.setup, a.date.empty() ? today() : a.date);
    // Calculated from the text that the book keeps, so that replay meets the same numbers.
    const auto damage =
        book::event_damage_fields(read_setup(book::value(setup, "text"), a.setup, {}).setup);
    BookStore store(a.file, BookStore::Open::write);
    told(store.add_checked([&](const Records& all) {
        Record record = begun(a, "event", all);
        record.setup = setup.setup;
        book::set(record, "times", fmt::format("{}", a.times));
        for (const auto& [key, text] : damage) book::set(record, key, text);
        Records fresh;
        with_setup(fresh, all, setup);
        fresh.push_back(record);
        return fresh;
    }));
}

void add(const BookArguments& a, const std::string& kind) {
    BookStore store(a.file, kind == "case" ? BookStore::Open::create : BookStore::Open::write);
    told(store.add_checked([&](const Records& all) {
        Record record = begun(a, kind, all);
        if (kind == "case")
            for (const Record& one : all)
                if (one.kind == "case" && one.serial == a.serial)
                    refuse(fmt::format("case {} is in the book already", a.serial), "");
        if (kind == "finding") {
            const book::Word& word = book::finding_word(a.word);
            require_position(a, all, word.symptom || word.weight == book::Weight::good);
            book::set(record, "position", a.position);
            book::set(record, "mode", a.word);
        }
        if (kind == "part") {
            require_position(a, all, false);
            book::set(record, "position", a.position);
            book::set(record, "id", a.part);
            if (!a.set.empty()) book::set(record, "set", a.set);
        }
        if (kind == "reading") {
            book::set(record, "what", a.position);
            book::set(record, "reads", a.word);
        }
        return Records{record};
    }));
}

void correct(const BookArguments& a) {
    std::optional<Record> setup;
    std::vector<std::pair<std::string, std::string>> damage;
    if (!a.setup.empty()) {
        setup = setup_record(a.setup, today());
        damage =
            book::event_damage_fields(read_setup(book::value(*setup, "text"), a.setup, {}).setup);
    }
    BookStore store(a.file, BookStore::Open::write);
    told(store.add_checked([&](const Records& all) {
        const auto target =
            std::find_if(all.begin(), all.end(), [&](const Record& one) { return one.id == a.id; });
        if (target == all.end()) {
            std::vector<std::string> ids;
            for (const Record& one : all) ids.push_back(one.id);
            const std::string near = input::nearest_word(ids, a.id);
            refuse(fmt::format("no record \"{}\" in this book", a.id),
                   near.empty() ? "caseload book show --records lists them"
                                : fmt::format("did you mean {}?", near));
        }
        if (target->kind == "correct" || target->kind == "setup")
            refuse(fmt::format("record {} is a {}: correct the record it is about", a.id,
                               target->kind),
                   "");
        Record record;
        record.kind = "correct";
        record.serial = target->serial;
        record.date = a.date.empty() ? today() : a.date;
        record.version = program_version;
        record.setup = target->setup;
        book::set(record, "record", a.id);
        if (!a.words.empty()) book::set(record, "why", a.words);
        if (a.strike) book::set(record, "strike", "yes");
        Record corrected = *target;
        for (const std::string& change : a.changes) {
            const std::size_t equals = change.find('=');
            if (equals == std::string::npos || equals == 0)
                refuse(fmt::format("--with \"{}\": must read key=value", change),
                       "for example --with date=2026-11-20");
            const std::string key = change.substr(0, equals);
            const std::string text = change.substr(equals + 1);
            if (key == "setup" || key == "record" || key == "strike")
                refuse(fmt::format("--with {}: use --setup FILE or --strike", key), "");
            book::require_correctable(*target, key);
            book::set(record, key, text);
            if (key == "date") corrected.date = text;
            if (key == "case") book::require_known_case(all, text);
            if (key != "date" && key != "case") book::set(corrected, key, text);
        }
        book::require_complete(corrected);
        refuse_future(corrected);
        Records fresh;
        if (setup) {
            if (target->kind != "event") refuse("--setup corrects an event only", "");
            with_setup(fresh, all, *setup);
            book::set(record, "setup", setup->setup);
            for (const auto& [key, text] : damage) book::set(record, key, text);
        }
        if (record.fields.size() < 2)
            refuse("nothing to correct", "--with key=value, --setup FILE or --strike");
        fresh.push_back(record);
        return fresh;
    }));
}

Records all_of(const BookArguments& a) {
    return BookStore(a.file, BookStore::Open::read).records();
}

void show(const BookArguments& a) {
    const Records all = all_of(a);
    if (!a.serial.empty()) book::require_known_case(all, a.serial);
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
    print(book::due_screen(found));
}

int replay(const BookArguments& a) {
    const book::Replayed result = book::recalculate(all_of(a));
    for (const std::string& difference : result.differences) print(difference + "\n");
    print(result.differences.empty()
              ? fmt::format("{} events calculated again: all agree with the book\n", result.events)
              : fmt::format("{} events calculated again, {} numbers differ: another program "
                            "version wrote them\n",
                            result.events, result.differences.size()));
    return result.differences.empty() ? 0 : 1;
}

void export_book(const BookArguments& a) {
    const Records all = all_of(a);
    const bool csv = a.csv || std::filesystem::path(a.path).extension() == ".csv";
    std::error_code none;
    if (!a.force && std::filesystem::exists(a.path, none))
        throw Error(Error::Kind::file,
                    fmt::format("{}: exists already; choose another name, or --force", a.path));
    write_file(a.path, csv ? book::to_csv(all) : book::to_text(all));
    print(fmt::format("{}: {} records\n", a.path, all.size()));
}

void taken(const BookArguments& a, const Records& fresh) {
    for (const Record& record : fresh) refuse_future(record);
    BookStore store(a.file, BookStore::Open::create);
    const Records added = store.add_checked([&](const Records& all) {
        Records both = all;
        both.insert(both.end(), fresh.begin(), fresh.end());
        book::require_references(both);
        return fresh;
    });
    print(fmt::format("{} of {} records added, {} were there already\n", added.size(), fresh.size(),
                      fresh.size() - added.size()));
}

void import_book(const BookArguments& a) {
    const std::optional<std::string> text = file_text(a.path);
    if (!text) throw Error(Error::Kind::file, fmt::format("{}: cannot be read", a.path));
    const bool csv = a.csv || std::filesystem::path(a.path).extension() == ".csv";
    taken(a, csv ? book::from_csv(*text, a.path) : book::from_text(*text, a.path));
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
    reading->add_option("WHAT", a->position, "for example end-play, oil-strip")->required();
    reading->add_option("READS", a->word, "with its unit, \"0.12 mm\"")->required();

    auto* corrects =
        add_to(command, "correct", "set a record right; the old one stays readable", correct);
    corrects->add_option("RECORD", a->id, "its id: caseload book show --records")->required();
    corrects->add_option("--with", a->changes, "key=value, for example date=2026-11-20");
    corrects->add_option("--setup", a->setup, "setup file an event was really run with");
    corrects->add_flag("--strike", a->strike, "it never happened");
    corrects->add_option("--words", a->words, "why");
    corrects->add_option("--date", a->date, "day of the correction");
    add_to(command, "due", "the next action of each case", due)
        ->add_option("CASE", a->serial, "only this case");
    auto* shows = add_to(command, "show", "each case with its parts", show);
    shows->add_option("CASE", a->serial, "only this case");
    shows->add_flag("--records", a->strike, "every record with its id");
    const auto code = std::make_shared<int>(0);
    add_to(command, "replay", "calculate every event again and compare; exit code 1: they differ",
           [code](const BookArguments& given) { *code = replay(given); });
    auto* fleet = add_to(
        command, "fleet", "what all cases say about bearing life", [](const BookArguments& given) {
            print(book::fleet_screen(book::state_of(all_of(given)), given.position, given.shape));
        });
    fleet->add_option("POSITION", a->position, "only this position");
    fleet->add_option("--shape", a->shape, "slope of life; 1.5 if not given")
        ->check(CLI::Range(0.3, 10.0));
    auto* exports = add_to(command, "export", "as plain dated text, or CSV", export_book);
    exports->add_option("FILE", a->path, "file to write; .csv means CSV")->required();
    exports->add_flag("--csv", a->csv, "CSV whatever its name");
    exports->add_flag("--force", a->force, "overwrite that file");
    auto* imports = add_to(command, "import", "read what export wrote", import_book);
    imports->add_option("FILE", a->path, "file to read")->required();
    imports->add_flag("--csv", a->csv, "CSV whatever its name");
    add_to(command, "merge", "add what another book holds (trailer and shop)",
           [](const BookArguments& given) {
               taken(given, BookStore(given.path, BookStore::Open::read).records());
           })
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
