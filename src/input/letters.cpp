// SPDX-License-Identifier: MIT
#include "input/letters.hpp"

#include <algorithm>
#include <cctype>

namespace caseload::input {
namespace {

unsigned code_of(char c) {
    return static_cast<unsigned char>(c);
}

}  // namespace

bool digit(char c) {
    return std::isdigit(static_cast<unsigned char>(c)) != 0;
}

std::string lower(std::string_view text) {
    std::string out(text);
    std::transform(out.begin(), out.end(), out.begin(),
                   [](unsigned char c) { return static_cast<char>(std::tolower(c)); });
    return out;
}

std::string_view trimmed(std::string_view text) {
    while (!text.empty() && (text.front() == ' ' || text.front() == '\t')) text.remove_prefix(1);
    while (!text.empty() && (text.back() == ' ' || text.back() == '\t')) text.remove_suffix(1);
    return text;
}

std::string_view without_mark(std::string_view text) {
    if (text.substr(0, 3) == "\xEF\xBB\xBF") text.remove_prefix(3);
    return text;
}

std::size_t utf8_length(std::string_view text, std::size_t at) {
    const unsigned first = code_of(text[at]);
    if (first < 0x80) return 1;
    const std::size_t length = first >= 0xF0 && first <= 0xF4  ? 4
                               : first >= 0xE0 && first < 0xF0 ? 3
                               : first >= 0xC2 && first < 0xE0 ? 2
                                                               : 0;
    if (length == 0 || at + length > text.size()) return 0;
    for (std::size_t i = 1; i < length; ++i)
        if ((code_of(text[at + i]) & 0xC0U) != 0x80U) return 0;
    const unsigned second = code_of(text[at + 1]);
    const bool overlong = (first == 0xE0 && second < 0xA0) || (first == 0xF0 && second < 0x90);
    const bool surrogate = first == 0xED && second >= 0xA0;
    const bool beyond = first == 0xF4 && second >= 0x90;
    return overlong || surrogate || beyond ? 0 : length;
}

}  // namespace caseload::input
