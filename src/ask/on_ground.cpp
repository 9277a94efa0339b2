// SPDX-License-Identifier: MIT
#include "caseload/ask/on_ground.hpp"

#include "caseload/kinds.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <string_view>

namespace caseload {
namespace {

constexpr std::array<std::string_view, 5> says_of_course{"course", "pace", "distance", "duration",
                                                         "style"};
// What may move any leg's ground.
constexpr std::array<std::string_view, 3> says_of_all{"event.course_model", "event.run",
                                                      "event.style"};

std::string entered_as(const ReadSetup& read, const std::string& key) {
    for (const Entry& entry : read.entries)
        if (entry.key == key) return entry.toml;
    return {};
}

std::vector<std::string> said_of(const ReadSetup& read, const std::string& heading) {
    std::vector<std::string> said;
    for (const std::string_view key : says_of_course)
        said.push_back(entered_as(read, fmt::format("{}.{}", heading, key)));
    said.push_back(entered_as(read, "event.style"));
    return said;
}

bool moves(const Change& change, const std::string& heading) {
    if (std::find(says_of_all.begin(), says_of_all.end(), change.key) != says_of_all.end())
        return true;
    if (change.key == heading || change.key == heading + ".ground_severity") return true;
    return std::any_of(says_of_course.begin(), says_of_course.end(), [&](std::string_view key) {
        return change.key == fmt::format("{}.{}", heading, key);
    });
}

}  // namespace

OnGround::OnGround(const ReadSetup& first) {
    const bool one_course = !entered_as(first, "event.course").empty();
    for (const LegInput& leg : first.setup.event.legs) {
        if (leg.calculated.empty() || !leg.pace_said) continue;
        const std::string heading = one_course ? "event" : "leg." + leg.name;
        kept_.push_back({heading,
                         fmt::format("{}", leg.calculated[place_of_drawn(likely_duty)].severity),
                         said_of(first, heading)});
    }
}

std::vector<Change> OnGround::with(std::vector<Change> changes) const {
    std::vector<Change> added;
    for (const Kept& one : kept_)
        if (std::none_of(changes.begin(), changes.end(),
                         [&](const Change& change) { return moves(change, one.heading); }))
            added.push_back({one.heading + ".ground_severity", one.severity});
    changes.insert(changes.end(), added.begin(), added.end());
    return changes;
}

std::vector<Change> OnGround::under(const ReadSetup& other) const {
    std::vector<Change> changes;
    for (const Kept& one : kept_)
        if (said_of(other, one.heading) == one.said &&
            entered_as(other, one.heading + ".ground_severity").empty() &&
            entered_as(other, "event.course_model") ==
                fmt::format("\"{}\"", words_for(CourseModel::segments).key))
            changes.push_back({one.heading + ".ground_severity", one.severity});
    return changes;
}

}  // namespace caseload
