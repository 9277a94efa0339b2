// SPDX-License-Identifier: MIT
// What a page asks one after the other, as one text: question, first and second argument, and so
// on, each piece ended by a line %%.
#pragma once

#include <algorithm>
#include <cstddef>
#include <string>
#include <string_view>

namespace asked {

constexpr std::string_view between = "\n%%\n";

/// The next piece as the page hands it over: a C string ends at its first zero.
inline std::string piece(std::string_view& rest) {
    const std::size_t end = std::min(rest.find(between), rest.size());
    std::string text(rest.substr(0, std::min(end, rest.find('\0'))));
    rest.remove_prefix(std::min(end + between.size(), rest.size()));
    return text;
}

/// `ask` is given the three pieces of each question until it says false.
template <class Ask>
void each(std::string_view text, Ask ask) {
    while (!text.empty()) {
        const std::string question = piece(text);
        const std::string first = piece(text);
        const std::string second = piece(text);
        if (!ask(question, first, second)) return;
    }
}

}  // namespace asked
