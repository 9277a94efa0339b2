// SPDX-License-Identifier: MIT
// Numbers with their addresses, as they are gathered; words and formulas from tables/why.toml.
#pragma once

#include "caseload/tables.hpp"
#include "caseload/why.hpp"
#include "third_party/toml.hpp"

#include <fmt/format.h>

#include <map>
#include <stdexcept>
#include <string>
#include <type_traits>
#include <utility>
#include <vector>

namespace caseload::why_detail {

inline std::string origin_words(const Entry& entry) {
    if (entry.where.line > 0 && !entry.where.file.empty() &&
        (entry.origin == Origin::yours || entry.origin == Origin::base_file))
        return fmt::format("{}:{}, {}", entry.where.file, entry.where.line, entry.key);
    return fmt::format("{}, {}", entry.key, entry.source.empty() ? "standard" : entry.source);
}

inline std::string kind_word(BearingKind kind) {
    switch (kind) {
        case BearingKind::deep_groove_ball:
            return "deep_groove";
        case BearingKind::angular_contact_ball:
            return "angular";
        case BearingKind::four_point_ball:
            return "four_point";
        case BearingKind::cylindrical_roller:
            return "cylindrical";
        case BearingKind::tapered_roller:
            return "tapered";
        case BearingKind::spherical_roller:
            return "spherical";
    }
    return {};
}

using Index = std::map<std::string, std::size_t, std::less<>>;

/// The number a name means, seen from a part and a place: of the same part there, of the part
/// whatever the leg, of the leg at rest, shared. "[address]" is that address. Null: none.
inline const Number* meant(const std::vector<Number>& all, const Index& index, const Number& by,
                           const std::string& name) {
    const auto find = [&](const std::string& address) {
        const auto found = index.find(address);
        return found == index.end() ? nullptr : &all[found->second];
    };
    if (name.front() == '[') return find(name.substr(1, name.size() - 2));
    const std::string own = by.part + "." + name;
    if (const Number* n = find(own + "@" + by.at)) return n;
    if (const Number* n = find(own)) return n;
    if (const Number* n = find("rest." + name + "@" + by.at.substr(0, by.at.find('/')))) return n;
    return find("shared." + name);
}

class Collector {
public:
    explicit Collector(const ReadSetup& read)
        : read_(read), table_(toml::parse(embedded_table("why.toml"))) {}

    struct Place {
        std::string kind;  ///< heading in tables/why.toml
        std::string part;
        std::string at;
        std::string variant;  ///< of a formula that depends on it: kind of the bearing
    };

    Number& add(const Place& place, const std::string& member, double value,
                const Quantity& row = Quantity{}) {
        Number number;
        number.part = place.part;
        number.member = member;
        number.at = place.at;
        number.address =
            fmt::format("{}.{}{}{}", place.part, member, place.at.empty() ? "" : "@", place.at);
        number.value = value;
        const toml::node_view<toml::node> entry = table_[place.kind][member];
        const auto text = [&](const char* key, const std::string& otherwise) {
            return entry[key].value_or(otherwise);
        };
        number.row = row.id;
        number.symbol = text("symbol", row.symbol);
        number.unit = text("unit", row.unit);
        number.words = text("words", row.words);
        number.how = row.how.empty() ? text("how", "step") : row.how;
        number.source = text("source", row.source);
        number.value_of = text("value", entry["value"][place.variant].value_or(std::string{}));
        number.equation = text("equation", {});
        number.solved_to = text("solved_to", {});
        std::string key = text("key", {});
        if (const std::size_t star = key.find('*'); star != std::string::npos)
            key.replace(star, 1, place.part.substr(place.part.find('.') + 1));
        for (const Entry& entered : read_.entries)
            if (!key.empty() && entered.key == key) number.origin = origin_words(entered);
        index[number.address] = all.size();
        all.push_back(std::move(number));
        return all.back();
    }

    /// The numbers among the members of a result.
    template <class T>
    void members(const Place& place, const T& result) {
        each(result, [&](std::string_view name, const auto& value) {
            using V = std::decay_t<decltype(value)>;
            if constexpr (std::is_same_v<V, double> || std::is_same_v<V, int>)
                add(place, std::string(name), value, quantity(Members<T>::owner, name));
        });
    }

    /// A step that only the table calculates, and the steps it needs.
    void step(const Place& place, const std::string& member) {
        Number by;
        by.part = place.part;
        by.at = place.at;
        const toml::node_view<toml::node> value = table_[place.kind][member]["value"];
        const std::string formula = value.value_or(value[place.variant].value_or(std::string{}));
        if (formula.empty() || meant(all, index, by, member) != nullptr) return;
        for (const std::string& name : names_in(formula))
            if (meant(all, index, by, name) == nullptr) step(place, name);
        const double result = evaluate(formula, [&](std::string_view name) {
            const Number* input = meant(all, index, by, std::string(name));
            if (input == nullptr)
                throw std::logic_error("tables/why.toml: " + member + " wants " +
                                       std::string(name));
            return input->value;
        });
        add(place, member, result).by_table = true;
    }

    /// The steps the numbers of this place need.
    void steps_of(const Place& place) {
        const std::size_t before = all.size();
        for (std::size_t i = 0; i < before; ++i) {
            const Number number = all[i];
            if (number.part != place.part || number.at != place.at || number.value_of.empty())
                continue;
            for (const std::string& name : names_in(number.value_of))
                if (meant(all, index, number, name) == nullptr) step(place, name);
        }
    }

    Number& number(const std::string& address) { return all[index.at(address)]; }

    std::vector<Number> all;
    Index index;

private:
    const ReadSetup& read_;
    toml::table table_;
};

}  // namespace caseload::why_detail
