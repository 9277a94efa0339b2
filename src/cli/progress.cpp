// SPDX-License-Identifier: MIT
#include "cli/progress.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <cstdio>
#include <memory>
#include <utility>

#ifdef _WIN32
#include <io.h>
#else
#include <unistd.h>
#endif

namespace caseload {
namespace {

// A shorter wait needs no progress.
constexpr std::chrono::seconds patience{2};
constexpr std::chrono::milliseconds between_words{200};

bool on_a_terminal(std::FILE* stream) {
#ifdef _WIN32
    return _isatty(_fileno(stream)) != 0;
#else
    return isatty(fileno(stream)) != 0;
#endif
}

}  // namespace

bool out_on_a_terminal() {
    return on_a_terminal(stdout);
}

std::string progress_words(double done, double elapsed_s) {
    const double left_s = elapsed_s * (1 - done) / done;
    // Never 100 %: the answer itself says that it is there.
    const double percent = std::min(std::floor(100 * done), 99.0);
    if (left_s < 100) return fmt::format("{:.0f} %, {:.0f} s left", percent, std::ceil(left_s));
    return fmt::format("{:.0f} %, {:.0f} min left", percent, std::ceil(left_s / 60));
}

Progress::Progress() : wanted_(on_a_terminal(stderr)) {}

void Progress::add(double share) {
    const std::lock_guard<std::mutex> lock(mutex_);
    done_ += share;
    const Clock::time_point now = Clock::now();
    if (now - start_ < patience || now - shown_ < between_words) return;
    shown_ = now;
    const std::string words =
        progress_words(done_, std::chrono::duration<double>(now - start_).count());
    const std::size_t left_over = width_ > words.size() ? width_ - words.size() : 0;
    width_ = words.size();
    std::fprintf(stderr, "\r%s%s", words.c_str(), std::string(left_over, ' ').c_str());
    std::fflush(stderr);
}

void Progress::clear() {
    const std::lock_guard<std::mutex> lock(mutex_);
    if (width_ == 0) return;
    std::fprintf(stderr, "\r%s\r", std::string(width_, ' ').c_str());
    std::fflush(stderr);
    width_ = 0;
}

ForEach Progress::watched(ForEach work, Shares shares) {
    if (!wanted_) return work;
    struct Begun {
        std::size_t rounds = 0;
        double share = 0;  ///< of all rounds so far
    };
    // A round of this many pieces takes half of what is left to rounds that are not listed.
    constexpr double usual_pieces = 64;
    return [this, work = std::move(work), shares = std::move(shares),
            begun = std::make_shared<Begun>()](std::size_t n,
                                               const std::function<void(std::size_t)>& body) {
        if (n == 0) return;
        const auto pieces = static_cast<double>(n);
        const double left = 1 - begun->share;
        const double share = begun->rounds < shares.rounds.size()
                                 ? std::min(shares.rounds[begun->rounds], left)
                                 : left * pieces / (pieces + usual_pieces);
        ++begun->rounds;
        begun->share += share;
        work(n, [&](std::size_t i) {
            body(i);
            add(shares.part * share / pieces);
        });
    };
}

std::function<void(std::uint64_t bytes)> Progress::of_next_log(std::uint64_t bytes_of_all) {
    return [this, bytes_of_all, before = std::uint64_t{0}](std::uint64_t bytes) mutable {
        add(static_cast<double>(bytes - before) / static_cast<double>(bytes_of_all));
        before = bytes;
    };
}

}  // namespace caseload
