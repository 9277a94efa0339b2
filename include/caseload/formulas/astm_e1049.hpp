// SPDX-License-Identifier: MIT
// ASTM E1049-85: rainflow counting, the three-point variant that counts what contains the start and
// what is left at the end as half cycles. Four-point and HCM variants treat that rest differently.
#pragma once

#include <cstddef>
#include <vector>

namespace caseload::astm_e1049 {

/// A series that comes point by point. Calls sink(from, to, count) for each cycle.
/// Source   astm-e1049, 5.4.4
class Counter {
public:
    template <class Sink>
    void add(double x, Sink&& sink) {
        if (count_ == 0) {
            last_ = x;
            count_ = 1;
            push(x, sink);
            return;
        }
        if (x == last_) return;
        const bool rises = x > last_;
        if (count_ > 1 && rises != rising_) push(last_, sink);
        rising_ = rises;
        last_ = x;
        count_ = 2;
    }

    /// Ends the series: its last point turns it, the rest counts half.
    template <class Sink>
    void finish(Sink&& sink) {
        if (count_ > 1) push(last_, sink);
        for (std::size_t i = 1; i < open_.size(); ++i) sink(open_[i - 1], open_[i], 0.5);
        open_.clear();
        count_ = 0;
    }

    /// Turning points not yet counted.
    [[nodiscard]] std::size_t open() const { return open_.size(); }

private:
    template <class Sink>
    void push(double x, Sink&& sink) {
        open_.push_back(x);
        while (open_.size() >= 3) {
            const std::size_t n = open_.size();
            const double newest = size(open_[n - 1] - open_[n - 2]);
            const double before = size(open_[n - 2] - open_[n - 3]);
            if (newest < before) return;
            if (n == 3) {
                sink(open_[0], open_[1], 0.5);
                open_.erase(open_.begin());
            } else {
                sink(open_[n - 3], open_[n - 2], 1.0);
                open_[n - 3] = open_[n - 1];
                open_.resize(n - 2);
            }
        }
    }
    static double size(double x) { return x < 0 ? -x : x; }

    std::vector<double> open_;
    double last_ = 0;
    int count_ = 0;  ///< 0: nothing read; 1: one value; 2: a direction is known
    bool rising_ = false;
};

}  // namespace caseload::astm_e1049
