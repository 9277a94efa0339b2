// SPDX-License-Identifier: MIT
// Which channel a heading names: by its aliases, or by words of it and its unit.
#include "duty/channels.hpp"

#include <algorithm>
#include <string>

namespace caseload::duty {
namespace {

/// Pieces of words: one of each of the first two, none of the third, with | between; "": any.
struct WordRule {
    Channel channel;
    std::string_view one;
    std::string_view other;
    std::string_view none;
};

// What is wanted, limited, averaged or of one wheel is not what the car does. Common practice, no
// published source.
constexpr std::string_view not_measured =
    "limit|target|desired|demand|request|command|setpoint|soll|average|avg|mean|max|min|reference|"
    "cruise|tempomat|learn|relative";
constexpr WordRule rules[] = {
    {Channel::engine_speed, "engine|motor|crank|moteur|motore", "speed|rpm|drehzahl|regime|giri",
     "fan|pump|turbo|idle|luefter"},
    {Channel::engine_torque, "engine|motor|crank|moteur|motore",
     "torque|moment|couple|coppia|binario", "friction|loss|driver|percent"},
    {Channel::throttle, "throttle|pedal|accelerator|drossel|papillon|mariposa|farfalla", "",
     "brake|clutch|bremse|kupplung|freno|frein|embrayage|frizione"},
    {Channel::road_speed, "speed|geschw|tempo|vitesse|velocid|velocita", "",
     "wind|wheel|front|rear|left|right|shaft|vorn|hinten|links|rechts"},
    {Channel::ambient, "ambient|outside|aussen|umgebung|exterieur|exterior|estern", "", "humidity"},
};

bool holds_one(std::string_view name, std::string_view pieces) {
    if (pieces.empty()) return true;
    while (!pieces.empty()) {
        const std::size_t bar = std::min(pieces.find('|'), pieces.size());
        if (name.find(pieces.substr(0, bar)) != std::string_view::npos) return true;
        pieces.remove_prefix(std::min(bar + 1, pieces.size()));
    }
    return false;
}

bool fits_rule(std::string_view heading, std::string_view unit_in_row, Channel channel) {
    for (const WordRule& rule : rules) {
        if (rule.channel != channel) continue;
        Heading parts = split_heading(heading);
        if (!unit_in_row.empty()) parts.unit = unit_in_row;
        if (parts.unit.empty()) parts = split_last_word(heading, channel);
        const std::string name = folded(parts.name);
        return !parts.unit.empty() && unit_of(channel, parts.unit) && holds_one(name, rule.one) &&
               holds_one(name, rule.other) && !holds_one(name, rule.none) &&
               !holds_one(name, not_measured);
    }
    return false;
}

/// Of a name that is an alias of several channels: another one has the unit, this one has not.
bool unit_says_otherwise(std::string_view name, std::string_view unit, Channel channel) {
    if (unit.empty() || unit_of(channel, unit)) return false;
    return std::any_of(channel_words().begin(), channel_words().end(),
                       [&](const ChannelWords& words) {
                           return words.channel != channel && in_list(words.aliases, name) &&
                                  unit_of(words.channel, unit);
                       });
}

/// Of a name without a unit: that of the first channel in the table.
bool is_of_earlier(std::string_view name, std::string_view unit, Channel channel) {
    return std::any_of(
        channel_words().begin(), channel_words().end(), [&](const ChannelWords& words) {
            return index(words.channel) < index(channel) && in_list(words.aliases, name) &&
                   !unit_says_otherwise(name, unit, words.channel);
        });
}

bool in_lists(std::string_view heading, std::string_view unit_in_row, Channel channel,
              std::string_view list) {
    const auto is_it = [&](const std::string& name, std::string_view unit) {
        if (!unit_in_row.empty()) unit = unit_in_row;
        return !name.empty() && in_list(list, name) && !unit_says_otherwise(name, unit, channel) &&
               !is_of_earlier(name, unit, channel);
    };
    const auto is_alias = [&](const std::string& name) {
        return std::any_of(channel_words().begin(), channel_words().end(),
                           [&](const ChannelWords& words) {
                               return in_list(words.aliases, name) || in_list(words.second, name);
                           });
    };
    const Heading parts = split_heading(heading);
    const std::string whole = folded(heading);
    const std::string name = folded(parts.name);
    const bool whole_in_list = in_list(list, whole);
    const bool name_in_list = in_list(list, name);
    const Heading by_word = split_last_word(heading, channel);
    const std::string before_word = folded(by_word.name);
    // Most headings are no word of most lists, whatever they are elsewhere.
    if (!whole_in_list && !name_in_list && !in_list(list, before_word)) return false;
    if (is_alias(whole)) return is_it(whole, parts.unit);
    if (is_alias(name)) return is_it(name, parts.unit);
    return !by_word.unit.empty() && is_it(before_word, by_word.unit);
}

}  // namespace

bool names(std::string_view heading, std::string_view unit_in_row, Channel channel, Naming naming) {
    switch (naming) {
        case Naming::exact:
            return in_lists(heading, unit_in_row, channel, words_of(channel).aliases);
        case Naming::second:
            return in_lists(heading, unit_in_row, channel, words_of(channel).second);
        case Naming::words:
            return fits_rule(heading, unit_in_row, channel);
    }
    return false;
}

bool names_any(std::string_view heading) {
    for (const ChannelWords& words : channel_words())
        for (const Naming naming : {Naming::exact, Naming::second, Naming::words})
            if (names(heading, {}, words.channel, naming)) return true;
    return false;
}

Heading split_last_word(std::string_view heading, Channel channel) {
    while (!heading.empty() && heading.back() == ' ') heading.remove_suffix(1);
    const std::size_t gap = heading.find_last_of("_ .-");
    Heading parts{std::string(heading), {}};
    const bool has_units =
        channel != Channel::date && channel != Channel::clock && channel != Channel::gear;
    if (gap == std::string_view::npos || gap == 0 || !has_units) return parts;
    const std::string_view last = heading.substr(gap + 1);
    if (unit_of(channel, last)) parts = {std::string(heading.substr(0, gap)), std::string(last)};
    return parts;
}

}  // namespace caseload::duty
