// SPDX-License-Identifier: MIT
// Options that several commands take, each declared once.
#pragma once

#include "caseload/model.hpp"
#include "cli/options.hpp"

#include <cstddef>
#include <string>

namespace caseload {

/// What most questions about a setup are given.
struct SetupQuestion {
    std::string setup;
    std::string units;  ///< "": those of the setup
    std::size_t draws = 1023;
    unsigned threads = 0;  ///< 0: one a processor core
    bool json = false;

    /// The setup answers in the units asked for.
    void set_units(Setup& of) const;
};

/// The setup file, which must be named.
void take_setup_file(Syntax command, SetupQuestion& asked, const std::string& words = "setup file");
/// --threads, --units and --json.
void add_common_options(Syntax command, SetupQuestion& asked,
                        const std::string& json_words = "one JSON document");

/// `words`: what the draws are for.
void take_draws(Syntax command, std::size_t& draws, const std::string& words);
void take_threads(Syntax command, unsigned& threads);
void take_units(Syntax command, std::string& units);

}  // namespace caseload
