// SPDX-License-Identifier: MIT
// Life rates of one bearing in one bin at many film temperatures and in several classes of
// cleanliness: what does not depend on them is calculated once.
#pragma once

#include "caseload/damage.hpp"
#include "caseload/formulas/iso_281.hpp"

#include <cstddef>
#include <vector>

namespace caseload {

/// The setup's oil in a class as `Factors::cleanliness` has it.
iso_281::Cleanliness cleanliness_in_class(const Setup& setup, int of_class);

class FilmRates {
public:
    FilmRates(const Prepared& prepared, const BearingPlace& place, const std::vector<int>& classes);

    /// What all classes share at one film temperature.
    struct Film {
        double kappa;
        double A;      ///< of a_ISO
        double power;  ///< of e_C
    };
    [[nodiscard]] Film at(double film_degC) const;
    /// Life used per hour, by the number of the class: the same as of `bearing_at_film`, but
    /// for the last digits.
    [[nodiscard]] double by_rule_per_h(const Film& film, std::size_t of_class) const;
    /// As if additives helped, and as if they did not.
    struct Both {
        double helped_per_h = 0;
        double not_helped_per_h = 0;
    };
    [[nodiscard]] Both both_per_h(const Film& film, std::size_t of_class) const;

private:
    struct Load {
        double weight;
        double g;  ///< of C_u / P
        double life_Mrev;
    };
    /// a_ISO without the additives' help, and with it.
    [[nodiscard]] double plain(const Film& film, double g) const;
    [[nodiscard]] double helped(const Film& film, double g, double plain) const;
    [[nodiscard]] double rate_per_h(const Load& load, double a_ISO) const;

    BearingKind kind_;
    bool additives_;
    double life_;
    double n_rpm_;
    astm_d341::Line oil_;
    double reference_mm2ps_ = 1;
    double A_at_1_ = 0;  ///< at kappa 1
    double most_g_ = 0;
    std::vector<iso_281::Contamination> classes_;
    std::vector<Load> loads_;
};

}  // namespace caseload
