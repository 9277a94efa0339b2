// SPDX-License-Identifier: MIT
#include "input/slips.hpp"

#include "input/letters.hpp"

#include <fmt/format.h>

#include <cstddef>
#include <string_view>

namespace caseload::input {
namespace {

struct Pair {
    std::string_view one;
    std::string_view other;
};

/// Units people write for each other.
constexpr Pair pairs[] = {{"mm", "in"}, {"degC", "degF"},  {"kg", "lb"}, {"km/h", "mph"},
                          {"hp", "kW"}, {"N m", "lbf ft"}, {"L", "qt"}};

/// "1.250 kg" as "1.250" and " kg".
struct Parts {
    std::string_view number;
    std::string_view unit;
};

Parts parts_of(std::string_view text) {
    text = trimmed(text);
    std::size_t end = 0;
    while (end < text.size() && (digit(text[end]) || text[end] == '.' || text[end] == ',')) ++end;
    return {text.substr(0, end), trimmed(text.substr(end))};
}

bool fits(const Field& field, const std::string& text) {
    const Quantity read = read_quantity(field.measure, text);
    return read.ok && read.value >= field.range.low && read.value <= field.range.high;
}

/// Three digits behind the only mark: a mark of thousands, where the value is too small with it and
/// fits without.
std::string thousands(const Field& field, const Parts& parts) {
    const std::size_t mark = parts.number.find_first_of(".,");
    if (mark == std::string_view::npos || mark == 0 || parts.number.size() != mark + 4 ||
        parts.number.find_first_of(".,", mark + 1) != std::string_view::npos)
        return {};
    std::string with_point(parts.number);
    with_point[mark] = '.';
    const Quantity small =
        read_quantity(field.measure, fmt::format("{} {}", with_point, parts.unit));
    if (!small.ok || small.value >= field.range.low) return {};
    const std::string whole = fmt::format("{}{} {}", parts.number.substr(0, mark),
                                          parts.number.substr(mark + 1), parts.unit);
    if (!fits(field, whole)) return {};
    return fmt::format("write \"{}\": a mark before three digits is read as a decimal point",
                       whole);
}

std::string other_unit(const Field& field, const Parts& parts) {
    const auto one_of = [&](std::string_view unit) {
        return read_quantity(field.measure, fmt::format("1 {}", unit));
    };
    const Quantity own = one_of(parts.unit);
    if (!own.ok) return {};
    for (const Pair& pair : pairs)
        for (const auto& [from, to] : {Pair{pair.one, pair.other}, Pair{pair.other, pair.one}}) {
            const Quantity same = one_of(from);
            if (!same.ok || same.value != own.value) continue;
            const std::string text = fmt::format("{} {}", parts.number, to);
            if (fits(field, text)) return fmt::format("did you mean \"{}\"?", text);
        }
    return {};
}

}  // namespace

std::string slipped(const Field& field, const std::string& text) {
    const Parts parts = parts_of(text);
    if (parts.number.empty() || parts.unit.empty()) return {};
    const std::string mark = thousands(field, parts);
    return mark.empty() ? other_unit(field, parts) : mark;
}

}  // namespace caseload::input
