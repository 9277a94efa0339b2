// SPDX-License-Identifier: MIT
#include "input/merge.hpp"

#include "caseload/tables.hpp"
#include "input/cut_gears.hpp"
#include "input/fields.hpp"
#include "input/letters.hpp"
#include "input/scan.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <set>
#include <utility>

namespace caseload::input {
namespace {

constexpr std::size_t deepest_base = 8;
constexpr std::string_view pattern_mark = "pattern:";
constexpr std::string_view pattern_folder = "patterns/";
constexpr std::string_view pattern_ending = ".toml";

/// A newer layer that gives `given` drops `dropped` of the older ones, unless it gives that too:
/// another way of saying the same, or a value that belonged to what was replaced.
struct Drop {
    std::string_view given;
    std::string_view dropped;  ///< "a | b"
};

constexpr Drop drops[] = {
    {"gears.module", "gears.diametral_pitch"},
    {"gears.diametral_pitch", "gears.module"},
    {"gears.profile_shift", "gears.tip_diameter"},
    {"gears.tip_diameter", "gears.profile_shift"},
    {"shaft.*.end_play", "shaft.*.preload | shaft.*.turning_torque"},
    {"shaft.*.preload", "shaft.*.end_play | shaft.*.turning_torque"},
    {"shaft.*.turning_torque", "shaft.*.end_play | shaft.*.preload"},
    {"gears.finish", "gears.flank_Ra | gears.flank_Rz"},
    {"gears.support", "gears.face_load_factor"},
    {"bearing.*.size",
     "bearing.*.dynamic_rating | bearing.*.static_rating | bearing.*.fatigue_limit"},
    {"bearing.*.type",
     "bearing.*.dynamic_rating | bearing.*.static_rating | bearing.*.fatigue_limit | "
     "bearing.*.contact_angle | bearing.*.f0 | bearing.*.f1"},
    {"bearing.*.seat.ring_fit", "bearing.*.seat.ring_interference"},
    {"bearing.*.seat.ring_interference", "bearing.*.seat.ring_fit"},
    {"oil.grade", "oil.base_oil | oil.viscosity_40C | oil.viscosity_100C | oil.density_15C"},
    {"oil.state", "oil.cleanliness"},
    {"lubrication.drain", "lubrication.mist_oil_fraction | lubrication.oil_rehit"},
    {"housing.finish", "housing.emissivity"},
    {"housing.place", "housing.air_speed_share"},
    {"housing.dirt", "housing.dirt_thickness | housing.emissivity"},
    {"housing.exhaust", "housing.exhaust_heat"},
    {"housing.neighbour", "housing.neighbour_conductance | housing.neighbour_temperature"},
    {"cooler.core",
     "cooler.rating.heat | cooler.rating.difference | cooler.rating.oil_flow | "
     "cooler.rating.face_speed"},
    {"cooler.construction",
     "cooler.rating.heat | cooler.rating.difference | cooler.rating.oil_flow | "
     "cooler.rating.face_speed"},
    {"cooler.duct", "cooler.face_speed_share"},
    {"vehicle.tyre", "vehicle.wheel_turns"},
    {"vehicle.wheel_turns", "vehicle.tyre"},
    {"vehicle.suspension", "vehicle.wheel_travel"},
    {"event.course", "event.run | event.pace | event.distance | event.ground_severity"},
    {"event.run",
     "event.course | event.duration | event.pace | event.distance | event.ground_severity"},
    {"event.pace", "event.distance | event.ground_severity"},
    {"event.distance", "event.pace | event.ground_severity"},
    {"event.style", "event.ground_severity"},
    {"leg.*.bins", "leg.*.course | leg.*.pace | leg.*.style | leg.*.ground_severity"},
    {"leg.*.course", "leg.*.bins | leg.*.pace | leg.*.ground_severity"},
    {"leg.*.pace", "leg.*.ground_severity"},
    {"leg.*.style", "leg.*.ground_severity"},
};

std::string pattern_list() {
    std::vector<std::string> names;
    for (const EmbeddedTable& table : embedded_tables())
        if (table.path.substr(0, pattern_folder.size()) == pattern_folder)
            names.push_back(fmt::format(
                "{}{}", pattern_mark,
                table.path.substr(pattern_folder.size(), table.path.size() - pattern_folder.size() -
                                                             pattern_ending.size())));
    return fmt::format("built-in patterns are {}", fmt::join(names, ", "));
}

const EmbeddedTable* find_pattern(std::string_view name) {
    for (const EmbeddedTable& table : embedded_tables())
        if (table.path == fmt::format("{}{}{}", pattern_folder, name, pattern_ending))
            return &table;
    return nullptr;
}

}  // namespace

Merged::Merged(std::string_view text, const std::string& name, const FindBase& find_base) {
    try {
        read({text, name, Origin::yours}, find_base);
    } catch (const Error& error) {
        std::vector<Problem> found = error.problems();
        say_who_named(found);
        throw Error(error.kind(), std::move(found));
    }
}

void Merged::say_who_named(std::vector<Problem>& found) const {
    std::set<std::string> said;
    for (Problem& problem : found) {
        std::string file = problem.where.file;
        if (!said.insert(file).second) continue;
        std::string chain;
        std::size_t steps = 0;  // a file named in two places may close a circle
        for (auto at = named_.find(file); at != named_.end() && steps <= deepest_base;
             at = named_.find(file), ++steps) {
            const auto& [as, by] = at->second;
            chain += fmt::format("{} is {} of {} (line {})", chain.empty() ? file : ", which", as,
                                 by.file, by.line);
            file = by.file;
        }
        if (!chain.empty()) problem.hint += (problem.hint.empty() ? "" : "\n  ") + chain;
    }
}

void Merged::add_layer(std::map<std::string, Sourced>& to, Leaves layer, Origin origin) const {
    std::map<std::string, Sourced> taken = library.taken(layer, origin, to);
    const auto drop_older = [&](const std::string& key) {
        for (auto at = to.begin(); at != to.end();)
            at = at->second.by == key ? to.erase(at) : std::next(at);
        for (const Drop& drop : drops)
            if (matches(drop.given, key))
                for (const std::string& dropped : split_words(drop.dropped))
                    to.erase(with_name_of(dropped, key));
    };
    for (const auto& [key, unused] : layer) drop_older(key);
    for (const auto& [key, part] : taken) {
        drop_older(part.by);
        for (const std::string& member : members_taken_by(part.by)) to.erase(member);
    }
    for (auto& [key, part] : taken) to[key] = std::move(part);
    for (auto& [key, leaf] : layer) to[key] = {std::move(leaf), origin, {}, {}};
    mark_cut(to);
}

bool Merged::moves_others(const std::string& key) {
    const auto kinds = part_kinds();
    return std::any_of(std::begin(drops), std::end(drops),
                       [&](const Drop& drop) { return matches(drop.given, key); }) ||
           std::any_of(kinds.begin(), kinds.end(),
                       [&](const PartKind& kind) { return matches(kind.key, key); });
}

std::string Merged::source_line(const Where& where) const {
    const auto found = lines_.find(where.file);
    const auto index = static_cast<std::size_t>(where.line) - 1;
    if (found == lines_.end() || where.line == 0 || index >= found->second.size()) return {};
    return found->second[index];
}

void Merged::read(const File& file, const FindBase& find_base) {
    keep_lines(file.text, file.name);
    Leaves layer = parse_leaves(file.text, file.name);
    if (std::optional<Problem> wrong = wrong_version(layer, file.name, "a setup"))
        problems.push_back(std::move(*wrong));
    if (const auto version = layer.find("caseload"); version != layer.end()) {
        version->second.value.kind = Value::Kind::integer;
        version->second.value.number = 1;
    }
    open_.push_back(file.name);
    const auto base = layer.find("base");
    if (base != layer.end()) {
        read_base(base->second.value, find_base);
        layer.erase(base);
    }
    const auto event = layer.find("event.from");
    if (event != layer.end()) {
        if (layer.contains("event.course"))
            problems.push_back({event->second.value.where,
                                "event.from and event.course both say what is driven",
                                "keep one of them"});
        read_event(event->second.value, find_base);
        layer.erase(event);
    }
    open_.pop_back();
    const auto named = layer.find("library");
    if (named != layer.end() && !file.event_only) {
        read_library(named->second.value, find_base);
        layer.erase(named);
    }
    if (file.event_only) refuse_others_in_event(layer);
    add_layer(leaves, std::move(layer), file.origin);
}

void Merged::keep_lines(std::string_view text, const std::string& name) {
    const Source source(without_mark(text), name);
    std::vector<std::string>& lines = lines_[name];
    lines.clear();
    for (int i = 1; i <= static_cast<int>(source.count_lines()); ++i)
        lines.emplace_back(source.line(i));
}

void Merged::require_name(const Naming& by, std::string_view what) const {
    if (by.value.kind != Value::Kind::text)
        fail(by, fmt::format("this is not the name of a {}", what));
}

void Merged::refuse_circle(const Naming& by) const {
    if (std::find(open_.begin(), open_.end(), by.value.text) != open_.end())
        fail({by.key, by.value, fmt::format("read so far: {}", fmt::join(open_, " -> "))},
             "the files name each other in a circle");
}

std::string Merged::text_beside(const Naming& by, const FindBase& find_base) {
    std::optional<std::string> text = find_base ? find_base(by.value.text) : std::nullopt;
    if (!text) fail(by, "there is no such file beside this one");
    named_[by.value.text] = {std::string(by.key), by.value.where};
    return std::move(*text);
}

void Merged::read_base(const Value& base, const FindBase& find_base) {
    const Naming by{"base", base, pattern_list()};
    require_name(by, "file or pattern");
    const std::string& name = base.text;
    if (std::string_view(name).substr(0, pattern_mark.size()) == pattern_mark) {
        const EmbeddedTable* pattern = find_pattern(name.substr(pattern_mark.size()));
        if (pattern == nullptr) fail(by, "there is no such pattern");
        named_[name] = {"base", base.where};
        read({pattern->text, name, Origin::pattern}, find_base);
        return;
    }
    refuse_circle(by);
    if (open_.size() > deepest_base)
        fail({by.key, base, "put what they share into one file"},
             fmt::format("more than {} files deep", deepest_base));
    const std::string text = text_beside(by, find_base);
    read({text, name, Origin::base_file}, find_base);
}

void Merged::read_library(const Value& named, const FindBase& find_base) {
    const Naming by{
        "library", named,
        "it is the name of a file beside this one with oils, cores, bearings and joints"};
    require_name(by, "file");
    const std::string text = text_beside(by, find_base);
    library.read(text, named.text);
    keep_lines(text, named.text);
}

void Merged::read_event(const Value& from, const FindBase& find_base) {
    const Naming by{"event.from", from,
                    "it is the name of a file beside this one, as caseload duty writes it"};
    require_name(by, "file");
    refuse_circle(by);
    const std::string text = text_beside(by, find_base);
    read({text, from.text, Origin::base_file, true}, find_base);
}

void Merged::refuse_others_in_event(const Leaves& layer) {
    for (const auto& [key, leaf] : layer) {
        const std::string_view heading = std::string_view(key).substr(0, key.find('.'));
        if (heading == "event" || heading == "leg" || key == "caseload" || key == "title") continue;
        problems.push_back({leaf.key_where,
                            fmt::format("{} does not belong into the file of event.from", key),
                            "write only [event] and its legs in it, the rest in the setup"});
    }
}

void Merged::fail(const Naming& by, std::string_view what) const {
    Where where = by.value.where;
    where.source_line = source_line(where);
    const std::string name = by.value.kind == Value::Kind::text
                                 ? fmt::format("\"{}\"", by.value.text)
                                 : short_text(by.value);
    throw Error(
        Error::Kind::input,
        {Problem{std::move(where), fmt::format("{} = {}: {}", by.key, name, what), by.hint}});
}

}  // namespace caseload::input
