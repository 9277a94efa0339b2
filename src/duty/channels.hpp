// SPDX-License-Identifier: MIT
// Names and units loggers give to a channel.
#pragma once

#include "caseload/duty/log.hpp"

#include <cstdint>
#include <optional>
#include <span>
#include <string>
#include <string_view>

namespace caseload::duty {

struct ChannelWords {
    Channel channel;
    std::string_view name;
    std::string_view units;    ///< offered in hints
    std::string_view usual;    ///< taken, and said, where there is no unit; "": never taken
    std::string_view aliases;  ///< folded, with | between
    std::string_view second;   ///< the same, for Naming::second
};
[[nodiscard]] std::span<const ChannelWords> channel_words();
[[nodiscard]] constexpr bool of_track_alone(Channel channel) {
    return channel >= Channel::latitude;
}
[[nodiscard]] const ChannelWords& words_of(Channel channel);
[[nodiscard]] std::optional<Channel> channel_named(std::string_view name);

/// Letters and digits only, lower case, accents of western Europe taken off: "Fahr-Geschw." and
/// "fahrgeschw" are one.
[[nodiscard]] std::string folded(std::string_view text);

/// True of a word of a list with | between.
[[nodiscard]] bool in_list(std::string_view list, std::string_view word);

/// How surely a heading names a channel.
enum class Naming : std::uint8_t {
    exact,   ///< its alias, where the unit does not say otherwise
    second,  ///< a name taken only where no other column has an exact one
    words,   ///< words of it and a unit of the channel; taken as `second` is
};

/// True when the heading names the channel that surely. `unit`: from the row of units, or "".
[[nodiscard]] bool names(std::string_view heading, std::string_view unit_in_row, Channel channel,
                         Naming naming);

/// True when it names any channel, however surely.
[[nodiscard]] bool names_any(std::string_view heading);

struct UnitFactor {
    double factor = 1;
    double offset = 0;
};
/// Nothing when this is no unit of the channel. "clock" means hh:mm:ss and ISO 8601.
[[nodiscard]] std::optional<UnitFactor> unit_of(Channel channel, std::string_view unit);

/// "Name (unit) [key]", "Name [unit]" and "Name (of what) [unit]": the name, and the unit if there
/// is one.
struct Heading {
    std::string name;
    std::string unit;
};
[[nodiscard]] Heading split_heading(std::string_view heading);

/// "speed_kmh", "Torque Nm": the name, and its last word where that is a unit of the channel.
[[nodiscard]] Heading split_last_word(std::string_view heading, Channel channel);

}  // namespace caseload::duty
