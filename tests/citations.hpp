// SPDX-License-Identifier: MIT
// The places of sources that formula headers cite.
#pragma once

#include "files.hpp"

#include <regex>
#include <string>
#include <vector>

namespace test_files {

struct Read {
    std::vector<std::string> found;
    std::vector<std::string> problems;
};

/// "key clause" of each Source line.
inline Read citations(const std::string& header) {
    static const std::regex form("/// Source +([a-z0-9-]+), ([^ ]+)");
    Read read;
    for (const std::string& line : lines(header)) {
        if (line.find("/// Source") == std::string::npos) continue;
        std::smatch part;
        if (std::regex_match(line, part, form))
            read.found.push_back(part.str(1) + " " + part.str(2));
        else
            read.problems.push_back("not \"Source key, place\": " + line);
    }
    return read;
}

}  // namespace test_files
