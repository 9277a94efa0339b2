// SPDX-License-Identifier: MIT
#include "cli/shared_options.hpp"

#include "caseload/ask/band.hpp"

namespace caseload {

void take_draws(Syntax command, std::size_t& draws, const std::string& words) {
    command.option("--draws", draws, words).within(least_draws, most_draws);
}

void take_threads(Syntax command, unsigned& threads) {
    command.option("--threads", threads, "left out: one a processor core").within(1, 256);
}

void take_units(Syntax command, std::string& units) {
    command.option("--units", units, "metric or imperial").one_of({"metric", "imperial"});
}

}  // namespace caseload
