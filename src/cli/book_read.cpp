// SPDX-License-Identifier: MIT
// The service book: due, show, replay, fleet, export. They read its text form as well as its file.
#include "cli/book_read.hpp"

#include "caseload/book/state.hpp"
#include "caseload/error.hpp"
#include "caseload/show/book.hpp"
#include "cli/files.hpp"
#include "cli/progress.hpp"
#include "input/harmless.hpp"
#include "input/letters.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <filesystem>
#include <optional>
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
        "{}: {} reading{}{}; then: caseload calibrate {} -o FILE\n", a.path, found.taken,
        found.taken == 1 ? "" : "s",
        found.left_out == 0 ? "" : fmt::format(", {} of another setup left out", found.left_out),
        a.path));
}

}  // namespace

BookForm form_of(const std::string& path) {
    const std::u8string ending = path_of(path).extension().u8string();
    const std::string lower =
        input::lower({reinterpret_cast<const char*>(ending.data()), ending.size()});
    if (lower == ".txt") return BookForm::text;
    return lower == ".csv" ? BookForm::csv : BookForm::file;
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
        found.erase(std::remove_if(found.begin(), found.end(),
                                   [&](const auto& one) { return one.serial != a.serial; }),
                    found.end());
    print(a.json ? due_json(found) : book::due_screen(found));
}

int replay_book(const BookArguments& a) {
    const book::Replayed result = book::recalculate(held_records(a.file));
    for (const std::string& difference : result.differences)
        print(input::harmless(difference) + "\n");
    const std::string again =
        fmt::format("{} event{} calculated again", result.events, result.events == 1 ? "" : "s");
    print(result.differences.empty()
              ? again + ": all agree with the book\n"
              : fmt::format("{}, {} number{} differ{}: another program version wrote them\n", again,
                            result.differences.size(), result.differences.size() == 1 ? "" : "s",
                            result.differences.size() == 1 ? "s" : ""));
    return result.differences.empty() ? 0 : 1;
}

void export_book(const BookArguments& a) {
    note_read(path_of(a.file));
    const Output output{"", a.path};
    require_outputs({&output, 1});
    std::error_code none;
    if (!a.force && std::filesystem::exists(path_of(a.path), none))
        throw Error(Error::Kind::file,
                    fmt::format("{}: exists already; choose another name, or --force", a.path));
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
    const book::Fleet told =
        book::fleet_of(book::state_of(held_records(a.file)), a.position, a.shape);
    print(a.json ? fleet_json(told) : book::fleet_screen(told));
}

}  // namespace caseload
