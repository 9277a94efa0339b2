// SPDX-License-Identifier: MIT
#include "duty/legs.hpp"

#include "bins/bins.hpp"
#include "caseload/error.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <cstdint>
#include <cstring>
#include <functional>
#include <utility>

namespace caseload::duty {
namespace {

// Hysteresis of the count: 2 to 5 % of the full range. Common practice, no published source.
constexpr double gate_share = 0.05;
// Peaks are written in classes of a twentieth of the leg's largest torque, down to half of it:
// below that a root takes less than 0.5^8.7 = 1/400 of what the largest does.
constexpr int peak_classes = 20;
constexpr int lowest_class = 10;
constexpr std::size_t ranges_shown = 10;
constexpr std::size_t most_legs = 400;

/// Upper end of a class of level<5>.
double top_of_level(std::size_t k) {
    if (k == 0) return 1;
    const std::uint64_t bits = ((std::uint64_t{1023} << 5U) + k) << 47U;
    double x = 0;
    std::memcpy(&x, &bits, sizeof x);
    return x;
}

}  // namespace

Legs::Legs(double shortest_stop_s, const bins::Measures& measures, std::string file)
    : shortest_stop_s_(shortest_stop_s),
      measures_(measures),
      file_(std::move(file)),
      by_cells_(measures.count(), 0.0),
      by_bins_(measures.count(), 0.0) {}

void Legs::stand(const State& state) {
    if (standing_s_ < shortest_stop_s_) standing_.push_back(state);
    standing_s_ += state.dt_s;
    if (state.engine_off) engine_off_s_ += state.dt_s;
    if (standing_s_ >= shortest_stop_s_ && !standing_.empty()) {
        standing_.clear();
        end_drive();
    }
}

void Legs::end_standing() {
    if (standing_s_ >= shortest_stop_s_) {
        LegInput stop;
        stop.kind = LegKind::stop;
        stop.duration_s = standing_s_;
        stop.engine = 2 * engine_off_s_ > standing_s_ ? Engine::off : Engine::idle;
        known_s_.push_back(stop.duration_s);
        legs_.push_back(std::move(stop));
    } else {
        for (const State& state : standing_) drive(state);
    }
    standing_.clear();
    standing_s_ = 0;
    engine_off_s_ = 0;
}

void Legs::end_drive() {
    counter_.finish([this](double from, double to, double count) { cycle(from, to, count); });
    // The reader takes no leg shorter than a second.
    if (leg_s_ >= 1) {
        LegInput leg;
        leg.kind = LegKind::drive;
        leg.duration_s = leg_s_;
        leg.distance_m = way_m_;
        bins::BinnedLeg binned = bins::bins_of(cells_.take(), measures_);
        leg.bins = std::move(binned.bins);
        for (std::size_t k = 0; k < by_cells_.size(); ++k) {
            by_cells_[k] += binned.by_cells[k];
            by_bins_[k] += binned.by_bins[k];
        }
        write_peaks(leg);
        OilSeries series;
        series.rows = oil_log_.take(leg_s_ + unknown_s_);
        lengthen(leg);
        if (ambient_s_ > 0) series.ambient_degC = ambient_degC_s_ / ambient_s_;
        if (!series.rows.empty()) oil_[legs_.size()] = std::move(series);
        known_s_.push_back(leg_s_);
        legs_.push_back(std::move(leg));
        if (legs_.size() > most_legs)
            throw Error(Error::Kind::input,
                        {Problem{{file_, 0, 0, 0, {}},
                                 fmt::format("the log has more than {} legs and stops", most_legs),
                                 "call only longer rests a stop: --shortest-stop \"5 min\""}});
    } else {
        // Too short for a leg, but its time and way count.
        unknown_s_ += leg_s_;
        unknown_m_ += way_m_;
        all_unknown_s_ += leg_s_;
        all_unknown_m_ += way_m_;
    }
    (void)cells_.take();
    (void)oil_log_.take(0);
    ambient_degC_s_ = 0;
    ambient_s_ = 0;
    for (auto& of_range : cycles_) of_range.reset();
    leg_s_ = 0;
    way_m_ = 0;
    leg_high_Nm_ = 0;
    leg_low_Nm_ = 0;
}

void Legs::unknown(double dt_s, double way_m) {
    if (standing_s_ > 0) end_standing();
    unknown_s_ += dt_s;
    unknown_m_ += way_m;
    all_unknown_s_ += dt_s;
    all_unknown_m_ += way_m;
}

void Legs::lengthen(LegInput& leg) {
    if (unknown_s_ <= 0) return;
    const double factor = (leg.duration_s + unknown_s_) / leg.duration_s;
    for (Peak& peak : leg.peaks) peak.times *= factor;
    leg.duration_s += unknown_s_;
    leg.distance_m += unknown_m_;
    unknown_s_ = 0;
    unknown_m_ = 0;
}

void Legs::write_peaks(LegInput& leg) {
    const double gate_Nm = gate_share * (leg_high_Nm_ - leg_low_Nm_);
    gate_Nm_ = std::max(gate_Nm_, gate_Nm);
    largest_Nm_ = std::max(largest_Nm_, leg_high_Nm_);
    std::vector<double> times(peak_classes + 1, 0.0);
    for (std::size_t range = 0; range < cycle_levels; ++range) {
        // A class counts by its upper end: on the safe side by 3 % at most.
        const double range_Nm = top_of_level(range);
        if (!cycles_[range] || range_Nm < gate_Nm) continue;
        for (std::size_t high = 0; high < cycle_levels; ++high) {
            const double count = (*cycles_[range])[high];
            if (count == 0) continue;
            for (double k = 0; k < std::min<double>(std::ceil(count), ranges_shown); ++k)
                ranges_.push_back(std::min(range_Nm, leg_high_Nm_ - leg_low_Nm_));
            if (high == 0 || leg_high_Nm_ < 1) continue;
            const double high_Nm = std::min(top_of_level(high), leg_high_Nm_);
            const int k = static_cast<int>(std::ceil(peak_classes * high_Nm / leg_high_Nm_));
            times[static_cast<std::size_t>(std::min(k, peak_classes))] += count;
        }
    }
    std::sort(ranges_.begin(), ranges_.end(), std::greater<>());
    if (ranges_.size() > ranges_shown) ranges_.resize(ranges_shown);
    for (int k = peak_classes; k > lowest_class; --k)
        // The reader takes no peak below 1 N m.
        if (times[static_cast<std::size_t>(k)] > 0 && leg_high_Nm_ * k >= peak_classes)
            leg.peaks.push_back(
                {leg_high_Nm_ * k / peak_classes, times[static_cast<std::size_t>(k)]});
}

void Legs::finish() {
    const bool stop = standing_s_ > 0 && standing_s_ >= shortest_stop_s_;
    if (standing_s_ > 0) end_standing();
    if (!stop) end_drive();
    // What came behind the last drive, or was too short to be one.
    const auto last = std::find_if(legs_.rbegin(), legs_.rend(),
                                   [](const LegInput& leg) { return leg.kind == LegKind::drive; });
    if (last != legs_.rend()) lengthen(*last);
}

}  // namespace caseload::duty
