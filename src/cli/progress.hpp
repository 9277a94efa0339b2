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

/// Shown on standard error where that is a terminal, from the second second on, so that no file and
/// no answer in a moment ever holds it. It goes away before the answer is printed: clear() or the
/// end of this.
class Progress {
public:
    /// `shares`: about what part of the whole each coming round of pieces takes, 0 to 1, in order.
    /// A round that is not listed is given half of what is then left.
    explicit Progress(std::vector<double> shares = {});
    ~Progress() { clear(); }
    Progress(const Progress&) = delete;
    Progress& operator=(const Progress&) = delete;

    /// The same work, each piece counted as it ends. What runs within a piece counts by itself
    /// where it is given this too, so it is given the work unwatched.
    [[nodiscard]] ForEach watched(ForEach work);

    /// For one more log of these many bytes in all: called with the bytes of it that are read.
    [[nodiscard]] std::function<void(std::uint64_t bytes)> of_next_log(std::uint64_t bytes_of_all);

    /// The terminal is asked for once, here.
    [[nodiscard]] bool wanted() const { return wanted_; }
    void clear();

private:
    using Clock = std::chrono::steady_clock;
    [[nodiscard]] double share_of_next();
    void add(double share);

    std::mutex mutex_;
    std::vector<double> shares_;
    std::size_t rounds_ = 0;
    double begun_ = 0;  ///< share of all rounds that have begun
    double done_ = 0;
    bool wanted_;
    Clock::time_point start_ = Clock::now();
    Clock::time_point shown_{};
    std::size_t width_ = 0;  ///< of what is shown
};

/// "37 %, 12 s left"; minutes from 100 s on. `done` above 0, up to 1.
std::string progress_words(double done, double elapsed_s);

}  // namespace caseload
