// SPDX-License-Identifier: MIT
#include "book/stop.hpp"

#include "caseload/ask/verdict.hpp"
#include "caseload/error.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cstddef>
#include <vector>

namespace caseload::book {
namespace {

// Enough for a verdict; the oil of an event alone.
constexpr std::size_t verdict_draws = 255;

std::string stop_reason(const Setup& setup, double peak_oil_degC) {
    const Assessment likely = verdict_answer(setup);
    // Where the run with the uncertain inputs at their middle stays below the watch limit and no
    // check of it is watched, far fewer than half of the chances are at stop: no range is needed.
    const auto& checks = likely.fitted.checked.checks;
    const bool watched = std::any_of(checks.begin(), checks.end(), [](const Check& check) {
        return severity_of(check.verdict) >= Severity::watch;
    });
    if (likely.stopped_by.empty() && !watched && peak_oil_degC <= setup.limits.oil_watch_degC)
        return {};
    const Band sure = verdict_band(setup, likely, {.draws = verdict_draws});
    return sure.verdict == "stop" ? verdict_reason(setup, likely, sure) : std::string();
}

SetupSays says_of(const std::string& text, double peak_oil_degC) {
    const Setup setup = read_setup(text, "setup in the book", {}).setup;
    return {setup.rules, setup.limits.oil_stop_degC, setup.aims.rebuild_reliability,
            stop_reason(setup, peak_oil_degC)};
}

}  // namespace

LastSetups::LastSetups(const State& state, std::span<const Record> records,
                       const ForEach& for_each) {
    for (const auto& [serial, one] : state.cases)
        if (!serial.empty() && !one.last_event.id.empty())
            setups_.try_emplace(
                one.last_event.setup,
                Asked{{}, number(one.last_event, "oil.peak_degC"), {}, std::nullopt});
    for (const Record& record : records) {
        if (record.kind != "setup") continue;
        const auto asked = setups_.find(value(record, "hash"));
        if (asked != setups_.end() && asked->second.text.empty())
            asked->second.text = value(record, "text");
    }
    std::vector<Asked*> all;
    for (auto& [setup, asked] : setups_) {
        if (asked.text.empty())
            asked.refused =
                Error(Error::Kind::input,
                      fmt::format("setup {} is named by an event but not in this book", setup));
        else
            all.push_back(&asked);
    }
    for_each(all.size(), [&](std::size_t i) {
        try {
            all[i]->says = says_of(all[i]->text, all[i]->peak_oil_degC);
        } catch (const Error& error) {
            all[i]->refused = error;
        }
    });
}

const SetupSays& LastSetups::of(const std::string& setup) const {
    const Asked& asked = setups_.at(setup);
    if (asked.refused) throw *asked.refused;
    return asked.says;
}

}  // namespace caseload::book
