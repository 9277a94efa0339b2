// SPDX-License-Identifier: MIT
#include "duty/layout.hpp"

#include "caseload/error.hpp"
#include "duty/layout_builder.hpp"
#include "input/nearest.hpp"

#include <fmt/format.h>

#include <algorithm>

namespace caseload::duty {
namespace {

constexpr std::size_t looked_at = 20000;  // data rows for the votes about time

}  // namespace

Layout LayoutBuilder::build() {
    const FoundHeader found = find_header(sampled_, options_, layout_.dialect);
    header_ = found.header;
    // A delimiter at the end of the row of names alone names nothing.
    const std::size_t fields = layout_.dialect.fields;
    while (header_.names.size() > fields && header_.names.back().empty()) header_.names.pop_back();
    if (header_.names.size() > fields)
        refuse(header_.line,
               fmt::format("this row names {} columns, the lines of data have {} fields",
                           header_.names.size(), fields),
               "every column needs its field in every line");
    while (!header_.names.empty() && header_.names.back().empty()) header_.names.pop_back();
    layout_.headings = header_.names;
    layout_.names = layout_.named = header_.names.size();
    // A field without a name can be mapped by its number.
    header_.names.resize(fields);
    header_.units.resize(fields);
    for (std::size_t at = layout_.named; at < fields; ++at)
        if (claimed(at)) layout_.named = at + 1;
    if (!found.known && found.names_alone > 0)
        refuse(found.names_alone, "no values follow the row that names the columns",
               commas_below(found.names_alone)
                   ? std::string(decimal_commas_hint)
                   : "within four lines a row with as many fields has to hold numbers");
    if (!found.known) refuse_header();
    layout_.dialect.header_line = header_.line;
    layout_.dialect.units_line = header_.units_line;
    layout_.dialect.first_line = header_.first_line;
    read_rows();
    check_map();
    check_unnamed();
    if (is_long_form())
        build_long();
    else
        build_wide();
    check_cut_numbers();
    list_left_over();
    std::sort(layout_.columns.begin(), layout_.columns.end(),
              [](const Column& a, const Column& b) { return a.at < b.at; });
    return std::move(layout_);
}

void LayoutBuilder::refuse(std::size_t line, std::string text, std::string hint) const {
    Where where{file_, static_cast<int>(line), line == 0 ? 0 : 1, 0, {}};
    if (line > 0 && line <= sampled_.head.size())
        where.source_line = shown(sampled_.head[line - 1], layout_.dialect.encoding);
    throw Error(Error::Kind::input, {Problem{std::move(where), std::move(text), std::move(hint)}});
}

void LayoutBuilder::refuse_header() const {
    std::string hint =
        "a row above the data has to name time and a speed; say which column is which: "
        "--map time=COLUMN --map engine_speed=COLUMN";
    if (header_.line == 0) refuse(0, "no row above the data names its columns", hint);
    std::string near;
    for (const Channel channel : {Channel::time, Channel::engine_speed, Channel::road_speed}) {
        const std::string heading = nearest_heading(layout_, channel);
        if (!heading.empty())
            near += fmt::format("{}{} may be \"{}\"", near.empty() ? "" : ", ", name_of(channel),
                                heading);
    }
    if (!near.empty()) hint += "; " + near;
    refuse(header_.line, "this row seems to name the columns, but fewer than two of them are known",
           hint);
}

void LayoutBuilder::read_rows() {
    rows_.emplace(layout_.dialect);
    rows_->reserve(std::min(sampled_.head.size(), looked_at) +
                   std::min(sampled_.later.size(), looked_at));
    for (std::size_t i = header_.first_line - 1;
         i < sampled_.head.size() && rows_->size() < looked_at; ++i)
        rows_->add(sampled_.head[i]);
    head_rows_ = rows_->size();
    for (const std::string_view line : sampled_.later)
        if (rows_->size() < 2 * looked_at) rows_->add(line);
}

void LayoutBuilder::check_map() const {
    for (const auto& [channel, column] : options_.columns)
        if (!channel_named(channel)) refuse_channel("--map", channel);
    for (const auto& [channel, unit] : options_.units)
        if (!channel_named(channel)) refuse_channel("--unit", channel);
}

void LayoutBuilder::check_unnamed() const {
    if (layout_.named == layout_.dialect.fields) return;
    CellViews cells;
    for (std::size_t i = header_.first_line - 1; i < sampled_.head.size(); ++i) {
        cells.take(sampled_.head[i], layout_.dialect.delimiter);
        const std::size_t filled = filled_fields(cells.all());
        if (filled <= layout_.named || cells.size() != layout_.dialect.fields) continue;
        refuse(i + 1, unnamed_words(layout_, filled),
               like_decimal_commas(cells.all(), layout_.dialect, layout_.names)
                   ? std::string(decimal_commas_hint)
                   : std::string(unnamed_hint));
    }
}

void LayoutBuilder::list_left_over() {
    for (std::size_t at = 0; at < header_.names.size(); ++at) {
        const bool taken =
            std::any_of(layout_.columns.begin(), layout_.columns.end(), [&](const Column& column) {
                return column.at == at &&
                       !(layout_.dialect.long_form && column.channel == Channel::time);
            });
        if (!taken && (layout_.dialect.long_form || at < layout_.named))
            layout_.left_over.push_back(header_.names[at].empty() ? fmt::format("#{}", at + 1)
                                                                  : header_.names[at]);
    }
}

void LayoutBuilder::refuse_channel(std::string_view option, const std::string& channel) {
    std::vector<std::string> names;
    for (const ChannelWords& words : channel_words()) names.emplace_back(words.name);
    const std::string near = input::nearest_word(names, channel);
    refuse_input(fmt::format("{} {}: there is no such channel", option, channel),
                 near.empty() ? fmt::format("channels are {}", fmt::join(names, ", "))
                              : fmt::format("did you mean {}?", near));
}

std::vector<std::size_t> LayoutBuilder::candidates(Channel channel) const {
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
            const std::string near = input::nearest_word(layout_.headings, wanted);
            refuse(header_.line,
                   fmt::format("--map {}={}: no column has this name", name_of(channel), wanted),
                   near.empty() ? "a column can also be named by its number: #1 is the first"
                                : fmt::format("did you mean \"{}\"?", near));
        }
        return found;
    }
    for (const Naming naming : {Naming::exact, Naming::second, Naming::words}) {
        for (std::size_t i = 0; i < header_.names.size(); ++i)
            if (names(header_.names[i], header_.units[i], channel, naming) && !claimed(i) &&
                !of_another(i, channel, naming))
                found.push_back(i);
        if (naming == Naming::exact && !found.empty()) return found;
        // A less sure name does not count where there are several.
        if (found.size() == 1) return found;
        found.clear();
    }
    return found;
}

