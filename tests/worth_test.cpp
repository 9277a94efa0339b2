// SPDX-License-Identifier: MIT
// What assumptions are worth, against the whole chain run for each of their ends.
#include "caseload/assess.hpp"
#include "caseload/error.hpp"
#include "caseload/input.hpp"
#include "cli/files.hpp"
#include "damage/life_rates.hpp"
#include "examples.hpp"
#include "heat/basis.hpp"
#include "loads/kept.hpp"
#include "support.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <functional>
#include <new>
#include <optional>
#include <string>
#include <vector>

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

/// light.toml with an event of legs on courses, each fifth a stop; the last so many are not run.
std::string many_legs(int legs, int not_run) {
    const std::string light = examples::text("light.toml").value();
    std::string text = light.substr(0, light.find("[event]"));
    std::string run;
    std::string all;
    for (int i = 0; i < legs; ++i) {
        if (i < legs - not_run) run += fmt::format("{}\"l{}\"", i == 0 ? "" : ", ", i);
        all += i % 5 == 4 ? fmt::format("[leg.l{}]\nkind = \"stop\"\nduration = \"5 min\"\n", i)
                          : fmt::format("[leg.l{}]\nduration = \"{} min\"\ncourse = \"{}\"\n", i,
                                        8 + i % 7, i % 2 == 0 ? "graded" : "sand");
    }
    return text +
           fmt::format("[event]\nambient = \"34 degC\"\naltitude = \"600 m\"\nrun = [{}]\n{}", run,
                       all);
}

const Worth* find(const std::vector<Worth>& all, const std::string& key) {
    const auto found = std::find_if(all.begin(), all.end(),
                                    [&](const Worth& one) { return one.entry.key == key; });
    return found == all.end() ? nullptr : &*found;
}

void check_same(const std::vector<Worth>& all, const std::vector<Worth>& others) {
    REQUIRE(all.size() == others.size());
    for (std::size_t i = 0; i < all.size(); ++i) {
        CHECK(all[i].entry.key == others[i].entry.key);
        CHECK(all[i].oil_low_K == others[i].oil_low_K);
        CHECK(all[i].oil_high_K == others[i].oil_high_K);
        CHECK(all[i].life_low_share == others[i].life_low_share);
        CHECK(all[i].life_high_share == others[i].life_high_share);
    }
}

}  // namespace

TEST_CASE("effects: a setup with one entry changed in place is the one read anew") {
    for (const std::string& name : all_examples) {
        const Document document(examples::text(name).value(), name, examples::text);
        const FewChanged few_changed(document);
        int ends = 0;
        each_end(document.complete(), [&](const Change& change) {
            CAPTURE(change.key);
            const auto anew = or_refused([&] { return document.complete({&change, 1}).setup; });
            const auto in_place = or_refused([&] { return few_changed.setup(change); });
            CHECK(anew == in_place);
            ++ends;
        });
        CHECK(ends > 40);
        const Change wrong{"housing.emissivity", "\"7 mm\""};
        CHECK_THROWS_AS(static_cast<void>(few_changed.setup(wrong)), Error);
    }
}

