// SPDX-License-Identifier: MIT
// Instants of the log as states of the case: its torque, its speed, whether the car stands still.
#pragma once

#include "caseload/duty/event.hpp"
#include "duty/instants.hpp"
#include "duty/legs.hpp"
#include "duty/sources.hpp"

#include <deque>
#include <optional>
#include <vector>

namespace caseload::duty {

/// Road speed over speed of the case; T_in = F x lever.
[[nodiscard]] double lever_of(const Car& car);

class Derive {
public:
    Derive(const Sources& sources, const DutyOptions& options, Legs& legs);

    void moment(const Instant& instant, double dt_s, bool new_segment);
    /// Of those from..to in order, dt_s of each by its number.
    void moments(const Instants& all, std::size_t from, std::size_t to, const double* dt_s);
    /// A sample without a value that is needed; its road speed may be there.
    void unknown(const Instant& instant, double dt_s);
    /// Time without samples.
    void gap(double dt_s);
    void finish();

    [[nodiscard]] const std::vector<GearSeen>& gears() const { return gears_; }
    [[nodiscard]] double no_gear_s() const { return no_gear_s_; }
    [[nodiscard]] double slip_s() const { return slip_s_; }
    /// Time that could not be read, with the car standing still at both ends.
    [[nodiscard]] double rest_s() const { return rest_s_; }
    [[nodiscard]] std::optional<double> ambient_degC() const;
    [[nodiscard]] std::vector<double> oil_degC() const;

private:
    struct Moving {
        Instant instant;
        double dt_s;
        double t_s;
    };

    void moments_logged(const Instants& all, std::size_t from, std::size_t to, const double* dt_s);
    // Of an Instant or an InstantOf.
    template <class At>
    void state_of(const At& instant, double dt_s, double acceleration_mps2);
    /// Ratio of the gearbox; 0: neutral; less: not known.
    template <class At>
    [[nodiscard]] double gear_ratio(const At& instant, double dt_s);
    template <class At>
    [[nodiscard]] double torque_Nm(const At& instant, const State& state, double ratio,
                                   double acceleration_mps2) const;
    [[nodiscard]] double motoring_Nm(double speed_rpm) const;
    /// Of the case; by the road where the clutch slips or nothing is in gear.
    template <class At>
    double speed_by_gear_rpm(const At& instant, const State& state, double ratio);
    void settle(double until_s);
    void flush();
    template <class At>
    [[nodiscard]] std::optional<double> road_mps_of(const At& instant) const;
    /// Ends a time whose road speed is not known: it goes evenly from that before to this.
    void close_unknown(double road_mps);
    void pass_unknown(double dt_s, double way_m, bool stands);
    template <class At>
    void temperatures(const At& instant, double dt_s);

    Sources sources_;
    bool geared_;  ///< speed or torque needs the gearbox's ratio
    const DutyOptions& options_;
    Legs& legs_;
    double lever_m_ = 0;  ///< T_in = F x lever
    std::vector<GearSeen> gears_;
    double no_gear_s_ = 0;
    double slip_s_ = 0;  ///< of the clutch, where a column has the gear
    double ambient_degC_s_ = 0;
    double ambient_s_ = 0;
    std::vector<double> oil_s_;  ///< time by the nearest 1 K from -50 degC
    std::deque<Moving> moving_;  ///< where torque comes from motion: the window to each side
    std::size_t settled_ = 0;    ///< of moving_, already states
    double unknown_s_ = 0;       ///< whose road speed the next sample has to say
    double rest_s_ = 0;
    double last_mps_ = 0;
    bool last_known_ = false;
    bool last_engine_off_ = false;
};

}  // namespace caseload::duty
