// SPDX-License-Identifier: MIT
// Four numbers calculated at once: four draws side by side, four bearings, or the three parts of a
// case and nothing. Each is the number it would be alone: no sum runs over the four, and nothing is
// fused.
#pragma once

#include <cstddef>
#include <cstdint>
#include <cstring>
#include <memory>
#include <vector>

// Compiled a second time for wider vectors where the compiler knows how and the machine may have
// them. Not for Windows, where GCC keeps such vectors at places the processor refuses (GCC bug
// 54412, from memory); not with Clang, which refuses vectors as arguments between the two.
#if defined(__x86_64__) && defined(__GNUC__) && !defined(__clang__) && !defined(_WIN32)
#define CASELOAD_WIDE_VECTORS 1
#else
#define CASELOAD_WIDE_VECTORS 0
#endif

namespace caseload {

inline constexpr std::size_t at_once = 4;

// Inlined always: where a call would put such vectors depends on the processor compiled for, of
// which GCC warns even so.
#pragma GCC diagnostic ignored "-Wpsabi"
#define CASELOAD_FOUR [[nodiscard, gnu::always_inline]] inline

/// For each of the four all bits, or none: what a comparison gives.
struct alignas(at_once * sizeof(double)) FourMask {
    using Vector = std::int64_t __attribute__((vector_size(at_once * sizeof(std::int64_t))));
    Vector bits;

    CASELOAD_FOUR bool operator[](std::size_t k) const { return bits[k] != 0; }
    [[gnu::always_inline]] inline void set(std::size_t k, bool on) { bits[k] = on ? -1 : 0; }
    CASELOAD_FOUR bool any() const { return (bits[0] | bits[1] | bits[2] | bits[3]) != 0; }
    CASELOAD_FOUR bool all() const { return (bits[0] & bits[1] & bits[2] & bits[3]) != 0; }
    CASELOAD_FOUR friend FourMask operator&(const FourMask& a, const FourMask& b) {
        return {a.bits & b.bits};
    }
    CASELOAD_FOUR friend FourMask operator|(const FourMask& a, const FourMask& b) {
        return {a.bits | b.bits};
    }
};

/// Aligned for the widest vectors in every function: GCC's own alignment of them depends on the
/// processor that a function is compiled for.
struct alignas(at_once * sizeof(double)) Four {
    using Vector = double __attribute__((vector_size(at_once * sizeof(double))));
    using Bits = std::uint64_t __attribute__((vector_size(at_once * sizeof(std::uint64_t))));
    Vector of{};

