// SPDX-License-Identifier: MIT
// What is not given: standard values, what words stand for, and what is missing after that. Long:
// one rule after the other.
#include "input/completed.hpp"
#include "input/courses.hpp"
#include "input/fields.hpp"
#include "input/presets.hpp"

#include "caseload/formulas/bearing_kind.hpp"
#include "caseload/formulas/facing_pair.hpp"
#include "caseload/formulas/iso_286.hpp"
#include "caseload/kinds.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <optional>

namespace caseload::input {
namespace {

bool assumed(Origin origin) {
    return origin == Origin::pattern || origin == Origin::preset || origin == Origin::standard ||
           origin == Origin::estimated;
}

constexpr std::string_view vehicle_heading = "vehicle.";

/// Whether courses become duties by laps of the segment model.
bool by_segments(const Completed& to) {
    return to.text("event.course_model") == words_for(CourseModel::segments).key;
}

/// The vehicle only matters where a course makes a leg's duty of it; where every drive leg has bins
/// of its own and nothing of it is entered, nothing of it is needed or assumed.
bool needs_vehicle(const Completed& to) {
    const auto& items = to.items();
    const auto entered = items.lower_bound(std::string(vehicle_heading));
    if (entered != items.end() && entered->first.starts_with(vehicle_heading)) return true;
    if (to.given("event.course") || to.broken(vehicle_heading)) return true;
    const std::vector<std::string> kinds = instances(to, field_of("leg.*.kind"));
    return kinds.empty() || std::any_of(kinds.begin(), kinds.end(), [&](const std::string& kind) {
               return to.text(kind) != words_for(LegKind::stop).key &&
                      !to.given(with_name_of("leg.*.bins", kind));
           });
}

class Filler {
public:
    Filler(Completed& to, bool vehicle) : to_(to), vehicle_(vehicle) {}

    void run() {
        seats();
        pairs();
        // A word may stand for another word, and a standard value may depend on one: three levels.
        for (bool changed = true; changed;) {
            const std::size_t before = to_.items().size();
            overloads();
            standards();
            oil();
            for (const Preset& preset : presets())
                for (const std::string& key : instances(to_, field_of(preset.key)))
                    apply(preset, key);
            for (const std::string& key : instances(to_, field_of("leg.*.course"))) duty(key);
            duty("event.course");
            changed = to_.items().size() != before;
        }
    }

private:
    /// TOML text of the field table, parsed once for all setups.
    static const Value& parsed(std::string_view toml) {
        static const std::map<std::string, Value, std::less<>> all = [] {
            std::map<std::string, Value, std::less<>> values;
            for (const Field& field : fields())
                for (const std::string_view text : {field.fallback, field.other})
                    if (!text.empty())
                        values[std::string(text)] =
                            parse_change("standard", text).at("standard").value;
            return values;
        }();
        return all.find(toml)->second;
    }

    /// Bursts and shocks are in the duty of a course that is calculated.
    void overloads() {
        if (!by_segments(to_)) return;
        static const RangedValue modelled{parse_change("overload", "1.10").at("overload").value,
                                          "1.0", "1.25"};
        for (const std::string& key : instances(to_, field_of("leg.*.course")))
            if (to_.has(key))
                fill(with_name_of("leg.*.overload", key), {modelled, "segment model, judgement"});
    }

    void standards() {
        for (const Field& field : fields()) {
            if (field.fallback.empty()) continue;
            if (!vehicle_ && field.key.starts_with(vehicle_heading)) continue;
            for (const std::string& key : instances(to_, field)) {
                if (to_.given(key) || !to_.holds(field.when, key)) continue;
                if (waits_for_word(field, key)) continue;
                Item item;
                item.origin = Origin::standard;
                item.source = field.source;
                const bool other = !field.other_when.empty() && to_.holds(field.other_when, key);
                add_value(to_, key, parsed(other ? field.other : field.fallback), std::move(item));
            }
        }
    }

    /// Whether an entry says how the outer ring sits.
    [[nodiscard]] bool says_of_ring(const std::string& key) const {
        const auto all = fields();
        return std::any_of(all.begin(), all.end(), [&](const Field& field) {
            return field.key.starts_with("bearing.*.seat.") && field.key != "bearing.*.seat.held" &&
                   field.key != "bearing.*.seat.shaft_interference" &&
                   to_.given(with_name_of(field.key, key));
        });
    }

