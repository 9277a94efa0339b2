// SPDX-License-Identifier: MIT
// Whether the setup of an event must not run again.
#pragma once

#include "caseload/book/record.hpp"

#include <map>
#include <span>
#include <string>

namespace caseload::book {

/// Reasons why setups must not run, each setup calculated once.
class Stops {
public:
    explicit Stops(std::span<const Record> records) : records_(records) {}
    /// The reason why this setup is at stop; "" when it is not. `peak_oil_degC`: of the event.
    const std::string& of(const std::string& setup, double peak_oil_degC);

private:
    std::span<const Record> records_;
    std::map<std::string, std::string> known_;
};

}  // namespace caseload::book
