// SPDX-License-Identifier: MIT
#include "show/json_value.hpp"

#include "caseload/heat.hpp"

#include <fmt/format.h>

#include <cmath>

namespace caseload::json_value {

std::string text(std::string_view value) {
    std::string out = "\"";
    for (const char c : value) {
        if (c == '"' || c == '\\')
            out += fmt::format("\\{}", c);
        else if (static_cast<unsigned char>(c) < 0x20 || c == '<')
            out += fmt::format("\\u{:04x}", static_cast<unsigned>(static_cast<unsigned char>(c)));
        else
            out += c;
    }
    return out + "\"";
}

std::string caution() {
    return R"("caution":"An estimate for planning: it does not replace inspection by a competent )"
           R"(person; symptoms, your eyes and the rule book come first.")";
}

std::string number(double value) {
    return std::isfinite(value) ? fmt::format("{}", value) : "null";
}

std::string temp(double temp_degC) {
    return temp_degC > oil_ceiling_degC ? "null" : number(temp_degC);
}

}  // namespace caseload::json_value
