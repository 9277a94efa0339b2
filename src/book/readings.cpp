// SPDX-License-Identifier: MIT
// Readings in the book as readings of a setup, for calibrate.
#include "caseload/book/state.hpp"
#include "caseload/error.hpp"
#include "input/harmless.hpp"
#include "input/value.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <array>

namespace caseload::book {
namespace {

constexpr std::array<std::string_view, 4> places{"scavenge-line", "oil-bath", "housing-below-oil",
                                                 "housing-above-oil"};
constexpr std::array<std::string_view, 7> keys{"leg",   "ambient", "at_pace", "start",
                                               "clear", "scatter", "cooler"};

/// Name of a reading that the setup does not have yet.
std::string free_name(const std::string& setup, const std::string& wanted) {
    std::string name = wanted;
    for (int k = 2; setup.find("reading." + name) != std::string::npos; ++k)
        name = fmt::format("{}-{}", wanted, k);
    return name;
}

std::string lines_of(const Record& reading, const std::string& name) {
    std::string out = fmt::format("reading.{}.place = {}\nreading.{}.temp = {}\n", name,
                                  input::quoted(value(reading, "what")), name,
                                  input::quoted(value(reading, "reads")));
    for (const std::string_view key : keys) {
        const std::string text = value(reading, key);
        if (!text.empty())
            out += fmt::format("reading.{}.{} = {}\n", name, key, input::quoted(text));
    }
    return out;
}

const Record* last_event(const Records& all, const std::string& serial) {
    const Record* last = nullptr;
    for (const Record& one : all)
        if (one.kind == "event" && one.serial == serial) last = &one;
    return last;
}

}  // namespace

std::span<const std::string_view> reading_keys() {
    return keys;
}

bool is_whole(const Record& reading) {
    return std::find(places.begin(), places.end(), value(reading, "what")) != places.end() &&
           std::any_of(keys.begin(), keys.end(),
                       [&](std::string_view key) { return !value(reading, key).empty(); });
}

void require_usable(std::span<const Record> records, const Record& reading) {
    const Records all = corrected(records);
    const Record* event = last_event(all, reading.serial);
    if (event == nullptr)
        refuse_input(fmt::format("no event of {} in the book yet: its setup says what was driven",
                                 reading.serial),
                     fmt::format("first: caseload book add event {} SETUP", reading.serial));
    const std::string setup = setup_text(records, event->setup);
    const std::string name = free_name(setup, "added");
    const std::string own = "reading." + name + ".";
    try {
        (void)read_setup(setup + lines_of(reading, name), "reading", {});
    } catch (const Error& error) {
        // Generated text: problems are reported by their keys, not by line numbers.
        Problem problem = error.problems().front();
        for (std::string* part : {&problem.text, &problem.hint})
            for (std::size_t at = 0; (at = part->find(own)) != std::string::npos;)
                part->erase(at, own.size());
        refuse_input(problem.text, problem.hint);
    }
}

Readings readings_of(std::span<const Record> records, const std::string& serial) {
    require_known_case(records, serial);
    const Records all = corrected(records);
    const Record* event = last_event(all, serial);
    if (event == nullptr)
        refuse_input(
            fmt::format("no event of {} in the book yet: its setup says what was driven", serial),
            fmt::format("first: caseload book add event {} SETUP", serial));
    Readings out;
    std::string text = setup_text(records, event->setup) + "\n";
    for (const Record& one : all) {
        if (one.kind != "reading" || one.serial != serial || !is_whole(one)) continue;
        if (one.setup != event->setup) {
            ++out.left_out;
            continue;
        }
        ++out.taken;
        text += lines_of(one, free_name(text, fmt::format("book-{}", one.date)));
    }
    if (out.taken == 0)
        refuse_input(fmt::format("no reading of {} that calibrate takes{}", serial,
                                 out.left_out > 0 ? " under its last setup" : ""),
                     "caseload book add reading CASE scavenge-line \"118 degC\" --leg loop "
                     "--ambient \"31 degC\" --at-pace \"50 min\"");
    out.setup = fmt::format("# {}: its last setup ({}), then readings from the book.\n{}",
                            input::harmless(serial), input::harmless(event->setup), text);
    return out;
}

}  // namespace caseload::book
