// SPDX-License-Identifier: MIT
// The fill against the room for it: housing, core and hoses, and the pump that sends it round.
#include "input/build.hpp"
#include "input/fields.hpp"
#include "input/gears.hpp"

#include "caseload/figures.hpp"
#include "caseload/units.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <string>

namespace caseload::input {
namespace {

// Passages of a core of stacked plates: pitch of its rows, height of the oil in them, and what the
// edge of a passage takes of the depth. Judgement; 7 to 9, 1.8 to 3.2 and 4 to 8 mm.
constexpr double row_pitch_mm = 8;
constexpr double passage_mm = 2.4;
constexpr double passage_edge_mm = 6;
// Hoses to the core and back, and the bore of hoses and ports. Judgement.
constexpr double hoses_m = 3;
constexpr double bore_mm = 11;
// Oil the case needs beside core and hoses. Judgement.
constexpr double least_in_case_L = 0.3;
// Seconds in which the pump sends the fill round once. Judgement: 3 to 6, 8 to 20.
constexpr double least_round_s = 4;
constexpr double asked_round_s = 12;
constexpr double slow_round_s = 120;
// Share of the free inside: above it a scavenged case is no longer dry, a dipped one drowned.
// Judgement.
constexpr double scavenged_share = 0.3;
constexpr double dipped_share = 0.5;
// Oil in hoses and ports. Judgement.
constexpr double asked_port_mps = 6;
// A dipped case: oil over its floor is this much higher than the lowest tooth tip's immersion, and
// the fill lies within a factor of two of it. Judgement.
constexpr double below_tip_mm = 10;
constexpr double dipped_factor = 2;

double bore_m2() {
    return pi / 4 * m_from_mm(bore_mm) * m_from_mm(bore_mm);
}

/// Oil in core and hoses. Tubes and fins are left out: their passages are not known.
double core_and_hoses_L(const Completed& from, const CoolerInput& cooler) {
    if (!cooler.fit) return 0;
    const double hoses_L = L_from_mm3(hoses_m * 1000 * pi / 4 * bore_mm * bore_mm);
    if (from.text("cooler.construction") == "tube-fin") return hoses_L;
    const double depth_mm = std::max(cooler.depth_mm - passage_edge_mm, 0.0);
    return hoses_L +
           L_from_mm3(cooler.height_mm / row_pitch_mm * cooler.width_mm * depth_mm * passage_mm);
}

double inside_L(const HousingInput& housing) {
    const auto inside_mm = [&](double outside) {
        return std::max(outside - 2 * housing.wall_mm, 0.0);
    };
    return L_from_mm3(inside_mm(housing.along_mm) * inside_mm(housing.across_mm) *
                      inside_mm(housing.high_mm));
}

/// Gears and shafts as discs of their reference diameters, unless their mass is entered.
double steel_L(const Setup& setup) {
    const GearsInput& gears = setup.gears;
    double discs_L = 0;
    for (const int z : gears.teeth) {
        const double d_mm = gears.module_mm * z / std::cos(rad_from_deg(gears.helix_angle_deg));
        discs_L += L_from_mm3(pi / 4 * d_mm * d_mm * gears.face_width_mm);
    }
    if (setup.transfer_case.steel_mass_kg)
        return *setup.transfer_case.steel_mass_kg / steel_density_kgpm3 * 1000;
    return steel_over_discs * discs_L;
}

class Circuit {
public:
    Circuit(Completed& from, const Setup& setup)
        : from_(from),
          setup_(setup),
          fill_L_(setup.oil.fill_L),
          least_L_(core_and_hoses_L(from, setup.cooler) + least_in_case_L),
          free_L_(inside_L(setup.housing) - steel_L(setup)),
          pump_(setup.lubrication.pump ? &*setup.lubrication.pump : nullptr) {}

    void check() {
        const Item* fill = from_.find("oil.fill");
        entered_ = fill == nullptr ? "oil.fill" : "oil.fill = " + toml_text(fill->value);
        if (free_L_ <= 0) {
            from_.problem_at(
                {"housing.size", "housing.wall"},
                fmt::format("housing.size: gears and shafts of {} L have no room in "
                            "the {} L inside",
                            figures(steel_L(setup_), 3), figures(inside_L(setup_.housing), 3)),
                "check housing.size, housing.wall, gears.face_width and the teeth");
            return;
        }
        if (fill_L_ < least_L_)
            too_small(
                least_L_ > least_in_case_L
                    ? fmt::format(
                          "{}: {} alone hold {} L, and {:g} L is wanted in the case", entered_,
                          from_.text("cooler.construction") == "tube-fin" ? "the hoses to the core"
                                                                          : "core and hoses",
                          figures(least_L_ - least_in_case_L, 2), least_in_case_L)
                    : fmt::format("{}: {:g} L is wanted in the case", entered_, least_in_case_L));
        else if (fill_L_ > free_L_)
            from_.problem_at({"oil.fill", "housing.size"},
                             fmt::format("{}: beside its gears the housing has room for {} L",
                                         entered_, figures(free_L_, 3)),
                             filling(most_L()));
        else if (pump_ != nullptr && round_s() < least_round_s)
            too_small(fmt::format("{}: {} sends it round in {} s, and air has no time to leave it",
                                  entered_, flow_words(), figures(round_s(), 2)));
        else
            ask();
    }

private:
    [[nodiscard]] double round_s() const { return 60 * fill_L_ / pump_->flow_Lpmin; }
    [[nodiscard]] std::string flow_words() const {
        return fmt::format("a pump of {} L/min", figures(pump_->flow_Lpmin, 3));
    }
    /// Rounded inwards, so that what is offered is taken.
    [[nodiscard]] double most_L() const { return std::floor(10 * free_L_) / 10; }
    [[nodiscard]] std::string filling(double fill_L) const {
        return fmt::format(
            "write oil.fill = \"{:.4g} L\", or check housing.size, oil.fill and the "
            "pump's flow",
            fill_L);
    }

