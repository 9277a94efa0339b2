// SPDX-License-Identifier: MIT
// What the book's command line holds.
#pragma once

#include <string>
#include <utility>
#include <vector>

namespace caseload {

struct BookArguments {
    std::string file = "shop.book";
    std::string date;
    std::string serial;
    std::string setup;
    std::string position;
    std::string word;
    std::string part;
    std::string set;
    std::string words;
    std::string id;
    std::string path;
    std::vector<std::string> changes;
    std::vector<std::pair<std::string, std::string>> reading;  ///< keys of [reading.NAME]
    int times = 1;
    double shape = 1.5;
    bool late = false;
    bool strike = false;
    bool csv = false;
    bool force = false;
    bool json = false;
};

}  // namespace caseload
