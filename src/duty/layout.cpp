// SPDX-License-Identifier: MIT
#include "duty/layout.hpp"

#include "caseload/error.hpp"
#include "duty/channels.hpp"
#include "duty/clock.hpp"
#include "duty/header.hpp"
#include "input/nearest.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

namespace caseload::duty {
namespace {

using Rows = std::vector<std::vector<std::string>>;

constexpr std::size_t looked_at = 20000;  // data rows for the votes about time

class Builder {
public:
    Builder(const Sampled& sampled, const Dialect& dialect, const ReadOptions& options,
            std::string file)
        : sampled_(sampled), options_(options), file_(std::move(file)) {
        layout_.dialect = dialect;
    }

    Layout build() {
        const FoundHeader found = find_header(sampled_, options_, layout_.dialect);
        header_ = found.header;
        layout_.headings = header_.names;
        if (!found.known) refuse_header();
        layout_.dialect.header_line = header_.line;
        layout_.dialect.units_line = header_.units_line;
        layout_.dialect.first_line = header_.first_line;
        read_rows();
        check_map();
        if (is_long_form())
            build_long();
        else
            build_wide();
        std::sort(layout_.columns.begin(), layout_.columns.end(),
                  [](const Column& a, const Column& b) { return a.at < b.at; });
        return std::move(layout_);
    }

private:
    [[noreturn]] void refuse(std::size_t line, std::string text, std::string hint) const {
        Where where{file_, static_cast<int>(line), line == 0 ? 0 : 1, 0, {}};
        if (line > 0 && line <= sampled_.head.size())
            where.source_line = shown(sampled_.head[line - 1], layout_.dialect.encoding);
        throw Error(Error::Kind::input,
                    {Problem{std::move(where), std::move(text), std::move(hint)}});
    }

    [[noreturn]] void refuse_header() const {
        std::string hint =
            "a row above the data has to name time and a speed; say which column is which: "
            "--map time=COLUMN --map engine_speed=COLUMN";
        if (header_.line == 0) refuse(0, "no row above the data names its columns", hint);
        std::string near;
        for (const Channel channel : {Channel::time, Channel::engine_speed, Channel::road_speed}) {
            const std::string heading = nearest_heading(layout_, channel);
            if (!heading.empty())
                near += fmt::format("{}{} may be \"{}\"", near.empty() ? "" : ", ",
                                    name_of(channel), heading);
        }
        if (!near.empty()) hint += "; " + near;
        refuse(header_.line,
               "this row seems to name the columns, but fewer than two of them are known", hint);
    }

    void read_rows() {
        for (std::size_t i = header_.first_line - 1;
             i < sampled_.head.size() && rows_.size() < looked_at; ++i)
            add_row(sampled_.head[i]);
        head_rows_ = rows_.size();
        for (const std::string_view line : sampled_.later)
            if (rows_.size() < 2 * looked_at) add_row(line);
    }

    void add_row(std::string_view line) {
        auto cells = split(line, layout_.dialect.delimiter);
        if (cells.size() == layout_.dialect.fields) rows_.push_back(std::move(cells));
    }

    void check_map() const {
        for (const auto& [channel, column] : options_.columns)
            if (!channel_named(channel)) refuse_channel("--map", channel);
        for (const auto& [channel, unit] : options_.units)
            if (!channel_named(channel)) refuse_channel("--unit", channel);
    }

    [[noreturn]] static void refuse_channel(std::string_view option, const std::string& channel) {
        std::vector<std::string> names;
        for (const ChannelWords& words : channel_words()) names.emplace_back(words.name);
        const std::string near = input::nearest_word(names, channel);
        throw Error(Error::Kind::input,
                    {Problem{{},
                             fmt::format("{} {}: there is no such channel", option, channel),
                             near.empty() ? fmt::format("channels are {}", fmt::join(names, ", "))
                                          : fmt::format("did you mean {}?", near)}});
    }

