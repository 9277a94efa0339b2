// SPDX-License-Identifier: MIT
// Lines of a log side by side by channel: what is the same for each is done for many at once.
#pragma once

#include "caseload/duty/log.hpp"

#include <array>
#include <cstddef>
#include <cstdint>

namespace caseload::duty {

struct Instants {
    static constexpr std::size_t most = 256;  ///< the columns of few channels stay in the L1 cache

    std::size_t count = 0;
    std::array<std::uint32_t, most> present{};  ///< bit by channel
    /// Channel by channel; any number of one that is not present. That of time is t_s, whatever its
    /// form.
    std::array<double, channel_count * most> values{};

    [[nodiscard]] bool full() const { return count == most; }
    [[nodiscard]] static constexpr std::size_t place(Channel channel) {
        return index(channel) * most;
    }
    [[nodiscard]] double* of(Channel channel) { return values.data() + place(channel); }
    [[nodiscard]] const double* of(Channel channel) const { return values.data() + place(channel); }
    [[nodiscard]] double* t_s() { return of(Channel::time); }
    [[nodiscard]] const double* t_s() const { return of(Channel::time); }

    void put(std::size_t i, const Instant& instant) {
        present[i] = instant.present;
        for (std::size_t c = 0; c < channel_count; ++c) values[c * most + i] = instant.value[c];
        t_s()[i] = instant.t_s;
    }
    [[nodiscard]] Instant at(std::size_t i) const {
        Instant instant;
        instant.t_s = t_s()[i];
        for (std::size_t c = 0; c < channel_count; ++c) instant.value[c] = values[c * most + i];
        instant.present = present[i];
        return instant;
    }
};

/// One of them, where it lies.
struct InstantOf {
    const Instants& all;
    std::size_t i;

    [[nodiscard]] bool has(Channel channel) const {
        return (all.present[i] >> index(channel) & 1U) != 0;
    }
    [[nodiscard]] double operator[](Channel channel) const { return all.of(channel)[i]; }
};

}  // namespace caseload::duty
