// SPDX-License-Identifier: MIT
// The words of kinds: each kind has its own, and a setup that says it has that kind.
#include "caseload/kinds.hpp"

#include "caseload/checks.hpp"
#include "examples.hpp"
#include "input/fields.hpp"
#include "support.hpp"

#include <set>
#include <string>
#include <string_view>

namespace caseload::kinds_tests {

namespace {

/// Each word once, each kind once, found again by its kind, and joined as the field table lists
/// them.
template <class Enum>
void check_rows() {
    std::set<std::string_view> keys;
    std::set<Enum> kinds;
    std::string joined;
    for (const KindWords<Enum>& row : kind_rows<Enum>) {
        CAPTURE(std::string(row.key));
        CHECK(keys.insert(row.key).second);
        CHECK(kinds.insert(row.kind).second);
        CHECK(words_for(row.kind).key == row.key);
        joined += (joined.empty() ? "" : " | ") + std::string(row.key);
    }
    CHECK(accepted_words<Enum> == joined);
    // Every kind up to the last has a row.
    CHECK(static_cast<std::size_t>(*kinds.rbegin()) - static_cast<std::size_t>(*kinds.begin()) ==
          kinds.size() - 1);
}

template <class Enum>
void check_field(std::string_view key) {
    CAPTURE(std::string(key));
    CHECK(input::field_of(key).accepted == accepted_words<Enum>);
    check_rows<Enum>();
}

}  // namespace

TEST_CASE("kinds: each has its words once, and its field accepts them") {
    check_field<OilSupply>("bearing.*.oil");
    check_field<BearingKind>("bearing.*.type");
    check_field<BearingKind>("candidate.*.type");
    check_field<Facing>("bearing.*.big_end");
    check_field<ClearanceClass>("bearing.*.clearance");
    check_field<Carrier>("bearing.*.seat.carrier");
    check_field<End>("joint.*.end");
    check_field<SealMaterial>("seal.*.material");
    check_field<Filter>("oil.filter");
    check_field<Method>("lubrication.method");
    check_field<PumpDrive>("lubrication.pump.drive");
    check_field<LegKind>("leg.*.kind");
    check_field<Engine>("leg.*.engine");
    check_field<Support>("gears.support");
    check_field<Hand>("gears.hand_on_input");
    check_field<ReadingPlace>("reading.*.place");
    check_rows<CheckId>();
}

TEST_CASE("kinds: a setup has the kind whose word it says") {
    for (const auto& row : kind_rows<Support>)
        CHECK(examples::setup("light.toml", {{"gears.support", "\"" + std::string(row.key) + "\""}})
                  .gears.support == row.kind);
    for (const auto& row : kind_rows<Filter>)
        CHECK(examples::setup("light.toml", {{"oil.filter", "\"" + std::string(row.key) + "\""}})
                  .oil.filter == row.kind);
}

}  // namespace caseload::kinds_tests