    /// Outside of what the boss holds: the ring, or the steel sleeve round it.
    [[nodiscard]] double held_mm(const Item& size, const std::string& key) const {
        const Item* sleeve = to_.find(with_name_of("bearing.*.seat.retainer_outside", key));
        return sleeve != nullptr ? sleeve->number : size.numbers.at(1);
    }

    /// A ring that nothing is said of sits straight in the housing: more cases are built so than
    /// with steel sleeves, and it is the looser way. A sleeve's own fit cannot be guessed.
    void seats() {
        const Field& fit = field_of("bearing.*.seat.ring_fit");
        const Field& boss = field_of("bearing.*.seat.boss_outside");
        for (const std::string& key : instances(to_, field_of("bearing.*.size"))) {
            const Item* size = to_.find(key);
            const Item* radial = to_.find(with_name_of("bearing.*.radial", key));
            const bool axial_only = radial != nullptr && !radial->value.flag;
            const std::string boss_key = with_name_of(boss.key, key);
            const bool entered = says_of_ring(key);
            if (size == nullptr || (axial_only && !entered) || to_.given(boss_key)) continue;
            const double inside_mm = held_mm(*size, key);
            const std::optional<double> boss_mm =
                entered ? inside_mm + usual_boss_over_mm : assumed_boss_mm(inside_mm);
            if (!boss_mm) continue;
            Item item;
            item.origin = Origin::standard;
            item.source = judgement;
            Value value;
            value.text = fmt::format("{} mm", *boss_mm);
            if (!entered) item.by = assumed_seats;
            add_value(to_, boss_key, value, item);
            if (entered) continue;
            value.text = "N7";
            item.low = quoted("K7");
            item.high = quoted("P7");
            add_value(to_, with_name_of(fit.key, key), value, std::move(item));
        }
    }

    /// How a facing pair was set decides how it runs hot; nobody enters it unasked.
    void pairs() {
        const std::string structure(field_of("case.structure_stiffness").key);
        bool any = false;
        for (const std::string& key : instances(to_, field_of("shaft.*.gear_at"))) {
            const std::string shaft = key.substr(6, key.rfind('.') - 6);
            if (!has_facing_pair(shaft)) continue;
            any = true;
            const auto named_key = [&](std::string_view field) {
                return with_name_of(std::string(field), key);
            };
            if (to_.given(named_key("shaft.*.end_play")) ||
                to_.given(named_key("shaft.*.preload")) ||
                to_.given(named_key("shaft.*.turning_torque")))
                continue;
            assume(named_key("shaft.*.end_play"), "0.05 mm", {"0 mm", "0.1 mm"});
        }
        if (any && !to_.given(structure))
            assume(structure, fmt::format("{:g} N/um", facing_pair::usual_structure_Npum),
                   {"50 N/um", "400 N/um"});
    }

    struct TextEnds {
        std::string_view low;
        std::string_view high;
    };
    void assume(const std::string& key, std::string_view text, const TextEnds& ends) {
        Item item;
        item.origin = Origin::standard;
        item.source = judgement;
        item.low = quoted(ends.low);
        item.high = quoted(ends.high);
        Value value;
        value.text = text;
        add_value(to_, key, value, std::move(item));
    }

    /// Two bearings with thick ends on a shaft hold it as a pair. A kind that has none may still
    /// carry the big_end of the bearing it replaces.
    [[nodiscard]] bool has_facing_pair(const std::string& shaft) const {
        int thick = 0;
        for (const std::string& key : instances(to_, field_of("bearing.*.shaft"))) {
            const std::string type = to_.text(with_name_of("bearing.*.type", key));
            const bool facing = std::any_of(
                kind_rows<BearingKind>.begin(), kind_rows<BearingKind>.end(),
                [&](const auto& row) { return row.key == type && use_of(row.kind).thick_end; });
            thick += facing && to_.text(key) == shaft &&
                     to_.given(with_name_of("bearing.*.big_end", key));
        }
        return thick == 2;
    }

