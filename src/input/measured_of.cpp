// SPDX-License-Identifier: MIT
#include "input/measured_of.hpp"

#include "input/fields.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cstdint>
#include <map>

namespace caseload::input {
namespace {

constexpr std::array<std::string_view, 10> own_headings{
    "case", "gears",       "shaft",   "bearing", "seal",
    "oil",  "lubrication", "housing", "cooler",  "reading"};
constexpr std::array<std::string_view, 4> changing{"gears.fitted", "oil.state", "oil.cleanliness",
                                                   "cooler.fit"};

std::string meaning(const Item& item) {
    switch (item.field->kind) {
        case FieldKind::quantity:
            return item.by_word ? item.value.text : fmt::format("{:.9g}", item.number);
        case FieldKind::number:
        case FieldKind::integer:
            return fmt::format("{:.9g}", item.number);
        case FieldKind::quantities:
        case FieldKind::size:
        case FieldKind::teeth:
        case FieldKind::numbers:
            return fmt::format("{}{:.9g}", item.value.text, fmt::join(item.numbers, " "));
        case FieldKind::names:
            return fmt::format("{}", fmt::join(item.texts, " "));
        case FieldKind::flag:
            return item.value.flag ? "true" : "false";
        case FieldKind::rows:
        case FieldKind::pairs: {
            std::string all;
            for (const std::vector<double>& row : item.rows)
                all += fmt::format("{:.9g};", fmt::join(row, " "));
            return all;
        }
        case FieldKind::text:
        case FieldKind::word:
        case FieldKind::grade:
        case FieldKind::part:
            return item.value.text;
    }
    return {};
}

std::string_view heading_of(std::string_view line) {
    return line.substr(0, line.find_first_of(". "));
}

}  // namespace

std::string text_hash(std::string_view text) {
    std::uint64_t h = 14695981039346656037ULL;
    for (const char c : text) {
        h ^= static_cast<unsigned char>(c);
        h *= 1099511628211ULL;
    }
    return fmt::format("{:016x}", h);
}

std::vector<std::string> case_sums(const Completed& from) {
    std::map<std::string, std::string, std::less<>> texts;
    for (const auto& [key, item] : from.items()) {
        const std::string_view heading = heading_of(key);
        if (std::find(own_headings.begin(), own_headings.end(), heading) == own_headings.end() ||
            std::find(changing.begin(), changing.end(), key) != changing.end() ||
            item.origin == Origin::estimated)
            continue;
        // A size is its lengths, however it is written.
        Item plain = item;
        if (!plain.numbers.empty()) plain.value.text.clear();
        texts[std::string(heading)] += fmt::format("{}={}\n", key, meaning(plain));
    }
    std::vector<std::string> sums;
    for (const auto& [heading, text] : texts)
        sums.push_back(fmt::format("{} {}", heading, text_hash(text).substr(0, 8)));
    return sums;
}

void note_changes(const Completed& from, const std::vector<std::string>& sums, Notes& notes) {
    const Item* then = from.find("measured.setup");
    if (then == nullptr) return;
    std::vector<std::string> changed;
    const auto unless_in = [&](const std::vector<std::string>& these,
                               const std::vector<std::string>& others) {
        for (const std::string& one : these) {
            const std::string heading(heading_of(one));
            const bool same = std::find(others.begin(), others.end(), one) != others.end();
            const bool known = std::find(changed.begin(), changed.end(), heading) != changed.end();
            if (!same && !known) changed.push_back(heading);
        }
    };
    unless_in(sums, then->texts);
    unless_in(then->texts, sums);
    // Readings in a file that is not read now do not count.
    const bool readings = std::any_of(sums.begin(), sums.end(), [](const std::string& one) {
        return heading_of(one) == "reading";
    });
    if (!readings)
        changed.erase(std::remove(changed.begin(), changed.end(), "reading"), changed.end());
    if (changed.empty()) return;
    std::sort(changed.begin(), changed.end());
    add_note(notes, {"measured.changed", "measured",
                     fmt::format("Changed since it was measured: {}. Calibrate again.",
                                 fmt::join(changed, ", "))});
}

}  // namespace caseload::input
