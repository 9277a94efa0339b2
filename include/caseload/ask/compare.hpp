// SPDX-License-Identifier: MIT
// What changes if: two setups calculated alike, and what one would do differently.
#pragma once

#include "caseload/ask/band.hpp"

#include <string>
#include <vector>

namespace caseload {

/// A setup with its answer.
struct Calculated {
    ReadSetup read;
    Assessment likely;
    Band sure;
};
Calculated calculated(ReadSetup read, const BandOptions& options);

/// Share of a bearing's damage that falls in slices of the course where the engine is at its limit.
/// There more mass brings no more torque. Taken at the legs' oil temperatures at rest.
struct EngineLimited {
    std::string bearing;  ///< the one that uses most of its life
    double share = 0;
    bool entered_bins = false;  ///< some legs have entered torques, which no vehicle key moves
};
EngineLimited engine_limited(const Setup& setup, const Assessment& likely);

/// A number that moved.
struct Moved {
    std::string words;
    double before = 0;
    double after = 0;
    std::string unit;  ///< "degC", "W", "events", "h", "%" (of a life used)
};

struct Comparison {
    std::string decision;                  ///< what one would do differently, the first of it
    std::vector<std::string> differences;  ///< the rest of it
    std::vector<Moved> moved;
    EngineLimited engine;  ///< of the first setup
};
Comparison compare(const Calculated& before, const Calculated& after);

/// Why a verdict stands, in a few words that begin small: "oil may pass 121 degC".
std::string verdict_reason(const Calculated& answer);

}  // namespace caseload
