// SPDX-License-Identifier: MIT
#pragma once
#include <doctest/doctest.h>

/// Relative comparison at any magnitude. doctest::Approx alone adds 1 to the scale, so
/// 2e-6 == Approx(1e-6) is true; scale(0) removes that.
inline doctest::Approx rel(double expected, double tolerance) {
    return doctest::Approx(expected).epsilon(tolerance).scale(0);
}

/// |a - expected| <= tolerance, as an Approx for readable failures is not possible at 0.
inline bool within(double value, double expected, double tolerance) {
    return value >= expected - tolerance && value <= expected + tolerance;
}
