// SPDX-License-Identifier: MIT
// Setups drawn at random from the whole range of their fields, read as text: every one that is not
// refused runs, closes its ledger and stays finite. The seed is fixed.
#include "caseload/ask/band.hpp"
#include "examples.hpp"
#include "heat/at_oil.hpp"
#include "random_setups.hpp"
#include "support.hpp"

#include <algorithm>
#include <cmath>
#include <string>
#include <type_traits>

namespace caseload::properties_tests {

using namespace caseload::random_setups;

namespace {

/// Every number of a result.
template <class T>
bool all_finite(const T& value) {
    if constexpr (std::is_same_v<T, double>) {
        return std::isfinite(value);
    } else if constexpr (IsResult<T>::value) {
        bool ok = true;
        each(value, [&ok](std::string_view, const auto& member) { ok = ok && all_finite(member); });
        return ok;
    } else {
        return true;
    }
}
template <class T>
bool all_finite(const std::vector<T>& values) {
    return std::all_of(values.begin(), values.end(), [](const T& v) { return all_finite(v); });
}

void check_ledger(const CoolerSide& side) {
    for (const LegAnswer& leg : side.legs) {
        const Steady& rest = leg.at_rest;
        const double in_W = heat_in_W(rest);
        // Without a balance the surplus at 160 degC is what does not leave.
        CAPTURE(in_W - heat_out_W(rest) - rest.short_by_W);
        CAPTURE(rest.nodes.oil_degC);
        CAPTURE(rest.nodes.housing_degC);
        CHECK(in_W == rel(heat_out_W(rest) + rest.short_by_W, 1e-9));
        CHECK(rest.found == (rest.short_by_W == 0));
        if (!rest.found) CHECK(rest.short_by_W > 0);
    }
}

}  // namespace

TEST_CASE("properties: 200 random setups run, their heat closes and every number is finite") {
    const Draw draw = drawn(20240607, 210);
    int ran = 0;
    int impossible = 0;
    int unbalanced = 0;
    int dipped = 0;
    int with_cooler = 0;
    for (const Drawn& one : draw.ran) {
        CAPTURE(one.text);
        Assessment answer;
        try {
            answer = assess(one.setup);
        } catch (const Error& error) {
            // Only teeth that do not mesh and ratings beyond what the streams can carry may be
            // refused by the calculation.
            CHECK(error.kind() == Error::Kind::domain);
            const std::string what = error.what();
            CAPTURE(what);
            CHECK((what.find("gears.fitted") != std::string::npos ||
                   what.find("cooler.rating") != std::string::npos));
            ++impossible;
            continue;
        }
        ++ran;
        CHECK(all_finite(answer));
        check_ledger(answer.fitted);
        check_ledger(answer.without);
        for (const Sample& sample : answer.fitted.event.samples) CHECK(sample.nodes.oil_degC > -45);
        if (one.setup.lubrication.method == Method::dip) ++dipped;
        if (one.setup.cooler.fit) ++with_cooler;
        for (const LegAnswer& leg : answer.fitted.legs)
            if (!leg.at_rest.found) ++unbalanced;
    }
    CAPTURE(draw.refused.size());
    CAPTURE(impossible);
    CAPTURE(unbalanced);
    CHECK(ran >= 200);
    CHECK(dipped > 60);
    CHECK(with_cooler > 60);
    // Most of what is drawn is a setup, and both hot and cold ones are among them.
    CHECK(draw.refused.size() + static_cast<std::size_t>(impossible) < 20);
    CHECK(unbalanced > 20);
    CHECK(unbalanced < 200);
}

namespace {

void check_same(const Assessment& a, const Assessment& b, double tolerance) {
    for (std::size_t i = 0; i < a.fitted.legs.size(); ++i) {
        const Steady& one = a.fitted.legs[i].at_rest;
        const Steady& two = b.fitted.legs[i].at_rest;
        CHECK(one.nodes.oil_degC + 273.15 == rel(two.nodes.oil_degC + 273.15, tolerance));
        CHECK(total_W(one.losses.ledger) == rel(total_W(two.losses.ledger), tolerance));
    }
    // The integration may choose other steps for the last digit of a sum: to its own tolerance.
    const double peak_degC = a.fitted.event.peak_oil_degC;
    if (peak_degC > oil_ceiling_degC)
        CHECK(b.fitted.event.peak_oil_degC > oil_ceiling_degC - 1e-3);
    else
        CHECK(within(b.fitted.event.peak_oil_degC, peak_degC, 1e-6));
    for (std::size_t i = 0; i < a.fitted.damage.bearings.size(); ++i)
        CHECK(a.fitted.damage.bearings[i].life_share ==
              rel(b.fitted.damage.bearings[i].life_share, 1e-6));
    for (std::size_t i = 0; i < a.loads.legs.size(); ++i) {
        if (a.loads.legs[i].bins.empty()) continue;
        CHECK(a.loads.legs[i].drive_power_W == rel(b.loads.legs[i].drive_power_W, tolerance));
        CHECK(a.loads.legs[i].revolutions == rel(b.loads.legs[i].revolutions, tolerance));
    }
}

}  // namespace

TEST_CASE("properties: permuting or splitting bins changes nothing") {
    int split_legs = 0;
    for (const Setup& setup : some(7, 24)) {
        Setup turned = setup;
        Setup split = setup;
        for (std::size_t l = 0; l < setup.event.legs.size(); ++l) {
            std::reverse(turned.event.legs[l].bins.begin(), turned.event.legs[l].bins.end());
            std::vector<Bin> parts;
            for (const Bin& bin : setup.event.legs[l].bins)
                for (const double part : {0.3, 0.6, 0.1}) {
                    parts.push_back(bin);
                    parts.back().share *= part;
                }
            if (!parts.empty()) ++split_legs;
            split.event.legs[l].bins = parts;
        }
        const Assessment whole = assess(setup);
        CAPTURE(setup.event.words);
        check_same(whole, assess(turned), 1e-12);
        check_same(whole, assess(split), 1e-12);
    }
    CHECK(split_legs > 10);
}

TEST_CASE("properties: a leg of 100 h ends at the settled temperatures") {
    int met = 0;
    for (Setup& setup : some(11, 25)) {
        for (std::size_t leg = 0; leg < setup.event.legs.size(); ++leg) {
            if (setup.event.legs[leg].kind != LegKind::drive) continue;
            Setup alone = setup;
            alone.event.run = {static_cast<int>(leg)};
            alone.event.legs[leg].duration_s = 360000;
            alone.event.oil_at_start_entered = false;  // from below, as the steady scan comes
            alone.oil.fill_L = std::min(alone.oil.fill_L, 3.0);
            const Prepared prepared = prepare(alone);
            const Steady rest = steady(prepared, leg, {});
            if (!rest.found) continue;
            const Nodes end = event_heat(prepared, {}).samples.back().nodes;
            CHECK(within(end.oil_degC, rest.nodes.oil_degC, 0.05));
            CHECK(within(end.housing_degC, rest.nodes.housing_degC, 0.05));
            CHECK(within(end.steel_degC, rest.nodes.steel_degC, 0.05));
            ++met;
        }
    }
    CHECK(met > 20);
}

TEST_CASE("properties: a leg settles at the lowest stable root of its balance") {
    int found = 0;
    int hot = 0;
    std::vector<Setup> setups = some(17, 40);
    for (const char* name : {"light.toml", "heavy.toml", "dip.toml", "idler.toml"})
        setups.push_back(examples::setup(name));
    for (const Setup& setup : setups) {
        const Prepared prepared = prepare(setup);
        for (std::size_t leg = 0; leg < setup.event.legs.size(); ++leg) {
            if (setup.event.legs[leg].kind != LegKind::drive) continue;
            const Steady rest = steady(prepared, leg, {});
            if (!rest.switches.pump || !rest.switches.fan) continue;
            const auto net_W = [&](double oil_degC) {
                return net_into_oil_W(prepared, leg, oil_degC);
            };
            const double to_degC = rest.found ? rest.nodes.oil_degC : oil_ceiling_degC;
            CAPTURE(setup.name);
            CAPTURE(to_degC);
            // Found from below, in steps of 5 K: nothing before it.
            for (double oil_degC = std::min(prepared.ambient_degC, prepared.case_air_degC);
                 oil_degC < to_degC - 5; oil_degC += 5)
                CHECK(net_W(oil_degC) > 0);
            if (rest.found) {
                CHECK(net_W(to_degC - 1e-7) > 0);
                CHECK(net_W(to_degC + 1e-7) < 0);
                ++found;
            } else {
                CHECK(rest.short_by_W == net_W(to_degC));
                CHECK(rest.short_by_W > 0);
                ++hot;
            }
        }
    }
    CHECK(found > 40);
    CHECK(hot > 0);
}

TEST_CASE(
    "properties: more fill only takes longer, deeper dipping and higher altitude are hotter") {
    int scavenged = 0;
    int dipped = 0;
    int higher = 0;
    for (const Setup& setup : some(13, 50)) {
        const auto rests = [](const Setup& s) {
            const Prepared prepared = prepare(s);
            std::vector<Steady> all;
            for (std::size_t leg = 0; leg < s.event.legs.size(); ++leg)
                if (s.event.legs[leg].kind == LegKind::drive)
                    all.push_back(steady(prepared, leg, {}));
            return all;
        };
        const std::vector<Steady> base = rests(setup);
        if (setup.lubrication.method == Method::scavenged) {
            Setup more = setup;
            more.oil.fill_L *= 2.5;
            const std::vector<Steady> same = rests(more);
            for (std::size_t i = 0; i < base.size(); ++i, ++scavenged)
                CHECK(same[i].nodes.oil_degC == base[i].nodes.oil_degC);
            const Prepared less_oil = prepare(setup);
            const Prepared more_oil = prepare(more);
            CHECK(more_oil.capacities.oil_JpK == rel(2.5 * less_oil.capacities.oil_JpK, 1e-12));
        } else {
            // At one oil temperature: churning grows, and the whole with it but for the air that
            // less of the rims drags.
            Setup deeper = setup;
            *deeper.lubrication.depth_mm *= 1.2;
            const Prepared a = prepare(setup);
            const Prepared b = prepare(deeper);
            for (std::size_t leg = 0; leg < setup.event.legs.size(); ++leg) {
                if (setup.event.legs[leg].kind != LegKind::drive) continue;
                const LossLedger one =
                    losses_at(setup, a.loads, a.oil, a.losses[leg], {90, true}).ledger;
                const LossLedger two =
                    losses_at(deeper, b.loads, b.oil, b.losses[leg], {90, true}).ledger;
                bool dips = false;
                bool whole = true;
                for (std::size_t g = 0; g < a.losses[leg].gears.size(); ++g) {
                    const auto& gear = a.losses[leg].gears[g];
                    dips = dips || gear.depth_m > 0;
                    whole = whole && (gear.depth_m <= 0 || gear.depth_m >= 2 * gear.gear.R_m);
                }
                if (!dips || whole) continue;  // nothing dips, or all of it already
                ++dipped;
                CHECK(two.churning_W > one.churning_W);
                CHECK(two.windage_W < one.windage_W);
                CHECK(total_W(two) - two.windage_W > total_W(one) - one.windage_W);
            }
        }
        // The same torque in thinner air; a course would ask less of it for air drag.
        Setup high = setup;
        high.event.altitude_m += 1500;
        if (high.event.altitude_m > 5000) continue;
        const std::vector<Steady> up = rests(high);
        std::size_t i = 0;
        for (const LegInput& leg : setup.event.legs) {
            if (leg.kind != LegKind::drive) continue;
            const Steady& low = base[i];
            const Steady& top = up[i];
            ++i;
            if (!leg.course_lines.empty() || !low.found) continue;
            ++higher;
            CAPTURE(low.losses.ledger.windage_W);
            CAPTURE(total_W(low.losses.ledger));
            CHECK((!top.found || top.nodes.oil_degC > low.nodes.oil_degC));
        }
    }
    CHECK(scavenged > 15);
    CHECK(dipped > 15);
    CHECK(higher > 20);
}

TEST_CASE("properties: low, likely and high of random setups are finite and in order") {
    for (const Setup& setup : some(17, 12)) {
        const Assessment likely = assess(setup);
        const Band sure = band(setup, likely, {.draws = 63, .for_each = one_by_one});
        CHECK(all_finite(sure));
        for (const Percentiles& p : {sure.fitted.peak_oil_degC, sure.without.peak_oil_degC}) {
            CHECK(p.p10 <= p.p50);
            CHECK(p.p50 <= p.p90);
        }
    }
}

}  // namespace caseload::properties_tests
