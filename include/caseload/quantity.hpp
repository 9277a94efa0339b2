// SPDX-License-Identifier: MIT
// What a result is made of. A result struct lists its members once, beside its definition; JSON,
// text and every other view walk that list, and a build fails when a member is left out. What a
// member means stands in tables/quantities.toml.
#pragma once

#include <cstddef>
#include <map>
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
/// which calls member(name, &Struct::member) for each in its order. A template: a list costs a
/// build nothing where nobody walks it.
template <class T>
struct Members;

// CASELOAD_MEMBERS(Damage, "damage", bearings, oil_dose, notes); is that specialisation, of up to
// 32 members. Counted, as cppcheck 2.10 does not know __VA_OPT__.
#define CASELOAD_MEMBERS(Result, id, ...)                                                         \
    template <>                                                                                   \
    struct Members<Result> {                                                                      \
        using Listed = Result;                                                                    \
        static constexpr std::string_view owner = id;                                             \
        static constexpr void all(auto&& member) {                                                \
            CASELOAD_LIST_OF(__VA_ARGS__, 32, 31, 30, 29, 28, 27, 26, 25, 24, 23, 22, 21, 20, 19, \
                             18, 17, 16, 15, 14, 13, 12, 11, 10, 9, 8, 7, 6, 5, 4, 3, 2, 1,       \
                             0)(__VA_ARGS__)                                                      \
        }                                                                                         \
    }
#define CASELOAD_LIST_OF(m1, m2, m3, m4, m5, m6, m7, m8, m9, m10, m11, m12, m13, m14, m15, m16, \
                         m17, m18, m19, m20, m21, m22, m23, m24, m25, m26, m27, m28, m29, m30,  \
                         m31, m32, count, ...)                                                  \
    CASELOAD_LIST_##count
#define CASELOAD_LIST_1(name) member(#name, &Listed::name);
#define CASELOAD_LIST_2(name, ...) CASELOAD_LIST_1(name) CASELOAD_LIST_1(__VA_ARGS__)
#define CASELOAD_LIST_3(name, ...) CASELOAD_LIST_1(name) CASELOAD_LIST_2(__VA_ARGS__)
#define CASELOAD_LIST_4(name, ...) CASELOAD_LIST_1(name) CASELOAD_LIST_3(__VA_ARGS__)
#define CASELOAD_LIST_5(name, ...) CASELOAD_LIST_1(name) CASELOAD_LIST_4(__VA_ARGS__)
#define CASELOAD_LIST_6(name, ...) CASELOAD_LIST_1(name) CASELOAD_LIST_5(__VA_ARGS__)
#define CASELOAD_LIST_7(name, ...) CASELOAD_LIST_1(name) CASELOAD_LIST_6(__VA_ARGS__)
#define CASELOAD_LIST_8(name, ...) CASELOAD_LIST_1(name) CASELOAD_LIST_7(__VA_ARGS__)
#define CASELOAD_LIST_9(name, ...) CASELOAD_LIST_1(name) CASELOAD_LIST_8(__VA_ARGS__)
#define CASELOAD_LIST_10(name, ...) CASELOAD_LIST_1(name) CASELOAD_LIST_9(__VA_ARGS__)
#define CASELOAD_LIST_11(name, ...) CASELOAD_LIST_1(name) CASELOAD_LIST_10(__VA_ARGS__)
#define CASELOAD_LIST_12(name, ...) CASELOAD_LIST_1(name) CASELOAD_LIST_11(__VA_ARGS__)
#define CASELOAD_LIST_13(name, ...) CASELOAD_LIST_1(name) CASELOAD_LIST_12(__VA_ARGS__)
#define CASELOAD_LIST_14(name, ...) CASELOAD_LIST_1(name) CASELOAD_LIST_13(__VA_ARGS__)
#define CASELOAD_LIST_15(name, ...) CASELOAD_LIST_1(name) CASELOAD_LIST_14(__VA_ARGS__)
#define CASELOAD_LIST_16(name, ...) CASELOAD_LIST_1(name) CASELOAD_LIST_15(__VA_ARGS__)
#define CASELOAD_LIST_17(name, ...) CASELOAD_LIST_1(name) CASELOAD_LIST_16(__VA_ARGS__)
#define CASELOAD_LIST_18(name, ...) CASELOAD_LIST_1(name) CASELOAD_LIST_17(__VA_ARGS__)
#define CASELOAD_LIST_19(name, ...) CASELOAD_LIST_1(name) CASELOAD_LIST_18(__VA_ARGS__)
#define CASELOAD_LIST_20(name, ...) CASELOAD_LIST_1(name) CASELOAD_LIST_19(__VA_ARGS__)
#define CASELOAD_LIST_21(name, ...) CASELOAD_LIST_1(name) CASELOAD_LIST_20(__VA_ARGS__)
#define CASELOAD_LIST_22(name, ...) CASELOAD_LIST_1(name) CASELOAD_LIST_21(__VA_ARGS__)
#define CASELOAD_LIST_23(name, ...) CASELOAD_LIST_1(name) CASELOAD_LIST_22(__VA_ARGS__)
#define CASELOAD_LIST_24(name, ...) CASELOAD_LIST_1(name) CASELOAD_LIST_23(__VA_ARGS__)
#define CASELOAD_LIST_25(name, ...) CASELOAD_LIST_1(name) CASELOAD_LIST_24(__VA_ARGS__)
#define CASELOAD_LIST_26(name, ...) CASELOAD_LIST_1(name) CASELOAD_LIST_25(__VA_ARGS__)
#define CASELOAD_LIST_27(name, ...) CASELOAD_LIST_1(name) CASELOAD_LIST_26(__VA_ARGS__)
#define CASELOAD_LIST_28(name, ...) CASELOAD_LIST_1(name) CASELOAD_LIST_27(__VA_ARGS__)
#define CASELOAD_LIST_29(name, ...) CASELOAD_LIST_1(name) CASELOAD_LIST_28(__VA_ARGS__)
#define CASELOAD_LIST_30(name, ...) CASELOAD_LIST_1(name) CASELOAD_LIST_29(__VA_ARGS__)
#define CASELOAD_LIST_31(name, ...) CASELOAD_LIST_1(name) CASELOAD_LIST_30(__VA_ARGS__)
#define CASELOAD_LIST_32(name, ...) CASELOAD_LIST_1(name) CASELOAD_LIST_31(__VA_ARGS__)

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

/// True when the list of a struct has as many members as the struct.
template <class T>
inline constexpr bool lists_every_member = counting::listed<T>() == counting::fields<T>();

/// Calls visit(name, value) for every member, in the order of the list.
template <class T, class Visit>
void each(const T& result, Visit&& visit) {
    static_assert(lists_every_member<T>, "a member of this result is not listed");
    Members<T>::all([&](std::string_view name, auto at) { visit(name, result.*at); });
}

}  // namespace caseload
