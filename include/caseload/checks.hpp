// SPDX-License-Identifier: MIT
// What can end the day at once, each with a verdict, its number and its limit. After damage, before
// intervals.
#pragma once

#include "caseload/damage.hpp"
#include "caseload/seats.hpp"
#include "caseload/teeth.hpp"

#include <string>
#include <string_view>
#include <vector>

namespace caseload {

// Empty defaults stand so that a list of designated members may leave some out (-Wextra).
struct Check {
    std::string id{};       ///< stable: "bearing.dent", "seat.hot", ...
    std::string about{};    ///< part, for example "bearing.output_rear"
    std::string verdict{};  ///< fine | watch | stop | shown
    std::string words{};    ///< what is looked at, in the trade's words first
    double value = 0;
    double limit = 0;       ///< at which the verdict leaves fine; 0 with `shown`
    bool at_least = false;  ///< true: value must not fall below the limit
    std::string unit{};
    std::string consequence{};  ///< what it means when it is not fine; "" when fine
};

template <>
struct Members<Check> {
    static constexpr std::string_view owner = "check";
    static constexpr void all(auto&& member) {
        member("id", &Check::id);
        member("about", &Check::about);
        member("verdict", &Check::verdict);
        member("words", &Check::words);
        member("value", &Check::value);
        member("limit", &Check::limit);
        member("at_least", &Check::at_least);
        member("unit", &Check::unit);
        member("consequence", &Check::consequence);
    }
};

/// Everything the checks look at, for one side.
struct Checked {
    std::vector<GearDamage> gears;
    FlankChecks flanks;
    std::vector<SeatResult> seats;
    PlayChange play;
    std::vector<Check> checks;  ///< in the order of the case; `worst_first` for people
};

template <>
struct Members<Checked> {
    static constexpr std::string_view owner = "checked";
    static constexpr void all(auto&& member) {
        member("gears", &Checked::gears);
        member("flanks", &Checked::flanks);
        member("seats", &Checked::seats);
        member("play", &Checked::play);
        member("checks", &Checked::checks);
    }
};

/// A lip runs hotter than what it seals by this while the shaft turns: 20 to 60 K, from memory.
inline constexpr double lip_rise_K = 30;
/// Above the limit of its sump a seal is looked at when the case is opened, from so much above it
/// on it is watched. Judgement.
inline constexpr double seal_look_K = 10;

struct SealLimits {
    double sump_degC;  ///< of the oil or the case it sits in
    double lip_degC;   ///< of the lip itself, for a short time
};
/// What a lip of this material stands, in gear oil with or without extreme-pressure additives.
SealLimits seal_limits(SealMaterial material, bool ep_additive);

Checked check_case(const Prepared& prepared, const EventHeat& heat, const Damage& damage);

/// What `words` end with where the value is not the number itself.
inline constexpr std::string_view above_ceiling_words = ", above";
inline constexpr std::string_view hotter_flanks_words = ", at 160 degC: it runs hotter, with less";

/// stop before watch before fine before shown; within one verdict what a case does not survive
/// first.
std::vector<Check> worst_first(const std::vector<Check>& checks);

}  // namespace caseload
