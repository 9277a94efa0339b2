// SPDX-License-Identifier: MIT
// Which number of a date is the day: by the log itself, or asked.
#include "duty/layout_builder.hpp"

#include "caseload/error.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <array>

namespace caseload::duty {
namespace {

/// One order of the numbers, as far as the log's dates allow it.
struct Candidate {
    DateOrder order;
    bool valid = true;
    bool rises = true;
    bool changes = false;
    std::optional<double> last_s{};

    void take(std::string_view date) {
        const auto clock = read_clock(date, order);
        valid = valid && clock.has_value();
        if (!valid) return;
        rises = rises && (!last_s || *clock->date_s >= *last_s);
        changes = changes || (last_s && *clock->date_s != *last_s);
        last_s = clock->date_s;
    }
};

std::string_view words_of(DateOrder order) {
    switch (order) {
        case DateOrder::day_first:
            return "day first";
        case DateOrder::month_first:
            return "month first";
        case DateOrder::year_first:
            return "year first";
        case DateOrder::any:
            break;
    }
    return "";
}

}  // namespace

std::optional<Clock> Layout::clock(std::string_view cell) const {
    auto found = read_clock(cell, date_order);
    if (found && only_date_s && found->date_s && *found->date_s != *only_date_s)
        return std::nullopt;
    return found;
}

std::string order_words(const Layout& layout) {
    return layout.date_order == DateOrder::any ? std::string()
                                               : fmt::format(" ({})", name_of(layout.date_order));
}

// Long: one decision, whose questions all need what the column shows.
void LayoutBuilder::settle_dates(const Column& column) {
    if (layout_.date_order != DateOrder::any || layout_.only_date_s) return;
    if (!options_.date.empty()) {
        const auto order = date_order_named(options_.date);
        if (!order)
            refuse_input(fmt::format("--date {}: there is no such order", options_.date),
                         "accepted: day-first, month-first, year-first");
        layout_.date_order = *order;
        return;
    }
    std::array<Candidate, 3> all{
        {{DateOrder::day_first}, {DateOrder::month_first}, {DateOrder::year_first}}};
    std::string first;
    std::string last;
    for (std::size_t row = 0; row < rows_->size(); ++row) {
        const std::string_view cell = rows_->cell(row, column.at);
        if (!last.empty() && cell.substr(0, last.size()) == last &&
            (cell.size() == last.size() || cell[last.size()] < '0' || cell[last.size()] > '9'))
            continue;
        const auto clock = read_clock(cell, DateOrder::any);
        if (!clock || !clock->order_matters) continue;
        last = clock->date;
        if (first.empty()) first = last;
        for (Candidate& one : all) one.take(last);
    }
    if (first.empty()) return;
    std::vector<Candidate> left;
    const auto keep = [&](auto&& those) {
        left.clear();
        std::copy_if(all.begin(), all.end(), std::back_inserter(left), those);
    };
    keep([](const Candidate& one) { return one.valid; });
    if (left.empty())
        refuse(header_.first_line,
               fmt::format("{}: no order of day and month fits all dates, from \"{}\" to \"{}\"",
                           column.heading, first, last),
               "check this column; --date day-first, month-first or year-first says the order");
    if (std::none_of(left.begin(), left.end(), [](const Candidate& one) { return one.changes; })) {
        layout_.only_date_s = read_clock(first, DateOrder::any)->date_s;
        return;
    }
    std::string_view why = "another order gives no date";
    if (left.size() > 1) {
        keep([](const Candidate& one) { return one.valid && one.rises; });
        why = "in another order they would run back";
    }
    if (left.size() != 1) {
        keep([](const Candidate& one) { return one.valid; });
        std::string orders;
        std::string options;
        for (const Candidate& one : left) {
            orders += fmt::format("{}{}", orders.empty() ? "" : " or ", words_of(one.order));
            options +=
                fmt::format("{}--date {}", options.empty() ? "" : ", or ", name_of(one.order));
        }
        refuse(header_.first_line,
               fmt::format("{}: the dates from \"{}\" to \"{}\" may be {}", column.heading, first,
                           last, orders),
               "say which: " + options);
    }
    layout_.date_order = left.front().order;
    layout_.remarks.push_back(fmt::format("dates such as \"{}\" are read {}: {}", last,
                                          words_of(layout_.date_order), why));
}

}  // namespace caseload::duty
