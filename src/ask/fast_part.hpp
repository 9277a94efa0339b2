// SPDX-License-Identifier: MIT
// A part of the tables of the fast case that several cases may have in common.
#pragma once

#include "caseload/for_each.hpp"

#include <cstddef>
#include <mutex>
#include <vector>

namespace caseload {

/// Made once, by who needs it first, and never changed after.
class TablesPart {
public:
    virtual ~TablesPart() = default;
    TablesPart(const TablesPart&) = delete;
    TablesPart& operator=(const TablesPart&) = delete;

protected:
    TablesPart() = default;
    /// Pieces of work that threads may share, each with its own place.
    [[nodiscard]] virtual std::size_t pieces() const = 0;
    /// May be called again where it threw.
    virtual void make(std::size_t piece) = 0;

private:
    friend void make_parts(const std::vector<TablesPart*>& parts, const ForEach& for_each);
    std::mutex making_;
    bool made_ = false;
};

/// Makes those that are not made, all of their pieces together. Callers that share some of them
/// list them in the same order of kinds.
void make_parts(const std::vector<TablesPart*>& parts, const ForEach& for_each);

}  // namespace caseload
