// SPDX-License-Identifier: MIT
#include "caseload/formulas/bearing_estimate.hpp"
#include "caseload/tables.hpp"
#include "formulas/number_rows.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <cstddef>
#include <vector>

namespace caseload::bearing_estimate {
namespace {

using Row = std::array<double, 5>;  // bore, outside, width or T, B, C

struct Sizes {
    std::vector<Row> radial;
    std::vector<Row> tapered;
};

std::vector<Row> rows_of(const toml::table& root, std::string_view standard) {
    std::vector<Row> rows;
    for (const auto& [series, list] : *root[standard].as_table()) add_number_rows(list, rows);
    return rows;
}

const Sizes& sizes() {
    static const Sizes all = [] {
        const toml::table root = toml::parse(embedded_table("bearing_sizes.toml"));
        return Sizes{rows_of(root, "iso_15"), rows_of(root, "iso_355")};
    }();
    return all;
}

const Row* find(const std::vector<Row>& rows, const Size& size) {
    constexpr double near_mm = 0.01;
    const auto at = std::find_if(rows.begin(), rows.end(), [&](const Row& row) {
        return std::fabs(row[0] - size.bore_mm) < near_mm &&
               std::fabs(row[1] - size.outside_mm) < near_mm &&
               std::fabs(row[2] - size.width_mm) < near_mm;
    });
    return at == rows.end() ? nullptr : &*at;
}

}  // namespace

std::optional<double> tapered_cup_width_mm(const Size& size) {
    const Row* row = find(sizes().tapered, size);
    if (row == nullptr) return std::nullopt;
    return (*row)[4];
}

bool is_standard_size(BearingKind kind, const Size& size) {
    const bool tapered = kind == BearingKind::tapered_roller;
    return find(tapered ? sizes().tapered : sizes().radial, size) != nullptr;
}

std::vector<Size> standard_sizes(BearingKind kind) {
    const auto& rows = kind == BearingKind::tapered_roller ? sizes().tapered : sizes().radial;
    std::vector<Size> all;
    all.reserve(rows.size());
    for (const Row& row : rows)
        all.push_back({.bore_mm = row[0], .outside_mm = row[1], .width_mm = row[2]});
    return all;
}

}  // namespace caseload::bearing_estimate
