// SPDX-License-Identifier: MIT
#include "caseload/ask/verdict.hpp"

#include <fmt/format.h>

namespace caseload {

std::string oil_words(const LimitsInput& limits, const Band& band) {
    const BandSide& side = band.fitted;
    if (side.fails_share >= holding_share)
        return fmt::format("oil passes {:.4g} degC, 9 chances in 10", limits.oil_stop_degC);
    if (side.peak_oil_degC.p50 > limits.oil_stop_degC)
        return fmt::format("oil likely passes {:.4g} degC", limits.oil_stop_degC);
    if (side.holds_share >= holding_share)
        return fmt::format("oil stays below {:.4g} degC, 9 chances in 10", limits.oil_watch_degC);
    if (side.peak_oil_degC.p50 > limits.oil_watch_degC)
        return fmt::format("oil likely passes {:.4g} degC", limits.oil_watch_degC);
    return fmt::format("oil may pass {:.4g} degC", limits.oil_watch_degC);
}

std::string verdict_reason(const Setup& setup, const Assessment& likely, const Band& band) {
    if (band.decides == "check") {
        std::string words = likely.stopped_by;
        if (!words.empty() && words.back() == '.') words.pop_back();
        return words;
    }
    if (band.decides == "holds")
        for (const Check& check : worst_first(likely.fitted.checked.checks))
            if (check.verdict == "watch") return check.about + ": " + check.words;
    return oil_words(setup.limits, band);
}

}  // namespace caseload
