// SPDX-License-Identifier: MIT
#include "bins/measures.hpp"

#include <cmath>
#include <iterator>

namespace caseload::bins {
namespace {

// Sums of turns x |T|^torque x n^speed. Rolling bearings 3 and 10/3 in torque, steeper with the
// life factor; mesh friction 1; drag 0.6 (bearings) to 2 (thrown oil) of speed, one less a turn. 7
// and 9 are near those of flanks (6.6) and roots (8.7, ISO 6336-2, -3) where no setup names the
// teeth. Importance and tolerance of the sum over a leg are judgement: tests/duty/bins_test.cpp
// checks the promises with them.
struct Power {
    double torque;
    double speed;
    double importance;
    double tolerance;
};
constexpr Power powers[] = {
    {0, 0, 1, 0.0003},        // revolutions
    {1, 0, 3, 0.0003},        // friction heat
    {3, 0, 1, 0.001},         // ball bearings
    {10.0 / 3, 0, 1, 0.001},  // roller bearings
    {5, 0.3, 1, 0.001},       // bearings with the life factor
    {7, 0, 0.5, 0.002},       // flanks
    {9, 0, 0.5, 0.002},       // roots
    {0, 0.6, 2, 0.001},       // drag of bearings
    {0, 1, 2, 0.0007},        // thrown oil
};
static_assert(powers[0].torque == 0 && powers[0].speed == 0, "turns themselves");
constexpr double tooth_tolerance = 0.0005;
// A set in the trailer is followed less closely than the one fitted.
constexpr double other_importance = 0.3;
constexpr double other_tolerance = 0.005;

}  // namespace

Measures::Measures(std::shared_ptr<const TurnDamage> teeth) : teeth_(std::move(teeth)) {
    for (const Power& one : powers)
        kept_.push_back({one.torque, one.importance, one.tolerance, kept_.size(), one.speed == 0});
    first_tooth_ = kept_.size();
    if (!teeth_) return;
    for (std::size_t k = 0; k < teeth_->parts().size(); ++k) {
        const TurnDamage::Part& part = teeth_->parts()[k];
        kept_.push_back({part.root ? 9.0 : 7.0, part.fitted ? 1 : other_importance,
                         part.fitted ? tooth_tolerance : other_tolerance,
                         first_tooth_ + teeth_->other_side(k), false});
    }
}

double Measures::log_of_size(double size) {
    return size > 0 ? std::log(size) : -1e3;
}

void Measures::values(double turns, double torque_Nm, double speed_rpm, double* to) const {
    values(turns, torque_Nm, speed_rpm, log_of_size(std::fabs(torque_Nm)), log_of_size(speed_rpm),
           to);
}

void Measures::values(double turns, double torque_Nm, double speed_rpm, double log_torque,
                      double log_speed, double* to) const {
    for (std::size_t k = 0; k < count(); ++k) to[k] = 0;
    if (turns <= 0 || speed_rpm <= 0) return;
    to[0] = turns;
    for (std::size_t k = 1; k < std::size(powers); ++k)
        to[k] = turns * std::exp(powers[k].torque * log_torque + powers[k].speed * log_speed);
    if (teeth_) teeth_->add(turns, torque_Nm, speed_rpm, to + first_tooth_);
}

}  // namespace caseload::bins
