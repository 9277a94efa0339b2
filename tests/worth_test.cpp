// SPDX-License-Identifier: MIT
// What assumptions are worth, against the whole chain run for each of their ends.
#include "caseload/assess.hpp"
#include "caseload/input.hpp"
#include "examples.hpp"
#include "support.hpp"

#include <algorithm>
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

}  // namespace

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
