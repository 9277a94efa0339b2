// SPDX-License-Identifier: MIT
#include "caseload/formulas/sae_j306.hpp"

#include "caseload/error.hpp"

#include <limits>

namespace caseload::sae_j306 {
namespace {

constexpr double none = std::numeric_limits<double>::infinity();

constexpr Grade all[] = {
    {"70W", 3.8, none, -55},           {"75W", 3.8, none, -40},
    {"80W", 8.5, none, -26},           {"85W", 11.0, none, -12},
    {"65", 3.8, 5.0, std::nullopt},    {"70", 5.0, 6.5, std::nullopt},
    {"75", 6.5, 8.5, std::nullopt},    {"80", 8.5, 11.0, std::nullopt},
    {"85", 11.0, 13.5, std::nullopt},  {"90", 13.5, 18.5, std::nullopt},
    {"110", 18.5, 24.0, std::nullopt}, {"140", 24.0, 32.5, std::nullopt},
    {"190", 32.5, 41.0, std::nullopt}, {"250", 41.0, none, std::nullopt},
};

}  // namespace

std::span<const Grade> grades() {
    return all;
}

std::string_view summer_grade(double nu_100C_mm2ps) {
    require_positive(nu_100C_mm2ps, "nu_100C_mm2ps");
    for (const Grade& grade : all)
        if (!grade.brookfield_limit_degC && nu_100C_mm2ps >= grade.nu_100C_min_mm2ps &&
            nu_100C_mm2ps < grade.nu_100C_max_mm2ps)
            return grade.name;
    return {};
}

}  // namespace caseload::sae_j306
