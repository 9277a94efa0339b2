// SPDX-License-Identifier: MIT
#include "input/nearest.hpp"
#include "input/fields.hpp"
#include "support.hpp"

#include <string>
#include <vector>

namespace nearest_tests {

using namespace caseload::input;

TEST_CASE("edit distance: insertions, deletions, replacements and swaps count 1") {
    CHECK(edit_distance("", "") == 0);
    CHECK(edit_distance("mass", "") == 4);
    CHECK(edit_distance("tyre", "tire") == 1);
    CHECK(edit_distance("fill", "fil") == 1);
    CHECK(edit_distance("mass", "mssa") == 2);
    CHECK(edit_distance("grip", "girp") == 1);  // neighbours swapped
    // Published with the algorithm's common examples: kitten, sitting.
    CHECK(edit_distance("kitten", "sitting") == 3);
    const std::vector<std::string> words{"open", "tunnel", "behind-skid-plate", "rock", "", "OPEN"};
    for (const std::string& a : words)
        for (const std::string& b : words) {
            CHECK(edit_distance(a, b) == edit_distance(b, a));
            CHECK((edit_distance(a, b) == 0) == (a == b));
        }
}

TEST_CASE("nearest: near enough, and not further") {
    const std::vector<std::string> words{"open", "behind-skid-plate", "tunnel"};
    CHECK(nearest_word(words, "opne") == "open");
    CHECK(nearest_word(words, "OPEN") == "open");
    CHECK(nearest_word(words, "behind_skid_plate") == "behind-skid-plate");
    CHECK(nearest_word(words, "roof") == "");
    CHECK(nearest_word(words, "") == "");
}

TEST_CASE("nearest: hints for unknown keys") {
    CHECK(hint_for_key("vehicle.tire").meant == "vehicle.tyre");
    CHECK(hint_for_key("bearing.input_rear.dynamic_ratng").meant ==
          "bearing.input_rear.dynamic_rating");
    CHECK(hint_for_key("fitted").meant == "gears.fitted");
    CHECK(hint_for_key("gears.oil.grade").meant == "oil.grade");
    CHECK(hint_for_key("leg.loop.oil.grade").meant == "oil.grade");
    CHECK(hint_for_key("oil.colour").meant == "");
    CHECK(hint_for_key("oil.colour").text.find("viscosity_40C") != std::string::npos);
    CHECK(hint_for_key("radiator.size").text.find("headings are case, gears") == 0);
    CHECK(hint_for_heading("bearing.shaft") ==
          "each bearing has a name of its own: bearing.NAME.shaft");
}

TEST_CASE("fields: a pattern of a key matches one name for its star") {
    CHECK(matches("bearing.*.at", "bearing.input_rear.at"));
    CHECK_FALSE(matches("bearing.*.at", "bearing.at"));
    CHECK_FALSE(matches("bearing.*.at", "bearing.a.b.at"));
    CHECK_FALSE(matches("bearing.*.at", "bearing.a b.at"));
    CHECK_FALSE(matches("oil.fill", ""));
    CHECK(name_in("bearing.*.seat.carrier", "bearing.x.seat.carrier") == "x");
    CHECK(with_name_of("bearing.*.oil", "bearing.x.type") == "bearing.x.oil");
    CHECK(is_heading("cooler.rating"));
    CHECK(is_heading("bearing.anything"));
    CHECK_FALSE(is_heading("oil.fill"));
}

}  // namespace nearest_tests