    /// Fields that could be this channel: the mapped one, else those whose alias it is.
    [[nodiscard]] std::vector<std::size_t> candidates(Channel channel) const {
        const auto mapped = options_.columns.find(std::string(name_of(channel)));
        std::vector<std::size_t> found;
        if (mapped != options_.columns.end()) {
            const std::string& wanted = mapped->second;
            for (std::size_t i = 0; i < header_.names.size(); ++i)
                if (header_.names[i] == wanted || wanted == fmt::format("#{}", i + 1))
                    found.push_back(i);
            for (std::size_t i = 0; found.empty() && i < header_.names.size(); ++i)
                if (folded(header_.names[i]) == folded(wanted) ||
                    folded(split_heading(header_.names[i]).name) == folded(wanted))
                    found.push_back(i);
            if (found.empty()) {
                const std::string near = input::nearest_word(header_.names, wanted);
                refuse(
                    header_.line,
                    fmt::format("--map {}={}: no column has this name", name_of(channel), wanted),
                    near.empty() ? "columns can also be told by number: #1 is the first"
                                 : fmt::format("did you mean \"{}\"?", near));
            }
            return found;
        }
        for (std::size_t i = 0; i < header_.names.size(); ++i) {
            if (claimed(i)) continue;
            const auto whole = channel_of_heading(header_.names[i]);
            const auto name = channel_of_heading(split_heading(header_.names[i]).name);
            if ((whole ? whole : name) == channel) found.push_back(i);
        }
        return found;
    }

    /// True of a column that --map gives to some channel.
    [[nodiscard]] bool claimed(std::size_t at) const {
        return std::any_of(options_.columns.begin(), options_.columns.end(), [&](const auto& one) {
            return one.second == header_.names[at] || one.second == fmt::format("#{}", at + 1) ||
                   folded(one.second) == folded(header_.names[at]);
        });
    }

    [[nodiscard]] std::string list(const std::vector<std::size_t>& fields) const {
        std::string out;
        for (const std::size_t at : fields)
            out +=
                fmt::format("{}\"{}\" (#{})", out.empty() ? "" : ", ", header_.names[at], at + 1);
        return out;
    }

    void build_wide() {
        for (const ChannelWords& words : channel_words()) {
            std::vector<std::size_t> found = candidates(words.channel);
            if (words.channel == Channel::time && found.size() > 1) found = rising(found);
            if (found.empty()) continue;
            if (found.size() > 1)
                refuse(header_.line,
                       fmt::format("{} columns could be {}: {}", found.size(), words.name,
                                   list(found)),
                       fmt::format("say which: --map {}=#{}", words.name, found.front() + 1));
            add_column(words, found.front());
        }
        settle_time();
    }

    /// Of several columns of time those that never run back, where another does.
    [[nodiscard]] std::vector<std::size_t> rising(const std::vector<std::size_t>& found) {
        std::vector<std::size_t> good;
        for (const std::size_t at : found) {
            double last = -1e300;
            bool rises = true;
            for (std::size_t i = 0; i < head_rows_ && rises; ++i) {
                const auto t = value_of(rows_[i][at]);
                if (!t) continue;
                rises = *t >= last;
                last = *t;
            }
            if (rises) good.push_back(at);
        }
        if (good.size() == 1)
            layout_.remarks.push_back(
                fmt::format("of {} the one that never runs back was taken as time: \"{}\"",
                            list(found), header_.names[good.front()]));
        return good.size() == 1 ? good : found;
    }

    [[nodiscard]] std::optional<double> value_of(std::string_view cell) const {
        double value = 0;
        if (number::read_rest(cell, layout_.marks(), value) == Cell::number) return value;
        return clock_s(cell);
    }

    void add_column(const ChannelWords& words, std::size_t at) {
        Column column;
        column.channel = words.channel;
        column.at = at;
        column.heading = header_.names[at];
        column.by_map = options_.columns.contains(std::string(words.name));
        settle_unit(words, column, header_.units[at]);
        layout_.columns.push_back(std::move(column));
    }

