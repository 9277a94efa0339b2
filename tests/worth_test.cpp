// SPDX-License-Identifier: MIT
// What assumptions are worth, against the whole chain run for each of their ends.
#include "caseload/assess.hpp"
#include "caseload/error.hpp"
#include "caseload/input.hpp"
#include "examples.hpp"
#include "heat/basis.hpp"
#include "loads/kept.hpp"
#include "support.hpp"

#include <algorithm>
#include <functional>
#include <optional>
#include <string>

namespace caseload::worth_tests {

namespace {

struct Headline {
    double oil_degC;
    double life_share;
};

Headline whole_chain(const Setup& setup) {
    const Prepared prepared = prepare(setup);
    const EventHeat event = event_heat(prepared, {});
    Headline run{event.peak_oil_degC, 0};
    for (const BearingDamage& bearing : event_damage(prepared, event).bearings)
        run.life_share = std::max(run.life_share, bearing.life_share);
    return run;
}

const std::vector<std::string> all_examples = {"dip.toml",   "heavy.toml", "idler.toml",
                                               "light.toml", "shelf.toml", "trailer.toml"};

/// Both ends of every entry that has any.
void each_end(const ReadSetup& read, const std::function<void(const Change&)>& visit) {
    for (const Entry& entry : read.entries)
        for (const std::string& end : {entry.low, entry.high})
            if (!end.empty()) visit({entry.key, end});
}

/// The setup, or nothing where it is refused.
std::optional<Setup> or_refused(const std::function<Setup()>& setup) {
    try {
        return setup();
    } catch (const Error&) {
        return std::nullopt;
    }
}

}  // namespace

TEST_CASE("worth: a setup with one entry changed in its place is the one completed anew") {
    for (const std::string& name : all_examples) {
        const Document document(examples::text(name).value(), name, examples::text);
        const OneChanged one_changed(document);
        int ends = 0;
        each_end(document.complete(), [&](const Change& change) {
            CAPTURE(change.key);
            const auto anew = or_refused([&] { return document.complete({&change, 1}).setup; });
            const auto in_place = or_refused([&] { return one_changed.setup(change); });
            CHECK(anew == in_place);
            ++ends;
        });
        CHECK(ends > 40);
        const Change wrong{"housing.emissivity", "\"7 mm\""};
        CHECK_THROWS_AS(static_cast<void>(one_changed.setup(wrong)), Error);
    }
}

TEST_CASE("worth: loads taken over from the unchanged setup are those calculated anew") {
    for (const std::string& name : all_examples) {
        const Document document(examples::text(name).value(), name, examples::text);
        const ReadSetup read = document.complete();
        const KeptLoads kept = keep_loads(read.setup);
        each_end(read, [&](const Change& change) {
            CAPTURE(change.key);
            const auto setup = or_refused([&] { return document.complete({&change, 1}).setup; });
            if (setup) CHECK(loads_like(*setup, kept) == calculate_loads(*setup));
        });
    }
}

TEST_CASE("worth: a case shares the curves its change leaves alone, and no other") {
    const Document document(examples::text("light.toml").value(), "light.toml", examples::text);
    const Setup base = document.complete().setup;
    const Prepared prepared = prepare(base);
    CaseCurves curves(prepared);
    const KeptEvent event = keep_event(curves, {});
    struct Shared {
        Change change;
        bool losses;
        bool outside;
        bool cooler;
    };
    for (const Shared& shared :
         std::vector<Shared>{{{"gears.material", "\"carburised-ME\""}, true, true, true},
                             {{"oil.shear_loss", "0.3"}, true, true, true},
                             {{"leg.transit.overload", "2"}, true, true, true},
                             {{"lubrication.jet_speed", "\"30 m/s\""}, false, true, true},
                             {{"housing.emissivity", "0.5"}, true, false, true},
                             {{"cooler.face_speed_share", "0.15"}, true, true, false},
                             {{"oil.density_15C", "\"880 kg/m3\""}, false, true, false},
                             {{"leg.loop.pace", "\"20 m/s\""}, false, false, false}}) {
        CAPTURE(shared.change.key);
        const Setup setup = document.complete({&shared.change, 1}).setup;
        const Prepared changed = prepare(setup);
        CaseCurves like(changed, curves);
        CaseCurves alone(changed);
        const EventHeat heat = event_like(like, event);
        const auto loop = static_cast<std::size_t>(setup.event.run[1]);
        const LegCurves& mine = like.at(loop, {});
        const LegCurves& theirs = curves.at(loop, {});
        CHECK(mine.oil_W.is(theirs.oil_W) == shared.losses);
        CHECK(mine.outside_W.is(theirs.outside_W) == shared.outside);
        CHECK(mine.cooler_W.is(theirs.cooler_W) == shared.cooler);
        CHECK(mine.oil_W.y() == alone.at(loop, {}).oil_W.y());
        CHECK(mine.outside_W.y() == alone.at(loop, {}).outside_W.y());
        CHECK(mine.cooler_W.y() == alone.at(loop, {}).cooler_W.y());
        const EventHeat anew = event_heat(alone, {});
        REQUIRE(heat.samples.size() == anew.samples.size());
        for (std::size_t i = 0; i < anew.samples.size(); ++i)
            CHECK(heat.samples[i].nodes == anew.samples[i].nodes);
        CHECK(heat.peak_at_s == anew.peak_at_s);
        CHECK(heat.watch_after_s == anew.watch_after_s);
        CHECK(heat.runs.size() == anew.runs.size());
    }
}

TEST_CASE("worth: every end of every assumption through the whole chain gives the same bytes") {
    for (const std::string name : {"light.toml", "dip.toml", "idler.toml"}) {
        const Document document(examples::text(name).value(), name, examples::text);
        const ReadSetup read = document.complete();
        const Headline likely = whole_chain(read.setup);
        const std::vector<Worth> all = assumptions_by_worth(document, read);
        CHECK(all.size() > 20);
        for (const Worth& worth : all) {
            CAPTURE(worth.entry.key);
            const auto at = [&](const std::string& toml) {
                const Change change{worth.entry.key, toml};
                return whole_chain(document.complete({&change, 1}).setup);
            };
            const Headline low = at(worth.entry.low);
            const Headline high = at(worth.entry.high);
            CHECK(worth.oil_low_K == low.oil_degC - likely.oil_degC);
            CHECK(worth.oil_high_K == high.oil_degC - likely.oil_degC);
            CHECK(worth.life_low_share == low.life_share - likely.life_share);
            CHECK(worth.life_high_share == high.life_share - likely.life_share);
        }
        const auto moved = [](const Worth& worth) {
            return worth.oil_low_K != 0 || worth.oil_high_K != 0 || worth.life_low_share != 0 ||
                   worth.life_high_share != 0;
        };
        CHECK(std::count_if(all.begin(), all.end(), moved) > 10);
    }
}

}  // namespace caseload::worth_tests
