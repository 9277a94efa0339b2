// SPDX-License-Identifier: MIT
// Numbers and lists for people.
#pragma once

#include <string>
#include <string_view>

namespace caseload {

/// A number to so many significant figures (1 to 15), written out: no exponent, no zeros behind the
/// last figure, no "-0". What rounding left of a zero (below 1e-9) is 0. "none" if it is not
/// finite.
std::string figures(double value, int significant);

/// A whole number, no "-0".
std::string whole(double value);

/// A figure with its sign: "+0.3", "-2", "0".
std::string signed_figures(double value, int significant);

/// A share as per cent to two figures, without the sign of it; "below 0.0001" where less is used.
std::string percent_figures(double share);

/// "1 bin", "3 bins".
std::string counted(double count, std::string_view what);
template <class Whole>
std::string counted(Whole count, std::string_view what) {
    return counted(static_cast<double>(count), what);
}

/// What `one` makes of each item, `between` between them; "" makes no part.
template <class Items, class One>
std::string joined(const Items& items, std::string_view between, const One& one) {
    std::string out;
    for (const auto& item : items) {
        const std::string part = one(item);
        if (!out.empty() && !part.empty()) out += between;
        out += part;
    }
    return out;
}

}  // namespace caseload
