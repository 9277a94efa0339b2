// SPDX-License-Identifier: MIT
#include "input/library.hpp"

#include "input/completed.hpp"
#include "input/fields.hpp"
#include "input/letters.hpp"
#include "input/nearest.hpp"
#include "input/scan.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cctype>
#include <set>
#include <utility>

namespace caseload::input {
namespace {

constexpr PartKind kinds[] = {
    {"oil", "oil.grade", "oil."},
    {"core", "cooler.core", "cooler."},
    {"bearing", "bearing.*.from", "bearing.*."},
    {"joint", "joint.*.from", "joint.*."},
};

constexpr PartMember members[] = {
    {"oil", "base_oil", "oil.base_oil", true},
    {"oil", "viscosity_40C", "oil.viscosity_40C", true},
    {"oil", "viscosity_100C", "oil.viscosity_100C", true},
    {"oil", "density_15C", "oil.density_15C", true},
    {"oil", "shear_loss", "oil.shear_loss"},
    {"oil", "ep_additive", "oil.ep_additive"},
    {"oil", "scuffing_stage", "oil.scuffing_stage"},
    {"core", "size", "core.*.size", true},
    {"core", "construction", "core.*.construction"},
    {"core", "rating.heat", "core.*.rating.heat"},
    {"core", "rating.difference", "core.*.rating.difference"},
    {"core", "rating.oil_flow", "core.*.rating.oil_flow"},
    {"core", "rating.face_speed", "core.*.rating.face_speed"},
    {"bearing", "type", "bearing.*.type", true},
    {"bearing", "size", "bearing.*.size", true},
    {"bearing", "contact_angle", "bearing.*.contact_angle"},
    {"bearing", "clearance", "bearing.*.clearance"},
    {"bearing", "dynamic_rating", "bearing.*.dynamic_rating"},
    {"bearing", "static_rating", "bearing.*.static_rating"},
    {"bearing", "fatigue_limit", "bearing.*.fatigue_limit"},
    {"bearing", "f0", "bearing.*.f0"},
    {"bearing", "f1", "bearing.*.f1"},
    {"joint", "slip", "joint.*.slip", true},
    {"joint", "slip_diameter", "joint.*.slip_diameter"},
};

/// Members of a kind; only those a part needs, if so asked.
std::vector<std::string> member_names(std::string_view heading, bool needed = false) {
    std::vector<std::string> names;
    for (const PartMember& member : members)
        if (member.heading == heading && (member.need || !needed)) names.emplace_back(member.name);
    return names;
}

const PartMember* find_member(std::string_view heading, std::string_view name) {
    for (const PartMember& member : members)
        if (member.heading == heading && member.name == name) return &member;
    return nullptr;
}

bool known_kind(std::string_view heading) {
    return std::any_of(std::begin(kinds), std::end(kinds),
                       [&](const PartKind& kind) { return kind.heading == heading; });
}

/// "heading.name.member" in its three parts; the last two may be empty.
struct PartKey {
    std::string heading;
    std::string name;
    std::string member;
};

PartKey split(const std::string& key) {
    const std::size_t first = std::min(key.find('.'), key.size());
    const std::size_t second = std::min(key.find('.', std::min(first + 1, key.size())), key.size());
    return {key.substr(0, first), key.substr(std::min(first + 1, key.size()), second - first - 1),
            key.substr(std::min(second + 1, key.size()))};
}

/// Where a member of a part of this kind goes in the setup. A core's size is the cooler's core.
std::string target(const PartKind& kind, const std::string& key, const std::string& member) {
    if (kind.heading == "core" && member == "size") return "cooler.core";
    return with_name_of(kind.under, key) + member;
}

/// Reads the library's file and reports its problems all at once.
class Reading {
public:
    explicit Reading(const std::string& file) : to_(file), file_(file) {}

    void version(const Leaves& leaves) {
        if (std::optional<Problem> wrong = wrong_version(leaves, file_, "a library"))
            to_.add(std::move(*wrong));
    }

