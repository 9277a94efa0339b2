// SPDX-License-Identifier: MIT
// Pieces of work that may be done side by side. The library has no threads of its own: who has some
// hands in a ForEach.
#pragma once

#include <cstddef>
#include <functional>

namespace caseload {

/// Runs body(i) for i from 0 to n - 1, in any order and from any threads: results stand by number.
/// It may run twice for an i at which std::bad_alloc was thrown.
using ForEach = std::function<void(std::size_t n, const std::function<void(std::size_t)>& body)>;
void one_by_one(std::size_t n, const std::function<void(std::size_t)>& body);

}  // namespace caseload
