// SPDX-License-Identifier: MIT
// Facing pairs: what temperatures make of their setting, and the preload of that.
#include "loads/pairs.hpp"

#include "caseload/formulas/thick_ring.hpp"
#include "heat/at_oil.hpp"
#include "loads/seat_fit.hpp"
#include "why/places.hpp"

#include <fmt/format.h>

#include <algorithm>

namespace caseload::why_detail {
namespace {

std::string bearing_part(const Gather& gather, std::size_t b) {
    return "bearing." + gather.prepared.loads.bearings[b].name;
}

/// n of a bearing's spring, as a formula has it.
std::string_view exponent_of(const Gather& gather, std::size_t b) {
    return is_ball(gather.prepared.loads.bearings[b].kind) ? "1.5" : "(10 / 9)";
}

/// Way of the pair under one force in both, mm: bearings, then the structure.
std::string way_mm(const Gather& gather, const PairPlace& pair, const std::string& force) {
    return fmt::format(
        "({0} / [{1}.k_a])^(1 / {2}) + ({0} / [{3}.k_a])^(1 / {4}) + {0} / (1000 * {5})", force,
        bearing_part(gather, pair.front), exponent_of(gather, pair.front),
        bearing_part(gather, pair.rear), exponent_of(gather, pair.rear),
        pair.springs.structure_Npum);
}

void add_springs(const Gather& gather, const PairPlace& pair) {
    for (const std::size_t b : {pair.front, pair.rear}) {
        const BearingData& data = gather.prepared.loads.bearings[b];
        Number& stiffness = gather.to.step(
            {"bearing", bearing_part(gather, b), {}, kind_word(data.kind)}, "k_a",
            fmt::format(
                "elements * element_stiffness_N * sin(contact_angle_deg * pi / 180)^({} + 1)",
                exponent_of(gather, b)));
        stiffness.words = "force that moves it 1 mm along its axis";
        stiffness.source = "bearing-practice axial-stiffness";
    }
}

void add_cold(const Gather& gather, const PairPlace& pair, const PairState& state,
              const Collector::Place& place) {
    Collector& to = gather.to;
    Number& cold = to.add(place, state.cold_end_play_mm, quantity("pair", "cold_end_play_mm"));
    const std::string shaft = "shaft." + state.shaft;
    cold.origin = to.origin_of(shaft + ".end_play");
    const ShaftInput& input = gather.setup.shafts.at(state.shaft);
    if (input.end_play_mm) return;
    cold.origin.clear();
    cold.value_of = "-(" + way_mm(gather, pair, "set_N") + ")";
    Number& set =
        to.add(place, "set_N", facing_pair::forces(pair.springs, 0, -state.cold_end_play_mm).F_B_N);
    set.words = "preload as set";
    set.unit = "N";
    set.origin = input.preload_N ? to.origin_of(shaft + ".preload")
                                 : "found step by step from its turning torque, " +
                                       to.origin_of(shaft + ".turning_torque");
}

/// What warmth tightens it by in its leg.
void add_tightening(const Gather& gather, const PairPlace& pair, const PairState& state,
                    const Collector::Place& place) {
    Collector& to = gather.to;
    const Loads& loads = gather.prepared.loads;
    const char sign = pair.thick_ends_out ? '-' : '+';
    to.step(place, "span_mm",
            fmt::format("max([{0}.at_mm] - [{1}.at_mm] {2} [{0}.d_m_mm] / 2 * "
                        "tan([{0}.contact_angle_deg] * pi / 180) {2} [{1}.d_m_mm] / 2 * "
                        "tan([{1}.contact_angle_deg] * pi / 180), 0)",
                        bearing_part(gather, pair.rear), bearing_part(gather, pair.front), sign))
        .words = "between the middles of its bearings";
    const std::string housing = fmt::format("min([rest.housing_degC@{}], 160)", state.leg);
    std::string sum = fmt::format(
        "{}span_mm * (housing_pK * ({} - 20) - 12e-6 * (min([rest.steel_degC@{}], 160) - 20))",
        pair.thick_ends_out ? "" : "-", housing, state.leg);
    for (const std::size_t b : {pair.front, pair.rear}) {
        const std::string part = bearing_part(gather, b);
        const std::string two_tan =
            fmt::format("(2 * tan([{}.contact_angle_deg] * pi / 180))", part);
        sum += fmt::format(" + 12e-6 * [{}.d_m_mm] * {:g} / {}", part, facing_pair::cone_warmer_K,
                           two_tan);
        if (!has_ring_fit(gather.setup.bearings[b])) continue;
        const auto shrink = [&](const char* member, double temp_degC, const char* when) {
            Number& number = to.add({"bearing", part, {}, {}}, member,
                                    raceway_shrink_mm(gather.setup, gather.setup.bearings[b],
                                                      loads.bearings[b], temp_degC));
            number.words = fmt::format("its seat takes off its raceway {}", when);
            number.unit = "mm";
            number.origin = fmt::format("by its seat at {:.4g} degC", temp_degC);
        };
        shrink("cup_shrink_cold_mm", thick_ring::reference_degC, "cold");
        const double hot_degC = evaluate(housing, [&](std::string_view name) {
            return to.all[to.index.at(std::string(name.substr(1, name.size() - 2)))].value;
        });
        shrink("cup_shrink_hot_mm", hot_degC, "hot");
        sum += fmt::format(" - ([{0}.cup_shrink_cold_mm] - [{0}.cup_shrink_hot_mm]) / {1}", part,
                           two_tan);
    }
    Number& tightening = to.step(place, "tightening_mm", sum);
    tightening.words = "end play lost from 20 degC to its settled leg";
    tightening.unit = "mm";
    tightening.source = "linear-expansion pair; bearing-practice pair-rings";
}

}  // namespace

void add_pairs(const Gather& gather) {
    Collector& to = gather.to;
    const std::vector<PairPlace> places = facing_pairs(gather.setup, gather.prepared.loads);
    // One warms the leg of another too.
    const bool any_preload = std::any_of(gather.prepared.pairs.begin(), gather.prepared.pairs.end(),
                                         [](const PairState& one) { return one.preload_N > 0; });
    for (const PairState& state : gather.answer.fitted.checked.pairs) {
        const auto pair = std::find_if(places.begin(), places.end(), [&](const PairPlace& one) {
            return gather.prepared.loads.train.shafts[one.shaft].name == state.shaft;
        });
        if (pair == places.end() || !to.has("rest.housing_degC@" + state.leg)) continue;
        const Collector::Place place{"pair", "pair." + state.shaft, {}, {}};
        const auto add = [&](const char* member, double value) -> Number& {
            return to.add(place, value, quantity("pair", member));
        };
        add_springs(gather, *pair);
        add_cold(gather, *pair, state, place);
        add_tightening(gather, *pair, state, place);
        Number& play = add("end_play_mm", state.end_play_mm);
        play.equation = "cold_end_play_mm - tightening_mm - end_play_mm";
        play.residual_allowed = "2e-7";
        play.solved_how = "leg and pair in turn, to 0.1 nm";
        Number& preload = add("preload_N", state.preload_N);
        if (state.preload_N > 0) {
            preload.equation = way_mm(gather, *pair, "preload_N") + " + end_play_mm";
            preload.residual_allowed = "1e-9";
            preload.solved_how = "found by bracketing, to the last digits";
        } else {
            mark_as_zero(preload, "it has end play");
        }
        Number& tightened = add("tightened_mm", state.tightened_mm);
        if (any_preload)
            tightened.origin = "a calculation of its own, with end play in every pair";
        else
            tightened.value_of = "tightening_mm";
        add("set_tolerance_mm", state.set_tolerance_mm).origin = "judgement";
        add("set_end_play_mm", state.set_end_play_mm).value_of =
            fmt::format("tightened_mm + {:g}", hot_end_play_mm);
        Number& hotter = add("hotter_K", state.hotter_K);
        Number& returned = add("returned_um", state.returned_um);
        if (state.preload_N > 0) {
            hotter.origin = "a calculation of its own, with end play in every pair";
            returned.origin = "a calculation of its own, the pair 0.1 um longer";
        } else {
            mark_as_zero(hotter, "it has end play");
            mark_as_zero(returned, "it has end play");
        }
        add("loop_gain", state.loop_gain).value_of = "returned_um / 0.1";
        for (const auto& [member, value] : {std::pair{"tightest_mm", state.tightest_mm},
                                            std::pair{"loosest_mm", state.loosest_mm}})
            add(member, value).origin = "by the temperatures of the event's driving";
    }
}

}  // namespace caseload::why_detail
