// SPDX-License-Identifier: MIT
#include "ask/calibrate_model.hpp"

#include "caseload/error.hpp"

#include <algorithm>
#include <cmath>
#include <utility>

namespace caseload {
namespace {

// A log has level, slope and bend: its rows follow each other and count as this many readings
// together, however many there are. Judgement.
constexpr double readings_of_a_log = 4;

bool in_oil(ReadingPlace place) {
    return place == ReadingPlace::scavenge_line || place == ReadingPlace::oil_bath;
}

double usual_scatter_K(ReadingPlace place) {
    if (in_oil(place)) return line_reading_K;
    return place == ReadingPlace::housing_below_oil ? skin_reading_K : above_reading_K;
}

}  // namespace

ReadingModel::ReadingModel(const Setup& setup, const ForEach& for_each) {
    for (const ReadingInput& reading : setup.readings) {
        Observation seen;
        seen.reading = reading.name;
        seen.oil = in_oil(reading.place);
        seen.scatter_K = reading.scatter_K.value_or(usual_scatter_K(reading.place));
        Run run{.leg = reading.leg,
                .ambient_degC = reading.ambient_degC,
                .start_degC = reading.start_degC.value_or(reading.ambient_degC),
                .duration_s = reading.at_pace_s,
                .cooler = reading.cooler,
                .at_s = {},
                .fast = {}};
        if (reading.series.empty()) {
            seen.low_degC = reading.temp_degC;
            seen.high_degC = reading.clear_degC.value_or(reading.temp_degC);
            seen.highest = reading.clear_degC.has_value();
            seen.run = run_of(std::move(run));
            observations_.push_back(seen);
            continue;
        }
        if (reading.series.front().t_s <= 0 && !reading.start_degC)
            run.start_degC = reading.series.front().temp_degC;
        run.at_s = {0.0};
        for (const LoggedTemp& row : reading.series)
            if (row.t_s > 0) run.at_s.push_back(row.t_s);
        run.duration_s = run.at_s.back();
        const auto rows = static_cast<double>(run.at_s.size() - 1);
        seen.scatter_K *= std::sqrt(std::max(1.0, rows / readings_of_a_log));
        seen.logged = true;
        seen.run = run_of(std::move(run));
        for (const LoggedTemp& row : reading.series) {
            if (row.t_s <= 0) continue;
            ++seen.moment;
            seen.low_degC = seen.high_degC = row.temp_degC;
            observations_.push_back(seen);
        }
    }
    follow_logs_in_longer_runs();
    for_each(runs_.size(), [&](std::size_t i) {
        runs_[i].fast = std::make_shared<const FastCase>(case_of(setup, runs_[i]));
    });
}

std::size_t ReadingModel::run_of(Run run) {
    const auto found = std::find_if(runs_.begin(), runs_.end(), [&](const Run& one) {
        return alike(one, run) && one.duration_s == run.duration_s && one.at_s == run.at_s;
    });
    if (found != runs_.end()) return static_cast<std::size_t>(found - runs_.begin());
    runs_.push_back(std::move(run));
    return runs_.size() - 1;
}

/// A log is the beginning of a longer run in the same circumstances: one calculation for both.
void ReadingModel::follow_logs_in_longer_runs() {
    for (std::size_t log = 0; log < runs_.size();) {
        const auto longer = std::find_if(runs_.begin(), runs_.end(), [&](const Run& one) {
            return one.at_s.empty() && alike(one, runs_[log]) &&
                   one.duration_s >= runs_[log].duration_s;
        });
        if (runs_[log].at_s.empty() || longer == runs_.end()) {
            ++log;
            continue;
        }
        longer->at_s = runs_[log].at_s;
        const auto into = static_cast<std::size_t>(longer - runs_.begin());
        for (Observation& one : observations_) {
            if (one.run == log) one.run = into;
            if (one.run > log) --one.run;
        }
        runs_.erase(runs_.begin() + static_cast<std::ptrdiff_t>(log));
    }
}

FastCase ReadingModel::case_of(const Setup& setup, const Run& run) {
    Setup alone = setup;
    EventInput& event = alone.event;
    const auto leg = std::find_if(setup.event.legs.begin(), setup.event.legs.end(),
                                  [&](const LegInput& one) { return one.name == run.leg; });
    if (leg == setup.event.legs.end())
        throw Error(Error::Kind::domain, "reading on a leg that is not driven: " + run.leg);
    event.legs = {*leg};
    event.legs.front().duration_s = run.duration_s;
    event.run = {0};
    event.ambient_degC = run.ambient_degC;
    event.oil_at_start_degC = run.start_degC;
    event.oil_at_start_entered = true;
    return FastCase(alone, FastUse::temperatures);
}

std::vector<double> ReadingModel::at(const Factors& factors) const {
    std::vector<DrawResult> ends;
    std::vector<OilTrace> traces;
    for (const Run& run : runs_) {
        traces.push_back({run.at_s, {}});
        ends.push_back(run.at_s.empty() ? run.fast->run(factors, run.cooler)
                                        : run.fast->run(factors, run.cooler, &traces.back()));
    }
    std::vector<double> temps_degC;
    temps_degC.reserve(observations_.size());
    for (const Observation& one : observations_) {
        const DrawResult& end = ends[one.run];
        if (one.logged)
            temps_degC.push_back(traces[one.run].oil_degC.at(one.moment));
        else if (one.highest)
            temps_degC.push_back(one.oil ? end.peak_oil_degC : end.peak_housing_degC);
        else
            temps_degC.push_back(one.oil ? end.reading_oil_degC : end.reading_housing_degC);
    }
    return temps_degC;
}

}  // namespace caseload
