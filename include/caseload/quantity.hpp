// SPDX-License-Identifier: MIT
// What a result is made of. A result struct lists its members once, beside its definition; JSON,
// text and every other view walk that list, and a build fails when a member is left out. The
// meaning of each member is in tables/quantities.toml.
#pragma once

#include <boost/preprocessor/seq/for_each.hpp>
#include <boost/preprocessor/stringize.hpp>
#include <boost/preprocessor/variadic/to_seq.hpp>

#include <cstddef>
#include <map>
#include <optional>
#include <string>
#include <string_view>
#include <type_traits>
#include <vector>

namespace caseload {

/// Meaning of one quantity: words, not values.
struct Quantity {
    std::string id;      ///< struct and member: "losses.mesh_W"
    std::string symbol;  ///< as the trade writes it; "" when it has none
    std::string unit;    ///< "" for pure numbers and words
    std::string words;
    std::string how;      ///< entered | calculated | solved | integrated | summed | counted | words
    std::string formula;  ///< in symbols; "" where a rule in words replaces it
    std::string source;   ///< key of tables/sources.toml and place, or "judgement" and the like
};

/// The rows of tables/quantities.toml, by id.
const std::vector<Quantity>& quantities();

/// The rows of one heading, by member: what the first screen needs, sooner than the whole table.
/// Throws std::out_of_range without the heading.
std::map<std::string, Quantity> quantities_of(std::string_view owner);

/// One row. Throws std::out_of_range if there is none: our bug, not the user's.
const Quantity& quantity(std::string_view owner, std::string_view member);

/// Specialised beside each result struct: `owner`, first part of the quantity's id, and `all`,
/// which calls member(name, &Struct::member) for each in its order. A template: a list costs no
/// compile time where it is not used.
template <class T>
struct Members;

// CASELOAD_MEMBERS(Damage, "damage", bearings, oil_dose, notes); is that specialisation.
#define CASELOAD_MEMBERS(Result, id, ...)                                                     \
    template <>                                                                               \
    struct Members<Result> {                                                                  \
        using Listed = Result;                                                                \
        static constexpr std::string_view owner = id;                                         \
        static constexpr void all(auto&& member) {                                            \
            BOOST_PP_SEQ_FOR_EACH(CASELOAD_MEMBER, _, BOOST_PP_VARIADIC_TO_SEQ(__VA_ARGS__)); \
        }                                                                                     \
    }
#define CASELOAD_MEMBER(r, data, name) member(BOOST_PP_STRINGIZE(name), &Listed::name);

template <class T, class = void>
struct IsResult : std::false_type {};
template <class T>
struct IsResult<T, std::void_t<decltype(Members<T>::owner)>> : std::true_type {};

namespace counting {

struct Anything {
    template <class T>
    operator T() const;
};

template <class T, class... Given>
constexpr std::size_t fields() {
    if constexpr (requires { T{Given{}..., Anything{}}; })
        return fields<T, Given..., Anything>();
    else
        return sizeof...(Given);
}

template <class T>
constexpr std::size_t listed() {
    std::size_t count = 0;
    Members<T>::all([&count](std::string_view, auto) { ++count; });
    return count;
}

}  // namespace counting

/// A number that only some answers have: where it is missing, nobody sees the member.
struct IfAny : std::optional<double> {
    using std::optional<double>::optional;
};

/// True when the list of a struct has as many members as the struct.
template <class T>
inline constexpr bool lists_every_member = counting::listed<T>() == counting::fields<T>();

/// Calls visit(name, value) for every member, in the order of the list; of an `IfAny` its number,
/// if it has one.
template <class T, class Visit>
void each(const T& result, Visit&& visit) {
    static_assert(lists_every_member<T>, "a member of this result is not listed");
    Members<T>::all([&](std::string_view name, auto at) {
        const auto& value = result.*at;
        if constexpr (!std::is_same_v<std::decay_t<decltype(value)>, IfAny>)
            visit(name, value);
        else if (value)
            visit(name, *value);
    });
}

}  // namespace caseload
