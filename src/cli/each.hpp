// SPDX-License-Identifier: MIT
#pragma once

#include "caseload/ask/band.hpp"

#include <cstddef>
#include <string>

namespace caseload {

/// `caseload assess [SETUP] --each LIST`.
struct EachOptions {
    std::string setup;  ///< "": the list holds names of setup files
    std::string list;
    std::string out;    ///< file to write; "": standard output
    std::string shard;  ///< "k/n"; "": all
    bool resume = false;
    bool json_lines = false;  ///< the only form there is; the flag names it
    std::size_t draws = 0;
    unsigned threads = 0;  ///< 0: one a processor core
};
void run_each(const EachOptions& options);

}  // namespace caseload
