// SPDX-License-Identifier: MIT
#include "duty/header.hpp"

#include "duty/channels.hpp"

#include <algorithm>

namespace caseload::duty {
namespace {

constexpr std::size_t searched_lines = 2000;

using Row = std::vector<std::string>;

class Finder {
public:
    Finder(const Sampled& sampled, const ReadOptions& options, const Dialect& dialect)
        : sampled_(sampled), options_(options), dialect_(dialect) {}

    [[nodiscard]] Row row(std::size_t line) const {
        return split(sampled_.head[line], dialect_.delimiter);
    }

    /// Most of the filled cells are values, the first among them, and no field is missing.
    [[nodiscard]] bool is_data(const Row& cells) const {
        if (cells.size() != dialect_.fields) return false;
        std::size_t filled = 0;
        std::size_t values = 0;
        const Marks marks{dialect_.decimal, dialect_.grouping};
        for (const std::string& cell : cells) {
            if (cell.empty()) continue;
            ++filled;
            if (is_value(cell, marks)) ++values;
        }
        return values > 0 && (2 * values > filled || (long_form_ && values >= 2));
    }

    [[nodiscard]] std::size_t count_known(const Row& cells) const {
        const Marks marks{dialect_.decimal, dialect_.grouping};
        std::size_t known = 0;
        for (const std::string& cell : cells) {
            if (cell.empty() || is_value(cell, marks)) continue;
            const std::string name = shown(cell, dialect_.encoding);
            const bool mapped =
                std::any_of(options_.columns.begin(), options_.columns.end(),
                            [&](const auto& one) { return folded(one.second) == folded(name); });
            if (mapped || names_any(name) || record_word(name)) ++known;
        }
        return known;
    }

    [[nodiscard]] std::size_t data_after(std::size_t line) const {
        for (std::size_t i = line + 1; i < sampled_.head.size() && i <= line + rows_to_data; ++i)
            if (is_data(row(i))) return i;
        return 0;
    }

    void set_long_form(bool is) { long_form_ = is; }

    static bool record_word(std::string_view name) {
        const std::string word = folded(name);
        return word == "pid" || word == "value" || word == "channel" || word == "signal" ||
               word == "wert" || word == "kanal";
    }

private:
    const Sampled& sampled_;
    const ReadOptions& options_;
    const Dialect& dialect_;
    bool long_form_ = false;
};

bool is_units_row(const Row& cells, const Dialect& dialect) {
    const Marks marks{dialect.decimal, dialect.grouping};
    return std::none_of(cells.begin(), cells.end(), [&](const std::string& cell) {
        return !cell.empty() && is_value(cell, marks);
    });
}

bool blank(const Row& cells) {
    return std::all_of(cells.begin(), cells.end(),
                       [](const std::string& cell) { return cell.empty(); });
}

}  // namespace

FoundHeader find_header(const Sampled& sampled, const ReadOptions& options,
                        const Dialect& dialect) {
    Finder finder(sampled, options, dialect);
    FoundHeader found;
    std::size_t header = 0;
    const std::size_t end = std::min(sampled.head.size(), searched_lines);
    for (std::size_t i = 0; i < end && !found.known; ++i) {
        const Row cells = finder.row(i);
        finder.set_long_form(std::any_of(cells.begin(), cells.end(), Finder::record_word));
        if (finder.count_known(cells) < 2) continue;
        if (finder.data_after(i) == 0) {
            if (found.names_alone == 0) found.names_alone = i + 1;
            continue;
        }
        header = i;
        found.known = true;
    }
    if (!found.known) {
        // The row of words above the first values, to say what was not understood.
        finder.set_long_form(false);
        std::size_t words = end;
        for (std::size_t i = 0; i < end; ++i) {
            const Row cells = finder.row(i);
            if (finder.is_data(cells)) break;
            if (cells.size() == dialect.fields && !blank(cells) && words == end) words = i;
        }
        if (words == end || finder.data_after(words) == 0) return found;
        header = words;
    }
    const std::size_t data = finder.data_after(header);
    found.header.line = header + 1;
    found.header.first_line = data + 1;
    for (const std::string& cell : finder.row(header))
        found.header.names.push_back(shown(cell, dialect.encoding));
    found.header.units.resize(found.header.names.size());
    for (std::size_t i = header + 1; i < data; ++i) {
        const Row cells = finder.row(i);
        if (blank(cells) || !is_units_row(cells, dialect)) continue;
        found.header.units_line = i + 1;
        for (std::size_t k = 0; k < std::min(cells.size(), found.header.units.size()); ++k)
            found.header.units[k] = shown(cells[k], dialect.encoding);
        break;
    }
    return found;
}

}  // namespace caseload::duty
