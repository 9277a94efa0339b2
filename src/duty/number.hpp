// SPDX-License-Identifier: MIT
// Numbers as loggers write them. Fixed decimals of up to 15 digits, which is nearly all of a log,
// take a path of their own; everything else goes to fast_float.
#pragma once

#include <array>
#include <cstddef>
#include <cstdint>
#include <cstring>
#include <string_view>

namespace caseload::duty {

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

constexpr std::uint64_t noughts = 0x3030303030303030U;  // eight times '0'

inline std::uint64_t load(const char* text) {
    std::uint64_t bytes = 0;
    std::memcpy(&bytes, text, sizeof bytes);
#if defined(__BYTE_ORDER__) && __BYTE_ORDER__ == __ORDER_BIG_ENDIAN__
    bytes = __builtin_bswap64(bytes);
#endif
    return bytes;
}

constexpr std::uint64_t no_digits = 0x7676767676767676U;  // 10 and more with it: the top bit

/// Not 0 when one of eight digits less '0' is none. `beyond`, added to a byte, sets its top bit
/// where the byte is too large.
inline std::uint64_t wrong_digits(std::uint64_t v, std::uint64_t beyond = no_digits) {
    return ((v + beyond) | v) & 0x8080808080808080U;
}

/// Value of eight digits less '0', the first in the lowest byte: neighbours put together, in pairs,
/// fours and eight. After Lemire, Softw. Pract. Exp. 51 (2021) 1700, whose last two steps are one.
inline std::uint64_t whole_of_eight(std::uint64_t v) {
    v = (v * 10 + (v >> 8)) & 0x00FF00FF00FF00FFU;
    v = (v * 100 + (v >> 16)) & 0x0000FFFF0000FFFFU;
    return (v * 10000 + (v >> 32)) & 0xFFFFFFFFU;
}

/// Value of 1 to 8 digits, all eight at once; sets `bad` when one is none.
inline std::uint64_t digits(const char* text, std::size_t count, std::uint64_t& bad) {
    const std::uint64_t v = (load(text) ^ noughts) << (64 - 8 * count);
    bad |= wrong_digits(v);
    return whole_of_eight(v);
}

/// The top bit of each byte that is zero; beyond the lowest such byte others may be set too.
inline std::uint64_t zero_bytes(std::uint64_t x) {
    return (x - 0x0101010101010101U) & ~x & 0x8080808080808080U;
}

/// Bytes from the start to the mark; 8 when it is not among the first eight.
inline std::size_t before(std::uint64_t eight, std::uint64_t mark_in_each) {
    const std::uint64_t zero = zero_bytes(eight ^ mark_in_each);
    return zero == 0 ? 8 : static_cast<std::size_t>(__builtin_ctzll(zero)) / 8;
}

/// Everything the fast path leaves: blanks, quotes, grouping, exponents, long numbers, words for a
/// missing value.
[[nodiscard]] Cell read_rest(std::string_view text, const Marks& marks, double& value);

}  // namespace number

/// Where the decimal mark is in a text of up to eight characters, the last in the highest of eight
/// bytes. Nearly all numbers of a column are alike in it.
struct NumberForm {
    std::uint64_t mark = 0;                    ///< less '0', in its byte; 0: none
    std::uint64_t beyond = number::no_digits;  ///< of wrong_digits; of the mark's byte all but 0
    std::uint64_t through = 0;                 ///< bytes up to the mark and with it
    double below = 1;                          ///< ten to the digits behind
};

/// Reads a cell of one line.
class NumberReader {
public:
    explicit NumberReader(const Marks& marks);

    /// Up to eight characters beside the sign, digits and perhaps a mark with digits behind: nearly
    /// all of a log. Tries the form of the column's last number first and leaves that of this one.
    /// False of anything else.
    [[nodiscard]] bool read_short(const char* begin, const char* end, const NumberForm*& form,
                                  double& value) const {
        return read_as(*form, begin, end, value) || read_new(begin, end, form, value);
    }
    /// Of a column whose numbers are not known yet.
    [[nodiscard]] const NumberForm* whole_form() const { return &forms_.back(); }

    /// Any cell that read_short leaves.
    [[nodiscard]] Cell read_other(const char* begin, const char* end, double& value) const;

private:
    static std::size_t length_of(const char* begin, const char* end) {
        return static_cast<std::size_t>(end - begin);
    }
    /// False where the text has another form or is no such number.
    [[nodiscard]] static bool read_as(const NumberForm& form, const char* begin, const char* end,
                                      double& value) {
        // An empty cell is followed by a delimiter or line end, never by a sign.
        const bool minus = *begin == '-';
        const char* const text = begin + (minus ? 1 : 0);
        const std::size_t length = length_of(text, end);
        if (length - 1 > 7) return false;
        // The last character comes into the highest byte: 64 - 8 length, within 0..63.
        std::uint64_t v =
            ((number::load(text) ^ number::noughts) << ((64 - 8 * length) & 63)) ^ form.mark;
        if (number::wrong_digits(v, form.beyond) != 0) return false;
        // The whole part moves up by a byte, over the mark.
        v ^= (v ^ (v << 8U)) & form.through;
        // Both exact, so correctly rounded.
        const double size =
            static_cast<double>(static_cast<std::int32_t>(number::whole_of_eight(v))) / form.below;
        value = minus ? -size : size;
        return true;
    }
    [[nodiscard, gnu::noinline]] bool read_new(const char* begin, const char* end,
                                               const NumberForm*& form, double& value) const;

    Marks marks_;
    std::uint64_t mark_in_each_;       ///< of eight bytes
    std::array<NumberForm, 8> forms_;  ///< by the mark's byte; the last has none
};

}  // namespace caseload::duty
