// SPDX-License-Identifier: MIT
// Published figures recomputed by our own code: tables/published.toml holds the figures, the
// functions here the calculations, matched by id.
#pragma once

#include <span>
#include <string>
#include <string_view>
#include <vector>

namespace caseload {

struct Calculation {
    std::string_view id;  ///< table name in published.toml
    double (*value)();    ///< in the unit of the published figure
};

/// Gears, mesh and other losses, joints, prop shafts, road load.
std::span<const Calculation> gear_calculations();
/// Tooth strength, scuffing and film.
std::span<const Calculation> teeth_calculations();
/// Life, lubrication, ratings and friction of bearings.
std::span<const Calculation> bearing_calculations();
/// Oil, air, films, exchangers.
std::span<const Calculation> heat_calculations();
/// Seats, fits, clearance, play, replacement.
std::span<const Calculation> seat_calculations();
/// Every calculation there is.
std::vector<Calculation> calculations();

struct PublishedRow {
    std::string id;
    std::string source;   ///< key of tables/sources.toml
    std::string example;  ///< where in the source
    std::string words;    ///< what is calculated
    double published = 0;
    std::string unit;
    double tolerance = 0;  ///< absolute, in `unit`
    std::string reason;    ///< why that tolerance
    std::string seen;      ///< "seen" | "recomputed" | "from memory"
    std::string deviates;  ///< reason why the figure is not reproduced; "" when it should be
};

/// The rows of tables/published.toml, by id.
std::vector<PublishedRow> published_rows();

}  // namespace caseload
