// SPDX-License-Identifier: MIT
// Which set to fit: the decision, then a column a set.
#include "caseload/figures.hpp"
#include "caseload/show/choices.hpp"
#include "caseload/units.hpp"
#include "show/json_writer.hpp"
#include "show/lines.hpp"
#include "show/units_shown.hpp"

#include <fmt/format.h>
#include <fmt/ranges.h>

#include <algorithm>
#include <cmath>
#include <functional>
#include <string>
#include <utility>
#include <vector>

namespace caseload {
namespace {

constexpr std::size_t gap = 2;           // blanks between columns
constexpr std::size_t most_columns = 4;  // sets beside each other
constexpr std::size_t most_offers = 12;

std::string teeth_of(const SetResult& set) {
    return fmt::format("{}", fmt::join(set.teeth, "/"));
}

std::string called(const SetResult& set) {
    return set.name == teeth_of(set) ? set.name
                                     : fmt::format("{} (set {})", teeth_of(set), set.name);
}

std::string speed_of(const Units& units, double mps) {
    return units.imperial() ? fmt::format("{:.0f} mph", mph_from_mps(mps))
                            : fmt::format("{:.0f} km/h", kmph_from_mps(mps));
}

/// Words and a column for each set, as wide as their widest cell.
class Columns {
public:
    Columns(const Units& units, const std::vector<SetResult>& sets)
        : units_(units), sets_(sets), widths_(sets.size(), 0) {}

    void row(const std::string& words, const std::function<std::string(const SetResult&)>& cell) {
        std::vector<std::string> cells;
        for (std::size_t i = 0; i < sets_.size(); ++i) {
            cells.push_back(cell(sets_[i]));
            widths_[i] = std::max(widths_[i], cells.back().size());
        }
        head_width_ = std::max(head_width_, words.size());
        rows_.emplace_back(words, std::move(cells));
    }

    [[nodiscard]] std::string speed(double mps) const { return speed_of(units_, mps); }

