// SPDX-License-Identifier: MIT
#include "input/counts.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <set>
#include <string_view>
#include <tuple>
#include <vector>

namespace caseload::input {
namespace {

struct Most {
    std::string_view heading;
    std::size_t most;
    std::string_view what;
    std::string_view hint;
};

// Judgement: several times what a case, its shop and its season have. A setup with all of one kind
// is read in a tenth of a second and answered within two more.
constexpr Most limits[] = {
    {"joint", 20, "joints", "a case has one or two at each end of a shaft"},
    {"spline", 20, "splines", "a case has one at each gear hub and slip joint"},
    {"seal", 50, "seals", "a case has one or two at each end of a shaft"},
    {"reading", 1000, "readings", "keep those of the case as it is now, one for each run"},
    {"core", 200, "cores", "with those of the library; keep those you may really fit"},
    {"candidate", 1000, "bearings to choose from",
     "with those of the library; keep those you can really get"},
    {"set", 200, "drop sets", "keep those you own"},
};
constexpr std::size_t most_legs_idle = 200;

/// Names under a heading, each with its first place, in the order of the file.
std::vector<Where> names_under(std::string_view heading,
                               const std::map<std::string, Sourced>& leaves,
                               const std::set<std::string>& but = {}) {
    const std::string begin = fmt::format("{}.", heading);
    std::map<std::string, Where> first;
    for (auto at = leaves.lower_bound(begin); at != leaves.end() && at->first.starts_with(begin);
         ++at) {
        const std::string name =
            at->first.substr(begin.size(), at->first.find('.', begin.size()) - begin.size());
        if (but.contains(name)) continue;
        const Where& where = at->second.leaf.key_where;
        const auto [known, added] = first.emplace(name, where);
        if (!added && where.line < known->second.line) known->second = where;
    }
    std::vector<Where> places;
    for (auto& [name, where] : first) places.push_back(std::move(where));
    // What a pattern brings came before what the user wrote.
    const auto rank = [](const Where& where) {
        return std::make_tuple(!where.file.starts_with("pattern:"), std::string_view(where.file),
                               where.line, where.column);
    };
    std::sort(places.begin(), places.end(),
              [&](const Where& a, const Where& b) { return rank(a) < rank(b); });
    return places;
}

/// The legs that event.run names, "3 x loop" by its last word.
std::set<std::string> legs_run(const std::map<std::string, Sourced>& leaves) {
    std::set<std::string> legs;
    const auto run = leaves.find("event.run");
    if (run == leaves.end()) return legs;
    for (const Value& item : run->second.leaf.value.items)
        legs.insert(item.text.substr(item.text.rfind(' ') + 1));  // npos + 1 is 0
    return legs;
}

}  // namespace

std::optional<Problem> too_many(const std::map<std::string, Sourced>& leaves) {
    for (const Most& limit : limits) {
        const std::vector<Where> places = names_under(limit.heading, leaves);
        if (places.size() > limit.most)
            return Problem{places[limit.most],
                           fmt::format("[{}.NAME]: there are {} {}; a setup may have {}",
                                       limit.heading, places.size(), limit.what, limit.most),
                           std::string(limit.hint)};
    }
    const std::vector<Where> idle = names_under("leg", leaves, legs_run(leaves));
    if (idle.size() > most_legs_idle)
        return Problem{idle[most_legs_idle],
                       fmt::format("[leg.NAME]: there are {} legs that event.run does not drive; "
                                   "a setup may have {}",
                                   idle.size(), most_legs_idle),
                       "leave out those of other events; each event may have a file of its own, "
                       "named by event.from"};
    return std::nullopt;
}

}  // namespace caseload::input