    /// True while the entry that decides between two standard values is not filled by its word.
    bool waits_for_word(const Field& field, const std::string& key) const {
        const std::string_view subject =
            field.other_when.substr(0, field.other_when.find_first_of("!="));
        if (subject.empty() || to_.given(with_name_of(subject, key))) return false;
        return std::any_of(presets().begin(), presets().end(), [&](const Preset& preset) {
            return std::find(preset.fills.begin(), preset.fills.end(), subject) !=
                   preset.fills.end();
        });
    }

    struct Filling {
        const RangedValue& ranged;
        std::string source;
        bool with_range = true;
        std::string by{};  ///< key of the word "unknown"
    };

    void fill(const std::string& key, const Filling& filling) {
        if (to_.given(key)) return;
        Item item;
        item.origin = Origin::preset;
        item.source = filling.source;
        item.by = filling.by;
        if (filling.with_range) {
            item.low = filling.ranged.low;
            item.high = filling.ranged.high;
        }
        add_value(to_, key, filling.ranged.value, std::move(item));
    }

    void oil() {
        const Item* grade = to_.find("oil.grade");
        if (grade == nullptr) return;
        const std::string source = fmt::format("typical {}; from memory", grade->value.text);
        for (const auto& [key, ranged] : oil_of_grade(grade->value.text))
            fill(key, {ranged, source});
    }

    void apply(const Preset& preset, const std::string& key) {
        const Item* found = to_.find(key);
        if (found == nullptr) return;
        const Item& word = *found;
        const Preset::Meaning& meaning = preset.words.at(word.value.text);
        to_.set_preset(key, meaning.numbers);
        const std::string source =
            fmt::format("{} = \"{}\", {}", key, word.value.text, preset.source);
        // An assumed word is varied as a whole: its numbers then have no range.
        const bool with_range = !assumed(word.origin) || word.field->low.empty();
        const std::string by = word.value.text == unknown_word ? key : std::string();
        for (const auto& [pattern, ranged] : meaning.values) {
            const bool many =
                pattern.find('*') != std::string::npos && preset.key.find('*') == std::string::npos;
            if (!many) {
                fill(with_name_of(pattern, key), {ranged, source, with_range, by});
                continue;
            }
            for (const std::string& one : instances(to_, field_of(pattern)))
                fill(one, {ranged, source, with_range, by});
        }
    }

    void duty(const std::string& course_key) {
        const Item* item = to_.find(course_key);
        if (item == nullptr || by_segments(to_)) return;
        const std::string heading = course_key.substr(0, course_key.rfind('.'));
        if (to_.given(heading + ".distance")) return;
        fill(heading + ".pace", {course(item->value.text).pace,
                                 fmt::format("usual pace of {}, judgement", item->value.text)});
    }