    /// As many columns as fit a screen, at least one.
    [[nodiscard]] std::string text() const {
        std::size_t columns = 1;
        std::size_t width = indent + head_width_ + gap + widths_.front();
        while (columns < widths_.size() && width + gap + widths_[columns] <= screen_width)
            width += gap + widths_[columns++];
        std::string out;
        for (const auto& [words, cells] : rows_) {
            out += fmt::format("{:{}}{:<{}}", "", indent, words, head_width_);
            for (std::size_t i = 0; i < columns; ++i)
                out += fmt::format("{:{}}{:>{}}", "", gap, cells[i], widths_[i]);
            out += '\n';
        }
        return columns < widths_.size() ? out + "    The other sets: --json\n" : out;
    }

private:
    static constexpr std::size_t indent = 4;
    const Units& units_;
    const std::vector<SetResult>& sets_;
    std::vector<std::size_t> widths_;
    std::size_t head_width_ = 0;
    std::vector<std::pair<std::string, std::vector<std::string>>> rows_;
};

/// "118..137..>160": narrow enough for a column.
std::string band_of(const Units& units, const Percentiles& oil) {
    const auto temp = [&](double degC) {
        const std::string words = units.temp(degC);
        return words.rfind("above ", 0) == 0 ? ">" + words.substr(6) : words;
    };
    return fmt::format("{}..{}..{}", temp(oil.p10), temp(oil.p50), temp(oil.p90));
}

void speed_rows(const Setup& setup, const std::vector<SetResult>& sets, Columns& columns) {
    for (std::size_t gear = 0; gear < sets.front().top_road_speed_mps.size(); ++gear)
        columns.row(fmt::format("top speed, gear {} ({:g})", gear + 1, setup.vehicle.gearbox[gear]),
                    [&](const SetResult& s) { return columns.speed(s.top_road_speed_mps[gear]); });
    const auto rpm = [](double n_rpm) {
        return n_rpm > 0 ? fmt::format("{:.0f} r/min", n_rpm) : "-";
    };
    columns.row("input shaft, mean", [&](const SetResult& s) { return rpm(s.pace_input_rpm); });
    columns.row("prop shafts, mean", [&](const SetResult& s) { return rpm(s.pace_prop_rpm); });
    columns.row("at the fastest point", [&](const SetResult& s) {
        return s.fast_road_speed_mps > 0 ? columns.speed(s.fast_road_speed_mps) : "-";
    });
    columns.row("  input shaft", [&](const SetResult& s) { return rpm(s.fast_input_rpm); });
    columns.row("  prop shafts", [&](const SetResult& s) { return rpm(s.fast_prop_rpm); });
    if (!setup.vehicle.gearbox.empty())
        columns.row("  engine, tallest gear",
                    [&](const SetResult& s) { return rpm(s.fast_engine_rpm); });
    if (setup.vehicle.prop_shaft)
        columns.row("  prop shaft, % of critical speed", [&](const SetResult& s) {
            return s.whirl_share > 0 ? fmt::format("{:.0f} %", 100 * s.whirl_share) : "-";
        });
}

void use_rows(const Setup& setup, const Units& units, Columns& columns) {
    const auto known = [](const SetResult& s) { return !s.verdict.empty(); };
    columns.row("verdict with it", [&](const SetResult& s) { return known(s) ? s.verdict : "-"; });
    columns.row(
        fmt::format("oil {}, low .. likely .. high", units.degree()),
        [&](const SetResult& s) { return known(s) ? band_of(units, s.oil_fitted_degC) : "-"; });
    if (setup.cooler.fit)
        columns.row("  without cooler", [&](const SetResult& s) {
            return known(s) ? band_of(units, s.oil_without_degC) : "-";
        });
    columns.row("worst bearing, life used an event", [&](const SetResult& s) {
        return known(s) ? percent_figures(s.bearing_share.p50) + " %" : "-";
    });
    columns.row("worst tooth, life used an event", [&](const SetResult& s) {
        return known(s) ? percent_figures(s.tooth_share) + " %" : "-";
    });
}

void split_rows(Columns& columns) {
    columns.row("same overall ratio: axle gears", [](const SetResult& s) {
        return s.other_axle > 0 ? fmt::format("{:.2f}", s.other_axle) : "-";
    });
    columns.row("  prop shafts then, fastest point", [](const SetResult& s) {
        return s.other_prop_rpm > 0 ? fmt::format("{:.0f} r/min", s.other_prop_rpm) : "-";
    });
    columns.row("  torque on the axle pinion", [](const SetResult& s) {
        return s.other_pinion_torque > 0
                   ? signed_figures(std::round(100 * (s.other_pinion_torque - 1)), 1) + " %"
                   : "-";
    });
}

/// The set to fit and those around it, never more than fit a screen.
std::vector<SetResult> shown(const SetsAnswer& answer) {
    if (answer.sets.size() <= most_columns) return answer.sets;
    const auto middle = static_cast<std::ptrdiff_t>(std::max(answer.fit, 1));
    const auto last = static_cast<std::ptrdiff_t>(answer.sets.size());
    const std::ptrdiff_t from =
        std::min(middle - 1, last - static_cast<std::ptrdiff_t>(most_columns));
    return {answer.sets.begin() + from,
            answer.sets.begin() + from + static_cast<std::ptrdiff_t>(most_columns)};
}

std::string offers(const SetsAnswer& answer, const Units& units) {
    std::string out = "\n  NOT OWNED      pairs of teeth that fit this centre distance\n";
    if (answer.offers.empty()) return out + "    none within ratios of 0.63 to 1.6\n";
    std::size_t printed = 0;
    for (const SetOffer& one : answer.offers) {
        if (++printed > most_offers) break;
        const std::string head = fmt::format(
            "    {:<8} ratio {:.3f}{}", fmt::format("{}", fmt::join(one.teeth, "/")), one.ratio,
            one.top_road_speed_mps > 0 ? "   top speed " + speed_of(units, one.top_road_speed_mps)
                                       : "");
        out += one.remark.empty() ? head + '\n' : wrapped(head + "   ", one.remark);
    }
    if (answer.offers.size() > most_offers)
        out +=
            fmt::format("    and {} more: --json lists all\n", answer.offers.size() - most_offers);
    return out;
}

std::string decision(const SetsAnswer& answer, const Units& units) {
    const auto at = [&](int i) -> const SetResult& {
        return answer.sets[static_cast<std::size_t>(i)];
    };
    if (answer.fit < 0) {
        std::string out = wrapped("  FIT NONE  ", answer.why + ".");
        for (const SetResult& set : answer.sets)
            out += wrapped("    ", units.text(fmt::format("{}: {}.", called(set), set.cannot)));
        return out;
    }
    if (at(answer.fit).verdict == "stop")
        return wrapped("  FIT NONE  ",
                       "do not run it: the verdict is STOP with every drop set that fits; caseload "
                       "assess says why, and what would make it run.");
    std::string out =
        wrapped(at(answer.fit).fitted ? "  KEEP  " : "  FIT  ",
                units.text(fmt::format("{}: {}.", called(at(answer.fit)), answer.why)));
    if (answer.next >= 0)
        out += wrapped("        ", units.text(fmt::format("Not {}: {}.", called(at(answer.next)),
                                                          answer.why_not_next)));
    return out;
}

}  // namespace

std::string sets_screen(const Setup& setup, const SetsAnswer& answer) {
    const Units units(setup.imperial);
    std::string out = heading(setup, units) + decision(answer, units);
    const std::vector<SetResult> sets = shown(answer);
    Columns columns(units, sets);
    columns.row("teeth, input first",
                [](const SetResult& s) { return teeth_of(s) + (s.fitted ? " fitted" : ""); });
    columns.row("ratio, input over output",
                [](const SetResult& s) { return fmt::format("{:.3f}", s.ratio); });
    speed_rows(setup, sets, columns);
    use_rows(setup, units, columns);
    if (setup.vehicle.axle_ratio > 0) split_rows(columns);
    out += "\n  SETS\n" + columns.text();
    if (setup.vehicle.prop_shaft) out += "    prop shaft: stop at 90 % of critical speed\n";
    if (setup.gears.cut.entered())
        out += wrapped(
            "\n  AS CUT         ",
            fmt::format("{} for {}{}; every other set with half of the sum of profile shifts on "
                        "each gear",
                        setup.gears.cut.profile_shift.empty() ? "gears.tip_diameter"
                                                              : "gears.profile_shift",
                        fmt::join(setup.gears.cut.teeth, "/"),
                        setup.gears.cut.teeth.size() == 2 ? ", either way round" : ""));
    bool first = true;
    for (const SetResult& set : answer.sets) {
        if (set.cannot.empty()) continue;
        out += first ? "\n  CANNOT BE FITTED\n" : "";
        first = false;
        out += wrapped("    ", units.text(fmt::format("{}: {}.", called(set), set.cannot)));
    }
    if (!answer.speeds_known)
        out += "\n  NOT KNOWN      top speeds: enter vehicle.engine_limit and vehicle.gearbox\n";
    if (!setup.vehicle.prop_shaft)
        out +=
            "  NOT KNOWN      whirl: enter vehicle.prop_shaft; long shafts suffer above 6500 "
            "r/min\n"
            "                 (common practice, no published source)\n";
    if (!answer.offers.empty()) out += offers(answer, units);
    return out + fmt::format("\n{}   More: --offer, --top-speed\n", deference);
}

std::string sets_json(const Setup& setup, const SetsAnswer& answer) {
    return fmt::format("{{\"schema\":1,{},\"setup\":{},\"sets\":{}}}\n", json_value::caution(),
                       json_writer::text(setup.name), json_writer::object(answer));
}

}  // namespace caseload
