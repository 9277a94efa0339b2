// SPDX-License-Identifier: MIT
// A setup file of an earlier version as one of today's: only the words that changed are replaced,
// comments and layout stay.
#pragma once

#include <span>
#include <string>
#include <string_view>
#include <vector>

namespace caseload {

/// A key with a new last part: "oil.kind" to "oil.grade"; "*" stands for a name.
struct Renamed {
    std::string_view key;
    std::string_view last_part;  ///< of the new key
};

/// What changed from one version of the file to the next.
struct FormatStep {
    int from = 0;
    std::span<const Renamed> renamed;
};

/// The version this program reads, and the steps that lead to it: none before the first.
inline constexpr int current_format = 1;
std::span<const FormatStep> format_steps();

struct Upgraded {
    int from = 0;
    int to = 0;
    std::string text;
    std::vector<std::string> changes;  ///< in words, one a replaced key
};

/// Throws Error{input} when the text is not TOML, has no version, or is of a later version than
/// `current`, or one no step leads from.
struct FormatSteps {
    int current = current_format;
    std::span<const FormatStep> steps = format_steps();
};
Upgraded upgraded(std::string_view text, const std::string& name, const FormatSteps& to = {});

}  // namespace caseload
