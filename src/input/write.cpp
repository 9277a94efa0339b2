// SPDX-License-Identifier: MIT
#include "caseload/input.hpp"

#include "input/fields.hpp"

#include <fmt/format.h>

namespace caseload {
namespace {

std::string origin_words(const Entry& entry) {
    switch (entry.origin) {
        case Origin::yours:
            return fmt::format("yours, line {}", entry.where.line);
        case Origin::base_file:
            return fmt::format("{}, line {}", entry.where.file, entry.where.line);
        case Origin::pattern:
            return fmt::format("{}; judgement", entry.where.file);
        case Origin::preset:
            return entry.source;
        case Origin::standard:
            return fmt::format("standard{}{}", entry.source.empty() ? "" : ", ", entry.source);
        case Origin::estimated:
            return fmt::format("estimated, {}", entry.source);
        case Origin::changed:
            return "changed on the command line";
    }
    return "";
}

}  // namespace

std::string completed_text(const ReadSetup& read) {
    std::string text = fmt::format("# {}: completed by caseload. {} values yours, {} assumed.\n",
                                   read.setup.name, read.count_yours, read.count_assumed);
    for (const Entry& entry : read.entries) {
        std::string line = fmt::format("{} = {}", entry.key, entry.toml);
        text += fmt::format("{:<58} # {}\n", line, origin_words(entry));
    }
    return text;
}

std::string new_setup_text() {
    return R"(# A setup for caseload. These ten entries are enough; everything else is assumed and listed.
# See what is assumed: caseload complete FILE. Add what you know.
caseload = 1
base = "pattern:two-gear-185mm"      # or two-gear-215mm: the nearest generic case
gears.fitted = [33, 41]              # teeth, input gear first
oil.grade = "75W-90 synthetic"
housing.place = "behind-skid-plate"  # open | behind-skid-plate | tunnel
vehicle.mass = "2350 kg"             # ready to race, with crew and half the fuel
vehicle.tyre = "37 in"
vehicle.axle_ratio = 5.43
vehicle.engine_power = "650 hp"
event.ambient = "38 degC"
event.course = "rough-desert"        # hard-road | graded | rough-desert | sand | rock | forest
event.duration = "6 h"
)";
}

std::string key_reference() {
    using input::Field;
    std::string text =
        "# Setup file: every key\n\nWritten by `caseload keys` from the field table; do not edit. "
        "`*` stands for a name "
        "you choose. A quantity is text with its unit.\n\n| key | value | range | standard value | "
        "meaning |\n|---|---|---|---|---|\n";
    for (const Field& field : input::fields()) {
        std::string value;
        using K = input::FieldKind;
        switch (field.kind) {
            case K::quantity:
                value = fmt::format("\"{}\"", input::example_of(field.measure));
                break;
            case K::number:
                value = "number";
                break;
            case K::integer:
                value = "whole number";
                break;
            case K::text:
                value = "text";
                break;
            case K::word:
                value = field.accepted.empty() ? "a grade of tables/oils.toml"
                                               : std::string(field.accepted);
                break;
            case K::flag:
                value = "true, false";
                break;
            case K::size:
                value = "\"90x140x24 mm\"";
                break;
            case K::integers:
                value = "list of whole numbers";
                break;
            case K::numbers:
                value = "list of numbers";
                break;
            case K::texts:
                value = "list of names";
                break;
            case K::bins:
            case K::peaks:
            case K::torque_points:
                value = "list";
                break;
        }
        for (std::size_t at = value.find('|'); at != std::string::npos;
             at = value.find('|', at + 1))
            value.replace(at, 1, "/");
        const bool ranged = field.low != field.high;
        text += fmt::format("| `{}` | {} | {} | {} | {}{} |\n", field.key, value,
                            ranged ? fmt::format("{:g} to {:g} {}", field.low, field.high,
                                                 input::unit_of(field.measure))
                                   : "",
                            field.fallback.empty() ? "" : fmt::format("`{}`", field.fallback),
                            field.words,
                            field.source.empty() ? "" : fmt::format(" ({})", field.source));
    }
    return text;
}

}  // namespace caseload
