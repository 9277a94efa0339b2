// SPDX-License-Identifier: MIT
// Numbers with their addresses, as they are gathered; words and formulas from tables/why.toml.
#pragma once

#include "caseload/kinds.hpp"
#include "caseload/why.hpp"

#include <map>
#include <memory>
#include <string>
#include <string_view>
#include <type_traits>
#include <vector>

namespace caseload::why_detail {

/// The word for a kind of bearing in tables/why.toml.
inline std::string kind_word(BearingKind kind) {
    return std::string(words_for(kind).formula_kind);
}

using Index = std::map<std::string, std::size_t, std::less<>>;

/// The number that a name means in a formula of a part and place. Looked for in this order: same
/// part and place; the place that contains it ("loop/2" of "loop/2/3"); the part without a place;
/// the settled leg; shared.
/// "[address]" is that address. Null: none.
const Number* resolve_name(const std::vector<Number>& all, const Index& index, const Number& by,
                           const std::string& name);

/// Numbers of the case with its scavenge pump dead have this before the part: "pump_dead.rest".
/// A name not found under the prefix means the normal case.
inline constexpr std::string_view dead_prefix = "pump_dead.";

/// "a + b + ...".
std::string sum_of(const std::vector<std::string>& terms);
/// "max(a, max(b, ...))", or min.
std::string extreme_of(std::string_view which, const std::vector<std::string>& terms);

class Collector {
public:
    Collector(const ReadSetup& read, std::string_view formulas);
    ~Collector();
    Collector(const Collector&) = delete;
    Collector& operator=(const Collector&) = delete;

    struct Place {
        std::string kind;  ///< heading in tables/why.toml
        std::string part;
        std::string at;
        std::string variant;  ///< of a formula that depends on it, such as the bearing's kind
    };

    Number& add(const Place& place, const std::string& member, double value,
                const Quantity& row = Quantity{});

    /// A member of a result, by its row.
    Number& add(const Place& place, double value, const Quantity& row) {
        return add(place, row.id.substr(row.id.find('.') + 1), value, row);
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
    void step(const Place& place, const std::string& member);

    /// A step whose formula is put together in code; only that formula calculates it.
    Number& step(const Place& place, const std::string& member, const std::string& formula);

    /// The steps the numbers of this place need, those of formulas set in code too.
    void steps_of(const Place& place);

    /// An empty one for another setup with the same entries.
    [[nodiscard]] Collector beside() const { return {read_, table_}; }

    /// Adds the numbers of another case under a prefix, without those that are the same here.
    void add_prefixed(const Collector& other, std::string_view prefix, const std::string& reason);

    Number& number(const std::string& address) { return all[index.at(address)]; }
    [[nodiscard]] bool has(const std::string& address) const {
        return index.find(address) != index.end();
    }

    /// Where an entry of the setup came from; "" when it has none.
    [[nodiscard]] std::string origin_of(const std::string& key) const;

    std::vector<Number> all;
    Index index;

private:
    struct Table;
    Collector(const ReadSetup& read, std::shared_ptr<const Table> table);

    double value_of(const Place& place, const std::string& member, const std::string& formula);

    const ReadSetup& read_;
    std::shared_ptr<const Table> table_;
    std::multimap<std::string, std::size_t> by_place_;  ///< numbers of "part@at"
};

}  // namespace caseload::why_detail
