// SPDX-License-Identifier: MIT
// No entry moves the oil by a jump: as tests/bench/jumps.cpp over hundreds of setups.
#include "entry_steps.hpp"
#include "random_setups.hpp"
#include "support.hpp"

namespace caseload::entry_jumps_tests {

TEST_CASE(
    "jumps: 0.1 % of any continuous entry moves the oil by less than 1 K, on 40 random setups") {
    std::size_t steps = 0;
    std::size_t setups = 0;
    double largest_K = 0;
    for (const auto& drawn : random_setups::drawn(11, 40).ran) {
        std::vector<entry_steps::Moved> moves;
        try {
            moves = entry_steps::moves(entry_steps::without_switches(drawn.text));
        } catch (const Error&) {
            continue;  // refused with its reason, not calculated
        }
        ++setups;
        for (const entry_steps::Moved& one : moves) {
            ++steps;
            largest_K = std::max(largest_K, one.by_K());
            CAPTURE(setups);
            CAPTURE(one.key);
            CAPTURE(one.toml);
            CHECK(one.by_K() < 1);
        }
    }
    CHECK(setups >= 36);
    CHECK(steps > 2000);
    CHECK(largest_K > 0.01);  // the entries do act
}

TEST_CASE("jumps: a step of an entry is that of its number alone") {
    using entry_steps::stepped;
    using Texts = std::vector<std::string>;
    CHECK(stepped("\"500 mm\"", false) == Texts{"\"500.5 mm\""});
    CHECK(stepped("0.5", true) == Texts{"0.5005"});
    CHECK(stepped("\"100x200x40 mm\"", false) ==
          Texts{"\"100.1x200x40 mm\"", "\"100x200.2x40 mm\"", "\"100x200x40.04 mm\""});
    CHECK(stepped("[{ share = 0.5, torque = \"-100 N m\" }]", false) ==
          Texts{"[{ share = 0.5, torque = \"-100.1 N m\" }]"});
    CHECK(stepped("\"200 W/m2K\"", false) == Texts{"\"200.2 W/m2K\""});
    CHECK(stepped("\"0 mm\"", false).empty());
}

}  // namespace caseload::entry_jumps_tests
