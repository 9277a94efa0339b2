// SPDX-License-Identifier: MIT
#include "duty/gears.hpp"

#include "caseload/units.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <functional>
#include <optional>

namespace caseload::duty {
namespace {

// All of this is judgement. Gears of a box lie at least 20 % apart; within one the ratio scatters
// by tyre slip.
constexpr double least_ratio = 0.4;
constexpr double class_ln = 0.02;
constexpr int half_core = 3;          // classes to each side that a cluster is counted by
constexpr int half_width = 7;         // .. and that belong to it
constexpr int half_apart = 9;         // .. where no other lies
constexpr double least_share = 0.03;  // of the lines
constexpr double least_core = 0.6;    // of its width
constexpr std::size_t most_gears = 8;
constexpr double slowest_mps = 2;
constexpr double slowest_rpm = 500;

std::optional<double> value(const CellViews& cells, const Column& column, const Marks& marks) {
    double x = 0;
    if (number::read_rest(cells[column.at], marks, x) != Cell::number) return std::nullopt;
    return x * column.factor + column.offset;
}

class Clusters {
public:
    void add(double ratio) {
        if (!(ratio > least_ratio && ratio < most_ratio)) return;
        const double ln = std::log(ratio / least_ratio);
        const auto at = std::min(classes - 1, static_cast<std::size_t>(ln / class_ln));
        counts_[at] += 1;
        logs_[at] += std::log(ratio);
        all_ += 1;
    }
    std::vector<double> find() {
        std::vector<double> ratios;
        while (ratios.size() < most_gears) {
            int best = -1;
            double most = 0;
            for (int at = 0; at < static_cast<int>(classes); ++at) {
                const double core = sum(counts_, at, half_core);
                if (core > most) {
                    most = core;
                    best = at;
                }
            }
            if (best < 0 || most < least_share * all_) break;
            if (most >= least_core * sum(counts_, best, half_width))
                ratios.push_back(std::exp(sum(logs_, best, half_core) / most));
            clear(best);
        }
        std::sort(ratios.begin(), ratios.end(), std::greater<>());
        return ratios;
    }

private:
    static constexpr std::size_t classes = 150;  // to ln(8 / 0.4) / 0.02
    using Counts = std::array<double, classes>;
    static double sum(const Counts& of, int at, int half) {
        double total = 0;
        for (int i = std::max(0, at - half); i <= std::min<int>(classes - 1, at + half); ++i)
            total += of[static_cast<std::size_t>(i)];
        return total;
    }
    void clear(int at) {
        for (int i = std::max(0, at - half_apart); i <= std::min<int>(classes - 1, at + half_apart);
             ++i)
            counts_[static_cast<std::size_t>(i)] = logs_[static_cast<std::size_t>(i)] = 0;
    }

    Counts counts_{};
    Counts logs_{};
    double all_ = 0;
};

}  // namespace

std::vector<double> clustered_gears(const Sampled& sampled, const Layout& layout, double lever_m) {
    const Column* const engine = layout.find(Channel::engine_speed);
    const Column* const road = layout.find(Channel::road_speed);
    if (engine == nullptr || road == nullptr || layout.dialect.long_form) return {};
    Clusters clusters;
    CellViews cells;
    const auto add = [&](std::string_view line) {
        cells.take(line, layout.dialect.delimiter);
        if (cells.size() != layout.dialect.fields) return;
        const auto rpm = value(cells, *engine, layout.marks());
        const auto mps = value(cells, *road, layout.marks());
        if (rpm && mps && *rpm > slowest_rpm && *mps > slowest_mps)
            clusters.add(*rpm / rpm_from_radps(*mps / lever_m));
    };
    for (std::size_t i = layout.dialect.first_line; i < sampled.head.size(); ++i)
        add(sampled.head[i]);
    for (const std::string_view line : sampled.later) add(line);
    return clusters.find();
}

}  // namespace caseload::duty
