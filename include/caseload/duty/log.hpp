// SPDX-License-Identifier: MIT
// A logger's file: what is read of it, and the layout the reader found.
#pragma once

#include <array>
#include <cstddef>
#include <cstdint>
#include <map>
#include <optional>
#include <string>

namespace caseload::duty {

/// Bytes of a log. A pipe has no size and cannot be read out of order.
class Bytes {
public:
    Bytes() = default;
    virtual ~Bytes() = default;
    Bytes(const Bytes&) = delete;
    Bytes& operator=(const Bytes&) = delete;

    /// The next bytes in order; 0 at the end.
    [[nodiscard]] virtual std::size_t read(char* to, std::size_t at_most) = 0;
    /// Size of a file; nothing of a pipe.
    [[nodiscard]] virtual std::optional<std::uint64_t> size() const = 0;
    /// Bytes at a place of a file; leaves the order of read() alone.
    [[nodiscard]] virtual std::size_t read_at(std::uint64_t offset, char* to,
                                              std::size_t at_most) = 0;
};

/// What a column can be. The first four are time in its several forms.
enum class Channel : std::uint8_t {
    time,
    date,
    clock,
    millisecond,
    engine_speed,
    case_speed,
    engine_torque,
    case_torque,
    throttle,
    road_speed,
    gear,
    oil,
    ambient,
    // Of a phone's track only; in a log they are no channels.
    latitude,
    longitude,
    altitude,
    accuracy,
};
inline constexpr std::size_t channel_count = 17;

constexpr std::size_t index(Channel channel) {
    return static_cast<std::size_t>(channel);
}

/// The channel's name as --map takes it: "engine_speed".
[[nodiscard]] std::string_view name_of(Channel channel);

struct ReadOptions {
    std::map<std::string, std::string> columns;  ///< --map: channel to column, wins over aliases
    std::map<std::string, std::string> units;    ///< --unit: channel to unit
    std::string decimal;                         ///< --decimal: "point", "comma" or "" for the vote
    std::string date;  ///< --date: "day-first", "month-first", "year-first" or "" for the log
    bool speed_is_track = false;  ///< road speed without torque is a track: its car is known
};

enum class Encoding { utf8, latin1, utf16_little, utf16_big };
[[nodiscard]] std::string_view name_of(Encoding encoding);

/// How the text is written, by vote once for the whole file.
struct Dialect {
    Encoding encoding = Encoding::utf8;
    char delimiter = ',';
    char decimal = '.';
    char grouping = '\0';  ///< between thousands; 0: none
    bool lines_by_cr = false;
    std::size_t fields = 0;       ///< of a data line
    std::size_t header_line = 0;  /// < from 1; 0: none seen yet
    std::size_t units_line = 0;   ///< 0: no row of units
    std::size_t first_line = 0;   ///< of data
    bool long_form = false;       ///< a record a line: time, channel, value
};

/// value x factor + offset is in the channel's own unit.
struct Column {
    Channel channel = Channel::time;
    std::size_t at = 0;   ///< number of the field, from 0
    std::string heading;  ///< as in the file, in UTF-8
    std::string unit;     ///< as read or taken; "" of one without
    double factor = 1;
    double offset = 0;
    double step_s = 0;        ///< usual time between its readings, where it has its own; else 0
    bool unit_taken = false;  ///< without a unit: the usual one was taken
    bool by_map = false;
};

/// One instant, in the channels' own units.
struct Instant {
    double t_s = 0;
    std::array<double, channel_count> value{};
    std::uint32_t present = 0;  ///< bit by channel

    [[nodiscard]] bool has(Channel channel) const { return (present >> index(channel) & 1U) != 0; }
    [[nodiscard]] double operator[](Channel channel) const { return value[index(channel)]; }
    void set(Channel channel, double x) {
        value[index(channel)] = x;
        present |= 1U << index(channel);
    }
};

}  // namespace caseload::duty
