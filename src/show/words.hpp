// SPDX-License-Identifier: MIT
// Sentences that every view tells the same way.
#pragma once

#include "caseload/show/text.hpp"
#include "show/units_shown.hpp"

#include <string>
#include <string_view>
#include <vector>

namespace caseload {

/// "after event 4".
std::string after(const Action& action);

struct HeatSource {
    double power_W = 0;
    std::string_view words;
    std::string_view member;  ///< of the ledger
};
/// Largest first.
std::vector<HeatSource> heat_sources(const LossLedger& losses);

/// "WATCH".
std::string verdict_word(const Answer& answer);
/// The one sentence on top.
std::string verdict_sentence(const Answer& answer, const Units& units);

/// The check that decides: what is past its limit, else what is nearest to it.
struct Weakest {
    std::string head;  ///< weakest | nearest
    std::string words;
};
Weakest weakest_part(const Answer& answer, const Units& units);

}  // namespace caseload
