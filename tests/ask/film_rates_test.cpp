// SPDX-License-Identifier: MIT
// What tables share between classes and films is what the formulas say alone.
#include "damage/film_rates.hpp"

#include "examples.hpp"
#include "support.hpp"

#include <string>

namespace caseload::film_rates_tests {

TEST_CASE("film rates: rates of every class of cleanliness are those of the formulas one by one") {
    int steps = 0;
    for (const std::string name : {"light.toml", "heavy.toml", "dip.toml"})
        for (const std::string code : {"-/15/12", "-/19/16", "-/22/19"}) {
            Setup setup = examples::setup(
                name, {{"oil.filter", "\"in-line\""}, {"oil.cleanliness", "\"" + code + "\""}});
            setup.oil.ep_additive = code != "-/19/16";
            setup.factors.life = 1.3;
            const Prepared prepared = prepare(setup);
            const std::size_t bins = prepared.losses.front().bins.size();
            REQUIRE(bins > 0);
            for (std::size_t bin = 0; bin < bins; ++bin)
                for (std::size_t b = 0; b < prepared.loads.bearings.size(); ++b) {
                    const BearingPlace place{0, bin, b};
                    const FilmRates rates(prepared, place, {-1, 0, 1});
                    for (double film_degC = -20; film_degC <= 270; film_degC += 7) {
                        const FilmRates::Film film = rates.at(film_degC);
                        for (int c = -1; c <= 1; ++c) {
                            Setup classed = setup;
                            classed.factors.cleanliness = c;
                            Prepared alone = prepared;
                            alone.setup = &classed;
                            const auto per_h = [&](Additives additives) {
                                return bearing_at_film(alone, place, film_degC, additives)
                                    .rate_per_h;
                            };
                            const auto i = static_cast<std::size_t>(c + 1);
                            CHECK(rates.by_rule_per_h(film, i) ==
                                  rel(per_h(Additives::by_rule), 1e-13));
                            const FilmRates::Both both = rates.both_per_h(film, i);
                            CHECK(both.helped_per_h == rel(per_h(Additives::helping), 1e-13));
                            CHECK(both.not_helped_per_h ==
                                  rel(per_h(Additives::not_helping), 1e-13));
                            steps += both.helped_per_h != both.not_helped_per_h ? 1 : 0;
                        }
                    }
                }
        }
    CHECK(steps > 0);
}

TEST_CASE("film rates: additives help up to the film temperature where their rule ends") {
    const Setup setup = examples::with_bins(
        examples::setup("light.toml",
                        {{"oil.filter", "\"in-line\""}, {"oil.cleanliness", "\"-/15/12\""}}),
        {{0.6, 900, 500, 5}, {0.4, 400, 1500, 15}});
    REQUIRE(setup.oil.ep_additive);
    const Prepared prepared = prepare(setup);
    int ends = 0;
    for (std::size_t bin = 0; bin < 2; ++bin)
        for (std::size_t b = 0; b < prepared.loads.bearings.size(); ++b) {
            const BearingPlace place{0, bin, b};
            const auto end_degC = additives_end_degC(prepared, place);
            const auto per_h = [&](double film_degC, Additives additives) {
                return bearing_at_film(prepared, place, film_degC, additives).rate_per_h;
            };
            if (!end_degC || per_h(*end_degC, Additives::helping) == 0) continue;
            ++ends;
            const double colder_degC = *end_degC - 0.001;
            const double hotter_degC = *end_degC + 0.001;
            CHECK(per_h(colder_degC, Additives::by_rule) ==
                  rel(per_h(colder_degC, Additives::helping), 1e-13));
            CHECK(per_h(hotter_degC, Additives::by_rule) ==
                  rel(per_h(hotter_degC, Additives::not_helping), 1e-13));
            CHECK(per_h(hotter_degC, Additives::not_helping) >
                  1.01 * per_h(hotter_degC, Additives::helping));
        }
    CHECK(ends > 0);
}

}  // namespace caseload::film_rates_tests
