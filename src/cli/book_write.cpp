// SPDX-License-Identifier: MIT
// The service book: add, correct.

#include "caseload/book/state.hpp"
#include "caseload/error.hpp"
#include "cli/book_commands.hpp"
#include "cli/book_store.hpp"
#include "cli/files.hpp"
#include "cli/today.hpp"
#include "cli/version.hpp"
#include "input/harmless.hpp"
#include "input/nearest.hpp"

#include <fmt/format.h>

#include <csignal>
#include <cstdio>
#include <optional>

namespace caseload {
namespace {

using book::Record;
using book::Records;

Record new_record(const std::string& kind, const std::string& serial, const std::string& date) {
    Record record;
    record.kind = kind;
    record.serial = serial;
    record.version = program_version;
    record.date = date.empty() ? today() : date;
    return record;
}

/// Date, case and the order of days, as for every record about a case.
Record begun(const BookArguments& a, const std::string& kind, const Records& all) {
    Record record = new_record(kind, a.serial, a.date);

    refuse_future(record);
    if (kind != "case") book::require_known_case(all, a.serial);
    for (const Record& one : book::corrected(all)) {
        if (one.serial != a.serial) continue;
        if (one.kind == "event") record.setup = one.setup;
        if (one.date > record.date && !a.late)
            refuse_input(fmt::format("{} lies before the {} of {} in the book ({})", record.date,
                                     one.kind, one.date, one.id),
                         "check the date; if it is written up afterwards, add --late");
    }
    if (!a.words.empty()) book::set(record, "words", a.words);
    return record;
}

int acknowledge_records(const Records& added) {
    std::string lines;
    for (const Record& record : added)
        lines += fmt::format("added {}: {} {} {}\n", input::harmless(record.id), record.date,
                             record.kind, input::harmless(record.serial));
    return acknowledge(lines);
}

Record setup_record(const std::string& path, const std::string& date) {
    const ReadSetup read = read_document(path).complete();
    Record record = new_record("setup", "", date);
    const std::string text = completed_text(read);
    record.setup = book::hash(text);
    record.id = "setup-" + record.setup;
    record.fields = {{"hash", record.setup}, {"text", text}};
    return record;
}

}  // namespace

int acknowledge(const std::string& text) {
    std::signal(SIGPIPE, SIG_IGN);  // its reader may have ended
    try {
        print(text);
        return 0;
    } catch (const Error& error) {
        std::fprintf(stderr,
                     "error: %s\n  hint: it is stored all the same; do not enter it again:\n%s",
                     error.problems().front().text.c_str(), input::harmless_lines(text).c_str());
        return static_cast<int>(error.kind());
    }
}

void refuse_future(const Record& record) {
    book::require_date(record.date);
    if (record.date > days_after_today(1))
        refuse_input(fmt::format("{}{}{} lies in the future", record.id,
                                 record.id.empty() ? "" : ": ", record.date),
                     fmt::format("today is {}; check the date and this machine's clock", today()));
}

int add_event(const BookArguments& a) {
    const Record setup = setup_record(a.setup, a.date);
    // Calculated from the text that the book keeps, so that replay meets the same numbers.
    const auto damage =
        book::event_damage_fields(read_setup(book::value(setup, "text"), a.setup, {}).setup);
    BookStore store(a.file, BookStore::Open::write);
    return acknowledge_records(store.add_from([&](BookStore& held) {
        Record record = begun(a, "event", held.about(a.serial));
        record.setup = setup.setup;
        book::set(record, "times", fmt::format("{}", a.times));
        for (const auto& [key, text] : damage) book::set(record, key, text);
        return Records{setup, record};  // a setup in the book already is not added again
    }));
}

int add(const BookArguments& a, const std::string& kind) {
    BookStore store(a.file, kind == "case" ? BookStore::Open::create : BookStore::Open::write);
    return acknowledge_records(store.add_from([&](BookStore& held) {
        const Records all = held.about(a.serial);
        Record record = begun(a, kind, all);
        if (kind == "case")
            for (const Record& one : all)
                if (one.kind == "case" && one.serial == a.serial)
                    refuse_input(fmt::format("case {} is in the book already", a.serial));
        if (kind == "finding") {
            const book::Word& word = book::finding_word(a.word);
            book::require_position(
                book::corrected(all),
                {a.serial, a.position, word.symptom || word.weight == book::Weight::good});
            book::set(record, "position", a.position);
            book::set(record, "mode", a.word);
        }
        if (kind == "part") {
            book::require_position(book::corrected(all), {a.serial, a.position});
            book::set(record, "position", a.position);
            book::set(record, "id", a.part);
            if (!a.set.empty()) book::set(record, "set", a.set);
        }
        if (kind == "reading") {
            book::set(record, "what", a.position);
            book::set(record, "reads", a.word);
            for (const auto& [key, text] : a.reading)
                if (!text.empty()) book::set(record, key, text);
            if (book::is_whole(record)) book::require_usable(all, record);
        }
        return Records{record};
    }));
}

// Long: what may be corrected is asked and written while the book is held.
int correct(const BookArguments& a) {
    std::optional<Record> setup;
    std::vector<std::pair<std::string, std::string>> damage;
    if (!a.setup.empty()) {
        setup = setup_record(a.setup, "");
        damage =
            book::event_damage_fields(read_setup(book::value(*setup, "text"), a.setup, {}).setup);
    }
    BookStore store(a.file, BookStore::Open::write);
    return acknowledge_records(store.add_from([&](BookStore& held) {
        const std::optional<Record> target = held.find(a.id);
        if (!target) {
            const std::string near = input::nearest_word(held.ids(), a.id);
            refuse_input(fmt::format("no record \"{}\" in this book", a.id),
                         near.empty() ? "caseload book show --records lists them"
                                      : fmt::format("did you mean {}?", near));
        }
        if (target->kind == "correct" || target->kind == "setup")
            refuse_input(fmt::format("record {} is a {}: correct the record it is about", a.id,
                                     target->kind));
        const Records all = held.about(target->serial);
        Record record = new_record("correct", target->serial, a.date);
        record.setup = target->setup;
        book::set(record, "record", a.id);
        if (!a.words.empty()) book::set(record, "why", a.words);
        if (a.strike) book::set(record, "strike", "yes");
        for (const Record& one : all)
            if (one.kind == "correct" && book::value(one, "record") == a.id &&
                one.date > record.date)
                refuse_input(fmt::format("{} lies before the correction of {} ({})", record.date,
                                         one.date, one.id),
                             "the later day counts; check --date");
        Record corrected = *target;
        for (const std::string& change : a.changes) {
            const std::size_t equals = change.find('=');
            if (equals == std::string::npos || equals == 0)
                refuse_input(fmt::format("--with \"{}\": must read key=value", change),
                             "for example --with date=2026-11-20");
            const std::string key = change.substr(0, equals);
            const std::string text = change.substr(equals + 1);
            if (key == "setup" || key == "record" || key == "strike")
                refuse_input(fmt::format("--with {}: use --setup FILE or --strike", key));
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
            if (target->kind != "event") refuse_input("--setup corrects an event only");
            fresh.push_back(*setup);
            book::set(record, "setup", setup->setup);
            for (const auto& [key, text] : damage) book::set(record, key, text);
        }
        if (record.fields.size() < 2)
            refuse_input("nothing to correct", "--with key=value, --setup FILE or --strike");
        fresh.push_back(record);
        return fresh;
    }));
}

}  // namespace caseload
