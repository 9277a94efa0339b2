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
/// By the byte of eight that the mark stands in.
constexpr double tens_after[] = {1e7, 1e6, 1e5, 1e4, 1e3, 1e2, 1e1, 1e0};
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

/// Value of eight digits less '0', the first in the lowest byte; sets `bad` when one is none. The
/// three products are Lemire's, Softw. Pract. Exp. 51 (2021) 1700, as in fast_float.
inline std::uint64_t whole_of_eight(std::uint64_t v, std::uint64_t& bad) {
    bad |= ((v + 0x7676767676767676U) | v) & 0x8080808080808080U;
    v = v * 10 + (v >> 8);
    return (((v & 0x000000FF000000FFU) * 0x000F424000000064U) +
            (((v >> 16) & 0x000000FF000000FFU) * 0x0000271000000001U)) >>
           32;
}

/// Value of 1 to 8 digits, all eight at once; sets `bad` when one is none.
inline std::uint64_t digits(const char* text, std::size_t count, std::uint64_t& bad) {
    return whole_of_eight((load(text) ^ noughts) << (64 - 8 * count), bad);
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

/// Reads a cell of one line. The decimal mark repeated in each of eight bytes saves making it.
class NumberReader {
public:
    explicit NumberReader(const Marks& marks)
        : marks_(marks),
          in_each_(0x0101010101010101U * static_cast<unsigned char>(marks.decimal)),
          mark_(in_each_ ^ number::noughts) {}

    /// Up to eight characters beside the sign, digits and perhaps a mark: nearly all of a log.
    /// False of anything else.
    [[nodiscard]] bool read_short(const char* begin, const char* end, double& value) const {
        // An empty cell is followed by a delimiter or line end, never by a sign.
        const bool minus = *begin == '-';
        const char* const text = begin + (minus ? 1 : 0);
        const std::size_t length = length_of(text, end);
        if (length - 1 > 7) return false;
        // The last character in the highest byte, zeros below the first.
        std::uint64_t v = (number::load(text) ^ number::noughts) << (64 - 8 * length);
        const std::uint64_t mark = number::zero_bytes(v ^ mark_);
        double below = 1;
        if (mark != 0) {
            if (length == 1) return false;
            // The whole part moves up by a byte, over the mark: the lowest of the bits set.
            const std::uint64_t through = mark ^ (mark - 1);
            v ^= (v ^ (v << 8U)) & through;
            below = number::tens_after[static_cast<unsigned>(__builtin_ctzll(mark)) / 8];
        }
        std::uint64_t bad = 0;
        const std::uint64_t all = number::whole_of_eight(v, bad);
        if (bad != 0) return false;
        // Both exact, so correctly rounded.
        const double size = static_cast<double>(static_cast<std::int32_t>(all)) / below;
        value = minus ? -size : size;
        return true;
    }

    /// Any cell that read_short leaves.
    [[nodiscard]] Cell read_other(const char* begin, const char* end, double& value) const;

private:
    static std::size_t length_of(const char* begin, const char* end) {
        return static_cast<std::size_t>(end - begin);
    }

    Marks marks_;
    std::uint64_t in_each_;
    std::uint64_t mark_;  ///< the same less '0'
};

}  // namespace caseload::duty