    void settle_unit(const ChannelWords& words, Column& column, const std::string& in_row) const {
        const auto given = options_.units.find(std::string(words.name));
        column.unit = given != options_.units.end() ? given->second : in_row;
        // A units row may begin with the word itself.
        if (folded(column.unit) == "unit" || folded(column.unit) == "units") column.unit.clear();
        if (column.unit.empty()) column.unit = split_heading(column.heading).unit;
        if (words.channel == Channel::time && column.unit.empty()) return;
        if (column.unit.empty()) {
            if (words.usual.empty())
                refuse(
                    header_.line,
                    fmt::format("{}: no unit stands at \"{}\"", words.name, column.heading),
                    fmt::format("say it: --unit {}=UNIT; accepted: {}", words.name, words.units));
            column.unit = words.usual;
            column.unit_taken = words.usual == "rpm" && folded(column.heading) != "rpm";
        }
        const auto factor = unit_of(words.channel, column.unit);
        if (!factor) {
            const bool by_option = given != options_.units.end();
            refuse(by_option                ? 0
                   : header_.units_line > 0 ? header_.units_line
                                            : header_.line,
                   fmt::format("{}: \"{}\" is no unit of it", words.name, column.unit),
                   fmt::format("accepted: {}; --unit {}=UNIT says it", words.units, words.name));
        }
        column.factor = factor->factor;
        column.offset = factor->offset;
    }

    [[nodiscard]] Column* column(Channel channel) {
        for (Column& one : layout_.columns)
            if (one.channel == channel) return &one;
        return nullptr;
    }

    void drop(Channel channel) {
        layout_.columns.erase(
            std::remove_if(layout_.columns.begin(), layout_.columns.end(),
                           [&](const Column& one) { return one.channel == channel; }),
            layout_.columns.end());
    }

    void settle_time() {
        Column* const time = column(Channel::time);
        if (time == nullptr) {
            settle_clock();
        } else {
            // With a time of its own, date and clock say nothing more.
            for (const Channel other : {Channel::date, Channel::clock, Channel::millisecond})
                drop(other);
            settle_one(*column(Channel::time));
        }
        layout_.median_dt_s = median_dt_s();
        if (!(layout_.median_dt_s > 0))
            refuse(header_.first_line, "time does not rise from line to line",
                   "name the column that does: --map time=COLUMN");
        Column* const one = column(Channel::time);
        if (one != nullptr && one->unit.empty()) take_seconds(*one);
    }

    void settle_clock() {
        Column* const count = column(Channel::millisecond);
        if (count != nullptr) {
            const bool runs_on = std::any_of(rows_.begin(), rows_.end(), [&](const auto& cells) {
                const auto value = value_of(cells[count->at]);
                return value && *value > 999;
            });
            if (runs_on) {
                drop(Channel::date);
                drop(Channel::clock);
                layout_.time_form = TimeForm::millisecond_count;
                return;
            }
        }
        if (column(Channel::clock) == nullptr) {
            const std::string near = nearest_heading(layout_, Channel::time);
            refuse(header_.line, "no column is the time",
                   near.empty() ? "say which: --map time=COLUMN"
                                : fmt::format("is it \"{0}\"? Then: --map \"time={0}\"", near));
        }
        layout_.time_form = TimeForm::date_clock;
    }

    void settle_one(Column& time) {
        std::size_t clocks = 0;
        std::size_t filled = 0;
        double value = 0;
        for (const auto& cells : rows_) {
            if (cells[time.at].empty()) continue;
            ++filled;
            if (number::read_rest(cells[time.at], layout_.marks(), value) != Cell::number &&
                clock_s(cells[time.at]))
                ++clocks;
        }
        layout_.time_form = 2 * clocks > filled ? TimeForm::text : TimeForm::number;
        if (layout_.time_form == TimeForm::text) {
            time.unit = "clock";
            time.factor = 1;
        }
    }

