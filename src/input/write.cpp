// SPDX-License-Identifier: MIT
// The completed setup as a file, and the file a new setup begins with.
#include "input/origin.hpp"
#include "input/value.hpp"

#include <fmt/format.h>

#include <string>
#include <vector>

namespace caseload {
namespace {

constexpr std::size_t longest_comment = 200;

/// Text for a comment: one line of plain characters, whatever a file is called.
std::string plain(std::string_view text) {
    std::string out;
    for (const char c : text.substr(0, longest_comment)) {
        const auto byte = static_cast<unsigned char>(c);
        out += byte < 0x20 || byte >= 0x7F ? '?' : c;
    }
    return out;
}

/// Values written as comments only: an estimate would count as the maker's rating (though it gives
/// the same answer), common practice as the user's rule, the number of the word "unknown" as looked
/// up, an assumed seat as described, and an assumed pace or coat of dirt, which the range varies.
bool stays_out(const Entry& entry, const HousingInput& housing) {
    const bool rule = entry.key.starts_with("rules.");
    const bool pace = (entry.field == "event.pace" || entry.field == "leg.*.pace") &&
                      entry.origin == Origin::preset;
    const bool dirt = housing.dirt_assumed &&
                      (entry.key == "housing.dirt" || entry.key == "housing.dirt_thickness");
    if (pace || dirt) return true;
    return entry.origin == Origin::estimated || (rule && entry.origin == Origin::standard) ||
           !entry.by.empty() ||
           (entry.origin == Origin::standard && entry.field.starts_with(assumed_seats));
}

/// Members of a list as TOML; none for any other value. No value that stays out is a list.
std::vector<std::string> members_of_list(const std::string& toml) {
    std::vector<std::string> members;
    if (toml.front() != '[') return members;
    const input::Leaves leaves = input::parse_change("list", toml);
    for (const input::Value& member : leaves.at("list").value.items)
        members.push_back(input::toml_text(member));
    return members;
}

}  // namespace

std::string input::origin_words(const Entry& entry) {
    switch (entry.origin) {
        case Origin::yours:
            return fmt::format("yours, line {}", entry.where.line);
        case Origin::base_file:
            return fmt::format("{}, line {}", entry.where.file, entry.where.line);
        case Origin::pattern:
            return fmt::format("{}, {}", entry.where.file, entry.source);
        case Origin::preset:
            return entry.source;
        case Origin::standard:
            return entry.source.empty() ? "standard" : fmt::format("standard, {}", entry.source);
        case Origin::estimated:
            return fmt::format("estimated {}", entry.source);
        case Origin::changed:
            return "changed on the command line";
    }
    return {};
}

std::string completed_text(const ReadSetup& read) {
    std::string text =
        fmt::format("# {}, completed: {} values yours, {} assumed. A setup file itself.\n",
                    plain(read.setup.name), read.count_yours, read.count_assumed);
    std::string heading;
    for (const Entry& entry : read.entries) {
        const std::string own = entry.key.substr(0, entry.key.find('.'));
        if (own != heading && entry.key.find('.') != std::string::npos) text += '\n';
        heading = own;
        const std::string key = (stays_out(entry, read.setup.housing) ? "# " : "") + entry.key;
        const std::string comment = plain(input::origin_words(entry));
        const std::vector<std::string> members = members_of_list(entry.toml);
        text += members.empty() ? input::entry_line(key, entry.toml, comment)
                                : input::entry_lines(key, members, comment);
    }
    input::require_readable(text, fmt::format("{}, completed,", plain(read.setup.name)),
                            "give it fewer logged rows or bins");
    return text;
}

std::string new_setup_text() {
    return R"~(# A setup for caseload. These entries are enough; everything else is assumed and listed.
# See what is assumed, and its effect: caseload complete FILE. Then add what you know.
caseload = 1
base = "pattern:two-gear-185mm"      # or pattern:two-gear-215mm: the nearest generic case
gears.fitted = [33, 41]              # teeth, input gear first
oil.grade = "75W-90 synthetic"
housing.place = "behind-skid-plate"  # open | behind-skid-plate | tunnel
vehicle.mass = "2350 kg"             # ready to race, with crew and half the fuel
vehicle.tyre = "37 in"
vehicle.axle_ratio = 5.43
vehicle.engine_power = "650 hp"
event.ambient = "38 degC"            # in the shade
event.course = "rough-desert"        # hard-road | graded | rough-desert | sand | rock | forest
event.duration = "6 h"

# Three questions to look at on the car. Until they are answered each counts as unknown, over its
# whole range. Take the # away and write the word:
# housing.exhaust = "unknown"    # within a hand's width of the case? none | near-shielded | near-bare
# lubrication.drain = "unknown"  # can thrown oil leave the gears? good: windage tray and low pickup;
#                                  fair: plain box; poor: gears near the oil
# housing.neighbour = "unknown"  # what is the case bolted to? gearbox | adapter | frame | none
#
# One more where two tapered or angular contact bearings face each other on a shaft: when they were
# set cold, how much end play did the dial show, or how hard did the shaft turn? One of:
# shaft.output.end_play = "0.05 mm"       # negative: preload
# shaft.output.turning_torque = "1 N m"   # of the shaft alone, slowly by hand
)~";
}

}  // namespace caseload