    Four() = default;
    [[gnu::always_inline]] inline explicit Four(const Vector& four) : of(four) {}
    /// The same number four times.
    // NOLINTNEXTLINE(google-explicit-constructor): as a number among numbers
    [[gnu::always_inline]] inline Four(double one) : of{one, one, one, one} {}
    [[gnu::always_inline]] inline Four(double a, double b, double c, double d) : of{a, b, c, d} {}
    CASELOAD_FOUR static Four at(const double* from) {
        Four x;
        std::memcpy(&x.of, from, sizeof x.of);
        return x;
    }
    CASELOAD_FOUR static Four from_bits(const Bits& bits) {
        Four x;
        std::memcpy(&x.of, &bits, sizeof x.of);
        return x;
    }
    CASELOAD_FOUR Bits bits() const {
        Bits bits;
        std::memcpy(&bits, &of, sizeof bits);
        return bits;
    }
    CASELOAD_FOUR double operator[](std::size_t k) const { return of[k]; }
    [[gnu::always_inline]] inline void set(std::size_t k, double x) { of[k] = x; }
    [[gnu::always_inline]] inline Four& operator+=(const Four& b) {
        of += b.of;
        return *this;
    }
    CASELOAD_FOUR Four operator-() const { return Four(-of); }
    CASELOAD_FOUR friend Four operator+(const Four& a, const Four& b) { return Four(a.of + b.of); }
    CASELOAD_FOUR friend Four operator-(const Four& a, const Four& b) { return Four(a.of - b.of); }
    CASELOAD_FOUR friend Four operator*(const Four& a, const Four& b) { return Four(a.of * b.of); }
    CASELOAD_FOUR friend Four operator/(const Four& a, const Four& b) { return Four(a.of / b.of); }
    CASELOAD_FOUR friend FourMask operator<(const Four& a, const Four& b) { return {a.of < b.of}; }
    CASELOAD_FOUR friend FourMask operator<=(const Four& a, const Four& b) {
        return {a.of <= b.of};
    }
    CASELOAD_FOUR friend FourMask operator>(const Four& a, const Four& b) { return b < a; }
    CASELOAD_FOUR friend FourMask operator>=(const Four& a, const Four& b) { return b <= a; }
};

/// `a` where the mask is, else `b`.
CASELOAD_FOUR Four where(const FourMask& mask, const Four& a, const Four& b) {
    return Four(mask.bits ? a.of : b.of);
}
/// As std::min and std::max: the first where both are equal.
CASELOAD_FOUR Four smaller(const Four& a, const Four& b) {
    return where(b < a, b, a);
}
CASELOAD_FOUR Four larger(const Four& a, const Four& b) {
    return where(a < b, b, a);
}
CASELOAD_FOUR Four magnitude(const Four& x) {
    constexpr std::uint64_t all_but_sign = ~std::uint64_t{0} >> 1u;
    return Four::from_bits(x.bits() & all_but_sign);
}
/// Cut off to whole numbers, which must be small.
struct FourWhole {
    using Vector = std::int32_t __attribute__((vector_size(at_once * sizeof(std::int32_t))));
    Vector of;

    [[gnu::always_inline]] inline explicit FourWhole(const Four& x)
        : of(__builtin_convertvector(x.of, Vector)) {}
    CASELOAD_FOUR std::size_t operator[](std::size_t k) const {
        return static_cast<std::size_t>(of[k]);
    }
    CASELOAD_FOUR Four as_four() const { return Four(__builtin_convertvector(of, Four::Vector)); }
};
/// The first three columns of four rows.
[[gnu::always_inline]] inline void columns(const Four (&rows)[at_once], Four& a, Four& b, Four& c) {
    const auto even01 = __builtin_shufflevector(rows[0].of, rows[1].of, 0, 4, 2, 6);
    const auto even23 = __builtin_shufflevector(rows[2].of, rows[3].of, 0, 4, 2, 6);
    const auto odd01 = __builtin_shufflevector(rows[0].of, rows[1].of, 1, 5, 3, 7);
    const auto odd23 = __builtin_shufflevector(rows[2].of, rows[3].of, 1, 5, 3, 7);
    a = Four(__builtin_shufflevector(even01, even23, 0, 1, 4, 5));
    b = Four(__builtin_shufflevector(odd01, odd23, 0, 1, 4, 5));
    c = Four(__builtin_shufflevector(even01, even23, 2, 3, 6, 7));
}

/// Room for many of them, used again and again: what was taken is valid until all is given back.
class FourStore {
public:
    /// Their values are left from the last use.
    [[nodiscard]] Four* take(std::size_t count) {
        while (at_ < blocks_.size() && blocks_[at_].size - used_ < count) {
            ++at_;
            used_ = 0;
        }
        if (at_ == blocks_.size()) {
            const std::size_t size = count > least_block ? count : least_block;
            blocks_.push_back({std::unique_ptr<Place[]>(new Place[size]), size});
        }
        auto* const taken = reinterpret_cast<Four*>(&blocks_[at_].places[used_]);
        used_ += count;
        return taken;
    }
    void give_back_all() { at_ = used_ = 0; }

private:
    static constexpr std::size_t least_block = 8192;
    /// One of them, not set to zero.
    struct alignas(Four) Place {
        unsigned char bytes[sizeof(Four)];
    };
    struct Block {
        std::unique_ptr<Place[]> places;
        std::size_t size;
    };
    std::vector<Block> blocks_;
    std::size_t at_ = 0;
    std::size_t used_ = 0;  ///< of the block there
};

}  // namespace caseload
