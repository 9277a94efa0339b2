// SPDX-License-Identifier: MIT
#include "cli/shared_options.hpp"

#include "caseload/ask/band.hpp"

namespace caseload {

void SetupQuestion::set_units(Setup& of) const {
    if (!units.empty()) of.imperial = units == "imperial";
}

void take_setup_file(Syntax command, SetupQuestion& asked, const std::string& words) {
    command.option("SETUP", asked.setup, words).required();
}

void add_common_options(Syntax command, SetupQuestion& asked, const std::string& json_words) {
    take_threads(command, asked.threads);
    take_units(command, asked.units);
    command.flag("--json", asked.json, json_words);
}

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
