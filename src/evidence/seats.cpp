// SPDX-License-Identifier: MIT
// Seats, clearance, play and replacement.
#include "caseload/evidence.hpp"
#include "caseload/formulas/iso_286.hpp"
#include "caseload/formulas/replacement.hpp"
#include "caseload/formulas/thick_ring.hpp"

#include <algorithm>
#include <cmath>
#include <string_view>

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

constexpr Calculation own_seats[] = {
    {"shrink-fit-pressure", shrink_fit_psi},
    {"iso-286-deviations", worst_textbook_um},
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
};

}  // namespace

std::span<const Calculation> seat_calculations() {
    return own_seats;
}

}  // namespace caseload
