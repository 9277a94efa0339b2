// SPDX-License-Identifier: MIT
// Draws and their statistics against published sums, closed forms and SciPy.
#include "caseload/ask/band.hpp"
#include "caseload/ask/measured.hpp"
#include "caseload/factors.hpp"
#include "caseload/units.hpp"
#include "examples.hpp"
#include "support.hpp"

#include <boost/math/distributions/normal.hpp>
#include <boost/random/sobol.hpp>

#include <algorithm>
#include <array>
#include <cmath>
#include <set>
#include <string>
#include <utility>
#include <vector>

namespace caseload::draws_tests {

namespace {

/// Sobol points of a few dimensions, as the band takes its own.
template <std::size_t N>
std::vector<std::array<double, N>> points_of(std::size_t draws) {
    std::vector<std::array<double, N>> out(draws);
    boost::random::sobol engine(N);
    for (auto& point : out)
        for (double& u : point)
            u = static_cast<double>(engine()) /
                (static_cast<double>(boost::random::sobol::max()) + 1);
    return out;
}

}  // namespace

TEST_CASE("draws: Sobol points equal SciPy's") {
    // Of the first fourteen: those that follow leave them as they were.
    // SciPy 1.10, scipy.stats.qmc.Sobol(14, scramble=False), points 1 to 3, 1000 and 1023 (its
    // point 0 is the corner we leave out). Binary fractions: equal to the last bit printed.
    const auto points = sobol_points(1023);
    for (const double u : points[0]) CHECK(u == 0.5);
    const std::array<double, 4> second{0.75, 0.25, 0.25, 0.25};
    const std::array<double, 4> third{0.25, 0.75, 0.75, 0.75};
    for (std::size_t i = 0; i < 4; ++i) {
        CHECK(points[1][i] == second[i]);
        CHECK(points[2][i] == third[i]);
    }
    const std::array<double, 14> at_1000{0.2197265625, 0.0966796875, 0.5185546875, 0.6767578125,
                                         0.2802734375, 0.9072265625, 0.0458984375, 0.8994140625,
                                         0.5009765625, 0.0693359375, 0.0849609375, 0.2548828125,
                                         0.1611328125, 0.3837890625};
    for (std::size_t i = 0; i < at_1000.size(); ++i) CHECK(points[999][i] == at_1000[i]);
    const std::array<double, 14> at_1023{0.0009765625, 0.7529296875, 0.6123046875, 0.1455078125,
                                         0.1865234375, 0.4384765625, 0.1396484375, 0.6181640625,
                                         0.3447265625, 0.8505859375, 0.6787109375, 0.0361328125,
                                         0.1298828125, 0.6650390625};
    for (std::size_t i = 0; i < at_1023.size(); ++i) CHECK(points[1022][i] == at_1023[i]);
}

TEST_CASE("draws: a sum of four uniform quantities has its exact deviation and 95 % interval") {
    // Sum of four rectangular quantities of unit variance: standard deviation 2, and 95 of 100 lie
    // within 3.879 (Irwin-Hall, exact; JCGM 101:2008 clause 9.2 gives 3.88, from memory).
    const auto points = points_of<4>(16383);
    std::vector<double> sum;
    double square = 0;
    for (const auto& point : points) {
        double s = 0;
        for (const double u : point) s += std::sqrt(12.0) * (u - 0.5);
        sum.push_back(s);
        square += s * s;
    }
    std::sort(sum.begin(), sum.end());
    CHECK(std::sqrt(square / static_cast<double>(sum.size())) == rel(2.0, 0.001));
    // The density there is 0.033: 0.5 % is six of ten thousand draws.
    CHECK(quantile(sum, 0.975) == rel(3.879, 0.005));
    CHECK(quantile(sum, 0.025) == rel(-3.879, 0.005));
}

TEST_CASE("draws: shares of the spread of the Ishigami function are the published ones") {
    // sin x1 + 7 sin^2 x2 + 0.1 x3^4 sin x1 on (-pi, pi): V 13.8446, first-order shares 0.3139,
    // 0.4424 and 0 (T. Ishigami, T. Homma 1990, closed form). Means over slices: 0.01.
    const auto points = points_of<3>(4095);
    std::vector<double> y;
    for (const auto& point : points) {
        const double x1 = pi * (2 * point[0] - 1);
        const double x2 = pi * (2 * point[1] - 1);
        const double x3 = pi * (2 * point[2] - 1);
        y.push_back(std::sin(x1) + 7 * std::sin(x2) * std::sin(x2) +
                    0.1 * std::pow(x3, 4) * std::sin(x1));
    }
    const std::array<double, 3> shares{0.3139, 0.4424, 0};
    for (std::size_t i = 0; i < 3; ++i) {
        std::vector<double> x;
        for (const auto& point : points) x.push_back(point[i]);
        CHECK(within(first_order_share({x, y}), shares[i], 0.01));
    }
}

TEST_CASE(
    "draws: a product of log-normal factors has its exact quantiles and shares of the spread") {
    // Logarithms of standard deviation 0.30, 0.25 and 0.42: 0.5735 together, 10/50/90 of 100 at
    // 0.480, 1 and 2.085, shares 0.274, 0.190, 0.536 (closed form).
    const auto points = points_of<3>(4095);
    const std::array<double, 3> sd{0.30, 0.25, 0.42};
    std::vector<double> product;
    std::vector<double> logarithm;
    for (const auto& point : points) {
        double ln = 0;
        for (std::size_t i = 0; i < 3; ++i) {
            // Normal quantile by the band's own law: the load's row is log-normal.
            std::array<double, band_factors> at{};
            at.fill(0.5);
            at[0] = point[i];
            ln += sd[i] / factor_rows()[0].sd * std::log(drawn_factors(at, false).load);
        }
        product.push_back(std::exp(ln));
        logarithm.push_back(ln);
    }
    const Percentiles p = percentiles(product);
    CHECK(p.p10 == rel(0.480, 0.005));
    CHECK(p.p50 == rel(1.0, 0.005));
    CHECK(p.p90 == rel(2.085, 0.005));
    const std::array<double, 3> shares{0.274, 0.190, 0.536};
    for (std::size_t i = 0; i < 3; ++i) {
        std::vector<double> x;
        for (const auto& point : points) x.push_back(point[i]);
        CHECK(within(first_order_share({x, logarithm}), shares[i], 0.01));
    }
}

TEST_CASE("draws: percentiles equal NumPy's") {
    // numpy.percentile([3.1, 1.2, 5.5, 4.0, 2.2, 9.9, 7.3], [10, 50, 90]) = 1.8, 4.0, 8.34.
    const Percentiles p = percentiles({3.1, 1.2, 5.5, 4.0, 2.2, 9.9, 7.3});
    CHECK(p.p10 == rel(1.8, 1e-12));
    CHECK(p.p50 == rel(4.0, 1e-12));
    CHECK(p.p90 == rel(8.34, 1e-12));
    CHECK_THROWS(percentiles({}));
}

TEST_CASE("draws: each factor has the ends and the median of its law") {
    std::array<double, band_factors> low{};
    low.fill(1e-9);
    std::array<double, band_factors> middle{};
    middle.fill(0.5);
    std::array<double, band_factors> high{};
    high.fill(1 - 1e-9);
    const Factors least = drawn_factors(low, false);
    const Factors most = drawn_factors(high, false);
    const Factors mid = drawn_factors(middle, false);
    CHECK(mid.load == rel(1, 1e-12));
    CHECK(mid.life == rel(1, 1e-12));
    CHECK(mid.oil_film == rel(1, 1e-12));
    CHECK(mid.air_K == 0);
    CHECK(mid.cleanliness == 0);
    CHECK(least.cleanliness == -1);
    CHECK(most.cleanliness == 1);
    // Ends as tables/band.toml states them.
    CHECK(least.mesh == rel(0.75, 1e-6));
    CHECK(most.mesh == rel(1.35, 1e-6));
    CHECK(drawn_factors(low, true).mesh == rel(0.7, 1e-6));
    CHECK(drawn_factors(high, true).mesh == rel(1.5, 1e-6));
    // Between spur and helical teeth the range opens with the overlap.
    CHECK(drawn_factors(high, 0.5).mesh == rel(std::sqrt(1.35 * 1.5), 1e-6));
    CHECK(drawn_factors(middle, 1e-4).mesh == rel(mid.mesh, 1e-5));
    CHECK(least.pocketing == rel(0.3, 1e-6));
    CHECK(most.pocketing == rel(3, 1e-6));
    CHECK(least.churning_fast == rel(0.4, 1e-6));
    CHECK(most.churning_fast == rel(2.5, 1e-6));
    CHECK(least.air_K == rel(-5, 1e-6));
    CHECK(most.air_K == rel(5, 1e-6));
    std::set<std::string> names;
    for (const FactorRow& row : factor_rows()) {
        CHECK(names.insert(row.name).second);
        CHECK(!row.words.empty());
        CHECK(!row.source.empty());
    }
}

TEST_CASE("draws: the heat factors are the first rows of band.toml, and each row has its factor") {
    for (std::size_t k = 0; k < band_factors; ++k) {
        const FactorRow& row = factor_rows().at(k);
        CAPTURE(row.name);
        if (k < heat_factors) CHECK(row.name == heat_factor_rows.at(k).name);
        CHECK(row.other.empty() == (row.shared_low == 0));
        CHECK(row.shared_high >= row.shared_low);
        std::string follows = k == 1 ? std::string(helical_teeth) : "";
        for (const HeatFactorRow& other : heat_factor_rows)
            if (other.follows != nullptr && heat_factor_row(other.follows) == k)
                follows = other.name;
        if (k == row_pump_flow) follows = short_round;
        if (k == row_drain) follows = "rehit";
        CHECK(row.other == follows);
    }
    const std::vector<std::pair<std::size_t, std::string>> others{
        {row_cleanliness, "cleanliness"},
        {row_life, "life"},
        {row_air, "air"},
        {row_thermostat, "thermostat"},
        {row_pump_flow, "pump_flow"},
        {row_cooler_conductance, "cooler_conductance"},
        {row_drain, "drain"},
        {row_exhaust, "exhaust"},
        {row_neighbour_heat, "neighbour_heat"},
        {row_neighbour_temp, "neighbour_temp"},
        {row_dirt, "dirt"},
        {row_pace, "pace"},
        {row_seat_heat, "seat_heat"},
        {row_play, "play"}};
    CHECK(heat_factors + others.size() == band_factors);
    for (const auto& [place, name] : others) CHECK(factor_rows().at(place).name == name);
    std::set<std::string_view> names;
    for (std::size_t k = 0; k < heat_factor_rows.size(); ++k) {
        CHECK(names.insert(heat_factor_rows[k].name).second);
        CHECK(heat_factor_row(heat_factor_rows[k].member) == k);
    }
}

TEST_CASE("draws: each factor follows its own row of the table alone, to the ends of that row") {
    // One standard deviation above the middle, of the normal distribution.
    constexpr double one_sd = 0.84134474606854293;
    constexpr double hair = 1e-12;
    struct Of {
        std::string row;
        double Factors::* factor;
    };
    const std::vector<Of> all{{"load", &Factors::load},
                              {"mesh", &Factors::mesh},
                              {"windage", &Factors::windage},
                              {"thrown", &Factors::thrown},
                              {"churning", &Factors::churning},
                              {"bearing_friction", &Factors::bearing_friction},
                              {"seals", &Factors::seals},
                              {"pump", &Factors::pump},
                              {"air_share", &Factors::air_share},
                              {"oil_film", &Factors::oil_film},
                              {"face_speed", &Factors::face_speed},
                              {"life", &Factors::life},
                              {"air", &Factors::air_K},
                              {"thermostat", &Factors::thermostat_K},
                              {"pump_flow", &Factors::pump_flow},
                              {"cooler_conductance", &Factors::cooler_conductance}};
    // A case of spur teeth that has all of it, its core estimated.
    CaseRanges whole(0.0);
    whole.thermostat = true;
    whole.short_round = false;
    whole.conductance_sd = factor_rows()[row_cooler_conductance].sd;
    std::array<double, band_factors> middle{};
    middle.fill(0.5);
    const auto& rows = factor_rows();
    const auto number_of = [&](const std::string& name) {
        for (std::size_t k = 0; k < rows.size(); ++k)
            if (rows[k].name == name) return k;
        FAIL("no row " << name);
        return rows.size();
    };
    const auto same = [](double a, double b) { return within(a, b, 1e-9 * std::fabs(b)); };
    for (const Of& of : all) {
        const std::size_t k = number_of(of.row);
        const FactorRow& row = rows[k];
        CAPTURE(of.row);
        for (const bool high : {false, true}) {
            auto point = middle;
            point[k] =
                row.law == "log-normal" ? (high ? one_sd : 1 - one_sd) : (high ? 1 - hair : hair);
            Factors found = drawn_factors(point, whole);
            // Half of the film's spread is that of windage.
            const double own = row.sd * std::sqrt(1 - row.with_windage * row.with_windage);
            const double end = row.law == "log-normal" ? std::exp(high ? own : -own)
                               : high                  ? row.high
                                                       : row.low;
            CHECK(same(found.*of.factor, end));
            const double other_end = high ? row.shared_high : row.shared_low;
            // Some have a second factor by the same point.
            for (const HeatFactorRow& second : heat_factor_rows)
                if (second.follows == of.factor) CHECK(same(found.*second.member, other_end));
            if (of.row == "mesh") CHECK(same(drawn_factors(point, 1.0).mesh, other_end));
            // Nothing else moved.
            const Factors none = drawn_factors(middle, whole);
            if (of.row == "windage") found.oil_film = none.oil_film;
            found.*of.factor = none.*of.factor;
            for (const HeatFactorRow& second : heat_factor_rows)
                if (second.follows == of.factor) found.*second.member = none.*second.member;
            CHECK(found == none);
        }
    }
    // Of dirt a quarter of the draws lies a class either way.
    const std::size_t dirt = number_of("cleanliness");
    constexpr std::size_t assumed_entries = 8;  // play of the bearings with them
    CHECK(all.size() + 1 + assumed_entries == rows.size());
    for (const auto& [u, of_class] :
         {std::pair{0.2499, -1}, {0.2501, 0}, {0.7499, 0}, {0.7501, 1}}) {
        auto point = middle;
        point[dirt] = u;
        Factors found = drawn_factors(point, whole);
        CHECK(found.cleanliness == of_class);
        found.cleanliness = 0;
        CHECK(found == drawn_factors(middle, whole));
    }
}

TEST_CASE("draws: a fit starts from the ends that are drawn, of spur teeth to helical ones") {
    // Between ln low and ln high at equal chances: the middle, and a twelfth of the square.
    int helical = 0;
    for (const double share : {0.0, 0.5, 1.0})
        for (std::size_t row = 0; row < heat_factors; ++row) {
            const FactorRow& of = factor_rows().at(row);
            if (of.law != "log-uniform" || (!of.other.empty() && of.other != helical_teeth))
                continue;
            CAPTURE(of.name);
            CAPTURE(share);
            std::array<double, band_factors> point;
            point.fill(0.5);
            point[row] = 1e-12;
            const double low = std::log(heat_factor(drawn_factors(point, share), row));
            point[row] = 1 - 1e-12;
            const double high = std::log(heat_factor(drawn_factors(point, share), row));
            const LnBand band = ln_band(row, share);
            CHECK(within(band.middle, (low + high) / 2, 1e-9));
            CHECK(within(band.spread, (high - low) / std::sqrt(12.0), 1e-9));
            helical += of.other == helical_teeth ? 1 : 0;
        }
    CHECK(helical > 0);
}

TEST_CASE("draws: an assumed entry is likely what it is assumed to be, between its ends") {
    std::array<double, band_factors> point{};
    const auto at = [&](double share, const std::vector<Change>& changes = {}) {
        point.fill(share);
        return drawn_factors(point, ranges_of(examples::setup("light.toml", changes)));
    };
    const Setup light = examples::setup("light.toml");
    REQUIRE(light.unknown == NotLookedAt{true, true, true, true, true});
    REQUIRE(light.housing.dirt_assumed);
    constexpr double hair = 1e-12;
    // Ends as tables/band.toml states them.
    const LubricationInput& oil = light.lubrication;
    const HousingInput& housing = light.housing;
    for (const bool high : {false, true}) {
        const Factors end = at(high ? 1 - hair : hair);
        CHECK(end.mist * oil.mist_oil_fraction == rel(high ? 0.02 : 0.001, 1e-5));
        CHECK(end.rehit * oil.oil_rehit == rel(high ? 3 : 1.2, 1e-5));
        CHECK(within(end.exhaust_W + housing.exhaust_heat_W, high ? 500 : 0, 1e-2));
        CHECK(within(end.neighbour_WpK + housing.neighbour_WpK, high ? 25 : 0, 1e-4));
        CHECK(within(end.neighbour_K + housing.neighbour_warmer_K, high ? 90 : 45, 1e-4));
        CHECK(end.dirt * housing.dirt_thickness_mm == rel(high ? 3 : 0.3, 1e-5));
        const LegInput& loop = light.event.legs[1];
        REQUIRE(loop.pace_ends);
        CHECK(pace_mps(loop, end) ==
              rel(high ? loop.pace_ends->high_mps : loop.pace_ends->low_mps, 1e-5));
        CHECK(end.seat_heat == rel(high ? 2 : 1.0 / 3, 1e-3));
    }
    // 12 of 60 W to 500 W lie below the assumed 60 W: 60 / 500.
    CHECK(within(at(60.0 / 500).exhaust_W, 0, 1e-9));
    CHECK(at(0.119).exhaust_W < 0);
    CHECK(at(0.121).exhaust_W > 0);
    // Entered, each stays, and nothing else moves.
    const Factors likely = at(0.3);
    const Factors known = at(0.3, {{"housing.exhaust", "\"near-shielded\""},
                                   {"housing.dirt", "\"dust\""},
                                   {"lubrication.drain", "\"good\""},
                                   {"housing.neighbour", "\"gearbox\""}});
    Factors kept = likely;
    kept.exhaust_W = kept.neighbour_WpK = kept.neighbour_K = 0;
    kept.dirt = kept.mist = kept.rehit = 1;
    CHECK(known == kept);
    // Nor is the heat through seats whose fits are all entered.
    CHECK(likely.seat_heat == rel(std::pow(2.0, 0.3) * std::pow(1.0 / 3, 0.7), 1e-3));
    std::vector<Change> fits;
    for (const BearingInput& bearing : light.bearings) {
        const std::string seat = "bearing." + bearing.name + ".seat.";
        fits.push_back({seat + "ring_fit", "\"N7\""});
        fits.push_back(
            {seat + "boss_outside", "\"" + std::to_string(bearing.outside_mm + 50) + " mm\""});
    }
    CHECK(at(0.3, fits).seat_heat == 1);
    fits.resize(fits.size() - 2);
    CHECK(at(0.3, fits).seat_heat == likely.seat_heat);
    // The pace of a leg that is entered is not varied.
    const Setup paced = examples::setup("light.toml", {{"leg.loop.pace", "\"90 km/h\""}});
    CHECK(!paced.event.legs[1].pace_ends);
    CHECK(pace_mps(paced.event.legs[1], likely) == rel(25, 1e-12));
    CHECK(paced.event.legs[0].pace_ends);
}

TEST_CASE("draws: oil on the housing goes half with windage, and keeps its law") {
    const auto points = sobol_points(4095);
    double windage = 0;
    double film = 0;
    double both = 0;
    std::vector<double> films;
    for (const auto& point : points) {
        const Factors drawn = drawn_factors(point, 0.0);
        // The score of a log-uniform factor by its place in its range.
        const double along = std::log(drawn.windage / 0.5) / std::log(2.0 / 0.5);
        const double w = boost::math::quantile(boost::math::normal(), along);
        const double f = std::log(drawn.oil_film) / 0.354;
        windage += w * w;
        film += f * f;
        both += w * f;
        films.push_back(drawn.oil_film);
    }
    CHECK(within(both / std::sqrt(windage * film), 0.5, 0.01));
    const Percentiles p = percentiles(films);
    constexpr double score = 1.2815515655446004;
    CHECK(p.p10 == rel(std::exp(-0.354 * score), 0.01));
    CHECK(p.p50 == rel(1, 0.01));
    CHECK(p.p90 == rel(std::exp(0.354 * score), 0.01));
}

TEST_CASE("draws: a case varies what it has, by how well that is known") {
    std::array<double, band_factors> point{};
    point.fill(0.9);
    const auto drawn = [&](const std::vector<Change>& changes) {
        return drawn_factors(point, ranges_of(examples::setup("light.toml", changes)));
    };
    // Round in 2.6 / 8 min; a core with a rating; a course.
    const Factors light = drawn({});
    CHECK(light.thermostat_K == 2.5);
    CHECK(light.pump_flow == rel(0.7 * std::pow(1.1 / 0.7, 0.9), 1e-12));
    constexpr double score = 1.2815515655446004;
    CHECK(light.cooler_conductance == rel(std::exp(0.15 * score), 1e-12));
    // Nothing opens and closes, no core, no pump: their dimensions stay, all others as they were.
    Factors bare = drawn({{"cooler.fit", "false"}});
    CHECK(bare.thermostat_K == 0);
    CHECK(bare.cooler_conductance == 1);
    bare.thermostat_K = light.thermostat_K;
    bare.cooler_conductance = light.cooler_conductance;
    CHECK(bare == light);
    const Factors dip = drawn_factors(point, ranges_of(examples::setup("dip.toml")));
    CHECK(dip.pump_flow == 1);
    CHECK(dip.mesh == light.mesh);
    // Air has no time to leave oil that goes round in less than 12 s.
    CHECK(drawn({{"lubrication.pump.flow", "\"20 L/min\""}}).pump_flow ==
          rel(0.55 * std::pow(1.0 / 0.55, 0.9), 1e-12));
}

}  // namespace caseload::draws_tests
