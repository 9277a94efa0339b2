// SPDX-License-Identifier: MIT
#include "show/json_value.hpp"

#include "caseload/heat.hpp"
#include "input/harmless.hpp"
#include "input/letters.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

namespace caseload::json_value {

std::string text(std::string_view value) {
    std::string out = "\"";
    for (std::size_t at = 0; at < value.size();) {
        const char c = value[at];
        const std::size_t length = input::utf8_length(value, at);
        if (length == 0)
            out += "\xEF\xBF\xBD";  // JSON is UTF-8, a book or a prompt need not be
        else if (c == '"' || c == '\\')
            out += fmt::format("\\{}", c);
        else if (static_cast<unsigned char>(c) < 0x20 || c == '<')
            out += fmt::format("\\u{:04x}", static_cast<unsigned>(static_cast<unsigned char>(c)));
        else if (length > 1 || c == '\x7F')
            out += input::harmless(value.substr(at, length));
        else
            out += c;
        at += std::max<std::size_t>(length, 1);
    }
    return out + "\"";
}

std::string caution() {
    return R"("caution":"An estimate for planning: it does not replace inspection by a competent )"
           R"(person; symptoms, your eyes and the rule book come first.")";
}

std::string document(std::string_view command, std::string_view members) {
    return fmt::format("{{\"schema\":1,\"command\":\"{}\",{},{}}}\n", command, caution(), members);
}

std::string number(double value) {
    return std::isfinite(value) ? fmt::format("{}", value) : "null";
}

std::string number_or_null(const std::optional<double>& value) {
    return value ? number(*value) : "null";
}

std::string temp(double temp_degC) {
    return temp_degC > oil_ceiling_degC ? "null" : number(temp_degC);
}

}  // namespace caseload::json_value