bool LayoutBuilder::of_another(std::size_t at, Channel channel, Naming naming) const {
    if (naming == Naming::exact) return false;
    return std::any_of(
        channel_words().begin(), channel_words().end(), [&](const ChannelWords& words) {
            return words.channel != channel &&
                   names(header_.names[at], header_.units[at], words.channel, Naming::exact);
        });
}

bool LayoutBuilder::claimed(std::size_t at) const {
    return std::any_of(options_.columns.begin(), options_.columns.end(), [&](const auto& one) {
        return (!header_.names[at].empty() && one.second == header_.names[at]) ||
               one.second == fmt::format("#{}", at + 1) ||
               (!header_.names[at].empty() && folded(one.second) == folded(header_.names[at]));
    });
}

std::string LayoutBuilder::list(const std::vector<std::size_t>& fields) const {
    std::string out;
    for (const std::size_t at : fields)
        out += fmt::format("{}\"{}\" (#{})", out.empty() ? "" : ", ", header_.names[at], at + 1);
    return out;
}

void LayoutBuilder::build_wide() {
    // What only a track needs must not make a log ambiguous.
    const auto gives_torque = [&] {
        return column(Channel::case_torque) != nullptr ||
               column(Channel::engine_torque) != nullptr || column(Channel::throttle) != nullptr;
    };
    for (const ChannelWords& words : channel_words()) {
        if (of_track_alone(words.channel) && gives_torque()) break;
        std::vector<std::size_t> found = candidates(words.channel);
        if (words.channel == Channel::time && found.size() > 1) found = rising(found);
        if (found.empty()) continue;
        if (found.size() > 1)
            refuse(header_.line,
                   fmt::format("{} columns could be {}: {}", found.size(), words.name, list(found)),
                   fmt::format("say which: --map {}=#{}", words.name, found.front() + 1));
        add_column(words, found.front());
    }
    settle_track(gives_torque());
    settle_time();
}

