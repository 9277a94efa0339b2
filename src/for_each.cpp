// SPDX-License-Identifier: MIT
#include "caseload/for_each.hpp"

namespace caseload {

void one_by_one(std::size_t n, const std::function<void(std::size_t)>& body) {
    for (std::size_t i = 0; i < n; ++i) body(i);
}

}  // namespace caseload
