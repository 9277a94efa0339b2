// SPDX-License-Identifier: MIT
// Sections of the page, each a heading, a picture and its table.
#pragma once

#include "caseload/show/page.hpp"
#include "show/html.hpp"
#include "show/units_shown.hpp"

#include <string>
#include <string_view>

namespace caseload {

/// Width of a drawing in its own units, about the pixels it is shown at.
inline constexpr double wide_px = 720;
inline constexpr double narrow_px = 336;

std::string oil_section(const PageAnswer& page, const Units& units);
std::string ledger_section(const PageAnswer& page, const Units& units);
std::string life_section(const PageAnswer& page, const Units& units);
std::string case_section(const PageAnswer& page, const Units& units);
std::string seat_section(const PageAnswer& page, const Units& units);
std::string worth_section(const PageAnswer& page, const Units& units);
/// One part a block.
std::string parts_section(const PageAnswer& page, const Units& units);

/// Unfolds a cell to the reasons of a number, where it has an address.
void unfold(const PageAnswer& page, HtmlTable& table, std::size_t column,
            const std::string& address);

/// What every sheet ends with.
std::string cautions_html();

/// "output_rear" as people write it.
std::string spaced(std::string_view name);

/// Kept on one line.
std::string unbroken(std::string_view words);

/// A share of a life: "0.019 %".
std::string percent(double share);

}  // namespace caseload
