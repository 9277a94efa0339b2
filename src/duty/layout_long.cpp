// SPDX-License-Identifier: MIT
// Layout of the long form: a record a line, with the channel's name in it.
#include "duty/layout_builder.hpp"

#include <fmt/format.h>

#include <algorithm>

namespace caseload::duty {

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
            refuse(header_.line, fmt::format("time: no unit stands at \"{}\"", time.heading),
                   "say it: --unit time=s");
        time.unit = "s";
    }
    layout_.columns.clear();
    Header fields = header_;
    header_.names.clear();
    header_.units.clear();
    std::vector<std::vector<double>> at_s;
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
        if (const auto t = value_of(cells[layout_.time_at]))
            at_s[static_cast<std::size_t>(found - header_.names.begin())].push_back(*t *
                                                                                    time.factor);
    }
    layout_.headings = header_.names;
    layout_.interval_s.assign(channel_count, 0);
    for (const ChannelWords& words : channel_words()) {
        if (index(words.channel) <= index(Channel::millisecond)) continue;
        const auto found = candidates(words.channel);
        if (found.size() > 1)
            refuse(
                fields.line,
                fmt::format("{} channels could be {}: {}", found.size(), words.name, list(found)),
                fmt::format("say which: --map \"{}={}\"", words.name,
                            header_.names[found.front()]));
        if (found.empty()) continue;
        add_column(words, found.front());
        auto& t_s = at_s[found.front()];
        std::vector<double> steps;
        for (std::size_t i = 1; i < t_s.size(); ++i)
            if (t_s[i] > t_s[i - 1]) steps.push_back(t_s[i] - t_s[i - 1]);
        if (steps.empty()) continue;
        std::sort(steps.begin(), steps.end());
        layout_.interval_s[index(words.channel)] = steps[steps.size() / 2];
    }
    time.at = layout_.time_at;
    layout_.columns.push_back(time);
    // The clock of the log is its fastest channel's.
    for (const double interval_s : layout_.interval_s)
        if (interval_s > 0 && (layout_.median_dt_s == 0 || interval_s < layout_.median_dt_s))
            layout_.median_dt_s = interval_s;
    if (!(layout_.median_dt_s > 0))
        refuse(fields.first_line, "no channel of this log is known by its name",
               "say which is which: --map engine_speed=NAME");
}

}  // namespace caseload::duty
