// SPDX-License-Identifier: MIT
// Do we need a cooler, and how small: the decision, then one block a core.
#include "caseload/show/choices.hpp"
#include "caseload/units.hpp"
#include "show/json_writer.hpp"
#include "show/lines.hpp"
#include "show/units_shown.hpp"

#include <fmt/format.h>

namespace caseload {
namespace {

std::string size_of(const CoreResult& core) {
    return fmt::format("{:g}x{:g}x{:g} mm", core.width_mm, core.height_mm, core.depth_mm);
}

std::string place_of(const CoreResult& core) {
    return fmt::format("{}, {} duct, {}", core.construction, core.duct,
                       core.fan_face_speed_mps > 0
                           ? fmt::format("fan of {:g} m/s at the face", core.fan_face_speed_mps)
                           : "no fan");
}

std::string oil_of(const Units& units, const Percentiles& oil) {
    return fmt::format("{} .. {} .. {} {}", units.temp(oil.p10), units.temp(oil.p50),
                       units.temp(oil.p90), units.degree());
}

std::string decision(const CoolerAnswer& answer, const Units& units) {
    const std::string limit = fmt::format("{} {}", units.temp(answer.limit_degC), units.degree());
    if (answer.without_holds_share >= 0.9)
        return wrapped(
            "  NONE NEEDED  ",
            fmt::format("without a cooler the oil stays below {} in {:.0f} of 100 draws.", limit,
                        100 * answer.without_holds_share));
    std::string out;
    if (answer.pick >= 0) {
        const CoreResult& core = answer.found[static_cast<std::size_t>(answer.pick)];
        out =
            wrapped("  FIT  ",
                    units.text(fmt::format("{}, {}: the smallest core that keeps the oil below {} "
                                           "in 9 of 10 draws.",
                                           size_of(core), place_of(core), limit)));
    } else {
        out = wrapped("  NONE HOLDS  ",
                      fmt::format("no core within the box keeps the oil below {} in 9 of 10 draws: "
                                  "a larger box, more pump flow or less heat.",
                                  limit));
    }
    if (answer.own_pick >= 0) {
        const CoreResult& core = answer.own[static_cast<std::size_t>(answer.own_pick)];
        out += wrapped("       ", units.text(fmt::format("Of your own, {} ({}) holds.", core.name,
                                                         size_of(core))));
    }
    return out;
}

std::string block(const CoreResult& core, const Units& units) {
    const std::string head = core.name.empty() ? place_of(core) : core.name + ": " + place_of(core);
    std::string out = units.text(fmt::format("    {}  {}\n", size_of(core), head));
    out +=
        fmt::format("      {:<6} in {:.0f} of 100 draws; oil {}\n", core.holds ? "holds" : "fails",
                    100 * core.holds_share, oil_of(units, core.oil_degC));
    out += units.text(
        fmt::format("      {:.3g} L/min through it, {:.2g} kPa lost, oil {} cooler at its end\n"
                    "      {:.0f} % of the flow passes it when cold\n",
                    core.oil_flow_Lpmin, core.oil_pressure_drop_Pa / 1000,
                    units.width(core.oil_drop_K), 100 * core.cold_flow_share));
    if (core.estimated)
        out += "      its conductance is estimated from size: a factor of 1.6 either way\n";
    if (!core.remark.empty()) out += fmt::format("      {}\n", units.text(core.remark));
    return out;
}

}  // namespace

std::string cooler_screen(const Setup& setup, const CoolerAnswer& answer) {
    const Units units(setup.imperial);
    std::string out = fmt::format("{}  {}  {} {}\n\n", setup.name, setup.event.words,
                                  units.temp(setup.event.ambient_degC), units.degree());
    out += decision(answer, units);
    out += fmt::format("\n  WITHOUT        oil {}; holds in {:.0f} of 100 draws\n",
                       oil_of(units, answer.without_degC), 100 * answer.without_holds_share);
    out += "\n  TO CARRY       with the oil held at the limit, likely values\n";
    for (const CoolingNeed& need : answer.needs)
        out += need.per_inlet_kelvin > 0
                   ? fmt::format("    {:<12} {}; {:.0f} W for each K of oil over cooler air\n",
                                 need.leg, units.power(need.to_carry_W), need.per_inlet_kelvin)
                   : fmt::format("    {:<12} nothing: {}\n", need.leg,
                                 need.stop ? "the oil takes no heat there"
                                           : "the case gives off what it makes");
    if (!answer.own.empty()) {
        out += "\n  YOUR CORES\n";
        for (const CoreResult& core : answer.own) out += block(core, units);
    }
    if (!answer.found.empty()) {
        out += "\n  SMALLEST OF ITS KIND THAT HOLDS, whole centimetres, within the box\n";
        for (const CoreResult& core : answer.found) out += block(core, units);
    }
    return out + "\nA full-flow core needs a bypass: cold oil would burst it.\n" +
           std::string(deference) + "\nMore: --box, --core, --limit, --json (chart over ambient)\n";
}

std::string cooler_json(const Setup& setup, const CoolerAnswer& answer) {
    return fmt::format("{{\"schema\":1,{},\"setup\":{},\"cooler\":{}}}\n", json_value::caution(),
                       json_writer::text(setup.name), json_writer::object(answer));
}

}  // namespace caseload
