// SPDX-License-Identifier: MIT
// Seats, clearance, play and replacement.
#include "caseload/evidence.hpp"
#include "caseload/formulas/iso_286.hpp"
#include "caseload/formulas/operating_clearance.hpp"
#include "caseload/formulas/replacement.hpp"
#include "caseload/formulas/thermal_play.hpp"
#include "caseload/formulas/thick_ring.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <string_view>
#include <utility>

namespace caseload {
namespace {

class Worst {
public:
    void meet(double difference) { value_ = std::max(value_, std::fabs(difference)); }
    [[nodiscard]] double value() const { return value_; }

private:
    double value_ = 0;
};

// --- pressed rings -------------------------------------------------------------------------------

/// Cylinders of 4, 6 and 8 in radius, 0.005 in on radius, E 30e6 psi: inches and psi throughout.
double shrink_fit_psi() {
    const thick_ring::Material steel{.E_MPa = 30e6, .nu = 0.3, .expansion_pK = 0};
    return thick_ring::joint({.inside_mm = 8,
                              .joint_mm = 12,
                              .outside_mm = 16,
                              .inner = steel,
                              .outer = steel,
                              .interference_mm = 0.010},
                             {20, 20})
        .pressure_MPa;
}

constexpr thick_ring::Fit direct{.inside_mm = 158,
                                 .joint_mm = 170,
                                 .outside_mm = 210,
                                 .inner = thick_ring::steel,
                                 .outer = thick_ring::aluminium,
                                 .interference_mm = 0.040};

double worst_direct_MPa() {
    Worst worst;
    for (const auto& [temp_degC, pressure_MPa] :
         {std::pair{-20.0, 5.03616}, {20.0, 1.71415}, {80.0, 0.0}})
        worst.meet(thick_ring::joint(direct, {temp_degC, temp_degC}).pressure_MPa - pressure_MPa);
    return worst.value();
}

double worst_direct_gap_um() {
    struct Row {
        thick_ring::FitTemps temps;
        double gap_um;
    };
    Worst worst;
    for (const Row& row : {Row{{80, 80}, 76.28}, Row{{110, 110}, 134.42}, Row{{120, 100}, 74.24}})
        worst.meet(1000 * thick_ring::joint(direct, row.temps).gap_mm - row.gap_um);
    return worst.value();
}

thick_ring::Nest retained(double retainer_interference_mm) {
    return {.raceway_mm = 158,
            .ring_outside_mm = 170,
            .retainer_outside_mm = 190,
            .boss_outside_mm = 230,
            .ring = thick_ring::steel,
            .retainer = thick_ring::steel,
            .boss = thick_ring::aluminium,
            .ring_interference_mm = 0.030,
            .retainer_interference_mm = retainer_interference_mm};
}

struct RetainedRow {
    double retainer_interference_mm;
    double temp_degC;
    double ring_MPa;
    double retainer_MPa;
    double shrink_um;
};
constexpr std::array retained_rows{RetainedRow{0.150, -20, 7.1301, 12.5243, 80.31},
                                   RetainedRow{0.150, 20, 5.2021, 8.1575, 58.59},
                                   RetainedRow{0.150, 80, 2.3102, 1.6073, 26.02},
                                   RetainedRow{0.150, 110, 1.6006, 0, 18.03},
                                   RetainedRow{0.250, 20, 7.4274, 13.1977, 83.66},
                                   RetainedRow{0.250, 110, 3.0895, 3.3724, 34.80}};

thick_ring::NestJoints joints(const RetainedRow& row) {
    return thick_ring::joints(retained(row.retainer_interference_mm),
                              {row.temp_degC, row.temp_degC, row.temp_degC});
}

double worst_retained_MPa() {
    Worst worst;
    for (const RetainedRow& row : retained_rows) {
        worst.meet(joints(row).ring.pressure_MPa - row.ring_MPa);
        worst.meet(joints(row).retainer.pressure_MPa - row.retainer_MPa);
    }
    return worst.value();
}

double worst_shrink_um() {
    Worst worst;
    for (const RetainedRow& row : retained_rows) {
        const double growth_mm = thick_ring::inside_growth_mm({158, 170, thick_ring::steel},
                                                              {0, joints(row).ring.pressure_MPa});
        worst.meet(-1000 * growth_mm - row.shrink_um);
    }
    return worst.value();
}

// --- fits and clearance --------------------------------------------------------------------------

/// IT6, IT7 and the shaft deviations behind the bores, over 80 to 250 mm, as a textbook prints
/// them.
double worst_textbook_um() {
    struct Row {
        double size_mm;
        double IT6;
        double IT7;
        double k;
        double n;
        double p;
    };
    Worst worst;
    for (const Row& row :
         {Row{100, 22, 35, 3, 23, 37}, Row{140, 25, 40, 3, 27, 43}, Row{200, 29, 46, 4, 31, 50}}) {
        const auto upper_um = [&](std::string_view name) {
            return 1000 * iso_286::hole_band_mm(name, row.size_mm).upper_mm;
        };
        const double delta = upper_um("H7") - upper_um("H6");
        worst.meet(upper_um("H6") - row.IT6);
        worst.meet(upper_um("H7") - row.IT7);
        worst.meet(delta - upper_um("K7") - row.k);
        worst.meet(delta - upper_um("N7") - row.n);
        worst.meet(delta - upper_um("P7") - row.p);
    }
    return worst.value();
}

double worst_fit_share() {
    using namespace operating_clearance;
    return std::max({std::fabs(inner_reduction_mm({1, 0, 110, 122}) - 0.9016),
                     std::fabs(inner_reduction_mm({1, 70, 110, 122}) - 0.7998),
                     std::fabs(outer_reduction_mm({1, 158, 170, 210}) - 0.7382)});
}

/// Ball bearing of 45 mm bore: balls of 12.7 mm, grooves of 0.52.
constexpr operating_clearance::Grooves ball_45_mm{.D_w_mm = 12.7, .f_i = 0.52, .f_e = 0.52};

// --- replacement ---------------------------------------------------------------------------------

/// The survival the sources put into the rule: no failure-free age.
replacement::Survival weibull_life(double theta, double slope) {
    return [=](double age) { return std::exp(-std::pow(age / theta, slope)); };
}

double uniform_rate(double age_km) {
    return replacement::cost_rate([](double km) { return std::max(0.0, 1 - km / 40000); },
                                  {100, 200}, age_km);
}

const replacement::Optimum& library_case() {
    static const replacement::Optimum best =
        replacement::optimum(weibull_life(1000, 2.5), {1, 5}).value();
    return best;
}

struct AgeRow {
    double slope;
    double failure;
    double age;
    double cost_ratio;
    double survival;
};
constexpr std::array age_rows{
    AgeRow{1.5, 3, 1.157, 0.971, 0.288},  AgeRow{1.5, 5, 0.675, 0.890, 0.574},
    AgeRow{1.5, 10, 0.378, 0.749, 0.793}, AgeRow{1.5, 20, 0.226, 0.612, 0.898},
    AgeRow{2.0, 3, 0.738, 0.872, 0.580},  AgeRow{2.0, 5, 0.511, 0.724, 0.770},
    AgeRow{2.0, 10, 0.336, 0.537, 0.893}, AgeRow{2.0, 20, 0.230, 0.388, 0.948},
    AgeRow{2.5, 3, 0.657, 0.787, 0.705},  AgeRow{2.5, 5, 0.493, 0.614, 0.843},
    AgeRow{2.5, 10, 0.355, 0.421, 0.928}, AgeRow{2.5, 20, 0.262, 0.283, 0.965},
    AgeRow{3.5, 3, 0.635, 0.676, 0.815},  AgeRow{3.5, 5, 0.520, 0.490, 0.904},
    AgeRow{3.5, 10, 0.411, 0.308, 0.956}, AgeRow{3.5, 20, 0.332, 0.190, 0.979}};

double worst_age_table() {
    Worst worst;
    for (const AgeRow& row : age_rows) {
        const auto best =
            replacement::optimum(weibull_life(1, row.slope), {1, row.failure}).value();
        worst.meet(best.age - row.age);
        worst.meet(best.cost_ratio - row.cost_ratio);
        worst.meet(best.survival - row.survival);
    }
    return worst.value();
}

double worst_five_costs() {
    Worst worst;
    const double table[][3] = {{2, 8.103, 0.1970},
                               {3, 6.365, 0.2431},
                               {6, 4.661, 0.3259},
                               {10, 3.825, 0.3949},
                               {11, 3.692, 0.4089}};
    for (const auto& row : table) {
        const auto best = replacement::optimum(weibull_life(10, 3), {1, row[0]}).value();
        worst.meet(best.age - row[1]);
        worst.meet(best.cost_rate - row[2]);
    }
    return worst.value();
}

double worst_campaign() {
    Worst worst;
    const double table[][4] = {{0, 1, 0.61885, 0.20877},
                               {0.25, 0.83169, 0.47070, 0.11486},
                               {0.5, 0.72363, 0.39054, 0.08631},
                               {1, 0.58740, 0.30269, 0.06262},
                               {1.5, 0.50409, 0.25449, 0.05148}};
    const double wanted[] = {0.90, 0.95, 0.99};
    for (const auto& row : table) {
        replacement::Campaign next{
            .law = {0.9, 1.5}, .used = row[0], .per_event = 1, .wanted = wanted[0]};
        for (int i = 0; i < 3; ++i) {
            next.wanted = wanted[i];
            worst.meet(replacement::campaign_events(next) - row[i + 1]);
        }
    }
    return worst.value();
}

constexpr Calculation own_seats[] = {
    {"shrink-fit-pressure", shrink_fit_psi},
    {"seat-direct-pressure", worst_direct_MPa},
    {"seat-direct-gap", worst_direct_gap_um},
    {"seat-direct-release", [] { return thick_ring::release_degC(direct); }},
    {"seat-retainer-pressure", worst_retained_MPa},
    {"seat-retainer-shrink", worst_shrink_um},
    {"seat-retainer-release",
     [] { return thick_ring::release_degC(retained(0.150)).retainer_degC; }},
    {"seat-retainer-release-tight",
     [] { return thick_ring::release_degC(retained(0.250)).retainer_degC; }},
    {"iso-286-deviations", worst_textbook_um},
    {"clearance-fit-shares", worst_fit_share},
    {"clearance-thermal",
     [] {
         return 1000 *
                operating_clearance::thermal_reduction_mm(
                    {.D_pw_mm = 140, .expansion_pK = 12e-6, .inner_degC = 110, .outer_degC = 100});
     }},
    {"harris-45-mm-angle",
     [] { return operating_clearance::free_contact_angle_deg(ball_45_mm, 0.015); }},
    {"harris-45-mm-end-play",
     [] { return operating_clearance::ball_end_play_mm(ball_45_mm, 0.015); }},
    {"backlash-185",
     [] {
         return thermal_play::backlash_change_mm(
             {.housing_pK = 23.4e-6, .steel_pK = 12.0e-6, .housing_degC = 110, .steel_degC = 110},
             {.centre_distance_mm = 185, .alpha_w_deg = 20});
     }},
    {"jardine-2-2-10", [] { return uniform_rate(10000); }},
    {"jardine-2-2-20", [] { return uniform_rate(20000); }},
    {"jardine-2-2-30", [] { return uniform_rate(30000); }},
    {"jardine-2-2-40", [] { return uniform_rate(40000); }},
    {"jardine-2-2-optimum",
     [] {
         return 10000.0 * replacement::cheapest_events(
                              [](double steps) { return std::max(0.0, 1 - steps / 4); }, {100, 200})
                              .value();
     }},
    {"reliability-library-age", [] { return library_case().age; }},
    {"reliability-library-cost", [] { return library_case().cost_rate; }},
    {"reliability-library-patched",
     [] { return replacement::minimal_repair_age({2.5, 1000, 1, 5}); }},
    {"replacement-table", worst_age_table},
    {"replacement-five-costs", worst_five_costs},
    {"campaign-table", worst_campaign},
};

}  // namespace

std::span<const Calculation> seat_calculations() {
    return own_seats;
}

}  // namespace caseload
