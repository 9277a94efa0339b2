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
    };
    std::map<std::string, Meaning> words;
};

/// In the order of the table: an earlier word fills a key first.
[[nodiscard]] const std::vector<Preset>& presets();

}  // namespace caseload::input
