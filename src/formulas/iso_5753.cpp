// SPDX-License-Identifier: MIT
#include "caseload/formulas/iso_5753.hpp"

#include "caseload/error.hpp"
#include "caseload/tables.hpp"
#include "caseload/units.hpp"
#include "formulas/number_rows.hpp"

#include <array>
#include <cstddef>
#include <string_view>
#include <vector>

namespace caseload::iso_5753 {
namespace {

using Row = std::array<double, 12>;  // bore over, to; least, largest of five classes

std::vector<Row> rows_of(std::string_view kind) {
    const toml::table root = toml::parse(embedded_table("iso_5753.toml"));
    std::vector<Row> rows;
    add_number_rows(*root[kind].node(), rows);
    return rows;
}

const std::vector<Row>& ball_rows() {
    static const std::vector<Row> rows = rows_of("deep_groove");
    return rows;
}
const std::vector<Row>& roller_rows() {
    static const std::vector<Row> rows = rows_of("cylindrical_roller");
    return rows;
}

}  // namespace

std::optional<Clearance> radial_clearance_mm(BearingKind kind, Class clearance_class,
                                             double bore_mm) {
    const bool ball = kind == BearingKind::deep_groove_ball;
    if (!ball && kind != BearingKind::cylindrical_roller) return std::nullopt;
    const std::vector<Row>& rows = ball ? ball_rows() : roller_rows();
    const std::size_t column = 2 + 2 * static_cast<std::size_t>(clearance_class);
    for (const Row& row : rows)
        if (bore_mm > row[0] && bore_mm <= row[1])
            return Clearance{.least_mm = mm_from_um(row.at(column)),
                             .largest_mm = mm_from_um(row.at(column + 1))};
    const Limits held{.low = rows.front()[0], .high = rows.back()[1]};
    require_within(bore_mm, held, "bore_mm");
    // The lower end is excluded: it belongs to a smaller range than any held here.
    throw Error(Error::Kind::domain, "bore_mm = 30 mm: must be over 30");
}

}  // namespace caseload::iso_5753
