// SPDX-License-Identifier: MIT
// The quantity table and the results agree.
#include "caseload/quantity.hpp"

#include "caseload/ask/bearings.hpp"
#include "caseload/ask/cooler.hpp"
#include "caseload/ask/remedy.hpp"
#include "caseload/ask/sets.hpp"
#include "caseload/units.hpp"
#include "support.hpp"

#include <set>
#include <string>

namespace caseload::quantity_tests {

namespace {

std::set<std::string> seen_rows;

template <class T>
void walk(const T& value);

template <class T>
void walk(const std::vector<T>& values) {
    for (const T& value : values) walk(value);
    if (values.empty()) walk(T{});
}

template <class T>
void walk(const T& value) {
    if constexpr (IsResult<T>::value) {
        std::set<std::string_view> here;
        each(value, [&](std::string_view name, const auto& member_value) {
            CHECK(here.insert(name).second);
            const Quantity& row = quantity(Members<T>::owner, name);
            seen_rows.insert(row.id);
            CAPTURE(row.id);
            CHECK(!row.words.empty());
            CHECK(std::set<std::string>{"entered", "calculated", "solved", "integrated", "summed",
                                        "counted", "words"}
                      .count(row.how) == 1);
            const std::string unit = unit_of_name(name);
            if (!unit.empty()) CHECK(row.unit == unit);
            if (!row.unit.empty()) CHECK(unit == row.unit);
            walk(member_value);
        });
    }
}

}  // namespace

TEST_CASE("quantities: every member of every result has its row, and no row is left over") {
    walk(Assessment{});
    // What only some answers have.
    Steady bolted;
    bolted.neighbour_W = 100.0;
    walk(bolted);
    walk(Band{});
    walk(Remedy{});
    walk(SetsAnswer{});
    walk(CoolerAnswer{});
    walk(BearingsAnswer{});
    for (const Quantity& row : quantities()) {
        CAPTURE(row.id);
        CHECK(seen_rows.count(row.id) == 1);
    }
}

TEST_CASE("quantities: a member missing in CASELOAD_MEMBERS is noticed") {
    struct Two {
        double one_K;
        double two_K;
    };
    CHECK(counting::fields<Two>() == 2);
    CHECK(counting::fields<LossLedger>() == loss_rows.size());
    CHECK(counting::fields<Note>() == 3);
    CHECK_THROWS_AS(quantity("losses", "no_such_W"), std::out_of_range);
}

TEST_CASE("quantities: one heading read alone has the rows of the whole table") {
    std::size_t rows = 0;
    std::set<std::string> headings;
    for (const Quantity& row : quantities()) headings.insert(row.id.substr(0, row.id.find('.')));
    for (const std::string& heading : headings)
        for (const auto& [member, row] : quantities_of(heading)) {
            const Quantity& same = quantity(heading, member);
            CHECK(row.id == same.id);
            CHECK(row.words == same.words);
            CHECK(row.source == same.source);
            ++rows;
        }
    CHECK(rows == quantities().size());
    CHECK_THROWS_AS(quantities_of("loss"), std::out_of_range);
}

}  // namespace caseload::quantity_tests
