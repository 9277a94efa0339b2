// SPDX-License-Identifier: MIT
// Time repaired, gaps found, missing cells filled where they may be, and what cannot be left out.
#pragma once

#include "caseload/duty/log.hpp"
#include "duty/clock.hpp"
#include "duty/instants.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <cstring>
#include <deque>
#include <vector>

namespace caseload::duty {

// Common practice, no published source: beyond these a logger shows a fault, not a car.
inline constexpr double most_rpm = 12000;
inline constexpr double most_mps = 80;
inline constexpr double least_torque_share = -0.5;  ///< of the stated peak
inline constexpr double most_torque_share = 1.5;
inline constexpr double most_case_Nm = 20000;    ///< what leg.*.bins takes; also without a peak
inline constexpr double most_engine_Nm = 2500;   ///< no car's engine has more
inline constexpr double coldest_air_degC = -40;  ///< what event.ambient takes
inline constexpr double hottest_air_degC = 60;
inline constexpr double most_oil_Kps = 2;
inline constexpr double fill_s = 0.5;  ///< linear between neighbours this far apart
// Of channels that have another rate: one reading may be lost, and readings come unevenly.
// What a car does within 20 s is not known from its two ends. Judgement.
inline constexpr double fill_steps = 2.5;
inline constexpr double longest_fill_s = 20;  ///< temperatures change slowly: not for them
inline constexpr double gap_s = 0.5;          ///< a gap is longer than this ..
inline constexpr double gap_samples = 5;      ///< .. and than so many samples

struct SampleRules {
    double median_dt_s = 0;
    std::uint32_t required = 0;  ///< channels without which an instant says nothing, by bit
    std::uint32_t logged = 0;    ///< channels the log has, by bit
    double stated_peak_Nm = 0;   ///< of the torque channel; 0: not known, not checked
    std::array<double, channel_count> interval_s{};  ///< of channels with another rate
    bool by_clock = false;                           ///< without a date it begins again at midnight
};

struct SampleCounts {
    std::size_t samples = 0;     ///< lines that are one instant each
    std::size_t duplicates = 0;  ///< the same time again
    std::size_t late = 0;        ///< less than a sample behind, left out
    std::size_t restarts = 0;    ///< time went back further: a new segment
    std::size_t gaps = 0;
    double gap_s = 0;
    double longest_gap_s = 0;
    double logged_s = 0;    ///< sum of the samples' own times
    double excluded_s = 0;  ///< of samples that lacked a value they need
    std::size_t filled = 0;
    std::array<std::size_t, channel_count> rejected{};  ///< implausible values by channel
};

/// Sink: void moment(const Instant&, double dt_s, bool new_segment), the same of several that
/// follow each other: void moments(const Instants&, std::size_t from, std::size_t to, const double*
/// dt_s), and what cannot be used, in its place: void unknown(const Instant&, double dt_s) of a
/// sample that lacks a value, void gap(double dt_s).
template <class Sink>
class Samples {
public:
    Samples(const SampleRules& rules, Sink& sink)
        : rules_(rules),
          sink_(sink),
          longest_dt_s_(std::max(gap_samples * rules.median_dt_s, gap_s)) {
        double shortest_s = 1e300;
        for (std::size_t c = 0; c < channel_count; ++c) {
            double own_s = fill_steps * rules.interval_s[c];
            if (c != index(Channel::oil) && c != index(Channel::ambient))
                own_s = std::min(own_s, longest_fill_s);
            limit_s_[c] = std::max(fill_s, own_s);
            if ((rules.required >> c & 1U) != 0 && rules.interval_s[c] > 0)
                shortest_s = std::min(shortest_s, limit_s_[c]);
        }
        // Where every channel may be filled over it, a time without records is no gap.
        if (shortest_s < 1e300) longest_dt_s_ = std::max(longest_dt_s_, shortest_s);
        set_limits();
    }

