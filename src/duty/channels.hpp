// SPDX-License-Identifier: MIT
// Names and units loggers give to a channel.
#pragma once

#include "caseload/duty/log.hpp"

#include <optional>
#include <span>
#include <string>
#include <string_view>
#include <vector>

namespace caseload::duty {

struct ChannelWords {
    Channel channel;
    std::string_view name;
    std::string_view units;    ///< offered in hints
    std::string_view usual;    ///< taken, and said, where no unit stands; "": never taken
    std::string_view aliases;  ///< folded, with | between
};
[[nodiscard]] std::span<const ChannelWords> channel_words();
[[nodiscard]] const ChannelWords& words_of(Channel channel);
[[nodiscard]] std::optional<Channel> channel_named(std::string_view name);

/// Letters and digits only, lower case, accents of western Europe taken off: "Fahr-Geschw." and
/// "fahrgeschw" are one.
[[nodiscard]] std::string folded(std::string_view text);

/// True of a word of a list with | between.
[[nodiscard]] bool in_list(std::string_view list, std::string_view word);

/// The channel a heading stands for by its alias.
[[nodiscard]] std::optional<Channel> channel_of_heading(std::string_view heading);

struct UnitFactor {
    double factor = 1;
    double offset = 0;
};
/// Nothing when this is no unit of the channel. "clock" stands for hh:mm:ss and ISO 8601.
[[nodiscard]] std::optional<UnitFactor> unit_of(Channel channel, std::string_view unit);

/// "Name (unit) [key]" and "Name [unit]": the name, and the unit if there is one.
struct Heading {
    std::string name;
    std::string unit;
};
[[nodiscard]] Heading split_heading(std::string_view heading);

}  // namespace caseload::duty
