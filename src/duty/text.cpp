// SPDX-License-Identifier: MIT
#include "duty/text.hpp"

#include "input/letters.hpp"

#include <algorithm>
#include <cstdint>
#include <cstring>
#include <utility>

namespace caseload::duty {
namespace {

constexpr std::size_t head_bytes = block_bytes;
constexpr std::uint64_t sample_bytes = std::uint64_t{1} << 15U;
constexpr std::uint64_t samples_apart = 16;  // of the file

std::size_t read_full(Bytes& bytes, char* to, std::size_t wanted) {
    std::size_t done = 0;
    while (done < wanted) {
        const std::size_t more = bytes.read(to + done, wanted - done);
        if (more == 0) break;
        done += more;
    }
    return done;
}

void append_utf8(std::string& to, char32_t c) {
    const auto byte = [&](char32_t value) { to += static_cast<char>(value); };
    if (c < 0x80) {
        byte(c);
    } else if (c < 0x800) {
        byte(0xC0U | c >> 6U);
        byte(0x80U | (c & 0x3FU));
    } else if (c < 0x10000) {
        byte(0xE0U | c >> 12U);
        byte(0x80U | (c >> 6U & 0x3FU));
        byte(0x80U | (c & 0x3FU));
    } else {
        byte(0xF0U | c >> 18U);
        byte(0x80U | (c >> 12U & 0x3FU));
        byte(0x80U | (c >> 6U & 0x3FU));
        byte(0x80U | (c & 0x3FU));
    }
}

/// Appends the whole characters of the text and says how many bytes they were.
std::size_t append_utf16(std::string& to, std::string_view raw, bool big) {
    const auto unit = [&](std::size_t at) {
        const auto a = static_cast<unsigned char>(raw[at]);
        const auto b = static_cast<unsigned char>(raw[at + 1]);
        return static_cast<char32_t>(big ? a << 8U | b : b << 8U | a);
    };
    std::size_t at = 0;
    while (at + 2 <= raw.size()) {
        const char32_t first = unit(at);
        if (first >= 0xD800 && first < 0xDC00) {
            if (at + 4 > raw.size()) break;
            const char32_t second = unit(at + 2);
            if (second >= 0xDC00 && second < 0xE000) {
                append_utf8(to, 0x10000 + ((first - 0xD800) << 10U) + (second - 0xDC00));
                at += 4;
                continue;
            }
        }
        append_utf8(to, first >= 0xD800 && first < 0xE000 ? U'\uFFFD' : first);
        at += 2;
    }
    return at;
}

/// True of UTF-8, but for a character cut at either end.
bool is_utf8(std::string_view text) {
    constexpr std::size_t longest = 4;
    std::size_t at = 0;
    while (at < text.size() && at + 1 < longest && input::continues_character(text[at])) ++at;
    while (at < text.size()) {
        std::uint64_t eight = 0;
        if (at + sizeof eight <= text.size()) {
            std::memcpy(&eight, text.data() + at, sizeof eight);
            if ((eight & 0x8080808080808080U) == 0) {
                at += sizeof eight;
                continue;
            }
        }
        const std::size_t length = input::utf8_length(text, at);
        if (length == 0) {
            const std::string_view cut = text.substr(at);
            return cut.size() < input::utf8_announced(cut.front()) &&
                   std::all_of(cut.begin() + 1, cut.end(), input::continues_character);
        }
        at += length;
    }
    return true;
}

}  // namespace

bool is_utf16(Encoding encoding) {
    return encoding == Encoding::utf16_little || encoding == Encoding::utf16_big;
}

Windows windows_of(Bytes& bytes) {
    Windows windows;
    const auto size = bytes.size();
    // One byte more than a short file has: it may have grown.
    windows.head.resize(size && *size < head_bytes ? static_cast<std::size_t>(*size) + 1
                                                   : head_bytes);
    windows.head.resize(read_full(bytes, windows.head.data(), windows.head.size()));
    windows.whole = windows.head.size() < head_bytes;
    if (windows.whole || !size) return windows;
    for (std::uint64_t k = 1; k < samples_apart; ++k) {
        // Even, so that a unit of UTF-16 is whole.
        const std::uint64_t offset = *size / samples_apart * k / 2 * 2;
        std::string window(sample_bytes, '\0');
        window.resize(bytes.read_at(offset, window.data(), sample_bytes));
        windows.later.push_back(std::move(window));
    }
    return windows;
}

std::string_view name_of(Encoding encoding) {
    if (encoding == Encoding::utf8) return "UTF-8";
    return encoding == Encoding::latin1 ? "Latin-1" : "UTF-16";
}

Encoding vote_encoding(const Windows& windows) {
    const std::string_view head = windows.head;
    if (head.substr(0, 2) == "\xFF\xFE") return Encoding::utf16_little;
    if (head.substr(0, 2) == "\xFE\xFF") return Encoding::utf16_big;
    // Without a mark: text of western languages has a zero in nearly every other byte.
    const std::string_view start = head.substr(0, 2000);
    std::size_t even = 0;
    std::size_t odd = 0;
    for (std::size_t i = 0; i < start.size(); ++i)
        if (start[i] == '\0') ++(i % 2 == 0 ? even : odd);
    if (odd * 5 > start.size() * 2 && even == 0) return Encoding::utf16_little;
    if (even * 5 > start.size() * 2 && odd == 0) return Encoding::utf16_big;
    if (!is_utf8(head)) return Encoding::latin1;
    return std::all_of(windows.later.begin(), windows.later.end(),
                       [](const std::string& window) { return is_utf8(window); })
               ? Encoding::utf8
               : Encoding::latin1;
}

std::string decoded(std::string_view raw, Encoding encoding) {
    std::string text;
    append_utf16(text, raw, encoding == Encoding::utf16_big);
    return std::string(input::without_mark(text));
}

std::string shown(std::string_view text, Encoding encoding) {
    std::string out;
    for (const char c : text) {
        if (encoding == Encoding::latin1)
            append_utf8(out, static_cast<unsigned char>(c));
        else
            out += c;
    }
    return out;
}

TextStream::TextStream(Bytes& bytes, std::string head, const Dialect& dialect)
    : bytes_(bytes),
      head_(std::move(head)),
      encoding_(dialect.encoding),
      lines_by_cr_(dialect.lines_by_cr) {
    if (!is_utf16(encoding_) && head_.starts_with(input::utf8_mark))
        head_at_ = input::utf8_mark.size();
    if (is_utf16(encoding_) &&
        (head_.compare(0, 2, "\xFF\xFE") == 0 || head_.compare(0, 2, "\xFE\xFF") == 0))
        head_at_ = 2;
    bytes_read_ = head_at_;
}

std::size_t TextStream::read_raw(char* to, std::size_t at_most) {
    std::size_t count = std::min(at_most, head_.size() - head_at_);
    if (count > 0) {
        std::memcpy(to, head_.data() + head_at_, count);
        head_at_ += count;
        if (head_at_ == head_.size()) {
            head_ = {};
            head_at_ = 0;
        }
    } else {
        count = bytes_.read(to, at_most);
    }
    bytes_read_ += count;
    return count;
}

std::size_t TextStream::read_utf16(char* to, std::size_t at_most) {
    std::string out;
    while (out.empty()) {
        // Two bytes become three at most.
        raw_.resize(at_most / 3 * 2 - carried_.size());
        raw_.resize(read_raw(raw_.data(), raw_.size()));
        if (raw_.empty()) return 0;
        carried_ += raw_;
        carried_.erase(0, append_utf16(out, carried_, encoding_ == Encoding::utf16_big));
    }
    std::memcpy(to, out.data(), out.size());
    return out.size();
}

std::size_t TextStream::read(char* to, std::size_t at_most) {
    const std::size_t count = is_utf16(encoding_) ? read_utf16(to, at_most) : read_raw(to, at_most);
    if (lines_by_cr_) std::replace(to, to + count, '\r', '\n');
    return count;
}

}  // namespace caseload::duty
