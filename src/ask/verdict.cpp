// SPDX-License-Identifier: MIT
#include "caseload/ask/verdict.hpp"

#include "caseload/figures.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <string_view>
#include <vector>

namespace caseload {

namespace {

std::string with_unit(double value, const JudgedCheck& check) {
    const bool is_whole = check.unit == "degC" || std::fabs(value) >= 1000;
    const std::string number = is_whole ? fmt::format("{:.0f}", value) : figures(value, 2);
    return check.unit.empty() ? number : number + " " + check.unit;
}

std::string without_stop(std::string words) {
    if (!words.empty() && words.back() == '.') words.pop_back();
    return words;
}

/// The check that stops the case; null where no check does, as with gears that do not mesh.
const JudgedCheck* stopping(const Assessment& likely, const Band& band) {
    if (band.stop.empty() || likely.stopped_by.rfind("Gears:", 0) == 0) return nullptr;
    return &band.stop.front();
}

}  // namespace

std::string oil_words(const LimitsInput& limits, const Band& band) {
    const BandSide& side = band.fitted;
    if (side.fails_share >= holding_share)
        return fmt::format("oil passes {:.4g} degC, 9 chances in 10", limits.oil_stop_degC);
    if (side.fails_share >= likely_share)
        return fmt::format("oil likely passes {:.4g} degC", limits.oil_stop_degC);
    if (side.holds_share >= holding_share)
        return fmt::format("oil stays below {:.4g} degC, 9 chances in 10", limits.oil_watch_degC);
    if (side.peak_oil_degC.p50 > limits.oil_watch_degC)
        return fmt::format("oil likely passes {:.4g} degC", limits.oil_watch_degC);
    return fmt::format("oil may pass {:.4g} degC", limits.oil_watch_degC);
}

std::string finding_words(const JudgedCheck& check) {
    if (!check.over_range) {
        const CheckRow& row = check_row(check.id);
        if (!row.stop.is && !row.watch.is && !row.look.is)
            return check.words;  // its class comes with its words
        return fmt::format("{} {}, {} {}", check.words, with_unit(check.value, check),
                           check.at_least ? "at least" : "at most", with_unit(check.limit, check));
    }
    const std::string words = fmt::format(
        "{} {} {}", check.words, check.at_least ? "below" : "above", with_unit(check.limit, check));
    const int chances = static_cast<int>(std::lround(10 * check.share));
    if (chances > 9) return words;
    return fmt::format("{}, {} {} in 10", words, std::max(chances, 1),
                       chances <= 1 ? "chance" : "chances");
}

std::string part_and_finding(const JudgedCheck& check) {
    return check.about + ": " + finding_words(check);
}

std::string verdict_reason(const Setup& setup, const Assessment& likely, const Band& band) {
    if (band.decides != "check") return oil_words(setup.limits, band);
    if (const JudgedCheck* check = stopping(likely, band))
        return fmt::format("{}: {}", check->about, check->consequence);
    if (!likely.stopped_by.empty()) return without_stop(likely.stopped_by);
    return part_and_finding(band.watch.front());
}

std::string case_words(const Assessment& likely, const Band& band, bool short_of_room) {
    std::vector<std::string> counts;
    const auto count = [&](std::size_t checks, std::string_view what, std::string_view more) {
        if (checks > 0) counts.push_back(fmt::format("{}{} {}", checks, more, what));
    };
    const auto whole = [&](std::string_view word, const JudgedCheck& check) {
        const std::string found = short_of_room ? "" : fmt::format(" ({})", finding_words(check));
        return fmt::format("{} {}{}: {}", word, check.about, found, check_row(check.id).action);
    };
    const auto joined = [](const std::vector<std::string>& parts, std::string_view between) {
        std::string out;
        for (const std::string& part : parts) {
            if (!out.empty()) out += between;
            out += part;
        }
        return out;
    };
    const std::size_t looks = band.look.size();
    std::vector<std::string> parts;
    std::size_t stops = band.stop.size();
    std::size_t watches = band.watch.size();
    if (band.case_word == "stop") {
        const JudgedCheck* check = stopping(likely, band);
        parts.push_back(check != nullptr ? whole("stop", *check)
                                         : "stop: " + without_stop(likely.stopped_by));
        if (check != nullptr) --stops;
    } else if (band.case_word == "watch" && band.oil_word != "stop") {
        parts.push_back(whole("watch", band.watch.front()));
        --watches;
    } else if (band.case_word == "fine") {
        if (looks == 0) return "fine";
        if (band.oil_word != "stop")
            return fmt::format("fine; look at {} when opened (NEXT)",
                               looks == 1 ? "1 thing" : fmt::format("{} things", looks));
        return fmt::format("{} to look at", looks);
    }
    const std::string_view more = parts.empty() ? "" : " more";
    count(stops, "to stop for", more);
    count(watches, "to watch", more);
    count(looks, "to look at", "");
    if (!counts.empty()) parts.push_back(joined(counts, ", "));
    return joined(parts, "; ");
}

}  // namespace caseload
