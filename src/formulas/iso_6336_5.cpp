// SPDX-License-Identifier: MIT
#include "caseload/formulas/iso_6336_5.hpp"

#include "caseload/error.hpp"
#include "caseload/tables.hpp"
#include "third_party/toml.hpp"

#include <fmt/format.h>

#include <algorithm>

namespace caseload::iso_6336_5 {
namespace {

struct Steel {
    std::string name;
    Material stands;
};

double number(const toml::table& row, std::string_view key) {
    return row[key].value<double>().value();
}

// The table is our own and embedded: a parse error here is our bug and travels as such.
const std::vector<Steel>& steels() {
    static const std::vector<Steel> all = [] {
        std::vector<Steel> rows;
        for (const auto& [name, node] : toml::parse(embedded_table("gear_materials.toml"))) {
            const toml::table& row = *node.as_table();
            rows.push_back({std::string(name.str()),
                            {.sigma_Hlim_MPa = number(row, "sigma_Hlim_MPa"),
                             .sigma_Flim_MPa = number(row, "sigma_Flim_MPa")}});
        }
        std::sort(rows.begin(), rows.end(), [](const Steel& a, const Steel& b) {
            return a.stands.sigma_Hlim_MPa < b.stands.sigma_Hlim_MPa;
        });
        return rows;
    }();
    return all;
}

}  // namespace

Material material(std::string_view name) {
    const auto found = std::find_if(steels().begin(), steels().end(),
                                    [&](const Steel& steel) { return steel.name == name; });
    if (found == steels().end())
        throw Error(Error::Kind::domain, fmt::format("unknown gear steel \"{}\"; known: {}", name,
                                                     fmt::join(material_names(), ", ")));
    return found->stands;
}

std::vector<std::string> material_names() {
    std::vector<std::string> names;
    for (const Steel& steel : steels()) names.push_back(steel.name);
    return names;
}

}  // namespace caseload::iso_6336_5
