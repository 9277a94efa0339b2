// SPDX-License-Identifier: MIT
#include "duty/clock.hpp"

#include "caseload/date.hpp"
#include "duty/channels.hpp"

#include <chrono>
#include <cmath>
#include <cstddef>
#include <string>

namespace caseload::duty {
namespace {

/// Reads 1 to 9 digits and takes them off.
std::optional<int> whole(std::string_view& text) {
    int value = 0;
    std::size_t count = 0;
    while (count < text.size() && count < 9 && text[count] >= '0' && text[count] <= '9')
        value = value * 10 + (text[count++] - '0');
    if (count == 0) return std::nullopt;
    text.remove_prefix(count);
    return value;
}

bool take(std::string_view& text, char c) {
    if (text.empty() || text.front() != c) return false;
    text.remove_prefix(1);
    return true;
}

/// Days from 1970-01-01 in the Gregorian calendar; year 1 to 9999.
std::optional<double> date_s(int year, int month, int day) {
    const auto date = day_of(year, month, day);
    if (!date) return std::nullopt;
    return day_s * static_cast<double>(std::chrono::sys_days(*date).time_since_epoch().count());
}

// Short and full names in English, German, French, Spanish, Italian and Portuguese, folded as
// channel names are; a point behind a short one is left out. Common practice, no published source.
constexpr std::string_view months[] = {
    "jan|january|januar|janv|janvier|ene|enero|gen|gennaio|janeiro",
    "feb|february|februar|fev|fevr|fevrier|febrero|febbraio|fevereiro",
    "mar|march|maerz|marz|mrz|mars|marzo|marco",
    "apr|april|avr|avril|abr|abril|aprile",
    "may|mai|mayo|mag|maggio|maio",
    "jun|june|juni|juin|junio|giu|giugno|junho",
    "jul|july|juli|juil|juillet|julio|lug|luglio|julho",
    "aug|august|aou|aout|ago|agosto",
    "sep|sept|september|septembre|septiembre|set|settembre|setembro",
    "oct|october|okt|oktober|octobre|octubre|ott|ottobre|out|outubro",
    "nov|november|novembre|noviembre|novembro",
    "dec|december|dez|dezember|decembre|dic|diciembre|dicembre|dezembro"};

/// A blank of any kind, the narrow one before AM among them.
void skip_blanks(std::string_view& text) {
    constexpr std::string_view kinds[] = {" ", "\t", "\xC2\xA0", "\xE2\x80\xAF"};
    for (bool again = true; again;) {
        again = false;
        for (const std::string_view blank : kinds)
            if (text.substr(0, blank.size()) == blank) {
                text.remove_prefix(blank.size());
                again = true;
            }
    }
}

bool is_letter(char c) {
    return (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z') || static_cast<unsigned char>(c) >= 128;
}

/// Takes off the name of a month.
std::optional<int> month_word(std::string_view& text) {
    std::size_t length = 0;
    while (length < text.size() && is_letter(text[length])) ++length;
    if (length == 0) return std::nullopt;
    const std::string word = folded(text.substr(0, length));
    int month = 0;
    for (const std::string_view names : months) {
        ++month;
        if (!in_list(names, word)) continue;
        text.remove_prefix(length);
        (void)take(text, '.');
        return month;
    }
    return std::nullopt;
}

/// A number and how many digits it had.
struct Digits {
    int value = 0;
    std::size_t count = 0;
};

std::optional<Digits> digits_of(std::string_view& text) {
    const std::size_t before = text.size();
    const auto value = whole(text);
    if (!value) return std::nullopt;
    return Digits{*value, before - text.size()};
}

/// The years a log can be of: the program is of this century.
int full_year(const Digits& year) {
    return year.count == 2 ? 2000 + year.value : year.value;
}

bool is_year(const Digits& year) {
    return year.count == 4 || year.count == 2;
}

/// A date of three numbers, neither of four digits in front.
std::optional<double> numbers_s(const Digits (&part)[3], DateOrder order) {
    const auto has_two = [](const Digits& digits) { return digits.count <= 2; };
    switch (order) {
        case DateOrder::day_first:
            return has_two(part[1]) && is_year(part[2])
                       ? date_s(full_year(part[2]), part[1].value, part[0].value)
                       : std::nullopt;
        case DateOrder::month_first:
            return has_two(part[1]) && is_year(part[2])
                       ? date_s(full_year(part[2]), part[0].value, part[1].value)
                       : std::nullopt;
        case DateOrder::year_first:
            return part[0].count == 2 && has_two(part[1]) && has_two(part[2])
                       ? date_s(full_year(part[0]), part[1].value, part[2].value)
                       : std::nullopt;
        case DateOrder::any:
            break;
    }
    return std::nullopt;
}

/// Takes a date off the front; leaves the text alone where there is none.
void take_date(std::string_view& text, DateOrder order, Clock& clock) {
    std::string_view rest = text;
    if (const auto month = month_word(rest)) {  // May 31, 2026
        if (!take(rest, '-')) skip_blanks(rest);
        const auto day = digits_of(rest);
        if (!day || day->count > 2) return;
        (void)take(rest, ',');
        if (!take(rest, '-')) skip_blanks(rest);
        const auto year = digits_of(rest);
        if (year && is_year(*year)) clock.date_s = date_s(full_year(*year), *month, day->value);
        if (clock.date_s) text = rest;
        return;
    }
    const auto first = digits_of(rest);
    if (!first || rest.empty()) return;
    const char mark = rest.front();
    const bool blank = mark == ' ';
    if (mark != '-' && mark != '/' && mark != '.' && !blank) return;
    rest.remove_prefix(1);
    std::string_view word = rest;
    skip_blanks(word);
    if (const auto month = month_word(word)) {  // 31-May-2026
        rest = word;
        if (!take(rest, mark) && !blank) skip_blanks(rest);
        const auto year = digits_of(rest);
        if (year && is_year(*year) && first->count <= 2)
            clock.date_s = date_s(full_year(*year), *month, first->value);
        if (clock.date_s) text = rest;
        return;
    }
    if (blank) return;
    const auto second = digits_of(rest);
    // The same mark twice, or as earlier versions took it of a year in front.
    const bool again =
        take(rest, mark) || (first->count == 4 && (take(rest, '-') || take(rest, '/')));
    if (!second || !again) return;
    const auto third = digits_of(rest);
    if (!third) return;
    if (first->count == 4) {
        clock.date_s = date_s(first->value, second->value, third->value);
    } else {
        const Digits part[3] = {*first, *second, *third};
        std::optional<double> found;
        for (const DateOrder one :
             {DateOrder::day_first, DateOrder::month_first, DateOrder::year_first}) {
            if (order != DateOrder::any && one != order) continue;
            // Points are between day, month and year in this order alone: no locale of the
            // Unicode CLDR puts the month in front of a point (from memory).
            if (mark == '.' && one == DateOrder::month_first && order == DateOrder::any) continue;
            const auto date = numbers_s(part, one);
            if (date && !found) found = date;
        }
        clock.date_s = found;
        clock.order_matters = mark != '.' || third->count != 4;
    }
    if (clock.date_s) text = rest;
}

/// Seconds to add for AM or PM, taken off the end of a time of day; nothing where neither is there.
std::optional<double> take_half_day(std::string_view& text) {
    std::string_view rest = text;
    skip_blanks(rest);
    if (rest.empty()) return std::nullopt;
    const char half = rest.front();
    const bool pm = half == 'p' || half == 'P';
    if (!pm && half != 'a' && half != 'A') return std::nullopt;
    rest.remove_prefix(1);
    (void)take(rest, '.');
    if (!take(rest, 'm') && !take(rest, 'M')) return std::nullopt;
    (void)take(rest, '.');
    text = rest;
    return pm ? day_s / 2 : 0;
}

/// The whole text as a time of day.
bool take_time_of_day(std::string_view text, Clock& clock) {
    const auto first = whole(text);
    if (!first || !take(text, ':')) return false;
    const auto second = whole(text);
    if (!second || *second > 59) return false;
    double seconds = *first * 60.0 + *second;
    const bool three = take(text, ':');
    if (three) {
        const auto third = whole(text);
        if (!third || *third > 60) return false;
        seconds = seconds * 60 + *third;
    }
    if (take(text, '.') || take(text, ',')) {
        clock.parts_of_second = true;
        double scale = 0.1;
        while (!text.empty() && text.front() >= '0' && text.front() <= '9') {
            seconds += (text.front() - '0') * scale;
            scale /= 10;
            text.remove_prefix(1);
        }
    }
    const auto half_day_s = take_half_day(text);
    if (half_day_s) {
        if (*first < 1 || *first > 12) return false;
        if (!three) seconds *= 60;
        if (*first == 12) seconds -= day_s / 2;
        seconds += *half_day_s;
    }
    if (clock.date_s && !three && !half_day_s) {  // behind a date: hours and minutes
        if (clock.parts_of_second) return false;
        seconds *= 60;
    }
    if (!three && half_day_s && clock.parts_of_second) return false;
    if (clock.date_s && *first > 24) return false;
    // A zone shifts every line alike.
    if (take(text, 'Z')) {
        if (!text.empty()) return false;
    } else if (take(text, '+') || take(text, '-')) {
        (void)whole(text);
        if (take(text, ':')) (void)whole(text);
    }
    if (!text.empty()) return false;
    clock.of_day_s = seconds;
    return true;
}

}  // namespace

std::string_view name_of(DateOrder order) {
    switch (order) {
        case DateOrder::day_first:
            return "day-first";
        case DateOrder::month_first:
            return "month-first";
        case DateOrder::year_first:
            return "year-first";
        case DateOrder::any:
            break;
    }
    return "any";
}

std::optional<DateOrder> date_order_named(std::string_view name) {
    for (const DateOrder one :
         {DateOrder::day_first, DateOrder::month_first, DateOrder::year_first})
        if (name_of(one) == name) return one;
    return std::nullopt;
}

std::optional<Clock> read_clock(std::string_view text, DateOrder order) {
    skip_blanks(text);
    while (!text.empty() && (text.back() == ' ' || text.back() == '\r')) text.remove_suffix(1);
    Clock clock;
    if (text.empty()) return std::nullopt;
    const std::string_view all = text;
    take_date(text, order, clock);
    if (clock.date_s) {
        clock.date = all.substr(0, all.size() - text.size());
        if (text.empty()) return clock;
        if (!take(text, 'T')) {
            (void)take(text, ',');
            const std::size_t before = text.size();
            skip_blanks(text);
            if (text.size() == before) return std::nullopt;
            if (text.empty()) return clock;
        }
    }
    return take_time_of_day(text, clock) ? std::optional(clock) : std::nullopt;
}

std::optional<double> clock_s(std::string_view text, DateOrder order) {
    const auto clock = read_clock(text, order);
    return clock ? std::optional(clock->sum_s()) : std::nullopt;
}

std::optional<double> compact_clock_s(double hhmmss) {
    if (!(hhmmss >= 0 && hhmmss < 240000)) return std::nullopt;
    const double whole_part = std::floor(hhmmss);
    const int all = static_cast<int>(whole_part);
    const int minutes = all / 100 % 100;
    const int seconds = all % 100;
    if (minutes > 59 || seconds > 60) return std::nullopt;
    return all / 10000 * 3600.0 + minutes * 60.0 + seconds + (hhmmss - whole_part);
}

std::optional<double> compact_date_s(double yyyymmdd) {
    if (!(yyyymmdd >= 10101 && yyyymmdd <= 99991231) || std::floor(yyyymmdd) != yyyymmdd)
        return std::nullopt;
    const int all = static_cast<int>(yyyymmdd);
    return date_s(all / 10000, all / 100 % 100, all % 100);
}

}  // namespace caseload::duty
