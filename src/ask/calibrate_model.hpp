// SPDX-License-Identifier: MIT
// Calculated temperatures at the place and time of each reading.
#pragma once

#include "ask/fast_case.hpp"
#include "caseload/ask/measured.hpp"

#include <cstddef>
#include <memory>
#include <string>
#include <vector>

namespace caseload {

/// One temperature that was read.
struct Observation {
    std::string reading;  ///< name of its section
    bool oil = true;      ///< node: the oil, else the housing
    double low_degC = 0;  ///< what is known of it; low = high for a thermometer
    double high_degC = 0;
    double scatter_K = 0;  ///< one standard deviation
    std::size_t run = 0;
    bool highest = false;    ///< a temperature label keeps the highest of the run
    std::size_t moment = 0;  ///< of a logged run: its place in the trace
    bool logged = false;
};

/// The runs the readings were taken in, each with its tables.
class ReadingModel {
public:
    explicit ReadingModel(const Setup& setup, const ForEach& for_each = one_by_one);

    [[nodiscard]] const std::vector<Observation>& observations() const { return observations_; }
    /// Temperature of each observation.
    [[nodiscard]] std::vector<double> at(const Factors& factors) const;

private:
    struct Run {
        std::string leg;
        double ambient_degC;
        double start_degC;
        double duration_s;
        bool cooler;
        std::vector<double> at_s;  ///< moments of a log
        std::shared_ptr<const FastCase> fast;
    };
    [[nodiscard]] static bool alike(const Run& a, const Run& b) {
        return a.leg == b.leg && a.ambient_degC == b.ambient_degC && a.start_degC == b.start_degC &&
               a.cooler == b.cooler;
    }
    std::size_t run_of(Run run);
    void follow_logs_in_longer_runs();
    static FastCase case_of(const Setup& setup, const Run& run);

    std::vector<Run> runs_;
    std::vector<Observation> observations_;
};

}  // namespace caseload
