// SPDX-License-Identifier: MIT
// What a call is refused with.
#pragma once

#include "caseload/error.hpp"

#include <doctest/doctest.h>

#include <optional>

/// The error a call ends with; none where it ends without one.
template <class Call>
std::optional<caseload::Error> error_of(const Call& call) {
    try {
        call();
    } catch (const caseload::Error& error) {
        return error;
    }
    return std::nullopt;
}

/// The same of a call that must be refused.
template <class Call>
caseload::Error refused_by(const Call& call) {
    const auto error = error_of(call);
    REQUIRE(error.has_value());
    return *error;
}
