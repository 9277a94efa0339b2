// SPDX-License-Identifier: MIT
// What the book's command line holds, and what it writes into the book.
#pragma once

#include "caseload/book/record.hpp"

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

/// A day more than this machine's is taken: the writer may be ahead by a time zone.
void refuse_future(const book::Record& record);

void add_event(const BookArguments& a);
void add(const BookArguments& a, const std::string& kind);
void correct(const BookArguments& a);

}  // namespace caseload
