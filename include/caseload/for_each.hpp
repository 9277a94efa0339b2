// SPDX-License-Identifier: MIT
// Pieces of work that may be shared by threads. The library starts none: a caller that has threads
// passes a ForEach.
#pragma once

#include <cstddef>
#include <functional>

namespace caseload {

/// Runs body(i) for i from 0 to n - 1, in any order and from any threads: body(i) stores its result
/// at place i. It may run twice for an i at which std::bad_alloc was thrown.
using ForEach = std::function<void(std::size_t n, const std::function<void(std::size_t)>& body)>;
void one_by_one(std::size_t n, const std::function<void(std::size_t)>& body);

}  // namespace caseload
