// SPDX-License-Identifier: MIT
#include "damage/film_rates.hpp"

#include <algorithm>

namespace caseload {

iso_281::Cleanliness cleanliness_in_class(const Setup& setup, int of_class) {
    // Codes of the life standard's table lie two numbers apart.
    constexpr int codes_a_class = 2;
    return {setup.oil.filter == Filter::in_line ? iso_281::FilterGroup::in_line
                                                : iso_281::FilterGroup::off_line_or_bath,
            setup.oil.code_14um + codes_a_class * of_class};
}

FilmRates::FilmRates(const Prepared& prepared, const BearingPlace& place,
                     const std::vector<int>& classes)
    : kind_(prepared.loads.bearings[place.bearing].kind),
      additives_(prepared.setup->oil.ep_additive),
      life_(prepared.setup->factors.life),
      n_rpm_(prepared.losses[place.leg].bins[place.bin].bearings[place.bearing].n_rpm),
      oil_(prepared.oil.sheared) {
    if (n_rpm_ <= 0) return;
    const BearingData& data = prepared.loads.bearings[place.bearing];
    for (const int one : classes)
        classes_.emplace_back(cleanliness_in_class(*prepared.setup, one), data.d_m_mm);
    reference_mm2ps_ =
        iso_281::reference_viscosity_mm2ps({.n_rpm = n_rpm_, .D_pw_mm = data.d_m_mm});
    A_at_1_ = iso_281::film_term(kind_, 1);
    most_g_ = iso_281::clean_term(kind_, iso_281::most_clean_x);
    for (const LoadState& state : prepared.loads.legs[place.leg].bins[place.bin].for_life) {
        const BearingLoad& load = state.bearings[place.bearing];
        const double P_N = equivalent_load_N(data, load);
        if (P_N <= 0) continue;
        loads_.push_back(
            {state.weight, iso_281::clean_power(kind_, data.C_u_N / P_N),
             iso_281::basic_life_Mrev({data.C_N, P_N, iso_281::life_exponent(data.kind)})});
    }
}

FilmRates::Film FilmRates::at(double film_degC) const {
    if (n_rpm_ <= 0) return {};
    const double kappa =
        astm_d341::viscosity_mm2ps(oil_, std::min(film_degC, hottest_film_degC)) / reference_mm2ps_;
    return {kappa, kappa < iso_281::least_kappa ? 0 : iso_281::film_term(kind_, kappa),
            iso_281::Contamination::power(kappa)};
}

double FilmRates::plain(const Film& film, double g) const {
    if (film.kappa < iso_281::least_kappa) return iso_281::least_life_factor;
    return iso_281::life_factor(kind_, iso_281::LifeTerms{film.A, g});
}

double FilmRates::helped(const Film& film, double g, double plain) const {
    if (!additives_ || film.kappa >= 1 || plain >= iso_281::most_helped) return plain;
    const double full = iso_281::life_factor(kind_, iso_281::LifeTerms{A_at_1_, g});
    return std::max(plain, std::min(iso_281::most_helped, full));
}

double FilmRates::rate_per_h(const Load& load, double a_ISO) const {
    return load.weight / iso_281::hours_h({life_ * a_ISO * load.life_Mrev, n_rpm_});
}

double FilmRates::by_rule_per_h(const Film& film, std::size_t of_class) const {
    if (n_rpm_ <= 0) return 0;
    const double e_C = classes_[of_class].factor(film.power);
    const bool help = film.kappa >= iso_281::least_kappa && e_C >= iso_281::least_e_C_ep;
    const double g_C = iso_281::clean_power(kind_, e_C);
    double sum_per_h = 0;
    for (const Load& load : loads_) {
        const double g = std::min(g_C * load.g, most_g_);
        const double alone = plain(film, g);
        sum_per_h += rate_per_h(load, help ? helped(film, g, alone) : alone);
    }
    return sum_per_h;
}

FilmRates::Both FilmRates::both_per_h(const Film& film, std::size_t of_class) const {
    Both both;
    if (n_rpm_ <= 0) return both;
    const double e_C = classes_[of_class].factor(film.power);
    const double g_C = iso_281::clean_power(kind_, e_C);
    for (const Load& load : loads_) {
        const double g = std::min(g_C * load.g, most_g_);
        const double alone = plain(film, g);
        both.helped_per_h += rate_per_h(load, helped(film, g, alone));
        both.not_helped_per_h += rate_per_h(load, alone);
    }
    return both;
}

}  // namespace caseload
