// SPDX-License-Identifier: MIT
#include "input/nearest.hpp"

#include "input/fields.hpp"
#include "input/letters.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <numeric>
#include <vector>

namespace caseload::input {
namespace {

constexpr std::size_t longest_compared = 80;

/// Mistakes allowed in a word of this length.
int allowed(std::size_t length) {
    return length <= 3 ? 1 : length <= 6 ? 2 : 3;
}

std::string last_part(std::string_view key) {
    return std::string(key.substr(key.rfind('.') + 1));  // npos + 1 is 0
}

/// Keys of the table as they would read beside this key: same number of parts, its own name for
/// "*".
std::vector<std::string> candidates(std::string_view key) {
    std::vector<std::string> out;
    const auto dots = std::count(key.begin(), key.end(), '.');
    for (const Field& field : fields())
        if (field.key.find('[') == std::string_view::npos &&
            std::count(field.key.begin(), field.key.end(), '.') == dots)
            out.push_back(with_name_of(field.key, key));
    return out;
}

std::string same_last_part(std::string_view key) {
    const std::string last = last_part(key);
    std::string found;
    for (const Field& field : fields()) {
        if (last_part(field.key) != last || field.key.find('[') != std::string_view::npos) continue;
        // A reading repeats words of the event it was taken in; a bare key is the event's.
        if (field.key.starts_with("reading.")) continue;
        if (!found.empty()) return {};  // several headings have it
        found = std::string(field.key);
    }
    const std::size_t star = found.find('*');
    return star == std::string::npos ? found : found.replace(star, 1, "NAME");
}

std::string keys_under(std::string_view heading) {
    std::vector<std::string> names;
    for (const Field& field : fields()) {
        const std::string own = with_name_of(field.key, heading);
        if (own.size() <= heading.size() + 1 || !own.starts_with(heading) ||
            own[heading.size()] != '.' || own.find('[') != std::string::npos)
            continue;
        std::string name = own.substr(heading.size() + 1);
        name.resize(std::min(name.find('.'), name.size()));
        if (std::find(names.begin(), names.end(), name) == names.end()) names.push_back(name);
    }
    return fmt::format("{}", fmt::join(names, ", "));
}

std::string headings() {
    std::vector<std::string> names;
    for (const Field& field : fields()) {
        const std::size_t dot = field.key.find('.');
        if (dot == std::string_view::npos) continue;
        const std::string name(field.key.substr(0, dot));
        if (std::find(names.begin(), names.end(), name) == names.end()) names.push_back(name);
    }
    return fmt::format("{}", fmt::join(names, ", "));
}

}  // namespace

int edit_distance(std::string_view a, std::string_view b) {
    a = a.substr(0, longest_compared);
    b = b.substr(0, longest_compared);
    std::vector<std::vector<int>> cost(a.size() + 1, std::vector<int>(b.size() + 1, 0));
    for (std::size_t i = 0; i <= a.size(); ++i) cost[i][0] = static_cast<int>(i);
    std::iota(cost[0].begin(), cost[0].end(), 0);
    for (std::size_t i = 1; i <= a.size(); ++i)
        for (std::size_t j = 1; j <= b.size(); ++j) {
            const int replaced = cost[i - 1][j - 1] + (a[i - 1] == b[j - 1] ? 0 : 1);
            cost[i][j] = std::min({cost[i - 1][j] + 1, cost[i][j - 1] + 1, replaced});
            if (i > 1 && j > 1 && a[i - 1] == b[j - 2] && a[i - 2] == b[j - 1])
                cost[i][j] = std::min(cost[i][j], cost[i - 2][j - 2] + 1);
        }
    return cost[a.size()][b.size()];
}

namespace {

std::string nearest(std::span<const std::string> words, std::string_view word, int most) {
    std::string best;
    int least = most + 1;
    for (const std::string& candidate : words) {
        const int distance = edit_distance(lower(candidate), lower(word));
        if (distance >= least) continue;
        least = distance;
        best = candidate;
    }
    return best;
}

}  // namespace

std::string nearest_word(std::span<const std::string> words, std::string_view word) {
    return nearest(words, word, allowed(word.size()));
}

std::string hint_for_heading(std::string_view key) {
    const std::string heading(key.substr(0, key.find('.')));
    const std::string last = last_part(key);
    const std::string named = heading + ".NAME." + last;
    if (last != heading && find_field(named) != nullptr)
        return fmt::format("each {} has a name of its own: {}", heading, named);
    return fmt::format("keys of {} are {}", key, keys_under(key));
}

KeyHint hint_for_key(std::string_view key) {
    // A dotted key written below a heading belongs to that heading.
    for (std::size_t dot = key.find('.'); dot != std::string_view::npos;
         dot = key.find('.', dot + 1)) {
        const std::string_view rest = key.substr(dot + 1);
        if (is_heading(key.substr(0, dot)) && find_field(rest) != nullptr)
            return {fmt::format("the line is under [{}]; put {} above the first heading, or under "
                                "its own",
                                key.substr(0, dot), rest),
                    std::string(rest)};
    }
    const std::string near = nearest(candidates(key), key, allowed(last_part(key).size()));
    if (near == key) return {"names are made of letters, digits, - and _", {}};
    if (!near.empty()) return {fmt::format("did you mean {}?", near), near};
    const std::string elsewhere = same_last_part(key);
    if (!elsewhere.empty()) return {fmt::format("did you mean {}?", elsewhere), elsewhere};
    for (std::size_t dot = key.rfind('.'); dot != std::string_view::npos && dot > 0;
         dot = key.rfind('.', dot - 1)) {
        const std::string_view heading = key.substr(0, dot);
        if (is_heading(heading))
            return {fmt::format("keys of {} are {}", heading, keys_under(heading)), {}};
    }
    return {fmt::format("headings are {}", headings()), {}};
}

}  // namespace caseload::input
