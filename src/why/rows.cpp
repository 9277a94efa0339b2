// SPDX-License-Identifier: MIT
// Which rows of tables/quantities.toml are numbers of an assessment, found by walking its structs.
#include "caseload/why.hpp"

#include <string_view>
#include <type_traits>
#include <vector>

namespace caseload {
namespace {

template <class T>
struct Held {
    using type = T;
};
template <class T>
struct Held<std::vector<T>> {
    using type = typename Held<T>::type;
};

template <class T>
void walk(AnswerRows& rows) {
    const T result{};
    each(result, [&](std::string_view name, const auto& value) {
        using V = typename Held<std::decay_t<decltype(value)>>::type;
        const Quantity& row = quantity(Members<T>::owner, name);
        const bool calculated = is_calculated(row.how);
        if constexpr (IsResult<V>::value) {
            if (calculated) rows.groups.insert(row.id);
            walk<V>(rows);
        } else if constexpr (std::is_same_v<V, double> || std::is_same_v<V, int>) {
            if (calculated) rows.numbers.insert(row.id);
        } else if (calculated) {
            rows.groups.insert(row.id);
        }
    });
}

}  // namespace

bool is_calculated(std::string_view how) {
    return how != "entered" && how != "words";
}

AnswerRows answer_rows() {
    AnswerRows rows;
    walk<Assessment>(rows);
    for (const Quantity& row : quantities())
        if (is_calculated(row.how)) ++rows.calculated;
    return rows;
}

}  // namespace caseload
