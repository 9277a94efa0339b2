// SPDX-License-Identifier: MIT
// Fourth step: what an event uses up. Bearing life along the event's temperatures, oil oxidation.
#pragma once

#include "caseload/heat.hpp"
#include "caseload/quantity.hpp"

#include <optional>
#include <string>
#include <vector>

namespace caseload {

/// Lubrication and life of one bearing in one bin at one temperature of its film.
struct BearingCondition {
    double film_degC = 0;
    double kappa = 0;  ///< viscosity ratio, sheared oil at film temperature
    double e_C = 0;
    double a_ISO = 0;       ///< of the state with the largest load
    double P_N = 0;         ///< largest over the slip states
    double rate_per_h = 0;  ///< share of L10 (10 % failing) used per hour in this bin
};
/// One bearing in one bin of one leg, by their numbers.
struct BearingPlace {
    std::size_t leg;
    std::size_t bin;
    std::size_t bearing;
};
/// Extreme-pressure additives: as the standard's rule says, or either side of its step.
enum class Additives { by_rule, helping, not_helping };
BearingCondition bearing_at_film(const Prepared& prepared, const BearingPlace& place,
                                 double film_degC, Additives additives = Additives::by_rule);
/// Film temperature above which the additives no longer help a bearing in a bin: its life rate
/// steps there. None where they never help, or at every film that is followed.
std::optional<double> additives_end_degC(const Prepared& prepared, const BearingPlace& place);
/// With the film its loss makes of this one without loss.
BearingCondition bearing_condition(const Prepared& prepared, const BearingPlace& place,
                                   double unheated_degC, Notes* notes);
/// Largest mean radial load a bearing turns under in the event: what its load zone is given at.
double largest_turning_N(const Prepared& prepared, std::size_t bearing);
/// A bearing's film without its loss where it is hottest in a leg of an event, after the event's
/// start; none: not driven.
std::optional<double> hottest_unheated_degC(const Prepared& prepared, const EventHeat& heat,
                                            std::size_t leg, std::size_t bearing);

struct BearingDamage {
    std::string name;
    double life_share = 0;        ///< of the 10 % failing life, per event
    double basic_life_share = 0;  ///< the same with a_ISO = 1
    double worst_kappa = 0;
    double worst_film_degC = 0;
    double P_largest_N = 0;
    double play_factor = 1;  ///< k at the largest mean radial load it turns under
    double zone_deg = 0;     ///< its load zone there; 0: its play does not count
    double clock_deg = 0;    ///< towards which the shaft presses in the most damaging bin
};
CASELOAD_MEMBERS(BearingDamage, "bearing_damage", name, life_share, basic_life_share, worst_kappa,
                 worst_film_degC, P_largest_N, play_factor, zone_deg, clock_deg);

struct Damage {
    std::vector<BearingDamage> bearings;
    double oil_dose = 0;  ///< share of the oil's oxidation life used per event
    Notes notes;
};
CASELOAD_MEMBERS(Damage, "damage", bearings, oil_dose, notes);

/// What one run of the event uses.
struct RunDamage {
    double oil_dose = 0;
    std::vector<double> life_shares;  ///< of each bearing
};

/// With `by_run`, also what each run of the event uses, as it goes.
Damage event_damage(const Prepared& prepared, const EventHeat& heat,
                    std::vector<RunDamage>* by_run = nullptr);

}  // namespace caseload
