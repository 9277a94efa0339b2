// SPDX-License-Identifier: MIT
// What changes if: two setups calculated alike, and what one would do differently.
#pragma once

#include "caseload/ask/band.hpp"
#include "caseload/ask/changes.hpp"

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
/// There more mass brings no more torque. Taken at the legs' settled oil temperatures.
struct EngineLimited {
    std::string bearing;        ///< the one that uses most of its life
    double share = 0;           ///< of its damage
    double time_share = 0;      ///< of the driving time, whatever it does to bearings
    bool entered_bins = false;  ///< some legs have entered torques, which no vehicle key moves
};
EngineLimited engine_limited(const Setup& setup, const Assessment& likely);

/// "12 % of the damage of bearing output_rear is done with the engine at its limit ...".
std::string engine_limited_words(const EngineLimited& engine);

/// A number that changed.
struct Moved {
    std::string words;
    double before = 0;
    double after = 0;
    std::string unit;  ///< "degC", "W", "events", "h", "%" (of a life used)
};

struct Comparison {
    std::string decision;                  ///< the worst change in what one does
    std::vector<std::string> differences;  ///< the others, worst first, then what became better
    std::vector<Moved> moved;
    EngineLimited engine;            ///< of the first setup
    std::vector<std::string> power;  ///< why power or mass moves little, where one of them changed
};
Comparison compare(const Calculated& before, const Calculated& after);

/// Why a change of engine power or mass moves less than one may think: entered torques, a pace that
/// is fixed, an engine at its limit. Empty where neither changed. `engine` is of the first.
std::vector<std::string> power_words(const Calculated& before, const Calculated& after,
                                     const EngineLimited& engine);

/// Why the verdict is what it is, in a few words that begin small: "the oil may exceed 121 degC".
std::string verdict_reason(const Calculated& answer);

}  // namespace caseload
