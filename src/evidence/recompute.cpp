// SPDX-License-Identifier: MIT
// Every figure beside our own, and where our constants come from.
#include "caseload/evidence.hpp"

#include "caseload/tables.hpp"
#include "input/value.hpp"

#include <algorithm>
#include <cmath>
#include <map>

namespace caseload {
namespace {

constexpr std::string_view memory = "from memory";

bool says(std::string_view text, std::string_view words) {
    return text.find(words) != std::string_view::npos;
}

bool judged(std::string_view text) {
    return says(text, "judgement") || says(text, "common practice");
}

/// The comment a table begins with.
std::string_view head_of(std::string_view text) {
    std::size_t at = 0;
    while (at < text.size() && text[at] == '#') at = std::min(text.find('\n', at), text.size()) + 1;
    return text.substr(0, std::min(at, text.size()));
}

void count_row(Places& places, std::string_view origin) {
    ++places.rows;
    if (says(origin, memory))
        ++places.rows_from_memory;
    else if (judged(origin))
        ++places.rows_judged;
}

/// Lines of data after the line of column names.
void count_csv(Places& places, std::string_view text) {
    bool named = false;
    for (std::size_t at = 0; at < text.size();) {
        const std::size_t end = std::min(text.find('\n', at), text.size());
        if (end > at && text[at] != '#') {
            if (named) count_row(places, head_of(text));
            named = true;
        }
        at = end + 1;
    }
}

/// Rows that name their source each; else one a table or line of a list, under the file's own
/// comment.
void count_toml(Places& places, const EmbeddedTable& table) {
    const input::Leaves leaves = input::parse_leaves(table.text, std::string(table.path));
    const auto is_source = [](const std::string& key) {
        return key.size() > 7 && key.compare(key.size() - 7, 7, ".source") == 0;
    };
    const bool each_its_own = std::any_of(leaves.begin(), leaves.end(),
                                          [&](const auto& leaf) { return is_source(leaf.first); });
    std::string last;
    for (const auto& [key, leaf] : leaves) {
        if (each_its_own) {
            if (is_source(key)) count_row(places, leaf.value.text);
            continue;
        }
        const auto& items = leaf.value.items;
        if (!items.empty() && items.front().kind == input::Value::Kind::list) {
            for (std::size_t i = 0; i < items.size(); ++i) count_row(places, head_of(table.text));
            continue;
        }
        const std::string row = key.substr(0, key.find('.'));
        if (row != last) count_row(places, head_of(table.text));
        last = row;
    }
}

}  // namespace

std::vector<SourceRow> source_rows() {
    std::vector<SourceRow> rows;
    for (const auto& [key, leaf] :
         input::parse_leaves(embedded_table("sources.toml"), "sources.toml")) {
        const std::size_t dot = key.rfind('.');
        const std::string member = key.substr(dot + 1);
        if (rows.empty() || rows.back().key != key.substr(0, dot)) {
            rows.push_back({});
            rows.back().key = key.substr(0, dot);
        }
        SourceRow& row = rows.back();
        if (member == "title") row.title = leaf.value.text;
        if (member == "edition") row.edition = leaf.value.text;
        if (member == "used") row.used = leaf.value.text;
        if (member == "seen") row.seen = leaf.value.text;
    }
    return rows;
}

Places constant_places() {
    Places places;
    for (const SourceRow& source : source_rows()) {
        ++places.sources;
        if (says(source.seen, memory)) ++places.sources_from_memory;
    }
    for (const EmbeddedTable& table : embedded_tables()) {
        const bool ours = says(table.path, "/");  // patterns and courses
        if (ours || table.path == "sources.toml" || table.path == "published.toml" ||
            table.path == "quantities.toml" || table.path == "why.toml")
            continue;
        if (says(table.path, ".csv"))
            count_csv(places, table.text);
        else if (says(table.path, ".toml"))
            count_toml(places, table);
    }
    return places;
}

Evidence recompute(const std::vector<PublishedRow>& rows,
                   const std::vector<Calculation>& calculations) {
    // Decimal figures and tolerances are not exact in binary.
    constexpr double rounding = 1e-9;
    std::map<std::string_view, double (*)()> by_id;
    for (const Calculation& one : calculations) by_id[one.id] = one.value;
    std::map<std::string, SourceRow> sources;
    for (const SourceRow& source : source_rows()) sources[source.key] = source;
    Evidence evidence;
    for (const PublishedRow& row : rows) {
        Recomputed one{row, sources[row.source], 0, 0, Outcome::fails};
        const auto found = by_id.find(row.id);
        bool met = false;
        if (found != by_id.end()) {
            one.ours = found->second();
            one.deviation = one.ours - row.published;
            const double beyond = row.bound ? one.deviation : std::fabs(one.deviation);
            met = beyond <= row.tolerance * (1 + rounding) + rounding * std::fabs(row.published);
        }
        if (met) {
            one.outcome = Outcome::reproduced;
            ++evidence.reproduced;
            const double share =
                row.tolerance > 0 && !row.bound ? std::fabs(one.deviation) / row.tolerance : 0;
            if (share > evidence.worst_share) {
                evidence.worst_share = share;
                evidence.worst_id = row.id;
            }
        } else if (found != by_id.end() && !row.deviates.empty()) {
            one.outcome = Outcome::differs;
            ++evidence.differs;
        } else {
            ++evidence.fails;
        }
        Counted& kind = row.measured               ? evidence.measured
                        : row.seen == "recomputed" ? evidence.recomputed
                                                   : evidence.printed;
        ++kind.figures;
        if (met) ++kind.met;
        if (row.seen == memory) ++kind.from_memory;
        if (row.measured && !row.bound && found != by_id.end()) {
            const double ratio = one.ours / row.published;
            const bool first = evidence.largest_ratio == 0;
            evidence.least_ratio = first ? ratio : std::min(evidence.least_ratio, ratio);
            evidence.largest_ratio = std::max(evidence.largest_ratio, ratio);
        }
        evidence.rows.push_back(std::move(one));
    }
    std::stable_sort(
        evidence.rows.begin(), evidence.rows.end(), [](const Recomputed& a, const Recomputed& b) {
            return a.outcome != b.outcome ? a.outcome < b.outcome : a.row.source < b.row.source;
        });
    evidence.places = constant_places();
    return evidence;
}

}  // namespace caseload
