// SPDX-License-Identifier: MIT
// The numbers of words: tables/presets.toml.
#pragma once

#include "input/oils.hpp"

#include <map>
#include <string>
#include <vector>

namespace caseload::input {

struct Preset {
    int line = 0;
    std::string key;                 ///< of the word, "*" standing for a name
    std::vector<std::string> fills;  ///< keys the word gives a value, unless they are given
    std::string source;
    struct Meaning {
        std::map<std::string, RangedValue> values;  ///< by filled key
        std::vector<double> numbers;                ///< what fills no key
        std::vector<double> lows;                   ///< plausible ends of these
        std::vector<double> highs;
    };
    std::map<std::string, Meaning> words;
};

/// In the order of the table: an earlier word fills a key first.
[[nodiscard]] const std::vector<Preset>& presets();

/// The word for what nobody has looked at yet: its numbers go to their ends together.
inline constexpr std::string_view unknown_word = "unknown";

/// What a word of this key means; the table must have it.
[[nodiscard]] const Preset::Meaning& meaning_of(std::string_view key, const std::string& word);

}  // namespace caseload::input
