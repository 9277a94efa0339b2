// SPDX-License-Identifier: MIT
// One event many times over, from tables made once. tests/ask holds the results against the direct
// chain.
#pragma once

#include "ask/fast_tables.hpp"
#include "caseload/ask/band.hpp"

namespace caseload {

class FastCase {
public:
    explicit FastCase(const Setup& setup) : tables_(setup) {}

    [[nodiscard]] DrawResult run(const Factors& factors, bool cooler) const;

private:
    FastTables tables_;
};

}  // namespace caseload
