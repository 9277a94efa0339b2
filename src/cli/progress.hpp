// SPDX-License-Identifier: MIT
// How far long work is and how long it will still take, on a terminal only.
#pragma once

#include "caseload/ask/band.hpp"

#include <chrono>
#include <cstddef>
#include <cstdint>
#include <functional>
#include <mutex>
#include <string>
#include <vector>

namespace caseload {

bool out_on_a_terminal();

/// Shown on standard error where that is a terminal, from the second second on, so that it is
/// in no file and in no quick answer. It goes away before the answer is printed: clear() or the
/// end of this.
class Progress {
public:
    Progress();
    ~Progress() { clear(); }
    Progress(const Progress&) = delete;
    Progress& operator=(const Progress&) = delete;

    /// About what each round of pieces takes of some work: listed in order, and of what is then
    /// left the more the more pieces a round has.
    struct Shares {
        double part = 1;               ///< of the whole that this work takes
        std::vector<double> rounds{};  ///< of the part, 0 to 1
    };
    /// The same work, each piece counted as it ends. What runs within a piece is given the work
    /// unwatched.
    [[nodiscard]] ForEach watched(ForEach work, Shares shares);

    /// For one more log of these many bytes in all: called with the bytes of it that are read.
    [[nodiscard]] std::function<void(std::uint64_t bytes)> of_next_log(std::uint64_t bytes_of_all);

    /// The terminal is asked for once, here.
    [[nodiscard]] bool wanted() const { return wanted_; }
    void clear();

private:
    using Clock = std::chrono::steady_clock;
    void add(double share);

    std::mutex mutex_;
    double done_ = 0;
    bool wanted_;
    Clock::time_point start_ = Clock::now();
    Clock::time_point shown_{};
    std::size_t width_ = 0;  ///< of what is shown
};

/// "37 %, 12 s left"; minutes from 100 s on. `done` above 0, up to 1.
std::string progress_words(double done, double elapsed_s);

}  // namespace caseload