    /// True if the leaf is a member of a part, rightly written or not.
    bool member(const std::string& key, const Leaf& leaf) {
        const PartKey at = split(key);
        if (!known_kind(at.heading) || (at.name.empty() && at.member.empty())) {
            unknown(key, at, leaf);
            return false;
        }
        const bool named =
            matches("*", at.name) && std::isalpha(static_cast<unsigned char>(at.name.front())) != 0;
        if (!named) {
            to_.add({leaf.key_where, fmt::format("{}: \"{}\" is no name for a part", key, at.name),
                     "a name begins with a letter and holds letters, digits, - and _"});
            return false;
        }
        if (at.member.empty()) {
            if (leaf.value.kind == Value::Kind::table)
                return true;  // missing members are reported below
            to_.add({leaf.key_where, fmt::format("{} is a part, not a value", key),
                     fmt::format("[{}] and below it {}", key,
                                 fmt::join(member_names(at.heading, true), ", "))});
            return false;
        }
        const PartMember* known = find_member(at.heading, at.member);
        if (known == nullptr) {
            if (leaf.value.kind == Value::Kind::table && at.member == "rating") return true;
            const std::vector<std::string> names = member_names(at.heading);
            const std::string near = nearest_word(names, at.member);
            meant_.insert(fmt::format("{}.{}.{}", at.heading, at.name, near));
            to_.add({leaf.key_where,
                     fmt::format("{}: {} of a library has no {}", key, at.heading, at.member),
                     near.empty() ? fmt::format("it has {}", fmt::join(names, ", "))
                                  : fmt::format("did you mean {}?", near)});
            return true;
        }
        if (!check_value(to_, field_of(known->field), key, leaf)) to_.fail(key);
        return true;
    }

    /// What a part as a whole lacks.
    void whole(const std::string& part, const std::map<std::string, Leaf>& has, const Where& at) {
        const std::string heading = part.substr(0, part.find('.'));
        for (const std::string& need : member_names(heading, true))
            if (!has.contains(need) && !meant_.contains(part + "." + need))
                to_.add({at, fmt::format("{}.{} is missing", part, need),
                         fmt::format("{} of a library needs {}", heading,
                                     fmt::join(member_names(heading, true), ", "))});
        const auto ratings = std::count_if(has.begin(), has.end(), [](const auto& one) {
            return one.first.starts_with("rating.");
        });
        if (ratings != 0 && ratings != 4)
            to_.add({at, fmt::format("{}.rating: {} of the four values are there", part, ratings),
                     "heat, difference, oil_flow and face_speed belong together; leave all out to "
                     "have them estimated"});
        const auto slip = has.find("slip");
        if (slip != has.end() && slip->second.value.text != "none" &&
            !has.contains("slip_diameter"))
            to_.add({at, fmt::format("{}.slip_diameter is missing", part),
                     "a sliding spline needs its diameter"});
    }

    /// Throws the problems, each with its line of the text.
    void finish(std::string_view text) {
        if (to_.problems.empty()) return;
        const Source source(text, file_);
        for (Problem& problem : to_.problems)
            if (problem.where.line > 0) problem.where.source_line = source.line(problem.where.line);
        std::stable_sort(to_.problems.begin(), to_.problems.end(),
                         [](const Problem& a, const Problem& b) {
                             return std::make_pair(a.where.line == 0, a.where.line) <
                                    std::make_pair(b.where.line == 0, b.where.line);
                         });
        throw Error(Error::Kind::input, std::move(to_.problems));
    }

private:
    void unknown(const std::string& key, const PartKey& at, const Leaf& leaf) {
        std::vector<std::string> headings;
        std::vector<std::string> headed;
        for (const PartKind& kind : kinds) {
            headings.emplace_back(kind.heading);
            headed.push_back(fmt::format("[{}.NAME]", kind.heading));
        }
        const std::string near =
            known_kind(at.heading) ? std::string() : nearest_word(headings, at.heading);
        to_.add({leaf.key_where, fmt::format("{} does not belong into a library", key),
                 near.empty() ? fmt::format("it holds {}", fmt::join(headed, ", "))
                              : fmt::format("did you mean [{}.NAME]?", near)});
    }