    [[nodiscard]] double median_dt_s() const {
        std::vector<double> steps;
        std::optional<double> last;
        for (std::size_t i = 0; i < rows_.size(); ++i) {
            const auto t = time_of(layout_, rows_[i]);
            if (last && t && *t > *last && i != head_rows_) steps.push_back(*t - *last);
            if (t) last = t;
        }
        if (steps.empty()) return 0;
        const auto middle = steps.begin() + static_cast<std::ptrdiff_t>(steps.size() / 2);
        std::nth_element(steps.begin(), middle, steps.end());
        return *middle;
    }

    /// A time without a unit: seconds, if loggers write so often; else ask.
    void take_seconds(Column& time) {
        constexpr double shortest_s = 0.0005;
        constexpr double longest_s = 2;
        if (layout_.median_dt_s < shortest_s || layout_.median_dt_s > longest_s)
            refuse(header_.line,
                   fmt::format("time: no unit stands at \"{}\", and lines {:.4g} apart are hardly "
                               "seconds",
                               time.heading, layout_.median_dt_s),
                   "say it: --unit time=ms, or s, min");
        time.unit = "s";
        time.unit_taken = true;
    }

    [[nodiscard]] bool is_long_form() {
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

    void build_long();

    const Sampled& sampled_;
    const ReadOptions& options_;
    std::string file_;
    Layout layout_;
    Header header_;
    Rows rows_;
    std::size_t head_rows_ = 0;
};

/// Names and units stand in the records; each name found in the windows is a column of its own.
void Builder::build_long() {
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
    for (const auto& cells : rows_) {
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

}  // namespace

const Column* Layout::find(Channel channel) const {
    for (const Column& one : columns)
        if (one.channel == channel) return &one;
    return nullptr;
}

Layout lay_out(const Sampled& sampled, const Dialect& dialect, const ReadOptions& options,
               const std::string& file) {
    return Builder(sampled, dialect, options, file).build();
}

std::optional<double> time_of(const Layout& layout, const std::vector<std::string>& cells) {
    const auto number_at = [&](Channel channel) -> std::optional<double> {
        const Column* const column = layout.find(channel);
        double value = 0;
        if (column == nullptr || column->at >= cells.size() ||
            number::read_rest(cells[column->at], layout.marks(), value) != Cell::number)
            return std::nullopt;
        return value * column->factor + column->offset;
    };
    if (layout.time_form == TimeForm::number) return number_at(Channel::time);
    if (layout.time_form == TimeForm::text) {
        const Column* const column = layout.find(Channel::time);
        return column->at < cells.size() ? clock_s(cells[column->at]) : std::nullopt;
    }
    if (layout.time_form == TimeForm::millisecond_count) return number_at(Channel::millisecond);
    const auto told = [&](Channel channel, auto compact) -> std::optional<double> {
        const Column* const column = layout.find(channel);
        if (column == nullptr || column->at >= cells.size()) return std::nullopt;
        if (const auto text = clock_s(cells[column->at])) return text;
        const auto number = number_at(channel);
        return number ? compact(*number) : std::nullopt;
    };
    const auto clock = told(Channel::clock, compact_clock_s);
    if (!clock) return std::nullopt;
    return told(Channel::date, compact_date_s).value_or(0) + *clock +
           number_at(Channel::millisecond).value_or(0);
}

std::string nearest_heading(const Layout& layout, Channel channel) {
    constexpr int nearest = 3;
    int best = nearest;
    std::string heading;
    for (const std::string& one : layout.headings) {
        const std::string name = folded(split_heading(one).name);
        std::string_view rest = words_of(channel).aliases;
        while (!rest.empty()) {
            const std::size_t bar = std::min(rest.find('|'), rest.size());
            const std::string_view alias = rest.substr(0, bar);
            const int distance = input::edit_distance(name, alias);
            if (distance < best && 2 * distance < static_cast<int>(alias.size())) {
                best = distance;
                heading = one;
            }
            rest.remove_prefix(std::min(bar + 1, rest.size()));
        }
    }
    return heading;
}

}  // namespace caseload::duty
