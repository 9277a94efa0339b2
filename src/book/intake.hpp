// SPDX-License-Identifier: MIT
// What both readers of a book's text share: records one by one, and limits.
#pragma once

#include "caseload/book/record.hpp"

#include <set>
#include <string>
#include <string_view>

namespace caseload::book {

class Intake {
public:
    /// Throws Error{input} if the text is larger than a book's, or UTF-16.
    Intake(std::string_view text, std::string name);

    /// The record before is complete.
    void begin(Record record, int line);
    /// The one that was begun last; none: nullptr.
    [[nodiscard]] Record* last();
    /// All of them. Throws Error{input} like `begin`.
    Incoming finish();
    [[noreturn]] void refuse(int line, const std::string& text, const std::string& hint = {}) const;

private:
    void check_last();

    Incoming in_;
    std::set<std::string> ids_;
};

/// Throws Error{input} if the readers would not take this book back.
void require_readable(std::span<const Record> records, std::string_view form);

}  // namespace caseload::book
