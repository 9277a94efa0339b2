// SPDX-License-Identifier: MIT
// Figures recalculated by our own code: tables/published.toml holds the figures, the functions here
// the calculations, matched by id.
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

/// Gears, their forces, roots and losses, pumps.
std::span<const Calculation> gear_calculations();
/// Ratings, reliability and friction of bearings.
std::span<const Calculation> bearing_calculations();
/// Bearing lives and ratings worked in textbooks.
std::span<const Calculation> bearing_textbook_calculations();
/// Life data.
std::span<const Calculation> fleet_calculations();
/// Oil, air, films, exchangers.
std::span<const Calculation> heat_calculations();
/// Seats, fits, replacement.
std::span<const Calculation> seat_calculations();
/// Parts of the chain on rigs.
std::span<const Calculation> measured_calculations();
/// Every calculation there is.
std::vector<Calculation> calculations();

/// A figure as its source prints it.
struct PublishedRow {
    std::string id;
    std::string source;   ///< key of tables/sources.toml
    std::string example;  ///< where in the source
    std::string words;    ///< what is calculated
    double published = 0;
    std::string unit;
    double tolerance = 0;  ///< absolute, in `unit`
    std::string reason;    ///< why that tolerance
    /// "seen" | "recomputed" | "from memory" | "digitised": read off a printed curve by others
    std::string seen;
    std::string deviates;   ///< reason why the figure is not reproduced; "" when it should be
    bool measured = false;  ///< by its source, not calculated
    bool bound = false;     ///< met by any smaller figure of ours
};

/// The rows of tables/published.toml, by id.
std::vector<PublishedRow> published_rows();

/// An entry of the bibliography, tables/sources.toml.
struct SourceRow {
    std::string key;
    std::string title;
    std::string edition;
    std::string used;  ///< what is taken from it
    std::string seen;  ///< whether anybody looked into it
};
std::vector<SourceRow> source_rows();

enum class Outcome {
    fails,       ///< should be reproduced and is not, or no function calculates it
    differs,     ///< not reproduced, for the reason in its row
    reproduced,  ///< within its tolerance
};

/// A published figure beside our own.
struct Recomputed {
    PublishedRow row;
    SourceRow source;
    double ours = 0;
    double deviation = 0;  ///< ours less published, in the unit of the figure
    Outcome outcome = Outcome::fails;
};

/// Where constants are taken from, one place each: a source of the bibliography, or a row of the
/// tables of data (oils, materials, clearances, sizes, words, spreads). Our own patterns and
/// courses, the published figures themselves and the words for results are not counted.
struct Places {
    int sources = 0;
    int sources_from_memory = 0;  ///< wholly or in part
    int rows = 0;
    int rows_from_memory = 0;
    int rows_judged = 0;  ///< judgement or common practice: no source is claimed
};
Places constant_places();

/// Figures of one kind.
struct Counted {
    int figures = 0;
    int met = 0;
    int from_memory = 0;  ///< the figure itself is quoted from memory
};

struct Evidence {
    std::vector<Recomputed> rows;  ///< failing first, then differing, then by source
    Counted printed;               ///< in an outside source, calculated there
    Counted recomputed;            ///< by ourselves: nobody saw the figure in print
    Counted measured;              ///< by an outside source
    double least_ratio = 0;        ///< ours over measured, bounds apart; 0: nothing measured
    double largest_ratio = 0;
    int reproduced = 0;
    int differs = 0;
    int fails = 0;
    double worst_share = 0;  ///< largest deviation over its tolerance among the reproduced
    std::string worst_id;
    Places places;
};

/// Calculates every row. A row without a calculation fails.
Evidence recompute(const std::vector<PublishedRow>& rows,
                   const std::vector<Calculation>& calculations);

}  // namespace caseload
