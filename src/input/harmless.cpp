// SPDX-License-Identifier: MIT
#include "input/harmless.hpp"

#include "input/letters.hpp"

#include <fmt/format.h>

#include <algorithm>

namespace caseload::input {
namespace {

constexpr std::string_view no_character = "\xEF\xBF\xBD";  // U+FFFD

/// The character that these bytes of valid UTF-8 are.
char32_t character_of(std::string_view bytes) {
    const auto byte = [&](std::size_t i) {
        return static_cast<char32_t>(static_cast<unsigned char>(bytes[i]));
    };
    if (bytes.size() == 1) return byte(0);
    // The first byte has one bit less of the character for each byte that follows.
    char32_t code = byte(0) & (0x7FU >> bytes.size());
    for (std::size_t i = 1; i < bytes.size(); ++i) code = (code << 6U) | (byte(i) & 0x3FU);
    return code;
}

bool is_obeyed(char32_t code) {
    return code < 0x20 || (code >= 0x7F && code <= 0x9F) || code == 0x061C || code == 0x200E ||
           code == 0x200F || (code >= 0x2028 && code <= 0x202E) ||
           (code >= 0x2066 && code <= 0x2069);
}

/// Plain ASCII is most of all text.
bool is_plain(char c) {
    return c >= 0x20 && c < 0x7F;
}

/// The text with each character that is obeyed, or byte that is none, replaced.
template <class Replace>
std::string replaced(std::string_view text, Replace replace) {
    std::string out;
    out.reserve(text.size());
    for (std::size_t at = 0; at < text.size();) {
        const std::size_t plain = static_cast<std::size_t>(
            std::find_if_not(text.begin() + static_cast<std::ptrdiff_t>(at), text.end(), is_plain) -
            text.begin());
        out += text.substr(at, plain - at);
        at = plain;
        if (at == text.size()) break;
        const std::size_t length = utf8_length(text, at);
        const std::string_view bytes = text.substr(at, std::max<std::size_t>(length, 1));
        if (length == 0)
            out += no_character;
        else if (const char32_t code = character_of(bytes); is_obeyed(code))
            out += replace(code);
        else
            out += bytes;
        at += bytes.size();
    }
    return out;
}

std::string written(char32_t code) {
    return fmt::format("\\u{:04X}", static_cast<unsigned>(code));
}

}  // namespace

std::string harmless(std::string_view text) {
    return replaced(text,
                    [](char32_t code) { return code == '\t' ? std::string(" ") : written(code); });
}

std::string harmless_lines(std::string_view text) {
    return replaced(text, [](char32_t code) {
        return code == '\n' || code == '\t' ? std::string(1, static_cast<char>(code))
                                            : written(code);
    });
}

std::string harmless_in_place(std::string_view text) {
    return replaced(text, [](char32_t code) { return code == '\t' ? " " : "?"; });
}

bool is_harmless(std::string_view text) {
    return std::all_of(text.begin(), text.end(), is_plain) || harmless(text) == text;
}

std::string shortened_to(std::size_t characters, std::string_view text) {
    std::size_t at = 0;
    for (std::size_t count = 0; at < text.size() && count < characters; ++count)
        at += std::max<std::size_t>(utf8_length(text, at), 1);
    return std::string(text.substr(0, at)) + (at < text.size() ? "..." : "");
}

}  // namespace caseload::input
