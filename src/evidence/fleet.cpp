// SPDX-License-Identifier: MIT
// Published figures on life data: fits of censored sets, and a life multiplier.
#include "caseload/error.hpp"
#include "caseload/evidence.hpp"
#include "evidence/life_sets.hpp"

#include <cmath>
#include <limits>

namespace caseload {
namespace {

using weibull_fit::LifeRecord;

constexpr double running = std::numeric_limits<double>::infinity();

// Long: a list.
std::vector<LifeSet> all_sets() {
    return {
        // Lieblein & Zelen 1956, 23 deep-groove ball bearings, million revolutions, as printed in
        // Lawless
        // 1982. A numeric test only: the popular list takes some still running as failed.
        {"lieblein_zelen",
         {{17.88, 17.88},   {28.92, 28.92},   {33.0, 33.0},   {41.52, 41.52},   {42.12, 42.12},
          {45.6, 45.6},     {48.4, 48.4},     {51.84, 51.84}, {51.96, 51.96},   {54.12, 54.12},
          {55.56, 55.56},   {67.8, 67.8},     {68.64, 68.64}, {68.64, 68.64},   {68.88, 68.88},
          {84.12, 84.12},   {93.12, 93.12},   {98.64, 98.64}, {105.12, 105.12}, {105.84, 105.84},
          {127.92, 127.92}, {128.04, 128.04}, {173.4, 173.4}},
         2.10185,
         81.8746,
         -113.692},
        // AFWAL-TR-83-2079, bearing cages, h, in Meeker & Escobar.
        {"bearing_cage",
         {{230, 230},           {334, 334},          {423, 423},          {990, 990},
          {1009, 1009},         {1510, 1510},        {50, running, 288},  {150, running, 148},
          {250, running, 124},  {350, running, 111}, {450, running, 106}, {550, running, 99},
          {650, running, 110},  {750, running, 114}, {850, running, 119}, {950, running, 127},
          {1050, running, 123}, {1150, running, 93}, {1250, running, 47}, {1350, running, 41},
          {1450, running, 27},  {1550, running, 11}, {1650, running, 6},  {1850, running, 1},
          {2050, running, 2}},
         2.03532,
         11792.2,
         -76.4369},
        // NIST/SEMATECH e-Handbook 8.4.1.3, h.
        {"nist_8_4_1_3",
         {{54, 54},
          {187, 187},
          {216, 216},
          {240, 240},
          {244, 244},
          {335, 335},
          {361, 361},
          {373, 373},
          {375, 375},
          {386, 386},
          {500, running, 10}},
         1.7208,
         606.528,
         -75.1346},
        // O'Connor, shock absorbers, km, in Meeker & Escobar.
        {"shock_absorber",
         {{6700, 6700},     {9120, 9120},     {12200, 12200},   {13150, 13150},   {14300, 14300},
          {17520, 17520},   {20100, 20100},   {20900, 20900},   {22700, 22700},   {26510, 26510},
          {27490, 27490},   {6950, running},  {7820, running},  {8790, running},  {9660, running},
          {9820, running},  {11310, running}, {11690, running}, {11850, running}, {11880, running},
          {12140, running}, {12870, running}, {13330, running}, {13470, running}, {14040, running},
          {17540, running}, {17890, running}, {18450, running}, {18960, running}, {18980, running},
          {19410, running}, {20100, running}, {20150, running}, {20320, running}, {23490, running},
          {27410, running}, {27890, running}, {28100, running}},
         3.16047,
         27718.7,
         -123.9954},
        // Turbine wheels inspected once, 100 h: "inspected" includes the cracked ones. In R's
        // survival
        // package; recomputed.
        {"turbine_wheel",
         {{4, running, 39},  {0, 10, 4},  {10, running, 49}, {0, 14, 2},
          {14, running, 31}, {0, 18, 7},  {18, running, 66}, {0, 22, 5},
          {22, running, 25}, {0, 26, 9},  {26, running, 30}, {0, 30, 9},
          {30, running, 33}, {0, 34, 6},  {34, running, 7},  {0, 38, 22},
          {38, running, 12}, {0, 42, 21}, {42, running, 19}, {0, 46, 21},
          {46, running, 15}},
         2.17578,
         46.777,
         -189.2872}};
}

template <int k>
double fitted(std::string_view name) {
    const weibull_fit::Fit fit = weibull_fit::free_fit(life_set(name).records);
    if constexpr (k == 0) return fit.shape;
    if constexpr (k == 1) return fit.scale;
    return fit.log_likelihood;
}

double multiplier(double probability) {
    const std::vector<LifeRecord> seen{{0.35, 0.35},   {0.62, 0.62},   {0.2, running},
                                       {0.3, running}, {0.4, running}, {0.5, running, 2},
                                       {0.6, running}};
    return weibull_fit::quantile(
        weibull_fit::updated({.shape = 1.5, .a = 2.9703, .b = 2.6445}, seen), probability);
}

constexpr Calculation own_fleet[] = {
    {"fleet-balls-shape", [] { return fitted<0>("lieblein_zelen"); }},
    {"fleet-balls-scale", [] { return fitted<1>("lieblein_zelen"); }},
    {"fleet-cage-shape", [] { return fitted<0>("bearing_cage"); }},
    {"fleet-cage-scale", [] { return fitted<1>("bearing_cage"); }},
    {"fleet-nist-shape", [] { return fitted<0>("nist_8_4_1_3"); }},
    {"fleet-nist-scale", [] { return fitted<1>("nist_8_4_1_3"); }},
    {"fleet-nist-likelihood", [] { return fitted<2>("nist_8_4_1_3"); }},
    {"fleet-nist-mean",
     [] { return fitted<1>("nist_8_4_1_3") * std::tgamma(1 + 1 / fitted<0>("nist_8_4_1_3")); }},
    {"fleet-damper-location", [] { return std::log(fitted<1>("shock_absorber")); }},
    {"fleet-damper-sigma", [] { return 1 / fitted<0>("shock_absorber"); }},
    {"fleet-damper-likelihood", [] { return fitted<2>("shock_absorber"); }},
    {"fleet-multiplier-median", [] { return multiplier(0.5); }},
};

}  // namespace

std::span<const LifeSet> life_sets() {
    static const std::vector<LifeSet> sets = all_sets();
    return sets;
}

const LifeSet& life_set(std::string_view name) {
    for (const LifeSet& set : life_sets())
        if (set.name == name) return set;
    throw Error(Error::Kind::input, "no such set of lives");
}

std::span<const Calculation> fleet_calculations() {
    return own_fleet;
}

}  // namespace caseload
