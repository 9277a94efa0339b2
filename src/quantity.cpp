// SPDX-License-Identifier: MIT
#include "caseload/quantity.hpp"

#include "caseload/tables.hpp"
#include "third_party/toml.hpp"

#include <algorithm>
#include <stdexcept>
#include <string>

namespace caseload {
namespace {

std::vector<Quantity> read_table() {
    std::vector<Quantity> all;
    const toml::table file = toml::parse(embedded_table("quantities.toml"));
    for (const auto& [owner, members] : file) {
        for (const auto& [name, row] : *members.as_table()) {
            const auto text = [&, entry = row.as_table()](std::string_view key) {
                return (*entry)[key].value_or(std::string{});
            };
            all.push_back({std::string(owner.str()) + "." + std::string(name.str()), text("symbol"),
                           text("unit"), text("words"), text("how"), text("formula"),
                           text("source")});
        }
    }
    std::sort(all.begin(), all.end(),
              [](const Quantity& a, const Quantity& b) { return a.id < b.id; });
    return all;
}

}  // namespace

const std::vector<Quantity>& quantities() {
    static const std::vector<Quantity> all = read_table();
    return all;
}

const Quantity& quantity(std::string_view owner, std::string_view member) {
    const std::string id = std::string(owner) + "." + std::string(member);
    const auto& all = quantities();
    const auto found =
        std::lower_bound(all.begin(), all.end(), id,
                         [](const Quantity& row, const std::string& key) { return row.id < key; });
    if (found == all.end() || found->id != id)
        throw std::out_of_range("tables/quantities.toml has no row " + id);
    return *found;
}

}  // namespace caseload
