// SPDX-License-Identifier: MIT
#include "caseload/upgrade.hpp"

#include "caseload/error.hpp"
#include "input/fields.hpp"
#include "input/value.hpp"

#include <fmt/format.h>

#include <algorithm>

namespace caseload {
namespace {

using input::Leaf;
using input::Leaves;

/// Byte at which a place of the text begins. Keys and versions are plain ASCII up to their column
/// unless a comment or text precedes them on the line, which cannot be.
std::size_t byte_of(std::string_view text, const Where& where) {
    std::size_t at = 0;
    for (int line = 1; line < where.line; ++line) at = text.find('\n', at) + 1;
    return at + static_cast<std::size_t>(where.column) - 1;
}

[[noreturn]] void refuse(const Where& where, std::string text, std::string hint) {
    throw Error(Error::Kind::input, {Problem{where, std::move(text), std::move(hint)}});
}

struct Replacement {
    std::size_t at = 0;
    std::size_t length = 0;
    std::string by;
};

Replacement of_key(std::string_view text, const Leaf& leaf, const Renamed& renamed) {
    const std::string_view old = renamed.key.substr(renamed.key.rfind('.') + 1);
    const std::size_t from = byte_of(text, leaf.key_where);
    const std::size_t end = std::min(text.find('=', from), text.size());
    const std::size_t at = text.substr(0, end).rfind(old);
    if (at == std::string_view::npos || at < from)
        refuse(leaf.key_where, fmt::format("{} is written in a way that cannot be upgraded", old),
               "write the key in plain letters");
    return {at, old.size(), std::string(renamed.last_part)};
}

int version_of(const Leaves& leaves, const std::string& name) {
    const auto version = leaves.find("caseload");
    if (version == leaves.end())
        refuse({name, 0, 0, 0, {}}, "caseload = 1 is not there",
               "a setup begins with its file version");
    if (version->second.value.kind != input::Value::Kind::integer)
        refuse(version->second.value.where, "caseload: the version is a whole number",
               "for example caseload = 1");
    return static_cast<int>(version->second.value.number);
}

}  // namespace

std::span<const FormatStep> format_steps() {
    return {};
}

Upgraded upgraded(std::string_view text, const std::string& name, const FormatSteps& to) {
    Upgraded result;
    result.text = std::string(text);
    result.from = version_of(input::parse_leaves(text, name), name);
    result.to = to.current;
    for (int version = result.from; version != to.current; ++version) {
        const Leaves leaves = input::parse_leaves(result.text, name);
        const Leaf& stated = leaves.at("caseload");
        const auto step = std::find_if(to.steps.begin(), to.steps.end(),
                                       [&](const FormatStep& one) { return one.from == version; });
        if (version > to.current || step == to.steps.end())
            refuse(stated.value.where,
                   fmt::format("caseload = {}: this program knows versions up to {}", version,
                               to.current),
                   "use the program this file was written for; the file is left as it is");
        std::vector<Replacement> replacements{{byte_of(result.text, stated.value.where),
                                               std::to_string(version).size(),
                                               std::to_string(version + 1)}};
        for (const Renamed& renamed : step->renamed)
            for (const auto& [key, leaf] : leaves) {
                if (!input::matches(renamed.key, key)) continue;
                replacements.push_back(of_key(result.text, leaf, renamed));
                result.changes.push_back(fmt::format("line {}: {} is now {}", leaf.key_where.line,
                                                     key, renamed.last_part));
            }
        // From the end, so that places before stay right.
        std::sort(replacements.begin(), replacements.end(),
                  [](const Replacement& a, const Replacement& b) { return a.at > b.at; });
        for (const Replacement& one : replacements) result.text.replace(one.at, one.length, one.by);
    }
    return result;
}

}  // namespace caseload
