// SPDX-License-Identifier: MIT
#include "cli/log_progress.hpp"

#include <cstdio>

#ifdef _WIN32
#include <io.h>
#else
#include <unistd.h>
#endif

namespace caseload {
namespace {

constexpr std::uint64_t long_log_bytes = std::uint64_t{256} << 20U;

bool on_a_terminal() {
#ifdef _WIN32
    return _isatty(_fileno(stderr)) != 0;
#else
    return isatty(fileno(stderr)) != 0;
#endif
}

}  // namespace

LogProgress::LogProgress(std::uint64_t bytes_of_all)
    : bytes_of_all_(bytes_of_all), wanted_(bytes_of_all > long_log_bytes && on_a_terminal()) {}

std::function<void(std::uint64_t bytes)> LogProgress::of_next() {
    return [this, before = std::uint64_t{0}](std::uint64_t bytes) mutable {
        const std::lock_guard<std::mutex> lock(mutex_);
        read_ += bytes - before;
        before = bytes;
        std::fprintf(stderr, "\r%3.0f %%",
                     100.0 * static_cast<double>(read_) / static_cast<double>(bytes_of_all_));
    };
}

void LogProgress::clear() {
    if (wanted_) std::fputs("\r     \r", stderr);
}

}  // namespace caseload
