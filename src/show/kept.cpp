// SPDX-License-Identifier: MIT
#include "caseload/show/kept.hpp"

#include "caseload/figures.hpp"
#include "show/json_writer.hpp"
#include "show/lines.hpp"
#include "show/words.hpp"

#include <fmt/format.h>

#include <cmath>

namespace caseload {
namespace {

std::string line(std::string_view words, const std::string& value) {
    return fmt::format("    {:<37} {}\n", words, value);
}

std::string block(const KeptLeg& leg, const Units& units) {
    const Steady& at = leg.at;
    const double made_W = total_W(at.losses.ledger);
    std::string out = fmt::format("\n  {}\n", leg.name);
    for (const HeatSource& source : heat_sources(at.losses.ledger))
        out += line(source.words, units.heat(source.power_W));
    out += line("all losses", units.heat(made_W));
    if (leg.power_W > 0)
        out += line("  of the mean driving power", percent_figures(made_W / leg.power_W) + " %");
    out += line("housing, settled", units.degrees(at.nodes.housing_degC)) +
           line("gears and shafts, settled", units.degrees(at.nodes.steel_degC)) +
           line("to the air around the case",
                units.heat(at.outside.convection_W + at.outside.radiation_W));
    if (at.cooler_W != 0) out += line("to the cooler", units.heat(at.cooler_W));
    if (at.exhaust_W != 0) out += line("from the exhaust", units.heat(at.exhaust_W));
    if (at.neighbour_W)
        out += line(*at.neighbour_W < 0 ? "to the neighbour" : "from the neighbour",
                    units.heat(std::fabs(*at.neighbour_W)));
    return out + line(at.short_by_W < 0 ? "to put into the oil for that"
                                        : "to take out of the oil for that",
                      units.heat(std::fabs(at.short_by_W)));
}

}  // namespace

std::string kept_screen(const Setup& setup, const KeptAnswer& answer) {
    const Units units(setup.imperial);
    std::string out =
        heading(setup, units) +
        wrapped("  LOSSES  ", fmt::format("with the oil kept at {}, {}",
                                          units.degrees(answer.oil_degC), middle_run));
    for (const KeptLeg& leg : answer.legs) out += block(leg, units);
    if (answer.legs.empty()) out += "\n  No leg drives.\n";
    return out + "\n" + wrapped("", std::string(deference));
}

std::string kept_json(const Setup& setup, const KeptAnswer& answer) {
    const auto leg_json = [](const KeptLeg& leg) {
        return fmt::format(R"({{"leg":{},"power_W":{},"losses_W":{},"to_take_out_W":{},"at":{}}})",
                           json_writer::text(leg.name), json_writer::number(leg.power_W),
                           json_writer::number(total_W(leg.at.losses.ledger)),
                           json_writer::number(leg.at.short_by_W), json_writer::object(leg.at));
    };
    return fmt::format(R"({{"schema":1,{},"setup":{},"oil_degC":{},"legs":{}}})"
                       "\n",
                       json_value::caution(), json_writer::text(setup.name),
                       json_writer::number(answer.oil_degC),
                       json_value::list(answer.legs, leg_json));
}

}  // namespace caseload
