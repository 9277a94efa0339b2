// SPDX-License-Identifier: MIT
#include "caseload/evidence.hpp"
#include "caseload/tables.hpp"
#include "input/value.hpp"

namespace caseload {

std::vector<Calculation> calculations() {
    std::vector<Calculation> all;
    for (const auto part :
         {gear_calculations(), bearing_calculations(), bearing_textbook_calculations(),
          fleet_calculations(), heat_calculations(), seat_calculations(), measured_calculations()})
        all.insert(all.end(), part.begin(), part.end());
    return all;
}

std::vector<PublishedRow> published_rows() {
    std::vector<PublishedRow> rows;
    for (const auto& [key, leaf] :
         input::parse_leaves(embedded_table("published.toml"), "published.toml")) {
        const std::size_t dot = key.rfind('.');
        const std::string id = key.substr(0, dot);
        const std::string member = key.substr(dot + 1);
        if (rows.empty() || rows.back().id != id) {
            rows.push_back({});
            rows.back().id = id;
        }
        PublishedRow& row = rows.back();
        const input::Value& value = leaf.value;
        if (member == "source") row.source = value.text;
        if (member == "example") row.example = value.text;
        if (member == "words") row.words = value.text;
        if (member == "published") row.published = value.number;
        if (member == "unit") row.unit = value.text;
        if (member == "tolerance") row.tolerance = value.number;
        if (member == "reason") row.reason = value.text;
        if (member == "seen") row.seen = value.text;
        if (member == "deviates") row.deviates = value.text;
        if (member == "measured") row.measured = value.flag;
        if (member == "bound") row.bound = value.flag;
    }
    return rows;
}

}  // namespace caseload