    Completed to_;
    std::string file_;
    std::set<std::string> meant_;  ///< keys with a typo: not missing as well
};

}  // namespace

std::span<const PartKind> part_kinds() {
    return kinds;
}

std::span<const PartMember> part_members() {
    return members;
}

std::vector<std::string> members_taken_by(const std::string& key) {
    std::vector<std::string> keys;
    for (const PartKind& kind : kinds) {
        if (!matches(kind.key, key)) continue;
        // The clearance is the only member that is also chosen by position.
        for (const std::string& member : member_names(kind.heading))
            if (member != "clearance") keys.push_back(target(kind, key, member));
        keys.push_back(key);
    }
    return keys;
}

void Library::read(std::string_view text, const std::string& name) {
    text = without_mark(text);
    Reading reading(name);
    const Leaves leaves = parse_leaves(text, name);
    reading.version(leaves);
    std::map<std::string, std::map<std::string, Part>> found;
    std::map<std::string, Where> begins;
    for (const auto& [key, leaf] : leaves) {
        if (key == "caseload" || key == "title") continue;
        if (!reading.member(key, leaf)) continue;
        const PartKey at = split(key);
        Part& part = found[at.heading][at.name];
        Where& begin = begins[at.heading + "." + at.name];
        if (begin.line == 0 || leaf.key_where.line < begin.line) begin = leaf.key_where;
        if (leaf.value.kind != Value::Kind::table) part[at.member] = leaf;
    }
    for (const auto& [heading, parts] : found)
        for (const auto& [part, has] : parts) {
            const std::string key = heading + "." + part;
            reading.whole(key, has, begins[key]);
        }
    reading.finish(text);
    for (auto& [heading, parts] : found)
        for (auto& [part, has] : parts) parts_[heading][part] = std::move(has);
    files_.push_back(name);
}

std::map<std::string, Sourced> Library::taken(Leaves& layer, Origin origin,
                                              const std::map<std::string, Sourced>& under) const {
    std::map<std::string, Sourced> out;
    const Leaves given = layer;
    for (const auto& entry : given) {
        const std::string& key = entry.first;
        const auto kind = std::find_if(std::begin(kinds), std::end(kinds),
                                       [&](const PartKind& one) { return matches(one.key, key); });
        if (kind == std::end(kinds) || entry.second.value.kind != Value::Kind::text) continue;
        const std::string& name = entry.second.value.text;
        std::map<std::string, Sourced> part;
        if (kind->heading == "core") {
            const std::string own = "core." + name + ".";
            for (const auto& [other, at] : under)
                if (other.starts_with(own)) part[other.substr(own.size())] = at;
            for (const auto& [other, at] : given)
                if (other.starts_with(own)) part[other.substr(own.size())] = {at, origin, {}};
        }
        const auto shelf = parts_.find(std::string(kind->heading));
        if (part.empty() && shelf != parts_.end() && shelf->second.contains(name))
            for (const auto& [member, at] : shelf->second.at(name))
                part[member] = {at, Origin::base_file, {}};
        if (part.empty()) continue;
        layer.erase(key);
        for (auto& [member, at] : part) {
            const std::string to = target(*kind, key, member);
            if (!given.contains(to) || to == key) out[to] = {at.leaf, at.origin, key};
        }
    }
    return out;
}

void Library::offer(std::map<std::string, Sourced>& to) const {
    const std::map<std::string, Sourced> own = to;
    for (const auto& [heading, offered] :
         {std::pair<std::string, std::string>{"core", "core."}, {"bearing", "candidate."}}) {
        const auto shelf = parts_.find(heading);
        if (shelf == parts_.end()) continue;
        for (const auto& [name, part] : shelf->second) {
            const std::string under = offered + name + ".";
            const auto first = own.lower_bound(under);
            if (first != own.end() && first->first.starts_with(under)) continue;
            for (const auto& [member, leaf] : part) {
                const Field* field = find_field(under + member);
                const bool word = field != nullptr && leaf.value.text == "estimate";
                if (field != nullptr && !word) to[under + member] = {leaf, Origin::base_file, {}};
            }
        }
    }
}

std::vector<std::string> Library::names(std::string_view heading) const {
    std::vector<std::string> all;
    const auto shelf = parts_.find(std::string(heading));
    if (shelf == parts_.end()) return all;
    for (const auto& [name, part] : shelf->second) all.push_back(name);
    return all;
}

bool Library::holds_file(const std::string& name) const {
    return std::find(files_.begin(), files_.end(), name) != files_.end();
}

}  // namespace caseload::input
