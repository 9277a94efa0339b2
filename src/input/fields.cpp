// SPDX-License-Identifier: MIT
#include "input/fields.hpp"

#include <algorithm>
#include <vector>

namespace caseload::input {
namespace {

std::vector<std::string_view> parts(std::string_view key) {
    std::vector<std::string_view> all;
    std::size_t at = 0;
    for (;;) {
        const std::size_t dot = key.find('.', at);
        all.push_back(key.substr(at, dot - at));
        if (dot == std::string_view::npos) return all;
        at = dot + 1;
    }
}

/// Letters to change, add, drop or swap.
std::size_t distance(std::string_view from, std::string_view to) {
    std::vector<std::vector<std::size_t>> d(from.size() + 1,
                                            std::vector<std::size_t>(to.size() + 1));
    for (std::size_t i = 0; i <= from.size(); ++i) d[i][0] = i;
    for (std::size_t j = 0; j <= to.size(); ++j) d[0][j] = j;
    for (std::size_t i = 1; i <= from.size(); ++i)
        for (std::size_t j = 1; j <= to.size(); ++j) {
            d[i][j] = std::min({d[i - 1][j] + 1, d[i][j - 1] + 1,
                                d[i - 1][j - 1] + (from[i - 1] == to[j - 1] ? 0 : 1)});
            if (i > 1 && j > 1 && from[i - 1] == to[j - 2] && from[i - 2] == to[j - 1])
                d[i][j] = std::min(d[i][j], d[i - 2][j - 2] + 1);
        }
    return d[from.size()][to.size()];
}

std::size_t near_enough(std::string_view word) {
    return 1 + word.size() / 5;
}

std::vector<std::string_view> choices(std::string_view accepted) {
    std::vector<std::string_view> all;
    std::size_t at = 0;
    while (at < accepted.size()) {
        const std::size_t bar = std::min(accepted.find(" | ", at), accepted.size());
        all.push_back(accepted.substr(at, bar - at));
        at = bar + 3;
    }
    return all;
}

}  // namespace

bool matches(std::string_view pattern, std::string_view key) {
    const auto a = parts(pattern);
    const auto b = parts(key);
    if (a.size() != b.size()) return false;
    for (std::size_t i = 0; i < a.size(); ++i)
        if (a[i] != "*" && a[i] != b[i]) return false;
    return true;
}

const Field* find_field(std::string_view key) {
    for (const Field& field : fields())
        if (matches(field.key, key)) return &field;
    return nullptr;
}

std::string nearest_key(std::string_view key) {
    const auto given = parts(key);
    std::string best;
    std::size_t least = near_enough(key) + 1;
    for (const Field& field : fields()) {
        const auto pattern = parts(field.key);
        if (pattern.size() != given.size()) {
            // A key put at the wrong level: its last part decides.
            if (given.size() == 1 && pattern.size() == 2 && pattern[1] == given[0] && best.empty())
                best = std::string(field.key);
            continue;
        }
        std::string candidate;
        for (std::size_t i = 0; i < pattern.size(); ++i) {
            if (i > 0) candidate += '.';
            candidate += pattern[i] == "*" ? given[i] : pattern[i];
        }
        const std::size_t far = distance(key, candidate);
        if (far < least) {
            least = far;
            best = candidate;
        }
    }
    return best;
}

std::string nearest_word(std::string_view accepted, std::string_view word) {
    std::string best;
    std::size_t least = near_enough(word) + 1;
    for (const std::string_view choice : choices(accepted)) {
        const std::size_t far = distance(word, choice);
        if (far < least) {
            least = far;
            best = std::string(choice);
        }
    }
    return best;
}

bool is_accepted(std::string_view accepted, std::string_view word) {
    const auto all = choices(accepted);
    return std::find(all.begin(), all.end(), word) != all.end();
}

}  // namespace caseload::input
