// SPDX-License-Identifier: MIT
// The answer as pages that stand alone: pictures first, tables behind them; the pit card; the sheet
// for the bench. No script, nothing fetched. Never calculates.
#pragma once

#include "caseload/ask/sheets.hpp"
#include "caseload/seats.hpp"
#include "caseload/show/text.hpp"
#include "caseload/why.hpp"

#include <string>
#include <vector>

namespace caseload {

/// Everything the page is made of.
struct PageAnswer {
    const Answer& answer;
    const std::vector<Moment>& moments;
    const std::vector<SeatSweep>& seats;
    const Reasons* reasons = nullptr;  ///< behind the numbers; null: they do not unfold
};

std::string page_html(const PageAnswer& page);

/// A6, to print and hang in the pit.
std::string card_html(const Answer& answer, const Card& card);

/// A4, to tick on the bench.
std::string teardown_html(const Answer& answer);

}  // namespace caseload
