// SPDX-License-Identifier: MIT
// The entries of tests/golden/bad.txt; their form is described at its top.
#pragma once

#include "files.hpp"

#include <algorithm>
#include <cstddef>
#include <map>
#include <set>
#include <string>
#include <vector>

namespace bad_setups {

struct BadSetup {
    std::string name;
    std::string base;
    std::string setup;      ///< as it is read
    std::string refusal;    ///< exact
    std::set<int> changed;  ///< lines of the setup that its base does not have
};

/// The base with one line before it, edited; sets what changed.
inline void apply_edits(const std::vector<std::string>& edits, BadSetup& bad) {
    std::vector<std::string> lines =
        test_files::lines("# " + bad.name + "\n" +
                          test_files::file_text(test_files::root + "tests/golden/" + bad.base));
    std::map<std::size_t, std::string> instead;
    std::map<std::size_t, std::vector<std::string>> before;
    std::set<std::size_t> left_out;
    for (const std::string& edit : edits) {
        const std::size_t colon = edit.find(':');
        const std::string where = edit.substr(0, colon);
        const std::string text = edit.substr(std::min(colon + 2, edit.size()));
        std::size_t digits = 0;
        const std::size_t first = std::stoul(where, &digits);
        if (digits == where.size()) {
            instead[first] = text;
        } else if (where[digits] == '+') {
            before[first].push_back(text);
        } else {
            const bool to_end = digits + 1 == where.size();
            const std::size_t last = to_end ? lines.size() : std::stoul(where.substr(digits + 1));
            for (std::size_t line = first; line <= last; ++line) left_out.insert(line);
        }
    }
    int written = 0;
    for (std::size_t line = 1; line <= lines.size() + 1; ++line) {
        for (const std::string& text : before[line]) {
            bad.setup += text + "\n";
            bad.changed.insert(++written);
        }
        if (line > lines.size() || left_out.count(line) == 1) continue;
        const auto other = instead.find(line);
        bad.setup += (other == instead.end() ? lines[line - 1] : other->second) + "\n";
        ++written;
        if (other != instead.end()) bad.changed.insert(written);
    }
}

inline std::vector<BadSetup> entries() {
    std::vector<BadSetup> all;
    std::vector<std::string> edits;
    bool in_refusal = true;
    for (const std::string& line :
         test_files::lines(test_files::file_text(test_files::root + "tests/golden/bad.txt"))) {
        if (line.rfind("=== ", 0) == 0) {
            const std::size_t of = line.find(" of ");
            all.push_back({line.substr(4, of - 4), line.substr(of + 4), {}, {}, {}});
            in_refusal = false;
        } else if (all.empty()) {
            continue;  // how to read it
        } else if (!in_refusal && line == "---") {
            apply_edits(edits, all.back());
            edits.clear();
            in_refusal = true;
        } else if (in_refusal) {
            all.back().refusal += line + "\n";
        } else {
            edits.push_back(line);
        }
    }
    return all;
}

}  // namespace bad_setups