    /// Changes the instants: their times where they ran back, values that cannot be.
    void add(Instants& all, std::size_t count) {
        all_plausible_ = all_plausible(all, count);
        for (std::size_t from = 0; from < count;) {
            const std::size_t to = whole_until(all, from, count);
            if (to > from) {
                pass(all, from, to);
                from = to;
            } else {
                Instant one = all.at(from++);
                add(one);
            }
        }
    }

    /// One of them, whatever it lacks.
    void add(Instant& now) {
        const bool without_date = rules_.by_clock && now.t_s < day_s;
        now.t_s += shift_s_;
        double dt_s = now.t_s - last_t_s_;
        if (without_date && dt_s < -day_s / 2) {  // midnight: nothing else sets a clock back so far
            shift_s_ += day_s;
            now.t_s += day_s;
            dt_s += day_s;
        }
        bool segment = !started_;
        double gap_before_s = 0;
        if (started_ && !(dt_s > 0 && dt_s <= longest_dt_s_)) {
            if (!repair(now, dt_s)) return;
            segment = true;
            gap_before_s = std::max(0.0, dt_s - rules_.median_dt_s);
        }
        started_ = true;
        last_t_s_ = now.t_s;
        ++counts_.samples;
        reject_implausible(now);
        if (pending_.empty() && (rules_.required & ~now.present) == 0) {
            forward(now, segment, gap_before_s);
            return;
        }
        fill(now, segment, gap_before_s);
    }

    void finish() {
        give_up();
        if (have_previous_) emit(rules_.median_dt_s);
        have_previous_ = false;
    }

    [[nodiscard]] const SampleCounts& counts() const { return counts_; }

private:
    struct Limit {
        Channel channel;
        double least;
        double most;
    };
    struct Waiting {
        Instant instant;
        bool segment;
        double gap_before_s;
    };

    /// By the lowest and highest of each column. What is left behind the last may make it say no.
    [[nodiscard]] bool all_plausible(const Instants& all, std::size_t count) const {
        using Two [[gnu::vector_size(16)]] = double;
        return std::all_of(limits_.begin(), limits_.end(), [&](const Limit& limit) {
            Two lowest{limit.least, limit.least};
            Two highest{limit.most, limit.most};
            for (std::size_t i = 0; i < count; i += 2) {
                Two x;
                std::memcpy(&x, all.of(limit.channel) + i, sizeof x);
                lowest = x < lowest ? x : lowest;
                highest = x > highest ? x : highest;
            }
            return lowest[0] >= limit.least && lowest[1] >= limit.least &&
                   highest[0] <= limit.most && highest[1] <= limit.most;
        });
    }
    [[nodiscard]] bool plausible(const InstantOf& now) const {
        return std::all_of(limits_.begin(), limits_.end(), [&](const Limit& limit) {
            return now[limit.channel] >= limit.least && now[limit.channel] <= limit.most;
        });
    }

    /// Behind those from `from` on that need nothing: all their values are there and can be, and
    /// each follows the one before in time. Their times are in order and in dt_s_ then.
    std::size_t whole_until(Instants& all, std::size_t from, std::size_t count) {
        if (!have_previous_ || !pending_.empty()) return from;
        std::size_t i = from;
        for (; i < count; ++i) {
            const double t_s = all.t_s()[i] + shift_s_;
            const double dt_s = t_s - last_t_s_;
            const InstantOf now{all, i};
            if (!(dt_s > 0 && dt_s <= longest_dt_s_)) break;
            if ((rules_.required & ~all.present[i]) != 0) break;
            if (!all_plausible_ && !plausible(now)) break;
            if (now.has(Channel::oil)) {
                if (oil_jumps(t_s, now[Channel::oil])) break;
                note_oil(t_s, now[Channel::oil]);
            }
            all.t_s()[i] = t_s;
            dt_s_[i] = dt_s;
            last_t_s_ = t_s;
        }
        return i;
    }

    /// What whole_until found: the last of it waits for the next instant's time.
    void pass(const Instants& all, std::size_t from, std::size_t to) {
        emit(dt_s_[from]);
        for (std::size_t i = from + 1; i < to; ++i) counts_.logged_s += dt_s_[i];
        sink_.moments(all, from, to - 1, dt_s_.data() + 1);
        counts_.samples += to - from;
        previous_ = all.at(to - 1);
        previous_segment_ = false;
        full_is_previous_ = true;
        full_valid_ = true;
    }

