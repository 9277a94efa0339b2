// SPDX-License-Identifier: MIT
// Every member of every result, in the order the structs list them.
#include "caseload/show/json.hpp"
#include "caseload/ask/course_pace.hpp"

#include "show/json_writer.hpp"

#include <fmt/format.h>

#include <algorithm>

namespace caseload {

using json_writer::number;
using json_writer::object;
using json_writer::text;

namespace {

/// What is null elsewhere, for who compares setups that are all too hot.
std::string above_ceiling(const Band& band) {
    const auto side = [](const Percentiles& oil) {
        return fmt::format(R"({{"p10":{},"p50":{},"p90":{}}})", number(oil.p10), number(oil.p50),
                           number(oil.p90));
    };
    if (std::max(band.fitted.peak_oil_degC.p90, band.without.peak_oil_degC.p90) <= oil_ceiling_degC)
        return "null";
    return fmt::format(
        R"({{"words":"only to compare setups with: losses above 160 degC are those at 160","fitted_oil_degC":{},"without_cooler_oil_degC":{}}})",
        side(band.fitted.peak_oil_degC), side(band.without.peak_oil_degC));
}

}  // namespace

std::string assessment_json(const Answer& answer) {
    const auto assumed = [](const Worth& one) {
        return fmt::format(
            R"({{"key":{},"value":{},"oil_low_K":{},"oil_high_K":{},"life_low_share":{},"life_high_share":{}}})",
            text(one.entry.key), text(one.entry.number), number(one.oil_low_K),
            number(one.oil_high_K), number(one.life_low_share), number(one.life_high_share));
    };
    json_writer::Writer reading;
    reading.write(answer.read.notes, "");
    // Only where a course is calculated.
    const std::vector<CoursePace> paces = course_paces(answer.read.setup);
    const std::string courses =
        paces.empty()
            ? ""
            : fmt::format(R"(,"courses":{})", json_value::list(paces, [](const CoursePace& pace) {
                              return object(pace);
                          }));
    return fmt::format(
        R"({{"schema":1,{},"setup":{},"measured":{},"band":{},"remedy":{},"assessment":{},"assumed":{},"above_160_degC":{},"reading_notes":{}{}}})"
        "\n",
        json_value::caution(), text(answer.read.setup.name), answer.read.setup.measured.has_value(),
        object(answer.band), object(answer.remedy), object(answer.likely),
        json_value::list(answer.worth, assumed), above_ceiling(answer.band), reading.take(),
        courses);
}

}  // namespace caseload
