// SPDX-License-Identifier: MIT
// Does this bearing stand the build: every standard size that fits, and bearings of one's own, in a
// position, through the whole chain.
#pragma once

#include "caseload/ask/band.hpp"

#include <optional>
#include <string>
#include <vector>

namespace caseload {

/// One bearing in one position. It holds only if all five hold, life, dents, speed, seat and oil:
/// with the likely values, and in 9 of 10 draws of the band.
struct BearingChoice {
    std::string name;  ///< own candidate; "" for a standard size
    BearingKind kind = BearingKind::deep_groove_ball;
    double bore_mm = 0;
    double outside_mm = 0;
    double width_mm = 0;
    bool now = false;        ///< what the setup has there
    bool estimated = false;  ///< its ratings are estimated from size
    double C_N = 0;
    double life_share = 0;   ///< of the 10 % failing life, per event
    double dent_margin = 0;  ///< static safety at the worst peak
    double cage_speed = 0;   ///< n d_m
    double speed_limit = 0;
    double heat_added_W = 0;  ///< bearings' friction at rest, hottest leg, over that of now
    double oil_peak_degC = 0;
    double mass_kg = 0;  ///< estimated
    /// Of draws in which life and oil hold; the other three do not move with the draws. Absent
    /// where it was not drawn: it fails already, or a lighter one holds.
    std::optional<double> holds_share{};
    std::vector<std::string> fails;  ///< what does not hold, in words; empty: it holds
};

template <>
struct Members<BearingChoice> {
    static constexpr std::string_view owner = "bearing_choice";
    static constexpr void all(auto&& member) {
        member("name", &BearingChoice::name);
        member("kind", &BearingChoice::kind);
        member("bore_mm", &BearingChoice::bore_mm);
        member("outside_mm", &BearingChoice::outside_mm);
        member("width_mm", &BearingChoice::width_mm);
        member("now", &BearingChoice::now);
        member("estimated", &BearingChoice::estimated);
        member("C_N", &BearingChoice::C_N);
        member("life_share", &BearingChoice::life_share);
        member("dent_margin", &BearingChoice::dent_margin);
        member("cage_speed", &BearingChoice::cage_speed);
        member("speed_limit", &BearingChoice::speed_limit);
        member("heat_added_W", &BearingChoice::heat_added_W);
        member("oil_peak_degC", &BearingChoice::oil_peak_degC);
        member("mass_kg", &BearingChoice::mass_kg);
        member("holds_share", &BearingChoice::holds_share);
        member("fails", &BearingChoice::fails);
    }
};

struct BearingPosition {
    std::string position;
    std::vector<BearingChoice> choices;  ///< what is there now first, then by mass
    int pick = -1;  ///< the lightest that holds; what is there when it holds; -1: none
};

template <>
struct Members<BearingPosition> {
    static constexpr std::string_view owner = "bearing_position";
    static constexpr void all(auto&& member) {
        member("position", &BearingPosition::position);
        member("choices", &BearingPosition::choices);
        member("pick", &BearingPosition::pick);
    }
};

struct BearingsAnswer {
    std::vector<BearingPosition> positions;
};

template <>
struct Members<BearingsAnswer> {
    static constexpr std::string_view owner = "bearings";
    static constexpr void all(auto&& member) { member("positions", &BearingsAnswer::positions); }
};

/// What may be fitted. An absent limit is that of the bearing there now; its bore always holds.
struct BearingsOptions {
    std::string position;  ///< "": all
    std::optional<double> outside_mm{};
    std::optional<double> width_mm{};
    BandOptions band{};
};

/// Throws Error{input} for a position that does not exist or candidates that fit no shaft, with the
/// nearest that would.
BearingsAnswer choose_bearings(const Document& document, const BearingsOptions& options);

}  // namespace caseload