    /// True when the instant opens a new segment; false when it is left out.
    bool repair(Instant& now, double dt_s) {
        if (dt_s == 0) {
            ++counts_.duplicates;
            return false;
        }
        if (dt_s < 0) {
            if (dt_s >= -1.5 * rules_.median_dt_s) {
                ++counts_.late;
                return false;
            }
            ++counts_.restarts;
            shift_s_ += rules_.median_dt_s - dt_s;
            now.t_s += rules_.median_dt_s - dt_s;
        } else {
            ++counts_.gaps;
            counts_.gap_s += dt_s - rules_.median_dt_s;
            counts_.longest_gap_s = std::max(counts_.longest_gap_s, dt_s);
        }
        give_up();
        full_valid_ = false;
        known_.fill(false);
        return true;
    }

    void reject(Instant& now, std::size_t channel) {
        now.present &= ~(1U << channel);
        ++counts_.rejected[channel];
    }

    void reject_implausible(Instant& now) {
        for (const Limit& limit : limits_) {
            const double x = now[limit.channel];
            if (x >= limit.least && x <= limit.most) continue;
            if (now.has(limit.channel)) reject(now, index(limit.channel));
        }
        if (!now.has(Channel::oil)) return;
        const bool jumps = oil_jumps(now.t_s, now[Channel::oil]);
        if (!jumps || now.t_s - oil_t_s_ > 10) note_oil(now.t_s, now[Channel::oil]);
        if (jumps) reject(now, index(Channel::oil));
    }
    [[nodiscard]] bool oil_jumps(double t_s, double oil_degC) const {
        const double step_K = std::fabs(oil_degC - oil_degC_);
        // A sensor's own step of 1 K at 100 Hz is no fault.
        return oil_known_ && step_K > 1.5 && step_K > most_oil_Kps * (t_s - oil_t_s_);
    }
    void note_oil(double t_s, double oil_degC) {
        oil_t_s_ = t_s;
        oil_degC_ = oil_degC;
        oil_known_ = true;
    }

    void limit(Channel channel, double least, double most) {
        if ((rules_.logged >> index(channel) & 1U) != 0) limits_.push_back({channel, least, most});
    }
    void set_limits() {
        limit(Channel::engine_speed, 0, most_rpm);
        limit(Channel::case_speed, 0, most_rpm);
        limit(Channel::road_speed, 0, most_mps);
        limit(Channel::throttle, -0.05, 1.1);
        limit(Channel::ambient, coldest_air_degC, hottest_air_degC);
        double low = -1e300;
        double high = 1e300;
        if (rules_.stated_peak_Nm > 0) {
            low = least_torque_share * rules_.stated_peak_Nm;
            high = most_torque_share * rules_.stated_peak_Nm;
        }
        limit(Channel::engine_torque, std::max(low, -most_engine_Nm),
              std::min(high, most_engine_Nm));
        limit(Channel::case_torque, std::max(low, -most_case_Nm), std::min(high, most_case_Nm));
    }

    /// Puts the instant behind those that wait, and fills what its values allow.
    void fill(const Instant& now, bool segment, double gap_before_s) {
        if (pending_.empty() && full_valid_) {
            // Whole instants are not noted by channel as they pass.
            const Instant& full = full_is_previous_ ? previous_ : full_;
            for (std::size_t c = 0; c < channel_count; ++c) {
                if (!full.has(static_cast<Channel>(c)) || (known_[c] && known_t_s_[c] > full.t_s))
                    continue;
                known_[c] = true;
                known_t_s_[c] = full.t_s;
                known_value_[c] = full.value[c];
            }
        }
        now_t_s_ = now.t_s;
        pending_.push_back({now, segment, gap_before_s});
        for (std::size_t c = 0; c < channel_count; ++c) {
            const auto channel = static_cast<Channel>(c);
            if (!now.has(channel)) continue;
            if (known_[c] && now.t_s - known_t_s_[c] <= limit_s_[c]) fill_between(now, channel);
            known_[c] = true;
            known_t_s_[c] = now.t_s;
            known_value_[c] = now[channel];
        }
        hold_gear();
        release();
    }