TEST_CASE("effects: loads taken over from the unchanged setup are those calculated anew") {
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

TEST_CASE("effects: a changed setup shares the curves its change leaves alone, and no others") {
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

TEST_CASE(
    "effects: shared calculations give the bytes of the whole chain, for every end of every "
    "assumption") {
    std::vector<std::string> setups = all_examples;
    // Almost everything entered; a fan and a pump that switch.
    setups.insert(setups.end(),
                  {"../../tests/golden/full.toml", "../../tests/reference/switched.toml"});
    for (const std::string& name : setups) {
        CAPTURE(name);
        const Document document(examples::text(name).value(), name, examples::text);
        const ReadSetup read = document.complete();
        const Headline likely = whole_chain(read.setup);
        const std::vector<Worth> all = assumptions_by_worth(document, read);
        const bool entered = name.ends_with("full.toml");
        CHECK(all.size() > (entered ? 0U : 20U));
        for (const Worth& worth : all) {
            CAPTURE(worth.entry.key);
            // The numbers of an unknown word, and the seats that are assumed, go together.
            const auto at = [&](std::string Entry::* end) {
                std::vector<Change> changes;
                for (const Entry& one : read.entries) {
                    const bool of_word =
                        !one.by.empty() && (one.by == worth.entry.key || one.by == worth.entry.by);
                    if (of_word)
                        changes.push_back({one.key, (one.*end).empty() ? one.toml : one.*end});
                }
                if (changes.empty()) changes.push_back({worth.entry.key, worth.entry.*end});
                return whole_chain(document.complete(changes).setup);
            };
            const Headline low = at(&Entry::low);
            const Headline high = at(&Entry::high);
            CHECK(worth.oil_low_K == low.oil_degC - likely.oil_degC);
            CHECK(worth.oil_high_K == high.oil_degC - likely.oil_degC);
            CHECK(worth.life_low_share == low.life_share - likely.life_share);
            CHECK(worth.life_high_share == high.life_share - likely.life_share);
        }
        const auto moved = [](const Worth& worth) {
            return worth.oil_low_K != 0 || worth.oil_high_K != 0 || worth.life_low_share != 0 ||
                   worth.life_high_share != 0;
        };
        CHECK(std::count_if(all.begin(), all.end(), moved) > (entered ? 0 : 10));
    }
}

TEST_CASE("effects: loads of a bin in which no joint slips are those of its first state") {
    int bins = 0;
    for (const std::string& name : all_examples) {
        CAPTURE(name);
        const Document document(examples::text(name).value(), name, examples::text);
        Setup setup = document.complete().setup;
        for (const double overload : {1.0, 1.3}) {
            for (LegInput& leg : setup.event.legs) leg.overload = overload;
            const Loads loads = calculate_loads(setup);
            for (std::size_t i = 0; i < loads.legs.size(); ++i) {
                const LegLoads& leg = loads.legs[i];
                // With the front shaft off other joints take the torque.
                if (!setup.event.legs[i].front_drive) continue;
                for (const BinLoads& bin : leg.bins) {
                    const double torque_Nm = bin.bin.torque_Nm;
                    const auto on = [&](double factor) {
                        return bearing_loads(setup, train_of(loads, leg.train), loads.bearings,
                                             factor * torque_Nm, {});
                    };
                    CHECK(bin.nominal == on(1));
                    CHECK(bin.for_life.front().bearings == on(overload));
                    ++bins;
                }
            }
        }
    }
    CHECK(bins > 30);
}

TEST_CASE("effects: the bearing used most is found, also where it changes") {
    const Document document(examples::text("light.toml").value(), "light.toml", examples::text);
    const Setup base = document.complete().setup;
    const Prepared prepared = prepare(base);
    const EventHeat heat = event_heat(prepared, {});
    const LifeRates rates(prepared, heat);
    const auto most_used = [](const LifeRates& of) {
        return std::max_element(of.life_shares().begin(), of.life_shares().end()) -
               of.life_shares().begin();
    };
    std::vector<bool> was_most(base.bearings.size(), false);
    for (std::size_t bearing = 0; bearing < base.bearings.size(); ++bearing)
        for (double rating = 1; rating > 0.1; rating *= 0.95) {
            CAPTURE(rating);
            Setup setup = base;
            // Hotter too, so that no point of a rate is the one it was.
            setup.event.ambient_degC += 3 * rating;
            Prepared weaker = prepare(setup);
            weaker.loads.bearings[bearing].C_N *= rating;
            const EventHeat hotter = event_heat(weaker, {});
            const LifeRates all(weaker, hotter);
            CHECK(largest_life_share(weaker, hotter, rates) == all.largest());
            was_most[static_cast<std::size_t>(most_used(all))] = true;
        }
    CHECK(std::count(was_most.begin(), was_most.end(), true) ==
          static_cast<std::ptrdiff_t>(base.bearings.size()));
}

TEST_CASE("effects: any number of threads gives the bytes of one") {
    for (const std::string name : {"light.toml", "dip.toml"}) {
        const Document document(examples::text(name).value(), name, examples::text);
        const ReadSetup read = document.complete();
        const std::vector<Worth> one = assumptions_by_worth(document, read);
        for (const unsigned threads : {2U, 5U}) {
            CAPTURE(threads);
            check_same(assumptions_by_worth(document, read, on_threads(threads, 0)), one);
        }
    }
}

TEST_CASE("effects: an error of another thread beside a refused end is not lost") {
    const Document document(examples::text("light.toml").value(), "light.toml", examples::text);
    const ReadSetup read = document.complete();
    const ForEach no_memory = [](std::size_t n, const std::function<void(std::size_t)>& body) {
        for (std::size_t i = 0; i < n / 2; ++i) body(i);
        throw std::bad_alloc();
    };
    CHECK_THROWS_AS((void)assumptions_by_worth(document, read, no_memory), std::bad_alloc);
    // A piece done twice, as after a failed allocation, changes nothing.
    const ForEach twice = [](std::size_t n, const std::function<void(std::size_t)>& body) {
        for (std::size_t i = n; i-- > 0;) {
            body(i);
            body(i);
        }
    };
    check_same(assumptions_by_worth(document, read, twice), assumptions_by_worth(document, read));
}

TEST_CASE("effects: few legs are moved one by one, many of one kind together") {
    for (const int drives : {12, 13}) {
        CAPTURE(drives);
        const int legs = drives + drives / 4;  // each fifth is a stop
        const Document document(many_legs(legs, 0), "many.toml", examples::text);
        const ReadSetup read = document.complete();
        const std::vector<Worth> all = assumptions_by_worth(document, read);
        const bool together = static_cast<std::size_t>(drives) > most_legs_alone;
        CHECK((find(all, "leg.*.pace") != nullptr) == together);
        CHECK((find(all, "leg.l0.pace") == nullptr) == together);
        CHECK(find(all, "leg.*.fan") == nullptr);  // of three stops
        CHECK(find(all, "leg.l4.fan") != nullptr);
        if (!together) continue;
        const Worth& paces = *find(all, "leg.*.pace");
        CHECK(paces.entry.number == "13 legs together");
        std::vector<Change> low;
        std::vector<Change> high;
        for (const Entry& entry : read.entries)
            if (entry.field == "leg.*.pace") {
                low.push_back({entry.key, entry.low});
                high.push_back({entry.key, entry.high});
            }
        REQUIRE(low.size() == 13);
        const Headline likely = whole_chain(read.setup);
        const Headline at_low = whole_chain(document.complete(low).setup);
        const Headline at_high = whole_chain(document.complete(high).setup);
        CHECK(paces.oil_low_K == at_low.oil_degC - likely.oil_degC);
        CHECK(paces.oil_high_K == at_high.oil_degC - likely.oil_degC);
        CHECK(paces.life_low_share == at_low.life_share - likely.life_share);
        CHECK(paces.life_high_share == at_high.life_share - likely.life_share);
        CHECK(paces.oil_low_K < 0);
        CHECK(paces.oil_high_K > 0);
    }
}

TEST_CASE("effects: of many legs only the one whose end contradicts the others is left out") {
    std::string text = many_legs(20, 0);  // 16 are driven
    const std::size_t power = text.find("vehicle.engine_power");
    REQUIRE(power != std::string::npos);
    text.replace(power, text.find('\n', power) - power, "vehicle.engine_power = \"205 hp\"");
    const std::size_t last = text.find("[leg.l18]");
    REQUIRE(last != std::string::npos);
    const std::size_t course = text.find("\"graded\"", last);
    REQUIRE(course != std::string::npos);
    text.replace(course, 8, "\"rough-desert\"");
    const Document document(text, "weak.toml", examples::text);
    const ReadSetup read = document.complete();
    const Entry& weak = *std::find_if(read.entries.begin(), read.entries.end(),
                                      [](const Entry& e) { return e.key == "leg.l18.pace"; });
    const Change refused{weak.key, weak.high};
    CHECK_THROWS_AS(static_cast<void>(document.complete({&refused, 1})), Error);
    const std::vector<Worth> all = assumptions_by_worth(document, read);
    CHECK(find(all, "leg.l18.pace") == nullptr);
    CHECK(find(all, "leg.l0.pace") == nullptr);
    REQUIRE(find(all, "leg.*.pace") != nullptr);
    CHECK(find(all, "leg.*.pace")->entry.number == "15 legs together");
    CHECK(find(all, "leg.*.pace")->oil_high_K > 0);
}

TEST_CASE("effects: a leg the event does not drive has no effect and is not counted") {
    const Document document(many_legs(20, 5), "many.toml", examples::text);
    const ReadSetup read = document.complete();
    const std::vector<Worth> all = assumptions_by_worth(document, read);
    // 12 of the 15 legs run are driven.
    CHECK(find(all, "leg.*.pace") == nullptr);
    REQUIRE(find(all, "leg.l16.pace") != nullptr);
    CHECK(find(all, "leg.l16.pace")->oil_high_K == 0);
    CHECK(find(all, "leg.l16.pace")->life_high_share == 0);
    CHECK(find(all, "leg.l0.pace")->life_high_share != 0);
    for (const Worth& worth : all) {
        if (!worth.entry.key.starts_with("leg.l16.")) continue;
        CAPTURE(worth.entry.key);
        const Headline likely = whole_chain(read.setup);
        const Change change{worth.entry.key, worth.entry.high};
        const Headline high = whole_chain(document.complete({&change, 1}).setup);
        CHECK(high.oil_degC == likely.oil_degC);
        CHECK(high.life_share == likely.life_share);
    }
}

}  // namespace caseload::worth_tests
