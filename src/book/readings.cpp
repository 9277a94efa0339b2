// SPDX-License-Identifier: MIT
// Readings in the book as readings of a setup, for calibrate.
#include "caseload/book/state.hpp"
#include "caseload/error.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <map>

namespace caseload::book {
namespace {

constexpr std::array<std::string_view, 4> places{"scavenge-line", "oil-bath", "housing-below-oil",
                                                 "housing-above-oil"};
/// Fields of a reading that are keys of [reading.NAME] by the same name.
constexpr std::array<std::string_view, 7> keys{"leg",   "ambient", "start", "at_pace",
                                               "clear", "scatter", "cooler"};

/// A basic string of TOML.
std::string quoted(std::string_view text) {
    std::string out = "\"";
    for (const char c : text) {
        const auto byte = static_cast<unsigned char>(c);
        if (c == '"' || c == '\\')
            out += fmt::format("\\{}", c);
        else if (byte < 0x20 || byte == 0x7F)
            out += fmt::format("\\u{:04X}", byte);
        else
            out += c;
    }
    return out + '"';
}

std::string lines_of(const Record& reading, const std::string& name) {
    std::string out =
        fmt::format("reading.{}.place = {}\nreading.{}.temp = {}\n", name,
                    quoted(value(reading, "what")), name, quoted(value(reading, "reads")));
    for (const std::string_view key : keys) {
        const std::string text = value(reading, key);
        if (!text.empty()) out += fmt::format("reading.{}.{} = {}\n", name, key, quoted(text));
    }
    return out;
}

const Record* last_event(const Records& all, const std::string& serial) {
    const Record* last = nullptr;
    for (const Record& one : all)
        if (one.kind == "event" && one.serial == serial) last = &one;
    return last;
}

[[noreturn]] void refuse(const std::string& text, const std::string& hint) {
    throw Error(Error::Kind::input, {Problem{{}, text, hint}});
}

}  // namespace

bool is_whole(const Record& reading) {
    return std::find(places.begin(), places.end(), value(reading, "what")) != places.end() &&
           std::any_of(keys.begin(), keys.end(),
                       [&](std::string_view key) { return !value(reading, key).empty(); });
}

void require_usable(std::span<const Record> records, const Record& reading) {
    const Records all = corrected(records);
    const Record* event = last_event(all, reading.serial);
    if (event == nullptr)
        refuse(fmt::format("no event of {} in the book yet: its setup says what was driven",
                           reading.serial),
               fmt::format("first: caseload book add event {} SETUP", reading.serial));
    const std::string own = "reading.added.";
    try {
        (void)read_setup(setup_text(records, event->setup) + lines_of(reading, "added"), "reading",
                         {});
    } catch (const Error& error) {
        // The text is ours and nobody's file: its keys are told, its lines are not.
        Problem problem = error.problems().front();
        for (std::string* part : {&problem.text, &problem.hint})
            for (std::size_t at = 0; (at = part->find(own)) != std::string::npos;)
                part->erase(at, own.size());
        refuse(problem.text, problem.hint);
    }
}

Readings readings_of(std::span<const Record> records, const std::string& serial) {
    require_known_case(records, serial);
    const Records all = corrected(records);
    const Record* event = last_event(all, serial);
    if (event == nullptr)
        refuse(
            fmt::format("no event of {} in the book yet: its setup says what was driven", serial),
            fmt::format("first: caseload book add event {} SETUP", serial));
    Readings out;
    std::string lines;
    std::map<std::string, int> of_day;
    for (const Record& one : all) {
        if (one.kind != "reading" || one.serial != serial || !is_whole(one)) continue;
        if (one.setup != event->setup) {
            ++out.left_out;
            continue;
        }
        ++out.taken;
        const int count = ++of_day[one.date];
        lines += lines_of(one, count == 1 ? fmt::format("book-{}", one.date)
                                          : fmt::format("book-{}-{}", one.date, count));
    }
    if (out.taken == 0)
        refuse(fmt::format("no reading of {} that calibrate takes{}", serial,
                           out.left_out > 0 ? " under its last setup" : ""),
               "caseload book add reading CASE scavenge-line \"118 degC\" --leg loop --ambient "
               "\"31 degC\" --at-pace \"50 min\"");
    out.setup = fmt::format("# {}: its last setup ({}), then readings from the book.\n{}\n{}",
                            serial, event->setup, setup_text(records, event->setup), lines);
    return out;
}

}  // namespace caseload::book
