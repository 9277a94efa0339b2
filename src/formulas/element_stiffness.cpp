// SPDX-License-Identifier: MIT
#include "caseload/formulas/element_stiffness.hpp"

#include "caseload/error.hpp"

#include <cmath>

namespace caseload::element_stiffness {

double exponent(Contact contact) {
    return contact == Contact::ball ? 3.0 / 2 : 10.0 / 9;
}

double K_n(const Element& element) {
    if (element.contact == Contact::ball) {
        require_positive(element.D_w_mm, "D_w_mm");
        return 97190 * std::sqrt(element.D_w_mm);
    }
    require_positive(element.L_we_mm, "L_we_mm");
    return 35948 * std::pow(element.L_we_mm, 8.0 / 9);
}

}  // namespace caseload::element_stiffness
