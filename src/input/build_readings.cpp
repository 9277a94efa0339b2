// SPDX-License-Identifier: MIT
// Readings that cannot be, and what earlier readings say of the factors.
#include "caseload/date.hpp"
#include "caseload/factors.hpp"
#include "input/build.hpp"
#include "input/nearest.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

namespace caseload::input {
namespace {

class ReadingCheck {
public:
    ReadingCheck(Completed& from, const Setup& setup, const ReadingInput& reading)
        : from_(from), setup_(setup), reading_(reading) {}

    void check() {
        leg();
        if (!given("series")) {
            one_reading();
        } else if (from_.has(key("series"))) {
            logged();
        }
    }

private:
    [[nodiscard]] std::string key(std::string_view own) const {
        return fmt::format("reading.{}.{}", reading_.name, own);
    }
    [[nodiscard]] bool given(std::string_view own) const { return from_.given(key(own)); }

    void leg() {
        if (!from_.has(key("leg")) || setup_.event.legs.empty() || from_.broken("leg.") ||
            from_.broken("event.run"))
            return;
        std::vector<std::string> driven;
        for (const LegInput& one : setup_.event.legs)
            if (one.kind == LegKind::drive) driven.push_back(one.name);
        if (std::find(driven.begin(), driven.end(), reading_.leg) != driven.end()) return;
        const std::string near = nearest_word(driven, reading_.leg);
        from_.problem(
            key("leg"),
            fmt::format("{} = \"{}\": the event drives no such leg", key("leg"), reading_.leg),
            near.empty() ? fmt::format("it drives {}", fmt::join(driven, ", "))
                         : fmt::format("did you mean \"{}\"?", near));
    }

    void one_reading() {
        for (const std::string_view needed : {"at_pace", "temp"})
            if (!given(needed)) from_.missing(key(needed));
        if (from_.has(key("temp"))) above_air(reading_.temp_degC, 0);
        if (reading_.clear_degC && from_.has(key("temp")) &&
            *reading_.clear_degC <= reading_.temp_degC)
            from_.problem(key("clear"),
                          fmt::format("{} = \"{}\": that window is not above {}", key("clear"),
                                      from_.text(key("clear")), key("temp")),
                          "temp is the highest window that turned, clear the lowest that did not");
    }

    void logged() {
        for (const std::string_view other : {"at_pace", "temp", "clear"})
            if (given(other))
                from_.problem_at({key(other)},
                                 fmt::format("{} and {} are both given", key("series"), key(other)),
                                 "a series holds its own times and temperatures");
        for (std::size_t i = 0; i < reading_.series.size(); ++i) {
            if (i > 0 && reading_.series[i].t_s <= reading_.series[i - 1].t_s)
                from_.problem(
                    key("series"),
                    fmt::format("{}, row {}: the times do not rise", key("series"), i + 1),
                    "give the log from its beginning on");
            if (reading_.series[i].t_s > 0) above_air(reading_.series[i].temp_degC, i + 1);
        }
        if (reading_.series.back().t_s <= 0)
            from_.problem(key("series"),
                          fmt::format("{}: no row is later than the start", key("series")),
                          "log some minutes at pace");
    }

    /// A case that runs makes heat: no part of it is colder than the air, or than air and start.
    void above_air(double temp_degC, std::size_t row) {
        if (!from_.has(key("ambient"))) return;
        const double least_degC =
            std::min(reading_.ambient_degC, reading_.start_degC.value_or(reading_.ambient_degC));
        if (temp_degC > least_degC) return;
        const std::string at =
            row == 0 ? key("temp") : fmt::format("{}, row {}", key("series"), row);
        from_.problem(
            row == 0 ? key("temp") : key("series"),
            fmt::format("{}: {:.4g} degC at pace is not above the {} of {:.4g} degC", at, temp_degC,
                        reading_.start_degC && *reading_.start_degC < reading_.ambient_degC
                            ? "start"
                            : "ambient",
                        least_degC),
            "a case that runs is warmer than the air; check the sensor, the unit and the air");
    }

    Completed& from_;
    const Setup& setup_;
    const ReadingInput& reading_;
};

}  // namespace

void check_readings(Completed& from, const Setup& setup) {
    for (const ReadingInput& reading : setup.readings) ReadingCheck(from, setup, reading).check();
}

void use_measured(Completed& from, Setup& setup) {
    if (!setup.measured) return;
    constexpr std::string_view again = "let `caseload calibrate` write [measured] again";
    Measured& measured = *setup.measured;
    if (from.has("measured.date") && !day_of(measured.date))
        from.problem("measured.date",
                     fmt::format("measured.date = \"{}\": not a date", measured.date),
                     "write year-month-day, for example \"2026-05-30\"");
    std::vector<std::string> known;
    for (const HeatFactorRow& row : heat_factor_rows) known.emplace_back(row.name);
    for (const MeasuredFactor& factor : measured.factors) {
        const auto found =
            std::find_if(heat_factor_rows.begin(), heat_factor_rows.end(),
                         [&](const HeatFactorRow& row) { return row.name == factor.name; });
        const std::string key = "measured." + factor.name;
        if (found == heat_factor_rows.end()) {
            const std::string near = nearest_word(known, factor.name);
            from.problem_at({key + ".median", key + ".spread"},
                            fmt::format("{}: there is no such factor", key),
                            near.empty() ? fmt::format("factors are {}", fmt::join(known, ", "))
                                         : fmt::format("did you mean {}?", near));
            continue;
        }
        setup.factors.*found->member = factor.median;
    }
    // In the order of the draws, each with its correlations with all before it.
    std::vector<MeasuredFactor> ordered;
    for (std::size_t k = 0; k < heat_factors; ++k) {
        const std::string name(heat_factor_rows.at(k).name);
        const auto found =
            std::find_if(measured.factors.begin(), measured.factors.end(),
                         [&](const MeasuredFactor& one) { return one.name == name; });
        if (found == measured.factors.end()) {
            if (!from.broken("measured."))
                from.problem("measured.readings",
                             fmt::format("measured.{} is not there: [measured] is not whole", name),
                             std::string(again));
            return;
        }
        if (found->with.size() != k && !from.broken("measured." + name))
            from.problem("measured." + name + ".median",
                         fmt::format("measured.{}.with has {} correlations, not {}", name,
                                     found->with.size(), k),
                         std::string(again));
        ordered.push_back(*found);
    }
    measured.factors = std::move(ordered);
}

}  // namespace caseload::input
