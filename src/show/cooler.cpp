// SPDX-License-Identifier: MIT
// Do we need a cooler, and how small: the decision, then one block a core.
#include "caseload/figures.hpp"
#include "caseload/show/choices.hpp"
#include "show/json_writer.hpp"
#include "show/lines.hpp"
#include "show/units_shown.hpp"

#include <fmt/format.h>

#include <cmath>

namespace caseload {
namespace {

std::string size_of(const CoreResult& core) {
    return fmt::format("{:g}x{:g}x{:g} mm", core.width_mm, core.height_mm, core.depth_mm);
}

std::string place_of(const CoreResult& core) {
    const std::string duct = core.duct.empty()     ? "face speed as entered"
                             : core.duct == "none" ? "no duct"
                                                   : core.duct + " duct";
    return fmt::format(
        "{}, {}, {}", core.construction, duct,
        core.fan_face_speed_mps > 0
            ? fmt::format("fan of {} m/s at the face", figures(core.fan_face_speed_mps, 3))
            : "no fan");
}

std::string oil_of(const Units& units, const Percentiles& oil) {
    return fmt::format("{} .. {} .. {}", units.temp(oil.p10), units.temp(oil.p50),
                       units.degrees(oil.p90));
}

/// Never more than the calculation found: 0.899 is not 90 in 100.
std::string chances(double share) {
    return fmt::format("{:.0f} chances in 100", std::floor(100 * share + 1e-9));
}

/// The core that is there, and whether the case needs it.
std::string fitted_decision(const CoolerAnswer& answer, const Units& units,
                            const std::string& limit) {
    const CoreResult& core = *answer.fitted;
    const bool bare = answer.without_holds_share >= holding_share;
    return wrapped(core.holds ? "  KEEP  " : "  CHANGE  ",
                   units.text(fmt::format(
                       "{}, the core that is fitted, keeps the oil below {}, {}{}.{}",
                       size_of(core), limit, core.holds ? "" : "only ", chances(core.holds_share),
                       bare ? fmt::format(" So does the case without a cooler, {}.",
                                          chances(answer.without_holds_share))
                            : "")));
}

std::string decision(const CoolerAnswer& answer, const Units& units) {
    const std::string limit = units.degrees(answer.limit_degC);
    std::string out;
    if (answer.fitted) out = fitted_decision(answer, units, limit);
    if (answer.without_holds_share >= holding_share)
        return answer.fitted ? out
                             : wrapped("  NONE NEEDED  ",
                                       fmt::format("without a cooler the oil stays below {}, {}.",
                                                   limit, chances(answer.without_holds_share)));
    if (answer.pick >= 0) {
        const CoreResult& core = answer.found[static_cast<std::size_t>(answer.pick)];
        const std::string words = fmt::format("{}, {}", size_of(core), place_of(core));
        out +=
            answer.fitted && answer.fitted->holds
                ? wrapped("        ", units.text("The smallest that would: " + words + "."))
                : wrapped("  FIT  ", units.text(fmt::format("{}: the smallest core that keeps the "
                                                            "oil below {}, 9 chances in 10.",
                                                            words, limit)));
    } else {
        out += wrapped("  NONE HOLDS  ",
                       fmt::format("no {}core within the box keeps the oil below {}, 9 chances in "
                                   "10: a larger box, more pump flow or less heat.",
                                   answer.fitted ? "other " : "", limit));
    }
    if (answer.own_pick >= 0) {
        const CoreResult& core = answer.own[static_cast<std::size_t>(answer.own_pick)];
        out += wrapped("        ", units.text(fmt::format("Of your own, {} ({}) holds.", core.name,
                                                          size_of(core))));
    }
    return out;
}

std::string block(const CoreResult& core, const Units& units) {
    const std::string head = core.name.empty() ? place_of(core) : core.name + ": " + place_of(core);
    std::string out = units.text(fmt::format("    {}  {}\n", size_of(core), head));
    out += fmt::format("      {:<6} {}; oil {}\n", core.holds ? "holds" : "fails",
                       chances(core.holds_share), oil_of(units, core.oil_degC));
    out += units.text(
        fmt::format("      {} L/min through the core, {} kPa pressure drop, oil leaves {} cooler\n"
                    "      when cold, {:.0f} % of the flow goes through the core\n",
                    figures(core.oil_flow_Lpmin, 3), figures(core.oil_pressure_drop_Pa / 1000, 2),
                    units.width(core.oil_drop_K), 100 * core.cold_flow_share));
    if (core.estimated)
        out += "      its conductance is estimated from size: a factor of 1.6 either way\n";
    if (!core.remark.empty()) out += fmt::format("      {}\n", units.text(core.remark));
    return out;
}

/// Heat and the same per kelvin, this where it says anything.
std::string need_of(const CoolingNeed& need, const Units& units) {
    if (need.per_inlet_kelvin <= 0)
        return need.stop ? "nothing: the oil takes no heat there"
                         : "nothing: the case gives off what it makes";
    const std::string per = units.per_kelvin(need.per_inlet_kelvin);
    return units.heat_or_power(need.to_carry_W) +
           (per.empty() ? "" : fmt::format("; {} between oil and cooling air", per));
}

}  // namespace

std::string cooler_screen(const Setup& setup, const CoolerAnswer& answer) {
    const Units units(setup.imperial);
    std::string out = heading(setup, units) + decision(answer, units);
    out += fmt::format("\n  WITHOUT        oil {}; holds {}\n", oil_of(units, answer.without_degC),
                       chances(answer.without_holds_share));
    if (answer.fitted) out += "\n  FITTED\n" + block(*answer.fitted, units);
    out += "\n  HEAT TO REJECT  with the oil at its limit (likely values)\n";
    for (const CoolingNeed& need : answer.needs)
        out += fmt::format("    {:<12} {}\n", need.leg, need_of(need, units));
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
