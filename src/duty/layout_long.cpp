// SPDX-License-Identifier: MIT
// Layout of the long form: a record a line, with the channel's name in it.
#include "duty/layout_builder.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <utility>
#include <vector>

namespace caseload::duty {
namespace {

double median(std::vector<double>& steps) {
    if (steps.empty()) return 0;
    const auto middle = steps.begin() + static_cast<std::ptrdiff_t>(steps.size() / 2);
    std::nth_element(steps.begin(), middle, steps.end());
    return *middle;
}

/// The usual time from one reading to the next. Those of a burst are one, where that leaves more
/// than 0.4 s between them (judgement).
double usual_step_s(const std::vector<double>& t_s) {
    constexpr double slow_s = 0.4;
    std::vector<double> steps;
    std::vector<double> of_bursts;
    double begun_s = t_s.empty() ? 0 : t_s.front();
    for (std::size_t i = 1; i < t_s.size(); ++i) {
        if (t_s[i] > t_s[i - 1]) steps.push_back(t_s[i] - t_s[i - 1]);
        const double since_s = t_s[i] - begun_s;
        if (since_s >= 0 && since_s < burst_s) continue;
        if (since_s > 0) of_bursts.push_back(since_s);
        begun_s = t_s[i];
    }
    const double step_s = median(of_bursts);
    return step_s > slow_s ? step_s : median(steps);
}

}  // namespace

bool LayoutBuilder::is_long_form() {
    std::size_t name = header_.names.size();
    std::size_t value = name;
    for (std::size_t i = 0; i < header_.names.size(); ++i) {
        const std::string word = folded(header_.names[i]);
        if (word == "pid" || word == "channel" || word == "signal" || word == "kanal") name = i;
        if (word == "value" || word == "wert") value = i;
    }
    if (name == header_.names.size() || value == header_.names.size()) return false;
    layout_.name_at = name;
    layout_.value_at = value;
    return true;
}

// Long: one look at each line, in which every channel is found, counted and timed.
void LayoutBuilder::build_long() {
    layout_.dialect.long_form = true;
    std::size_t units = header_.names.size();
    for (std::size_t i = 0; i < header_.names.size(); ++i) {
        const std::string word = folded(header_.names[i]);
        if (word == "units" || word == "unit" || word == "einheit") units = i;
    }
    const auto times = candidates(Channel::time);
    if (times.size() != 1)
        refuse(header_.line, "no column, or more than one, is the time",
               "say which: --map time=COLUMN");
    layout_.time_at = times.front();
    add_column(words_of(Channel::time), times.front());
    Column time = layout_.columns.front();
    settle_one(time);
    settle_dates(time);
    if (time.unit.empty()) {
        const std::string word = folded(time.heading);
        if (word != "seconds" && word != "secs" && word != "sec")
            refuse(header_.line, fmt::format("time: \"{}\" has no unit", time.heading),
                   "say it: --unit time=s");
        time.unit = "s";
    }
    layout_.columns.clear();
    Header fields = header_;
    header_.names.clear();
    header_.units.clear();
    std::vector<std::vector<double>> at_s;
    std::vector<std::pair<std::size_t, double>> all;  ///< name and time of each record
    for (std::size_t row = 0; row < rows_->size(); ++row) {
        const auto cells = (*rows_)[row];
        const std::string name = shown(cells[layout_.name_at], layout_.dialect.encoding);
        auto found = std::find(header_.names.begin(), header_.names.end(), name);
        if (found == header_.names.end()) {
            header_.names.push_back(name);
            header_.units.push_back(
                units < cells.size() ? shown(cells[units], layout_.dialect.encoding) : "");
            at_s.emplace_back();
            found = header_.names.end() - 1;
        }
        if (const auto t = value_of(cells[layout_.time_at])) {
            const auto at = static_cast<std::size_t>(found - header_.names.begin());
            at_s[at].push_back(*t * time.factor);
            all.emplace_back(at, *t * time.factor);
        }
    }
    layout_.headings = header_.names;
    layout_.interval_s.assign(channel_count, 0);
    for (const ChannelWords& words : channel_words()) {
        if (index(words.channel) <= index(Channel::millisecond) || of_track_alone(words.channel))
            continue;
        const auto found = candidates(words.channel);
        if (found.size() > 1)
            refuse(
                fields.line,
                fmt::format("{} channels could be {}: {}", found.size(), words.name, list(found)),
                fmt::format("say which: --map \"{}={}\"", words.name,
                            header_.names[found.front()]));
        if (found.empty()) continue;
        add_column(words, found.front());
        const double step_s = usual_step_s(at_s[found.front()]);
        layout_.interval_s[index(words.channel)] = step_s;
        layout_.columns.back().step_s = step_s;
    }
    time.at = layout_.time_at;
    layout_.columns.push_back(time);
    // Lines of the log are the records of its channels together.
    std::vector<double> known_s;
    for (const auto& [at, t] : all)
        if (std::any_of(layout_.columns.begin(), layout_.columns.end() - 1,
                        [&, name = at](const Column& column) { return column.at == name; }))
            known_s.push_back(t);
    layout_.median_dt_s = usual_step_s(known_s);
    if (!(layout_.median_dt_s > 0))
        refuse(fields.first_line, "no channel of this log is known by its name",
               "say which is which: --map engine_speed=NAME");
}

}  // namespace caseload::duty