    void too_small(const std::string& said) {
        const double round_L = pump_ == nullptr ? 0 : least_round_s * pump_->flow_Lpmin / 60;
        const double least_L = std::ceil(10 * std::max(least_L_, round_L)) / 10;
        const double ten_L = 10 * fill_L_;
        std::string hint = least_L <= free_L_
                               ? fmt::format("at least \"{:.4g} L\" is taken", least_L)
                               : std::string("check the pump's flow, the core and housing.size");
        if (ten_L >= least_L && ten_L <= share() * free_L_)
            hint = fmt::format("did you mean \"{:.4g} L\"? {}", ten_L, hint);
        from_.problem_at({"oil.fill", "lubrication.pump.flow", "cooler.core"}, said, hint);
    }

    [[nodiscard]] bool dips() const { return setup_.lubrication.method == Method::dip; }
    [[nodiscard]] double share() const { return dips() ? dipped_share : scavenged_share; }

    void ask() {
        if (pump_ != nullptr && round_s() < asked_round_s) {
            const double wanted_L = std::ceil(10 * asked_round_s * pump_->flow_Lpmin / 60) / 10;
            from_.note(
                "ask.fill_round", "oil.fill",
                fmt::format(
                    "{}: {} sends it round in {:.3g} s, and air leaves oil in {:g} s or more: "
                    "it may foam; did you mean {}?",
                    entered_, flow_words(), round_s(), asked_round_s,
                    wanted_L <= share() * free_L_
                        ? fmt::format("\"{:.4g} L\"", wanted_L)
                        : fmt::format("a flow of \"{:.3g} L/min\"", 60 * fill_L_ / asked_round_s)));
        }
        if (pump_ != nullptr && round_s() > slow_round_s)
            from_.note("input.fill_slow", "oil.fill",
                       fmt::format("{}: {} needs {:.0f} s to send it round once", entered_,
                                   flow_words(), round_s()));
        if (fill_L_ > share() * free_L_)
            from_.note(
                "ask.fill_large", "oil.fill",
                fmt::format("{}: that is {:.0f} % of the {:.3g} L beside the gears, where a {} "
                            "case has up to {:.0f} %; did you mean less?",
                            entered_, 100 * fill_L_ / free_L_, free_L_,
                            dips() ? "dipped" : "scavenged", 100 * share()));
        ask_ports();
        if (dips()) ask_depth();
    }

    void ask_ports() {
        if (pump_ == nullptr) return;
        const double port_mps = m3ps_from_Lpmin(pump_->flow_Lpmin) / bore_m2();
        if (port_mps > asked_port_mps)
            from_.note("ask.ports", "lubrication.pump.flow",
                       fmt::format("{}: {} m/s through hoses and ports of {:g} mm, where {:g} m/s "
                                   "is much; did you mean less flow?",
                                   flow_words(), figures(port_mps, 2), bore_mm, asked_port_mps));
    }

    /// Oil over the floor up to the entered immersion and below it, without the dipped part of the
    /// largest gear, which is taken as the one that dips.
    void ask_depth() {
        const HousingInput& housing = setup_.housing;
        const double depth_mm = *setup_.lubrication.depth_mm;
        const int largest_z =
            *std::max_element(setup_.gears.teeth.begin(), setup_.gears.teeth.end());
        const double R_mm = setup_.gears.module_mm * (largest_z / 2.0 + 1);
        const double cos_half = std::max(1 - depth_mm / R_mm, -1.0);
        const double half = std::acos(cos_half);
        const double needed_L = L_from_mm3(
            (housing.along_mm - 2 * housing.wall_mm) * (housing.across_mm - 2 * housing.wall_mm) *
                (depth_mm + below_tip_mm) -
            R_mm * R_mm * (half - std::sin(half) * cos_half) * setup_.gears.face_width_mm);
        if (needed_L <= 0 ||
            (fill_L_ * dipped_factor >= needed_L && fill_L_ <= dipped_factor * needed_L))
            return;
        from_.note("ask.fill_depth", "lubrication.depth",
                   fmt::format("{} and {:.4g} mm of immersion: that depth takes about {} L in this "
                               "housing; did you mean another fill, depth or housing.size?",
                               entered_, depth_mm, figures(needed_L, 2)));
    }

    Completed& from_;
    const Setup& setup_;
    double fill_L_;
    double least_L_;
    double free_L_;
    const PumpInput* pump_;
    std::string entered_;
};

}  // namespace

void check_oil_circuit(Completed& from, const Setup& setup) {
    Circuit(from, setup).check();
}

}  // namespace caseload::input
