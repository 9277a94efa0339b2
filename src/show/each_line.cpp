// SPDX-License-Identifier: MIT
#include "caseload/show/each_line.hpp"

#include "show/json_value.hpp"

#include <fmt/format.h>

#include <limits>

namespace caseload {
namespace {

using json_value::number;
using json_value::temp;
using json_value::text;

/// Settled oil of the hottest leg; above any limit where it does not settle.
double at_rest_degC(const Setup& setup, const CoolerSide& side) {
    const LegAnswer* const hottest = hottest_leg(setup, side);
    return hottest != nullptr && hottest->at_rest.found ? hottest->at_rest.nodes.oil_degC
                                                        : std::numeric_limits<double>::infinity();
}

/// Checks of one class: their part and name.
std::string found(const std::vector<JudgedCheck>& checks) {
    return json_value::list(checks, [](const JudgedCheck& check) {
        return fmt::format(R"({{"about":{},"check":{}}})", text(check.about),
                           text(std::string(words_for(check.id).key)));
    });
}

}  // namespace

std::string each_line(std::size_t number_of, const std::string& name, const Setup& setup,
                      const Assessment& likely, const Band& band) {
    double life_p50 = 0;
    double life_p90 = 0;
    std::string worst;
    for (std::size_t b = 0; b < band.fitted.life_share.size(); ++b) {
        if (b > 0 && band.fitted.life_share[b].p50 <= life_p50) continue;
        life_p50 = band.fitted.life_share[b].p50;
        life_p90 = band.fitted.life_share[b].p90;
        worst = likely.fitted.damage.bearings[b].name;
    }
    const auto oil = [](std::string_view side, const Percentiles& p) {
        return fmt::format(
            R"("{0}_oil_p10_degC":{1},"{0}_oil_p50_degC":{2},"{0}_oil_p90_degC":{3})", side,
            temp(p.p10), temp(p.p50), temp(p.p90));
    };
    const Intervals& due = likely.fitted.intervals;
    // Nothing is planned for what is not to be run.
    const auto after = [&band](const Action& action) {
        return band.verdict == "stop" ? "null" : fmt::to_string(action.after_events);
    };
    return fmt::format(
        R"({{"number":{},"setup":{},{},"verdict":{},"oil_word":{},"case_word":{},"decides":{},"stop":{},"watch":{},"look":{},"shown":{},{},{},"holds_share":{},"fails_share":{},"oil_likely_degC":{},"oil_at_rest_degC":{},"worst_bearing":{},"life_share_p50":{},"life_share_p90":{},"change_oil_after_events":{},"look_after_events":{},"open_case_after_events":{},"driving_h":{},"error":null}})"
        "\n",
        number_of, text(name), json_value::caution(), text(band.verdict), text(band.oil_word),
        text(band.case_word), text(band.decides), found(band.stop), found(band.watch),
        found(band.look), found(band.shown), oil("fitted", band.fitted.peak_oil_degC),
        oil("without_cooler", band.without.peak_oil_degC), number(band.fitted.holds_share),
        number(band.fitted.fails_share), temp(likely.fitted.event.peak_oil_degC),
        temp(at_rest_degC(setup, likely.fitted)), text(worst), number(life_p50), number(life_p90),
        after(due.change_oil), after(due.look), after(due.open_case), number(likely.driving_h));
}

std::string each_error_line(std::size_t number_of, const std::string& setup, const Error& error) {
    const std::string words =
        joined(error.problems(), "; ", [](const Problem& problem) { return problem.text; });
    return fmt::format(R"({{"number":{},"setup":{},{},"verdict":null,"error":{}}})"
                       "\n",
                       number_of, text(setup), json_value::caution(), text(words));
}

}  // namespace caseload
