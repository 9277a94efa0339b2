// SPDX-License-Identifier: MIT
// The service book: due, show, replay, fleet, export. They read its text form as well as its file.
#include "cli/book_commands.hpp"

#include "caseload/book/state.hpp"
#include "caseload/error.hpp"
#include "caseload/figures.hpp"
#include "caseload/show/book.hpp"
#include "cli/files.hpp"
#include "cli/progress.hpp"
#include "input/harmless.hpp"
#include "input/letters.hpp"

#include <fmt/format.h>

#include <string>
#include <vector>

namespace caseload {
namespace {

using book::Record;
using book::Records;

void write_out(const BookArguments& a, const std::string& text) {
    if (a.force)
        write_file(a.path, text);
    else
        write_new_file(a.path, text);
}

/// The case's last setup with the readings in the book, for calibrate.
void export_readings(const BookArguments& a) {
    const book::Readings found = book::readings_of(held_records(a.file), a.serial);
    write_out(a, found.setup);
    print(fmt::format(
        "{}: {}{}; then: caseload calibrate {} -o FILE\n", a.path, counted(found.taken, "reading"),
        found.left_out == 0 ? "" : fmt::format(", {} of another setup left out", found.left_out),
        a.path));
}

}  // namespace

BookForm form_of(const std::string& path) {
    const std::string ending = input::lower(name_of(path_of(path).extension().u8string()));
    if (ending == ".txt") return BookForm::text;
    return ending == ".csv" ? BookForm::csv : BookForm::file;
}

book::Incoming read_form(const std::string& path, BookForm form) {
    const std::string text = text_of(path, book_bytes);
    return form == BookForm::csv ? book::from_csv(text, path) : book::from_text(text, path);
}

Records held_records(const std::string& path) {
    const BookForm form = form_of(path);
    if (form == BookForm::file) return stored_records(path);
    book::Incoming in = read_form(path, form);
    book::require_references(in.records);
    book::require_corrections(in.records);
    book::require_positions({}, in);
    return std::move(in.records);
}

void show_book(const BookArguments& a) {
    const Records all = held_records(a.file);
    if (!a.serial.empty()) book::require_known_case(all, a.serial);
    if (a.json) {
        print(book_json(book::state_of(all), a.serial));
        return;
    }
    if (a.strike) {
        for (const Record& one : all)
            print(fmt::format("{:<24} {} {:<8} {}\n", input::harmless(one.id), one.date, one.kind,
                              input::harmless(one.serial)));
        return;
    }
    print(book::case_screen(book::state_of(all), a.serial));
}

void show_due(const BookArguments& a) {
    const Records all = held_records(a.file);
    if (!a.serial.empty()) book::require_known_case(all, a.serial);
    Progress progress;
    std::vector<book::DueOfCase> found =
        book::due(all, progress.watched(on_threads(0), {1.0, {1.0}}));
    progress.clear();
    if (!a.serial.empty())
        std::erase_if(found, [&](const auto& one) { return one.serial != a.serial; });
    print(a.json ? due_json(found) : book::due_screen(found));
}

int replay_book(const BookArguments& a) {
    const book::Replayed result = book::recalculate(held_records(a.file));
    for (const std::string& difference : result.differences)
        print(input::harmless(difference) + "\n");
    const std::string again = counted(result.events, "event") + " calculated again";
    const std::size_t differ = result.differences.size();
    print(differ == 0 ? again + ": all agree with the book\n"
                      : fmt::format("{}, {} differ{}: another program version wrote them\n", again,
                                    counted(differ, "number"), differ == 1 ? "s" : ""));
    return differ == 0 ? 0 : 1;
}

void export_book(const BookArguments& a) {
    note_read(path_of(a.file));
    require_output({"", a.path});
    if (!a.force) require_free_name(a.path, ", or --force");
    if (!a.serial.empty()) {
        export_readings(a);
        return;
    }
    const Records all = book::by_date(held_records(a.file));
    const bool csv = a.csv || form_of(a.path) == BookForm::csv;
    write_out(a, csv ? book::to_csv(all) : book::to_text(all));
    print(fmt::format("{}: {} records\n", a.path, all.size()));
}

void show_fleet(const BookArguments& a) {
    const book::Fleet fleet =
        book::fleet_of(book::state_of(held_records(a.file)), a.position, a.shape);
    print(a.json ? fleet_json(fleet) : book::fleet_screen(fleet));
}

}  // namespace caseload
