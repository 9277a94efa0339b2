// SPDX-License-Identifier: MIT
#include "book/stop.hpp"

#include "caseload/ask/verdict.hpp"
#include "caseload/book/state.hpp"

namespace caseload::book {
namespace {

// Enough for a verdict; the oil of an event alone.
constexpr std::size_t verdict_draws = 255;

std::string stop_reason(const Setup& setup, double peak_oil_degC) {
    const Assessment likely = fitted_answer(setup);
    // Where the run with the uncertain inputs at their middle stays below the watch limit, far
    // fewer than 9 chances in 10 are above the stop limit: no range is needed.
    if (likely.stopped_by.empty() && peak_oil_degC <= setup.limits.oil_watch_degC) return {};
    const Band sure = verdict_band(setup, likely, {.draws = verdict_draws});
    return sure.verdict == "stop" ? verdict_reason(setup, likely, sure) : std::string();
}

}  // namespace

const std::string& Stops::of(const std::string& setup, double peak_oil_degC) {
    auto found = known_.find(setup);
    if (found == known_.end())
        found =
            known_
                .emplace(setup,
                         stop_reason(
                             read_setup(setup_text(records_, setup), "setup in the book", {}).setup,
                             peak_oil_degC))
                .first;
    return found->second;
}

}  // namespace caseload::book