void LayoutBuilder::settle_track(bool gives_torque) {
    const bool positions =
        column(Channel::latitude) != nullptr && column(Channel::longitude) != nullptr;
    const bool by_speed = options_.speed_is_track && column(Channel::road_speed) != nullptr;
    layout_.track = !gives_torque && (positions || by_speed);
    if (layout_.track) return;
    for (const ChannelWords& words : channel_words())
        if (of_track_alone(words.channel)) drop(words.channel);
}

std::optional<double> LayoutBuilder::value_of(std::string_view cell) const {
    double value = 0;
    if (number::read_rest(cell, layout_.marks(), value) == Cell::number) return value;
    const auto clock = layout_.clock(cell);
    return clock ? std::optional(clock->sum_s()) : std::nullopt;
}

void LayoutBuilder::add_column(const ChannelWords& words, std::size_t at) {
    Column column;
    column.channel = words.channel;
    column.at = at;
    column.heading = header_.names[at];
    column.by_map = options_.columns.contains(std::string(words.name));
    settle_unit(words, column, header_.units[at]);
    layout_.columns.push_back(std::move(column));
}

void LayoutBuilder::settle_unit(const ChannelWords& words, Column& column,
                                const std::string& in_row) const {
    const auto given = options_.units.find(std::string(words.name));
    column.unit = given != options_.units.end() ? given->second : in_row;
    // A units row may begin with the word itself.
    if (folded(column.unit) == "unit" || folded(column.unit) == "units") column.unit.clear();
    if (column.unit.empty()) column.unit = split_heading(column.heading).unit;
    if (column.unit.empty() && !in_list(words.aliases, folded(column.heading)))
        column.unit = split_last_word(column.heading, words.channel).unit;
    if (words.channel == Channel::time && column.unit.empty()) return;
    if (column.unit.empty()) {
        if (words.usual.empty())
            refuse(header_.line, fmt::format("{}: \"{}\" has no unit", words.name, column.heading),
                   fmt::format("say it: --unit {}=UNIT; accepted: {}", words.name, words.units));
        column.unit = words.usual;
        column.unit_taken =
            words.usual == "m" || (words.usual == "rpm" && folded(column.heading) != "rpm");
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

Column* LayoutBuilder::column(Channel channel) {
    for (Column& one : layout_.columns)
        if (one.channel == channel) return &one;
    return nullptr;
}

void LayoutBuilder::drop(Channel channel) {
    layout_.columns.erase(std::remove_if(layout_.columns.begin(), layout_.columns.end(),
                                         [&](const Column& one) { return one.channel == channel; }),
                          layout_.columns.end());
}

const Column* Layout::find(Channel channel) const {
    for (const Column& one : columns)
        if (one.channel == channel) return &one;
    return nullptr;
}

std::size_t filled_fields(std::span<const std::string_view> cells) {
    std::size_t count = cells.size();
    while (count > 0 && cells[count - 1].empty()) --count;
    return count;
}

std::string unnamed_words(const Layout& layout, std::size_t filled) {
    return fmt::format(
        "line {} names {} column{}, but this line of data has {} fields with "
        "something in them",
        layout.dialect.header_line, layout.names, layout.names == 1 ? "" : "s", filled);
}

Layout lay_out(const Sampled& sampled, const Dialect& dialect, const ReadOptions& options,
               const std::string& file) {
    return LayoutBuilder(sampled, dialect, options, file).build();
}

std::string nearest_heading(const Layout& layout, Channel channel) {
    constexpr int nearest = 3;
    for (const Naming naming : {Naming::second, Naming::words})
        for (const std::string& one : layout.headings)
            if (names(one, {}, channel, naming)) return one;
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
