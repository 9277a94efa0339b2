// SPDX-License-Identifier: MIT
// Setups the chain's tests start from.
#pragma once

#include "caseload/input.hpp"

#include <algorithm>
#include <fstream>
#include <iterator>
#include <optional>
#include <string>
#include <vector>

namespace caseload::examples {

inline std::optional<std::string> text(const std::string& name) {
    std::ifstream file(std::string(CASELOAD_ROOT) + "/docs/examples/" + name, std::ios::binary);
    if (!file) return std::nullopt;
    return std::string(std::istreambuf_iterator<char>(file), {});
}

/// A setup of docs/examples, with some keys changed.
inline Setup setup(const std::string& name, const std::vector<Change>& changes = {}) {
    return Document(text(name).value(), name, text).complete(changes).setup;
}

/// Somebody has looked at the case: nothing beside it gives or takes heat, thrown oil drains well.
inline const std::vector<Change> looked_at{{"housing.exhaust", "\"none\""},
                                           {"housing.neighbour", "\"none\""},
                                           {"lubrication.drain", "\"good\""}};

/// The example of such a case; other words of these keys win.
inline Setup alone(const std::string& name, std::vector<Change> changes = {}) {
    for (const Change& one : looked_at)
        if (std::none_of(changes.begin(), changes.end(),
                         [&](const Change& given) { return given.key == one.key; }))
            changes.push_back(one);
    return setup(name, changes);
}

/// The same with one leg of these bins instead of its event.
inline Setup with_bins(Setup setup, const std::vector<Bin>& bins, double duration_s = 3600) {
    LegInput leg;
    leg.name = "test";
    leg.duration_s = duration_s;
    leg.bins = bins;
    setup.event.legs = {leg};
    setup.event.run = {0};
    return setup;
}

/// A stop after the last leg.
inline Setup then_stop(Setup setup, LegInput stop) {
    stop.kind = LegKind::stop;
    stop.name = "stop";
    setup.event.run.push_back(static_cast<int>(setup.event.legs.size()));
    setup.event.legs.push_back(stop);
    return setup;
}

inline bool has_note(const Notes& notes, const std::string& id, const std::string& about) {
    for (const Note& note : notes)
        if (note.id == id && note.about == about) return true;
    return false;
}

}  // namespace caseload::examples
