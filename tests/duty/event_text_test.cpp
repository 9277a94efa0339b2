// SPDX-License-Identifier: MIT
// The text of an event: a setup takes it however many legs and bins there are, or none is written.
#include "caseload/duty/event.hpp"
#include "caseload/error.hpp"
#include "caseload/input.hpp"
#include "input/shortest.hpp"
#include "refused.hpp"

#include <doctest/doctest.h>
#include <fmt/format.h>

#include <cstddef>
#include <optional>
#include <string>

namespace caseload::event_text_tests {

namespace {

/// Drives of so many bins with stops between.
duty::DutyAnswer answer_of(int legs, int bins) {
    duty::DutyAnswer answer;
    answer.file = "log.csv";
    for (int k = 0; k < legs; ++k) {
        LegInput leg;
        leg.duration_s = 900.125;
        leg.kind = k % 2 == 1 ? LegKind::stop : LegKind::drive;
        leg.name = fmt::format("{}-{}", k % 2 == 1 ? "stop" : "drive", k);
        if (leg.kind == LegKind::drive)
            for (int i = 0; i < bins; ++i)
                leg.bins.push_back({1.0 / bins, 123.456 + i, 2345.678 + i, 23.4567});
        answer.legs.push_back(leg);
    }
    return answer;
}

}  // namespace

TEST_CASE("duty: a setup reads an event of 400 legs") {
    const std::string event = duty::event_text(answer_of(400, 1));
    std::string setup = input_test::shortest();
    for (const char* const key : {"event.course", "event.duration"}) {
        const std::size_t at = setup.find(key);
        setup.erase(at, setup.find('\n', at) + 1 - at);
    }
    const ReadSetup read =
        read_setup(setup + "event.from = \"e\"\n", "setup.toml",
                   [&](const std::string&) { return std::optional<std::string>(event); });
    CHECK(read.setup.event.legs.size() == 400);
    CHECK(read.setup.event.run.size() == 400);
    CHECK(read_setup(completed_text(read), "setup.toml", {}).setup == read.setup);
}

TEST_CASE("duty: an event larger than a setup may be is refused") {
    const Error error =
        refused_by([&] { static_cast<void>(duty::event_text(answer_of(400, 60))); });
    CHECK(error.kind() == Error::Kind::input);
    CHECK(std::string(error.what()) ==
          "the event of log.csv would be larger than the 1 MiB a setup may have");
}

}  // namespace caseload::event_text_tests
