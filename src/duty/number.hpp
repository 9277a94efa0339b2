// SPDX-License-Identifier: MIT
// Numbers as loggers write them. Fixed decimals of up to 15 digits, which is nearly all of a log,
// take a path of their own; everything else goes to fast_float.
#pragma once

#include <cstdint>
#include <cstring>
#include <string_view>

namespace caseload::duty {

/// A text has to be readable this many bytes beyond its end.
inline constexpr std::size_t read_beyond = 16;

enum class Cell : std::uint8_t { number, missing, wrong };

struct Marks {
    char decimal = '.';
    char grouping = '\0';
};

namespace number {

constexpr double tens[] = {1e0, 1e1, 1e2,  1e3,  1e4,  1e5,  1e6,  1e7,
                           1e8, 1e9, 1e10, 1e11, 1e12, 1e13, 1e14, 1e15};
constexpr std::uint64_t whole_tens[] = {1,      10,      100,      1000,     10000,
                                        100000, 1000000, 10000000, 100000000};

inline std::uint64_t load(const char* text) {
    std::uint64_t bytes = 0;
    std::memcpy(&bytes, text, sizeof bytes);
#if defined(__BYTE_ORDER__) && __BYTE_ORDER__ == __ORDER_BIG_ENDIAN__
    bytes = __builtin_bswap64(bytes);
#endif
    return bytes;
}

/// Value of 1 to 8 digits, all eight at once; sets `bad` when one is none. The three products are
/// Lemire's, Softw. Pract. Exp. 51 (2021) 1700, as in fast_float.
inline std::uint64_t digits(const char* text, std::size_t count, std::uint64_t& bad) {
    std::uint64_t v = (load(text) ^ 0x3030303030303030U) << (64 - 8 * count);
    bad |= ((v + 0x7676767676767676U) | v) & 0x8080808080808080U;
    v = v * 10 + (v >> 8);
    return (((v & 0x000000FF000000FFU) * 0x000F424000000064U) +
            (((v >> 16) & 0x000000FF000000FFU) * 0x0000271000000001U)) >>
           32;
}

/// Bytes from the start to the mark; 8 when it is not among the first eight.
inline std::size_t before(std::uint64_t eight, std::uint64_t mark_in_each) {
    const std::uint64_t x = eight ^ mark_in_each;
    const std::uint64_t zero = (x - 0x0101010101010101U) & ~x & 0x8080808080808080U;
    return zero == 0 ? 8 : static_cast<std::size_t>(__builtin_ctzll(zero)) / 8;
}

/// Everything the fast path leaves: blanks, quotes, grouping, exponents, long numbers, words for a
/// missing value.
[[nodiscard]] Cell read_rest(std::string_view text, const Marks& marks, double& value);

}  // namespace number

/// Reads a cell of one line. The decimal mark repeated in each of eight bytes saves making it.
class NumberReader {
public:
    explicit NumberReader(const Marks& marks)
        : marks_(marks),
          in_each_(0x0101010101010101U * static_cast<unsigned char>(marks.decimal)) {}

    [[nodiscard]] Cell operator()(const char* begin, const char* end, double& value) const {
        const bool minus = begin != end && *begin == '-';
        const char* const text = begin + (minus ? 1 : 0);
        const auto length = static_cast<std::size_t>(end - text);
        std::size_t whole = number::before(number::load(text), in_each_);
        if (whole == 8) whole += number::before(number::load(text + 8), in_each_);
        if (whole > length) whole = length;
        const std::size_t part = length > whole ? length - whole - 1 : 0;
        if (whole - 1 > 7 || part > 8 || whole + part > 15)
            return number::read_rest({begin, static_cast<std::size_t>(end - begin)}, marks_, value);
        std::uint64_t bad = 0;
        std::uint64_t all = number::digits(text, whole, bad);
        if (part > 0)
            all = all * number::whole_tens[part] + number::digits(text + whole + 1, part, bad);
        if (bad != 0)
            return number::read_rest({begin, static_cast<std::size_t>(end - begin)}, marks_, value);
        const double size = static_cast<double>(static_cast<std::int64_t>(all)) /
                            number::tens[part];  // both exact, so correctly rounded
        value = minus ? -size : size;
        return Cell::number;
    }

private:
    Marks marks_;
    std::uint64_t in_each_;
};

}  // namespace caseload::duty