    Completed& to_;
    bool vehicle_;
};

/// An oil is a grade, or four values.
void need_oil(Completed& to) {
    const std::vector<std::string> own{"oil.base_oil", "oil.viscosity_40C", "oil.viscosity_100C",
                                       "oil.density_15C"};
    const auto is_given = [&](const std::string& key) { return to.given(key); };
    if (to.given("oil.grade")) return;
    if (std::none_of(own.begin(), own.end(), is_given)) {
        to.missing("oil.grade");
        return;
    }
    for (const std::string& key : own)
        if (!is_given(key)) to.missing(key);
}

void need_fields(Completed& to, bool vehicle) {
    for (const Field& field : fields()) {
        if (!field.need || (!vehicle && field.key.starts_with(vehicle_heading))) continue;
        for (const std::string& key : instances(to, field)) {
            const bool by_model =
                key == "event.duration" && by_segments(to) && to.given("event.distance");
            if (to.holds(field.when, key) && !to.given(key) && !by_model) to.missing(key);
        }
    }
}

/// Problems of two keys that exclude each other, and of both being absent.
struct Either {
    std::string_view one;
    std::string_view other;
    std::string_view exclusive;  ///< why both together are refused; "": allowed
    std::string_view missing;    ///< what to say if both are absent; "": nothing
};

constexpr Either either[] = {
    {"gears.module", "gears.diametral_pitch", "both say how large the teeth are", "gears.module"},
    {"gears.profile_shift", "gears.tip_diameter", "both say how the gears were cut", ""},
    {"vehicle.tyre", "vehicle.wheel_turns", "both give the rolling radius; keep the measured one",
     "vehicle.tyre"},
    {"housing.place", "housing.air_speed_share", "", "housing.place"},
    {"event.course", "event.run", "an event is one course or a run of legs", ""},
    {"event.pace", "event.distance", "with the duration, one gives the other", ""},
    {"leg.*.pace", "leg.*.distance", "on a course, one gives the other with the duration", ""},
    {"leg.*.bins", "leg.*.course", "a leg has one duty", ""},
    {"bearing.*.seat.ring_interference", "bearing.*.seat.ring_fit",
     "both say how tight the outer ring sits", ""},
};

void check_either(Completed& to, bool vehicle) {
    for (const Either& pair : either) {
        if (!vehicle && pair.one.starts_with(vehicle_heading)) continue;
        for (const std::string& key : instances(to, field_of(pair.one))) {
            const std::string other = with_name_of(pair.other, key);
            if (!to.given(key) && !to.given(other) && !pair.missing.empty())
                to.missing(std::string(pair.missing));
            const Item* first = to.find(key);
            const Item* second = to.find(other);
            if (first == nullptr || second == nullptr || pair.exclusive.empty()) continue;
            const bool pace_of_bins =
                pair.one == "leg.*.pace" && !to.has(with_name_of("leg.*.course", key));
            if (pace_of_bins) continue;
            const bool first_later = first->where.line > second->where.line;
            const Item& later = first_later ? *first : *second;
            const Item& earlier = first_later ? *second : *first;
            to.fail(key);
            to.add({later.where,
                    fmt::format("{} (line {}) and {} (line {}) are both given", key,
                                first->where.line, other, second->where.line),
                    fmt::format("{}; drop line {} or line {}", pair.exclusive, earlier.where.line,
                                later.where.line)});
        }
    }
}

std::string condition_words(std::string_view condition, const std::string& key) {
    const std::size_t sign = std::min(condition.find_first_of("!="), condition.size());
    std::string words = with_name_of(condition.substr(0, sign), key);
    if (sign == condition.size()) return words + " is given";
    const bool negated = condition[sign] == '!';
    const std::vector<std::string> list = split_words(condition.substr(sign + (negated ? 2 : 1)));
    return fmt::format("{} {} {}", words, negated ? "is not" : "is", fmt::join(list, " or "));
}

void note_unused(Completed& to) {
    for (const auto& [key, item] : to.items()) {
        const std::string_view when = item.field->when;
        if (assumed(item.origin) || to.holds(when, key)) continue;
        to.note(
            "input.unused", key,
            fmt::format("{} has no effect: it counts when {}", key, condition_words(when, key)));
    }
}

}  // namespace

bool decides_others(const Completed& to, const std::string& key) {
    const Field& field_here = *find_field(key);
    const auto is = [&](std::string_view pattern) { return pattern == field_here.key; };
    const auto all = fields();
    return is("oil.grade") || is("bearing.*.size") || is("bearing.*.radial") ||
           is("event.course") || is("leg.*.course") ||
           std::any_of(all.begin(), all.end(),
                       [&](const Field& field) {
                           const auto subject = [](std::string_view condition) {
                               return condition.substr(0, condition.find_first_of("!="));
                           };
                           return is(subject(field.when)) || is(subject(field.other_when));
                       }) ||
           std::any_of(presets().begin(), presets().end(),
                       [&](const Preset& preset) { return is(preset.key); }) ||
           std::any_of(std::begin(either), std::end(either), [&](const Either& pair) {
               if (pair.exclusive.empty()) return false;
               return (is(pair.one) && to.given(with_name_of(pair.other, key))) ||
                      (is(pair.other) && to.given(with_name_of(pair.one, key)));
           });
}

void complete_values(Completed& to) {
    const bool vehicle = needs_vehicle(to);
    check_either(to, vehicle);
    Filler(to, vehicle).run();
    need_fields(to, vehicle);
    need_oil(to);
    note_unused(to);
}

}  // namespace caseload::input

namespace caseload {

std::optional<double> assumed_boss_mm(double ring_outside_mm) {
    if (ring_outside_mm < iso_286::least_size_mm || ring_outside_mm > iso_286::largest_size_mm)
        return std::nullopt;
    return ring_outside_mm + usual_boss_over_mm;
}

}  // namespace caseload
