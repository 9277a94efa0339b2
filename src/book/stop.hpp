// SPDX-License-Identifier: MIT
// The setups of last events: their rules, and whether they must not run again.
#pragma once

#include "caseload/book/state.hpp"

#include <map>
#include <optional>
#include <span>
#include <string>
#include <vector>

namespace caseload::book {

struct SetupSays {
    RulesInput rules;
    double oil_stop_degC = 0;
    double reliability = 0;
    std::string stop;                ///< the reason why it must not run again; "": it may
    std::vector<std::string> watch;  ///< checks to watch, and to look at when opened
    std::vector<std::string> look;
};

/// Each setup of a last event, read and calculated once however many cases ran it.
class LastSetups {
public:
    LastSetups(const State& state, std::span<const Record> records, const ForEach& for_each);
    /// Throws Error as its reading or its calculation did.
    [[nodiscard]] const SetupSays& of(const std::string& setup) const;

private:
    struct Asked {
        std::string text;
        double peak_oil_degC = 0;  ///< of the event, as the book has it
        SetupSays says;
        std::optional<Error> refused;
    };
    std::map<std::string, Asked> setups_;
};

}  // namespace caseload::book
