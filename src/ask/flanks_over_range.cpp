// SPDX-License-Identifier: MIT
#include "ask/flanks_over_range.hpp"

#include <algorithm>
#include <cmath>
#include <limits>

namespace caseload {
namespace {

constexpr double never_driven_degC = -300;
constexpr double no_film = std::numeric_limits<double>::infinity();

double at_place(const double* values, std::size_t count, double place, std::size_t stride) {
    const double inside = std::clamp(place, 0.0, static_cast<double>(count - 1));
    const auto i = std::min(static_cast<std::size_t>(inside), count - 2);
    const double part = inside - static_cast<double>(i);
    return values[i * stride] + part * (values[(i + 1) * stride] - values[i * stride]);
}

double place_of(double x, double first, double step) {
    return step > 0 ? (x - first) / step : 0;
}

}  // namespace

// S_B = (limit - oil) / (tooth - oil + flash). The flash, and with it the teeth over the oil, grows
// with the load by less than the first power, as the load factors fall with it; half a power more
// covers what thinner oil adds to its friction.
bool FlanksOverRange::may_scuff(const Most& most) const {
    const FlankChecks& flanks = fitted_.checked.flanks;
    const double room_K =
        flanks.scuffing_degC - std::min(fitted_.event.peak_oil_degC, oil_ceiling_degC);
    if (room_K <= 0) return true;
    const double least = flanks.S_B * (room_K - std::max(most.hotter_K, 0.0)) / room_K /
                         std::pow(std::max(most.load, 1.0), 1.5);
    return least < check_row(CheckId::gears_scuffing).watch.at(1);
}

// The film falls by less than its viscosity, which no oil loses faster than 6 % a kelvin above
// 10 degC; with load by a power of 0.13, and as the teeth get hotter over the oil.
bool FlanksOverRange::may_be_thin(const Most& most, double film_limit) const {
    const FlankChecks& flanks = fitted_.checked.flanks;
    const double load = std::max(most.load, 1.0);
    // The teeth are hotter than the oil by up to 0.85 of the mean flash, which is about the largest
    // of all contacts where they scuff first.
    const double hotter_K =
        std::max(most.hotter_K, 0.0) + flanks.mean_flash_K * (std::pow(load, 1.5) - 1);
    const double least = flanks.film_ratio * std::exp(-0.06 * hotter_K) / std::pow(load, 0.3);
    return least < film_limit;
}

const Prepared& FlanksOverRange::prepared() {
    if (!prepared_) prepared_ = std::make_unique<Prepared>(prepare(setup_));
    return *prepared_;
}

FlanksOverRange::Table FlanksOverRange::table_of(std::size_t leg) {
    Table table;
    const auto by = [&](const auto& value) {
        const auto [least, most] = std::minmax_element(
            draws_.begin(), draws_.end(),
            [&](const DrawResult& a, const DrawResult& b) { return value(a) < value(b); });
        return std::pair{value(*least), value(*most)};
    };
    const auto [coldest, hottest] = by([leg](const DrawResult& draw) {
        return std::min(draw.leg_peak_degC[leg], oil_ceiling_degC);
    });
    const auto [least, most] =
        by([&](const DrawResult& draw) { return std::log(draw.load / setup_.factors.load); });
    table.first_degC = coldest;
    table.step_K = (hottest - coldest) / static_cast<double>(temps - 1);
    table.first_ln_load = least;
    table.step_ln_load = (most - least) / static_cast<double>(loads - 1);
    const LegHottest likely = leg_hottest(setup_, fitted_.event, leg);
    const double steel_over_K = likely.steel_degC - likely.oil_degC;
    for (std::size_t t = 0; t < temps; ++t)
        for (std::size_t k = 0; k < loads; ++k) {
            const double oil_degC = table.first_degC + static_cast<double>(t) * table.step_K;
            const FlankChecks at = flanks_of_leg(
                prepared(), leg,
                {.oil_degC = oil_degC,
                 .steel_degC = std::min(oil_degC + steel_over_K, oil_ceiling_degC)},
                std::exp(table.first_ln_load + static_cast<double>(k) * table.step_ln_load));
            // A margin of 0 or less is below any limit.
            constexpr double least_margin = 1e-3;
            table.ln_S_B[t][k] = std::log(std::max(at.S_B, least_margin));
            table.ln_film[t][k] = std::log(at.film_ratio > 0 ? at.film_ratio : no_film);
        }
    return table;
}

void FlanksOverRange::make() {
    if (!S_B_.empty()) return;
    S_B_.assign(draws_.size(), no_film);
    film_ratio_ = S_B_;
    for (std::size_t leg = 0; leg < setup_.event.legs.size(); ++leg) {
        if (setup_.event.legs[leg].kind == LegKind::stop ||
            draws_.front().leg_peak_degC[leg] <= never_driven_degC)
            continue;
        const Table table = table_of(leg);
        const auto at = [](const auto& values, double t, double k) {
            std::array<double, temps> by_temp{};
            for (std::size_t i = 0; i < temps; ++i)
                by_temp[i] = at_place(values[i].data(), loads, k, 1);
            return std::exp(at_place(by_temp.data(), temps, t, 1));
        };
        const bool film = std::isfinite(table.ln_film[0][0]);
        for (std::size_t i = 0; i < draws_.size(); ++i) {
            const DrawResult& draw = draws_[i];
            const double t = place_of(draw.leg_peak_degC[leg], table.first_degC, table.step_K);
            const double k = place_of(std::log(draw.load / setup_.factors.load),
                                      table.first_ln_load, table.step_ln_load);
            S_B_[i] = std::min(S_B_[i], at(table.ln_S_B, t, k));
            if (film) film_ratio_[i] = std::min(film_ratio_[i], at(table.ln_film, t, k));
        }
    }
}

const std::vector<double>& FlanksOverRange::S_B() {
    make();
    return S_B_;
}

const std::vector<double>& FlanksOverRange::film_ratio() {
    make();
    return film_ratio_;
}

}  // namespace caseload
