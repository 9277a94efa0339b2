// SPDX-License-Identifier: MIT
#include "caseload/ask/region.hpp"

#include "caseload/ask/each.hpp"
#include "caseload/ask/on_ground.hpp"
#include "caseload/ask/verdict.hpp"

#include <fast_float/fast_float.h>
#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <utility>

namespace caseload {
namespace {

constexpr std::size_t most_axes = 3;
constexpr std::size_t most_steps = 9;
constexpr std::size_t usual_steps = 5;
constexpr double usual_low = 0.8;
constexpr double usual_high = 1.3;

[[noreturn]] void refuse(const std::string& what) {
    refuse_input("--grid: " + what,
                 "write keys with commas between, each alone or with low:high:steps: "
                 "vehicle.mass=1800 kg:2600 kg:5,vehicle.tyre");
}

std::vector<std::string> split_at(std::string_view text, char mark) {
    std::vector<std::string> parts(1);
    for (const char c : text) {
        if (c == mark)
            parts.emplace_back();
        else
            parts.back() += c;
    }
    for (std::string& part : parts) {
        part.erase(0, std::min(part.find_first_not_of(' '), part.size()));
        while (!part.empty() && part.back() == ' ') part.pop_back();
    }
    return parts;
}

/// A number with its unit, as people write it.
struct Written {
    double number = 0;
    std::string unit;  ///< with its blank
};

Written read_written(const std::string& key, const std::string& text) {
    Written read;
    const char* const end = text.data() + text.size();
    const auto [stop, failed] = fast_float::from_chars(text.data(), end, read.number);
    if (failed != std::errc() || !std::isfinite(read.number))
        refuse(fmt::format("{} \"{}\" is not a number", key, text));
    read.unit.assign(stop, end);
    return read;
}

struct Ends {
    Written low;
    Written high;
};

std::vector<std::string> spaced(const Ends& ends, std::size_t steps) {
    std::vector<std::string> values;
    for (std::size_t i = 0; i < steps; ++i) {
        const double part = static_cast<double>(i) / static_cast<double>(steps - 1);
        values.push_back(fmt::format("{:.4g}{}",
                                     ends.low.number + part * (ends.high.number - ends.low.number),
                                     ends.low.unit));
    }
    return values;
}

Axis read_axis(const std::string& text, const ReadSetup& read) {
    const std::size_t equals = text.find('=');
    const std::string key = split_at(text.substr(0, equals), '=').front();
    if (equals != std::string::npos) {
        const std::vector<std::string> parts = split_at(text.substr(equals + 1), ':');
        if (parts.size() != 3)
            refuse(fmt::format("{}: \"{}\" is not low:high:steps", key, text.substr(equals + 1)));
        const auto end = [&](const std::string& part) {
            return read_written(key, new_value(read, "--grid", key, part));
        };
        const Ends ends{end(parts[0]), end(parts[1])};
        const Written steps = read_written(key, parts[2]);
        if (ends.low.unit != ends.high.unit)
            refuse(
                fmt::format("{}: \"{}\" and \"{}\" have different units", key, parts[0], parts[1]));
        for (std::size_t n = 2; n <= most_steps; ++n)
            if (steps.unit.empty() && steps.number == static_cast<double>(n))
                return {key, spaced(ends, n)};
        refuse(fmt::format("{}: steps \"{}\": a whole number from 2 to {}", key, parts[2],
                           most_steps));
    }
    for (const Entry& entry : read.entries) {
        if (entry.key != key) continue;
        const Written own = read_written(key, entry.number);
        return {key,
                spaced({{usual_low * own.number, own.unit}, {usual_high * own.number, own.unit}},
                       usual_steps)};
    }
    refuse(fmt::format("{}: the setup has no such key with a value", key));
}

/// Counts through all cells, the last index fastest.
bool next(std::vector<std::size_t>& at, const std::vector<Axis>& axes) {
    for (std::size_t k = axes.size(); k-- > 0;) {
        if (++at[k] < axes[k].values.size()) return true;
        at[k] = 0;
    }
    return false;
}

/// A document whose changes keep the ground.
struct Grounded {
    const FewChanged& document;
    const OnGround& ground;
};

Cell calculated_cell(const Grounded& document, const std::vector<Axis>& axes,
                     std::vector<std::size_t> at, const BandOptions& draws) {
    std::vector<Change> changes;
    changes.reserve(axes.size());
    for (std::size_t k = 0; k < axes.size(); ++k)
        changes.push_back({axes[k].key, cell_toml(axes[k].values[at[k]])});
    Cell cell;
    cell.at = std::move(at);
    try {
        const Setup setup = document.document.setup(document.ground.with(changes));
        const Assessment likely = verdict_answer(setup);
        const Band sure = verdict_band(setup, likely, draws);
        cell.verdict = sure.verdict;
        cell.reason = verdict_reason(setup, likely, sure);
        cell.holds_share = sure.fitted.holds_share;
    } catch (const Error& error) {
        cell.reason = error.problems().front().text;
    }
    return cell;
}

bool inside(const Cell& cell, const std::vector<Region::Bounds>& block) {
    for (std::size_t k = 0; k < block.size(); ++k)
        if (cell.at[k] < block[k].first || cell.at[k] > block[k].last) return false;
    return true;
}

bool all_fine(const Region& region, const std::vector<Region::Bounds>& block) {
    return std::all_of(region.cells.begin(), region.cells.end(), [&](const Cell& cell) {
        return cell.verdict == "fine" || !inside(cell, block);
    });
}

/// Tries every block, axis by axis.
void try_blocks(Region& region, std::vector<Region::Bounds> block, std::size_t& best) {
    if (block.size() == region.axes.size()) {
        std::size_t size = 1;
        for (const Region::Bounds& bounds : block) size *= bounds.last - bounds.first + 1;
        if (size <= best || !all_fine(region, block)) return;
        best = size;
        region.fine = std::move(block);
        return;
    }
    const std::size_t steps = region.axes[block.size()].values.size();
    for (std::size_t first = 0; first < steps; ++first)
        for (std::size_t last = first; last < steps; ++last) {
            block.push_back({first, last});
            try_blocks(region, block, best);
            block.pop_back();
        }
}

std::string decide(const Region& region) {
    const auto count = [&](std::string_view verdict) {
        return std::count_if(region.cells.begin(), region.cells.end(),
                             [&](const Cell& cell) { return cell.verdict == verdict; });
    };
    if (region.fine.empty())
        return fmt::format(
            "Sell it nowhere in this range without a warning: none of {} cells is "
            "fine, {} watch, {} stop.",
            region.cells.size(), count("watch"), count("stop"));
    if (count("fine") == static_cast<std::ptrdiff_t>(region.cells.size()))
        return "No limit in this range: every cell stays fine.";
    std::string words;
    for (std::size_t k = 0; k < region.axes.size(); ++k) {
        const Axis& axis = region.axes[k];
        words += fmt::format("{}{} {} to {}", words.empty() ? "" : ", ", axis.key,
                             axis.values[region.fine[k].first], axis.values[region.fine[k].last]);
    }
    return fmt::format("Sell it without a warning for {}{}.", words,
                       region.axes.size() > 1 ? ", together" : "");
}

}  // namespace

std::vector<Axis> read_axes(std::string_view text, const ReadSetup& read) {
    std::vector<Axis> axes;
    for (const std::string& part : split_at(text, ',')) {
        if (part.empty()) refuse("a key is missing");
        axes.push_back(read_axis(part, read));
    }
    if (axes.size() > most_axes) refuse("more than three keys");
    for (std::size_t a = 0; a < axes.size(); ++a)
        for (std::size_t b = 0; b < a; ++b)
            if (axes[a].key == axes[b].key) refuse(axes[a].key + " is given twice");
    return axes;
}

Region fine_region(const Document& document, const std::vector<Axis>& axes,
                   const BandOptions& options) {
    Region region;
    region.axes = axes;
    const ReadSetup read = document.complete();
    const OnGround ground(read);
    const Setup& own = read.setup;
    region.engine = engine_limited(own, assess(own));
    std::vector<std::vector<std::size_t>> places;
    std::vector<std::size_t> at(axes.size());
    do places.push_back(at);
    while (next(at, axes));
    region.cells.resize(places.size());
    const FewChanged changed(document);
    for_each_answer(places.size(), options, [&](std::size_t i, const BandOptions& draws) {
        region.cells[i] = calculated_cell({changed, ground}, axes, places[i], draws);
    });
    if (std::all_of(region.cells.begin(), region.cells.end(),
                    [](const Cell& cell) { return cell.verdict.empty(); }))
        throw Error(Error::Kind::input,
                    "--grid: no cell can be calculated; the first: " + region.cells.front().reason);
    std::size_t best = 0;
    try_blocks(region, {}, best);
    region.decision = decide(region);
    return region;
}

}  // namespace caseload
