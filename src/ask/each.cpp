// SPDX-License-Identifier: MIT
#include "caseload/ask/each.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cctype>
#include <cmath>
#include <optional>

namespace caseload {
namespace {

std::string trimmed(std::string_view text) {
    const auto blank = [](char c) { return c == ' ' || c == '\t'; };
    while (!text.empty() && blank(text.front())) text.remove_prefix(1);
    while (!text.empty() && blank(text.back())) text.remove_suffix(1);
    return std::string(text);
}

/// Cells of one line (RFC 4180, one line a row); nothing when a quote stays open.
std::optional<std::vector<std::string>> cells(std::string_view line) {
    std::vector<std::string> out(1);
    bool quoted = false;
    bool was_quoted = false;
    for (std::size_t i = 0; i < line.size(); ++i) {
        const char c = line[i];
        if (quoted) {
            if (c != '"')
                out.back() += c;
            else if (i + 1 < line.size() && line[i + 1] == '"')
                out.back() += line[++i];
            else
                quoted = false;
        } else if (c == '"' && trimmed(out.back()).empty()) {
            out.back().clear();
            quoted = was_quoted = true;
        } else if (c == ',') {
            if (!was_quoted) out.back() = trimmed(out.back());
            was_quoted = false;
            out.emplace_back();
        } else {
            out.back() += c;
        }
    }
    if (quoted) return std::nullopt;
    if (!was_quoted) out.back() = trimmed(out.back());
    return out;
}

bool is_number(std::string_view text) {
    bool digit = false;
    for (const char c : text) {
        if (std::isdigit(static_cast<unsigned char>(c)) != 0)
            digit = true;
        else if (std::string_view("+-.eE_").find(c) == std::string_view::npos)
            return false;
    }
    return digit;
}

std::string json_text(std::string_view value) {
    std::string out = "\"";
    for (const char c : value) {
        const auto byte = static_cast<unsigned char>(c);
        if (c == '"' || c == '\\')
            out += fmt::format("\\{}", c);
        else if (byte < 0x20)
            out += fmt::format("\\u{:04x}", static_cast<unsigned>(byte));
        else
            out += c;
    }
    return out + "\"";
}

std::string number(double value) {
    return std::isfinite(value) ? fmt::format("{}", value) : "null";
}

std::string temp(double temp_degC) {
    return temp_degC > oil_ceiling_degC ? "null" : number(temp_degC);
}

}  // namespace

std::string cell_toml(std::string_view cell) {
    const bool plain = cell == "true" || cell == "false" || is_number(cell) ||
                       (!cell.empty() && (cell.front() == '[' || cell.front() == '{'));
    return plain ? std::string(cell) : json_text(cell);
}

EachTable read_each_table(std::string_view text, const std::string& name) {
    EachTable table;
    int number = 0;
    while (!text.empty()) {
        const std::size_t end = std::min(text.find('\n'), text.size());
        std::string_view line = text.substr(0, end);
        text.remove_prefix(std::min(end + 1, text.size()));
        ++number;
        if (!line.empty() && line.back() == '\r') line.remove_suffix(1);
        if (number == 1 && line.substr(0, 3) == "\xEF\xBB\xBF") line.remove_prefix(3);
        if (trimmed(line).empty()) continue;
        const auto refuse = [&](const std::string& what, const std::string& hint) {
            throw Error(Error::Kind::input,
                        {Problem{{name, number, 1, 0, std::string(line)}, what, hint}});
        };
        const auto row = cells(line);
        if (!row)
            refuse("a double quote is opened and not closed",
                   "close it on the same line; write two of them for one inside");
        if (table.keys.empty()) {
            table.keys = *row;
            continue;
        }
        if (row->size() != table.keys.size())
            refuse(fmt::format("{} cells, the head has {} keys", row->size(), table.keys.size()),
                   "a value with commas stands in double quotes: \"[33, 41]\"");
        std::vector<Change> changes;
        for (std::size_t i = 0; i < row->size(); ++i)
            changes.push_back({table.keys[i], cell_toml((*row)[i])});
        table.rows.push_back(std::move(changes));
    }
    if (table.keys.empty())
        throw Error(
            Error::Kind::input,
            {Problem{{name, 0, 0, 0, ""},
                     "the list is empty",
                     "first line: keys of the setup, for example vehicle.mass,event.ambient; "
                     "then one row of values a variation"}});
    return table;
}

std::string each_line(std::size_t number_of, const std::string& setup, const Assessment& likely,
                      const Band& band) {
    double life_p50 = 0;
    double life_p90 = 0;
    std::string worst;
    for (std::size_t b = 0; b < band.fitted.life_share.size(); ++b) {
        if (b > 0 && band.fitted.life_share[b].p50 <= life_p50) continue;
        life_p50 = band.fitted.life_share[b].p50;
        life_p90 = band.fitted.life_share[b].p90;
        worst = likely.fitted.damage.bearings[b].name;
    }
    const auto oil = [](std::string_view side, const Percentiles& p) {
        return fmt::format(
            R"("{0}_oil_p10_degC":{1},"{0}_oil_p50_degC":{2},"{0}_oil_p90_degC":{3})", side,
            temp(p.p10), temp(p.p50), temp(p.p90));
    };
    const Intervals& due = likely.fitted.intervals;
    return fmt::format(
        R"({{"number":{},"setup":{},"verdict":{},"decides":{},{},{},"holds_share":{},"fails_share":{},"oil_likely_degC":{},"worst_bearing":{},"life_share_p50":{},"life_share_p90":{},"change_oil_after_events":{},"look_after_events":{},"open_case_after_events":{},"driving_h":{},"error":null}})"
        "\n",
        number_of, json_text(setup), json_text(band.verdict), json_text(band.decides),
        oil("fitted", band.fitted.peak_oil_degC), oil("without_cooler", band.without.peak_oil_degC),
        number(band.fitted.holds_share), number(band.fitted.fails_share),
        temp(likely.fitted.event.peak_oil_degC), json_text(worst), number(life_p50),
        number(life_p90), due.change_oil.after_events, due.look.after_events,
        due.open_case.after_events, number(likely.driving_h));
}

std::string each_error_line(std::size_t number_of, const std::string& setup, const Error& error) {
    std::string text;
    for (const Problem& problem : error.problems())
        text += (text.empty() ? "" : "; ") + problem.text;
    return fmt::format(R"({{"number":{},"setup":{},"verdict":null,"error":{}}})"
                       "\n",
                       number_of, json_text(setup), json_text(text));
}

}  // namespace caseload
