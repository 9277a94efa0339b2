// SPDX-License-Identifier: MIT
// How a row of the field table is written: key, what it takes, words, then in any order what else
// is said of it and the member it fills.
#pragma once

#include "input/fields.hpp"
#include "input/item.hpp"

#include <algorithm>
#include <functional>
#include <optional>
#include <string>
#include <string_view>
#include <type_traits>
#include <vector>

namespace caseload::input {

using K = FieldKind;
using M = Measure;

/// Kind of a value with its measure and range, or with the words it accepts.
struct Takes {
    FieldKind kind;
    Measure measure = Measure::none;
    Range range = {};
    std::string_view accepted = {};

    constexpr Takes(FieldKind of) : kind(of) {}
    constexpr Takes(FieldKind of, Range limits) : kind(of), range(limits) {}
    /// A template, as {0, 1} would otherwise do for words as well as for a range.
    template <class Words>
    constexpr Takes(FieldKind of, const Words& words) : kind(of), accepted(words) {}
    constexpr Takes(FieldKind of, Measure in, Range limits, std::string_view words = {})
        : kind(of), measure(in), range(limits), accepted(words) {}
};

struct Needed {};
inline constexpr Needed needed;

struct When {
    std::string_view condition;
};
/// The value of a key that is not given, as TOML text, and its source.
struct Standard {
    std::string_view value;
    std::string_view source = {};
};
/// Where this is true, the standard value is this one.
struct Other {
    std::string_view when;
    std::string_view value;
};
/// Plausible ends of an assumed value, as TOML text.
struct Credible {
    std::string_view low;
    std::string_view high;
};
struct Example {
    std::string_view value;
};

/// The part of this name, added if it is new.
template <class Part>
Part& named(std::vector<Part>& parts, const Item& item) {
    const auto found = std::find_if(parts.begin(), parts.end(),
                                    [&](const Part& part) { return part.name == item.name; });
    if (found != parts.end()) return *found;
    parts.emplace_back();
    parts.back().name = item.name;
    return parts.back();
}

/// The value of the optional, added if it is empty.
template <class Part>
Part& there(std::optional<Part>& part) {
    return part ? *part : part.emplace();
}

template <class Member>
void fill(Member& to, const Item& item) {
    if constexpr (std::is_same_v<Member, std::optional<double>>)
        to = item.by_word ? std::nullopt : std::optional<double>(item.number);
    else if constexpr (std::is_same_v<Member, double>)
        to = item.number;
    else if constexpr (std::is_same_v<Member, int>)
        to = static_cast<int>(item.number);
    else if constexpr (std::is_same_v<Member, bool>)
        to = item.value.flag;
    else if constexpr (std::is_same_v<Member, std::string>)
        to = item.text();
    else if constexpr (std::is_same_v<Member, std::vector<int>>)
        to.assign(item.numbers.begin(), item.numbers.end());
    else if constexpr (std::is_same_v<Member, std::vector<double>>)
        to = item.numbers;
    else if constexpr (std::is_same_v<Member, std::vector<std::string>>)
        to = item.texts;
    else if constexpr (std::is_enum_v<Member>)
        to = chosen<Member>(item);
    else
        to = chosen<typename Member::value_type>(item);
}

/// A step of the way to a member: itself a member, or what finds a part: (Setup&, const Item&).
template <auto Step, class From>
decltype(auto) step_to(From& from, const Item& item) {
    if constexpr (std::is_invocable_v<decltype(Step), From&, const Item&>)
        return Step(from, item);
    else
        return std::invoke(Step, from);
}

template <auto First, auto... Rest, class From>
void fill_by_way(From& from, const Item& item) {
    auto& member = step_to<First>(from, item);
    if constexpr (sizeof...(Rest) == 0)
        fill(member, item);
    else
        fill_by_way<Rest...>(member, item);
}

using Put = void (*)(Setup&, const Item&);

/// Fills the member at the end of this way from the setup, as its type takes the value.
template <auto... Way>
inline constexpr Put fills =
    [](Setup& setup, const Item& item) { fill_by_way<Way...>(setup, item); };

/// The three lengths of a part that is found as a step of a way is.
template <auto Part, auto First, auto Second, auto Third>
inline constexpr Put fills_size = [](Setup& setup, const Item& item) {
    auto& part = step_to<Part>(setup, item);
    part.*First = item.numbers[0];
    part.*Second = item.numbers[1];
    part.*Third = item.numbers[2];
};

constexpr void say(Field& field, Needed) {
    field.need = true;
}
constexpr void say(Field& field, When when) {
    field.when = when.condition;
}
constexpr void say(Field& field, Standard standard) {
    field.fallback = standard.value;
    field.source = standard.source;
}
constexpr void say(Field& field, Other other) {
    field.other_when = other.when;
    field.other = other.value;
}
constexpr void say(Field& field, Credible ends) {
    field.low = ends.low;
    field.high = ends.high;
}
constexpr void say(Field& field, Example example) {
    field.example = example.value;
}
constexpr void say(Field& field, Put put) {
    field.put = put;
}

/// A row of the field table.
template <class... More>
constexpr Field row(std::string_view key, Takes takes, std::string_view words, More... more) {
    Field field;
    field.key = key;
    field.kind = takes.kind;
    field.measure = takes.measure;
    field.range = takes.range;
    field.accepted = takes.accepted;
    field.words = words;
    (say(field, more), ...);
    return field;
}

}  // namespace caseload::input
