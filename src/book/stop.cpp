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

std::string words_of(const JudgedCheck& check) {
    return part_and_finding(check) + "; " + std::string(check_row(check.id).action);
}

/// A check of the likely case, where no range is calculated.
JudgedCheck as_it_is(const Check& check) {
    JudgedCheck out;
    out.id = check.id;
    out.about = check.about;
    out.words = check.words;
    out.value = check.value;
    out.limit = check.limit;
    out.at_least = check.at_least;
    out.unit = check.unit;
    return out;
}

SetupSays says_of(const std::string& text, double peak_oil_degC) {
    const Setup setup = read_setup(text, "setup in the book", {}).setup;
    SetupSays says{setup.rules, setup.limits.oil_stop_degC, setup.aims.rebuild_reliability, {}, {},
                   {}};
    const Assessment likely = verdict_answer(setup);
    // Where the run with the uncertain inputs at their middle stays below the watch limit and no
    // check of it is watched, far fewer than half of the chances are at stop: no range is needed.
    const auto& checks = likely.fitted.checked.checks;
    const bool watched = std::any_of(checks.begin(), checks.end(), [](const Check& check) {
        return severity_of(check.verdict) >= Severity::watch;
    });
    if (likely.stopped_by.empty() && !watched && peak_oil_degC <= setup.limits.oil_watch_degC) {
        for (const Check& check : worst_first(checks))
            if (severity_of(check.verdict) == Severity::look)
                says.look.push_back(words_of(as_it_is(check)));
        return says;
    }
    const Band sure = verdict_band(setup, likely, {.draws = verdict_draws});
    if (sure.verdict == "stop") says.stop = verdict_reason(setup, likely, sure);
    for (const JudgedCheck& check : sure.watch) says.watch.push_back(words_of(check));
    for (const JudgedCheck& check : sure.look) says.look.push_back(words_of(check));
    return says;
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
