// SPDX-License-Identifier: MIT
// Every member of every result, in the order the structs list them.
#include "caseload/show/json.hpp"

#include "show/json_writer.hpp"

#include <fmt/format.h>

namespace caseload {

using json_writer::number;
using json_writer::object;
using json_writer::text;

std::string assessment_json(const Answer& answer) {
    const auto assumed = [](const Worth& one) {
        return fmt::format(
            R"({{"key":{},"value":{},"oil_low_K":{},"oil_high_K":{},"life_low_share":{},"life_high_share":{}}})",
            text(one.entry.key), text(one.entry.number), number(one.oil_low_K),
            number(one.oil_high_K), number(one.life_low_share), number(one.life_high_share));
    };
    json_writer::Writer reading;
    reading.write(answer.read.notes, "");
    return fmt::format(
        R"({{"schema":1,{},"setup":{},"measured":{},"band":{},"remedy":{},"assessment":{},"assumed":{},"reading_notes":{}}})"
        "\n",
        json_value::caution(), text(answer.read.setup.name), answer.read.setup.measured.has_value(),
        object(answer.band), object(answer.remedy), object(answer.likely),
        json_value::list(answer.worth, assumed), reading.take());
}

}  // namespace caseload
