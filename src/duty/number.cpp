// SPDX-License-Identifier: MIT
#include "duty/number.hpp"

#include <fast_float/fast_float.h>

#include <algorithm>
#include <cmath>

namespace caseload::duty {
namespace number {
namespace {

constexpr std::size_t longest = 64;  // of a number anybody writes

std::string_view trimmed(std::string_view text) {
    constexpr std::string_view blanks = " \t\r";
    const std::size_t first = text.find_first_not_of(blanks);
    if (first == std::string_view::npos) return {};
    return text.substr(first, text.find_last_not_of(blanks) - first + 1);
}

/// What loggers write for nothing.
bool stands_for_nothing(std::string_view text) {
    constexpr std::string_view words[] = {"",    "nan",  "na",   "n/a", "#n/a", "null", "none",
                                          "nil", "-nan", "+nan", "inf", "-inf", "+inf", "?"};
    if (!text.empty() && text.find_first_not_of('-') == std::string_view::npos) return true;
    return std::any_of(std::begin(words), std::end(words), [&](std::string_view word) {
        return word.size() == text.size() &&
               std::equal(word.begin(), word.end(), text.begin(), [](char a, char b) {
                   return a == (b >= 'A' && b <= 'Z' ? static_cast<char>(b - 'A' + 'a') : b);
               });
    });
}

bool digit(char c) {
    return c >= '0' && c <= '9';
}

/// Digits and perhaps a mark, up to 15: exact over a power of ten that is exact.
bool read_plain(std::string_view text, char decimal, double& value) {
    constexpr std::size_t most_digits = 15;
    const bool minus = !text.empty() && text.front() == '-';
    std::int64_t all = 0;
    std::size_t count = 0;
    std::size_t behind = 0;  // 1 for the mark, and the digits behind it
    for (const char c : text.substr(minus ? 1 : 0)) {
        if (digit(c)) {
            all = 10 * all + (c - '0');
            if (++count > most_digits) return false;
            if (behind > 0) ++behind;
        } else if (c != decimal || behind++ > 0) {
            return false;
        }
    }
    if (count == 0) return false;
    const double size = static_cast<double>(all) / tens[behind > 0 ? behind - 1 : 0];
    value = minus ? -size : size;
    return true;
}

}  // namespace

Cell read_rest(std::string_view text, const Marks& marks, double& value) {
    if (read_plain(text, marks.decimal, value)) return Cell::number;
    text = trimmed(text);
    if (text.size() >= 2 && text.front() == '"' && text.back() == '"')
        text = trimmed(text.substr(1, text.size() - 2));
    if (stands_for_nothing(text)) return Cell::missing;
    if (text.front() == '+') text.remove_prefix(1);
    if (text.empty() || text.size() > longest) return Cell::wrong;
    std::array<char, longest> plain{};
    std::size_t count = 0;
    std::size_t since_group = 0;  // digits since the last grouping mark
    bool grouped = false;
    bool pointed = false;
    for (const char c : text) {
        if (marks.grouping != '\0' && c == marks.grouping) {
            // Groups are of three, the first may be shorter, and none follows the point.
            if (pointed || since_group == 0 || since_group > 3 || (grouped && since_group != 3))
                return Cell::wrong;
            grouped = true;
            since_group = 0;
            continue;
        }
        if (c == marks.decimal) {
            if (pointed || (grouped && since_group != 3)) return Cell::wrong;
            pointed = true;
            plain[count++] = '.';
            continue;
        }
        const bool of_exponent = c == 'e' || c == 'E' || c == '+' || c == '-';
        if (!digit(c) && !of_exponent) return Cell::wrong;
        if (digit(c)) ++since_group;
        plain[count++] = c;
    }
    if (grouped && !pointed && since_group != 3) return Cell::wrong;
    const char* const end = plain.data() + count;
    const auto [stop, failed] = fast_float::from_chars(plain.data(), end, value);
    if (failed != std::errc() || stop != end || !std::isfinite(value)) return Cell::wrong;
    return Cell::number;
}

}  // namespace number

NumberReader::NumberReader(const Marks& marks)
    : marks_(marks),
      mark_in_each_(0x0101010101010101U * static_cast<unsigned char>(marks.decimal)) {
    for (std::size_t byte = 0; byte + 1 < forms_.size(); ++byte) {
        const std::size_t at = 8 * byte;
        const std::uint64_t through = (std::uint64_t{256} << at) - 1;
        forms_[byte] = {((mark_in_each_ ^ number::noughts) & (std::uint64_t{0xFF} << at)),
                        number::no_digits | std::uint64_t{0x7F} << at, through,
                        number::tens[7 - byte]};
    }
}

bool NumberReader::read_new(const char* begin, const char* end, const NumberForm*& form,
                            double& value) const {
    const char* const text = begin + (*begin == '-' ? 1 : 0);
    const std::size_t length = length_of(text, end);
    if (length - 1 > 7) return false;
    const std::size_t whole = number::before(number::load(text), mark_in_each_);
    // A mark at the end is no digit either.
    form = whole < length ? &forms_[8 - length + whole] : whole_form();
    return read_as(*form, begin, end, value);
}

Cell NumberReader::read_other(const char* begin, const char* end, double& value) const {
    const bool minus = begin != end && *begin == '-';
    const char* const text = begin + (minus ? 1 : 0);
    const std::size_t length = length_of(text, end);
    const std::string_view cell(begin, length_of(begin, end));
    std::size_t whole = number::before(number::load(text), mark_in_each_);
    if (whole == 8) whole += number::before(number::load(text + 8), mark_in_each_);
    if (whole > length) whole = length;
    const std::size_t part = length > whole ? length - whole - 1 : 0;
    if (whole - 1 > 7 || part > 8 || whole + part > 15)
        return number::read_rest(cell, marks_, value);
    std::uint64_t bad = 0;
    std::uint64_t all = number::digits(text, whole, bad);
    if (part > 0)
        all = all * number::whole_tens[part] + number::digits(text + whole + 1, part, bad);
    if (bad != 0) return number::read_rest(cell, marks_, value);
    const double size = static_cast<double>(static_cast<std::int64_t>(all)) /
                        number::tens[part];  // both exact, so correctly rounded
    value = minus ? -size : size;
    return Cell::number;
}

}  // namespace caseload::duty
