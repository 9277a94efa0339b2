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
    if (text.starts_with(utf8_mark)) text.remove_prefix(utf8_mark.size());
    return text;
}

std::size_t count_characters(std::string_view text) {
    return static_cast<std::size_t>(
        std::count_if(text.begin(), text.end(), [](char c) { return !continues_character(c); }));
}

std::size_t byte_of_character(std::string_view text, std::size_t character) {
    std::size_t at = 0;
    for (std::size_t count = 0; at < text.size(); ++at)
        if (!continues_character(text[at]) && count++ == character) break;
    return at;
}

std::size_t utf8_announced(char first) {
    const unsigned byte = code_of(first);
    if (byte < 0x80) return 1;
    if (byte < 0xC2 || byte > 0xF4) return 0;
    return byte < 0xE0 ? 2 : byte < 0xF0 ? 3 : 4;
}

std::size_t utf8_length(std::string_view text, std::size_t at) {
    const unsigned first = code_of(text[at]);
    if (first < 0x80) return 1;
    const std::size_t length = utf8_announced(text[at]);
    if (length == 0 || at + length > text.size()) return 0;
    for (std::size_t i = 1; i < length; ++i)
        if (!continues_character(text[at + i])) return 0;
    const unsigned second = code_of(text[at + 1]);
    const bool overlong = (first == 0xE0 && second < 0xA0) || (first == 0xF0 && second < 0x90);
    const bool surrogate = first == 0xED && second >= 0xA0;
    const bool beyond = first == 0xF4 && second >= 0x90;
    return overlong || surrogate || beyond ? 0 : length;
}

}  // namespace caseload::input
