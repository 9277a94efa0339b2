// SPDX-License-Identifier: MIT
// How far long logs are read, on a terminal only.
#pragma once

#include <cstdint>
#include <functional>
#include <mutex>

namespace caseload {

class LogProgress {
public:
    explicit LogProgress(std::uint64_t bytes_of_all);

    /// Standard error is a terminal, and there is enough to wait for.
    [[nodiscard]] bool wanted() const { return wanted_; }
    /// For one more log; told how many bytes of it are read.
    [[nodiscard]] std::function<void(std::uint64_t bytes)> of_next();
    void clear();

private:
    std::uint64_t bytes_of_all_;
    bool wanted_;
    std::mutex mutex_;
    std::uint64_t read_ = 0;
};

}  // namespace caseload
