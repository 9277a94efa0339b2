// SPDX-License-Identifier: MIT
// Exponential and cube root of the fast case: no call, no branch, and the same bits on every
// machine, whatever its library's own are.
#pragma once

#include "ask/fast_four.hpp"

#include <array>
#include <cstddef>
#include <cstdint>

namespace caseload {

/// 2^(j/32), rounded to the nearest double: the bits of it.
inline constexpr std::array<std::uint64_t, 32> powers_of_two_bits{
    0x3ff0000000000000u, 0x3ff059b0d3158574u, 0x3ff0b5586cf9890fu, 0x3ff11301d0125b51u,
    0x3ff172b83c7d517bu, 0x3ff1d4873168b9aau, 0x3ff2387a6e756238u, 0x3ff29e9df51fdee1u,
    0x3ff306fe0a31b715u, 0x3ff371a7373aa9cbu, 0x3ff3dea64c123422u, 0x3ff44e086061892du,
    0x3ff4bfdad5362a27u, 0x3ff5342b569d4f82u, 0x3ff5ab07dd485429u, 0x3ff6247eb03a5585u,
    0x3ff6a09e667f3bcdu, 0x3ff71f75e8ec5f74u, 0x3ff7a11473eb0187u, 0x3ff82589994cce13u,
    0x3ff8ace5422aa0dbu, 0x3ff93737b0cdc5e5u, 0x3ff9c49182a3f090u, 0x3ffa5503b23e255du,
    0x3ffae89f995ad3adu, 0x3ffb7f76f2fb5e47u, 0x3ffc199bdd85529cu, 0x3ffcb720dcef9069u,
    0x3ffd5818dcfba487u, 0x3ffdfc97337b9b5fu, 0x3ffea4afa2a490dau, 0x3fff50765b6e4540u};

/// e^x of each to 1.1 units in the last place; beyond -700 and 700 as there.
/// Source: P. T. P. Tang, ACM Trans. Math. Softw. 15 (1989) 144: 2^(j/32) from a table times a
/// short series.
CASELOAD_FOUR Four fast_exp(const Four& x) {
    constexpr double thirty_two_over_ln2 = 46.16624130844683;
    constexpr double ln2_over_32_high = 0x1.62e42fep-6;  // times a count of parts: exact
    constexpr double ln2_over_32_low = 0x1.f473de6af278fp-35;
    constexpr double to_whole = 0x1.8p52;  // added, a number's last bit is worth 1
    const Four within = smaller(larger(x, -700.0), 700.0);
    const Four shifted = within * thirty_two_over_ln2 + to_whole;
    const Four parts = shifted - to_whole;
    const Four r = (within - parts * ln2_over_32_high) - parts * ln2_over_32_low;
    const Four::Bits count = shifted.bits();
    Four::Bits bits = (count >> 5u) << 52u;
    for (std::size_t k = 0; k < at_once; ++k) bits[k] += powers_of_two_bits[count[k] & 31u];
    const Four scale = Four::from_bits(bits);
    const Four r2 = r * r;
    const Four series =
        r + r2 * ((1.0 / 2 + r * (1.0 / 6)) + r2 * ((1.0 / 24 + r * (1.0 / 120)) + r2 / 720.0));
    return scale + scale * series;
}

/// Cube root of normal positive numbers to 3 units in the last place.
/// Source: Halley's rule for y^3 = x, from a third of the exponent.
CASELOAD_FOUR Four fast_cbrt(const Four& x) {
    // Two thirds of a one's exponent, less what makes the largest error of this start least: from
    // memory, and three rounds do not need it exact.
    constexpr std::uint64_t two_thirds_of_one = 0x2a9f7893782da1ceu;
    Four::Bits bits = x.bits();
    for (std::size_t k = 0; k < at_once; ++k) bits[k] = bits[k] / 3 + two_thirds_of_one;
    Four y = Four::from_bits(bits);
    for (int round = 0; round < 3; ++round) {
        const Four cube = y * y * y;
        y = y * ((cube + 2.0 * x) / (2.0 * cube + x));
    }
    return y;
}

}  // namespace caseload