    void fill_between(const Instant& now, Channel channel) {
        const std::size_t c = index(channel);
        for (Waiting& one : pending_) {
            if (one.instant.has(channel) || one.instant.t_s <= known_t_s_[c]) continue;
            const double part = (one.instant.t_s - known_t_s_[c]) / (now.t_s - known_t_s_[c]);
            const double between = known_value_[c] + part * (now[channel] - known_value_[c]);
            one.instant.set(channel, channel == Channel::gear ? known_value_[c] : between);
            if (rules_.required >> c & 1U) ++counts_.filled;
        }
    }

    /// A gear is valid until the next one is logged.
    void hold_gear() {
        constexpr std::size_t c = index(Channel::gear);
        Instant& last = pending_.back().instant;
        if (!last.has(Channel::gear) && known_[c] && last.t_s - known_t_s_[c] <= limit_s_[c])
            last.set(Channel::gear, known_value_[c]);
    }

    /// Passes on from the front what is whole, and what can no longer become so.
    void release() {
        while (!pending_.empty()) {
            const Instant& front = pending_.front().instant;
            std::uint32_t lacking = rules_.required & ~front.present;
            for (std::size_t c = 0; lacking != 0 && c < channel_count; ++c)
                if ((lacking >> c & 1U) != 0 && (!known_[c] || known_t_s_[c] > front.t_s ||
                                                 now_t_s_ - known_t_s_[c] > limit_s_[c]))
                    lacking &= ~(1U << c);
            if (lacking != 0) return;
            pass_front();
        }
    }

    void pass_front() {
        const Waiting front = pending_.front();
        pending_.pop_front();
        forward(front.instant, front.segment, front.gap_before_s);
    }

    void give_up() {
        while (!pending_.empty()) pass_front();
    }

    void forward(const Instant& instant, bool segment, double gap_before_s) {
        if (!segment) {
            emit(instant.t_s - previous_.t_s);
        } else if (have_previous_) {
            emit(rules_.median_dt_s);
            if (gap_before_s > 0) sink_.gap(gap_before_s);
        }
        const bool full = (rules_.required & ~instant.present) == 0;
        if (full_is_previous_ && !full) full_ = previous_;
        full_is_previous_ = full;
        full_valid_ = full_valid_ || full;
        previous_ = instant;
        previous_segment_ = segment;
        have_previous_ = true;
    }

    void emit(double dt_s) {
        counts_.logged_s += dt_s;
        if ((rules_.required & ~previous_.present) != 0) {
            counts_.excluded_s += dt_s;
            sink_.unknown(previous_, dt_s);
            return;
        }
        sink_.moment(previous_, dt_s, previous_segment_);
    }

    SampleRules rules_;
    Sink& sink_;
    double longest_dt_s_;
    std::array<double, channel_count> limit_s_{};
    SampleCounts counts_;
    double now_t_s_ = 0;  ///< of the last put behind those that wait
    double last_t_s_ = 0;
    double shift_s_ = 0;
    bool started_ = false;
    double oil_t_s_ = 0;
    double oil_degC_ = 0;
    bool oil_known_ = false;
    // The last instant passed on whole, and where it is not enough, what is known by channel.
    Instant full_;
    bool full_is_previous_ = false;
    bool full_valid_ = false;
    std::vector<Limit> limits_;                  ///< of the channels that have some
    bool all_plausible_ = false;                 ///< of the instants being added
    std::array<double, Instants::most> dt_s_{};  ///< to the instant before
    std::deque<Waiting> pending_;
    std::array<bool, channel_count> known_{};
    std::array<double, channel_count> known_t_s_{};
    std::array<double, channel_count> known_value_{};
    Instant previous_;
    bool previous_segment_ = false;
    bool have_previous_ = false;
};

}  // namespace caseload::duty
