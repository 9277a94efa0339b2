// SPDX-License-Identifier: MIT
#include "caseload/quantity.hpp"

#include "caseload/tables.hpp"
#include "third_party/toml.hpp"

#include <algorithm>
#include <stdexcept>
#include <utility>

namespace caseload {
namespace {

Quantity read_row(std::string id, const toml::table& row) {
    const auto text = [&row](std::string_view key) { return row[key].value_or(std::string{}); };
    return {std::move(id), text("symbol"),  text("unit"),  text("words"),
            text("how"),   text("formula"), text("source")};
}

std::vector<Quantity> read_table() {
    std::vector<Quantity> all;
    const toml::table file = toml::parse(embedded_table("quantities.toml"));
    for (const auto& [owner, members] : file)
        for (const auto& [name, row] : *members.as_table())
            all.push_back(read_row(std::string(owner.str()) + "." + std::string(name.str()),
                                   *row.as_table()));
    std::sort(all.begin(), all.end(),
              [](const Quantity& a, const Quantity& b) { return a.id < b.id; });
    return all;
}

}  // namespace

const std::vector<Quantity>& quantities() {
    static const std::vector<Quantity> all = read_table();
    return all;
}

std::map<std::string, Quantity> quantities_of(std::string_view owner) {
    std::string_view text = embedded_table("quantities.toml");
    const std::string heading = "\n[" + std::string(owner) + "]\n";
    const std::size_t at = text.find(heading);
    if (at == std::string_view::npos)
        throw std::out_of_range("tables/quantities.toml has no heading " + std::string(owner));
    text.remove_prefix(at + heading.size());
    const toml::table rows = toml::parse(text.substr(0, text.find("\n[")));
    std::map<std::string, Quantity> all;
    for (const auto& [name, row] : rows)
        all.emplace(name.str(),
                    read_row(std::string(owner) + "." + std::string(name.str()), *row.as_table()));
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
