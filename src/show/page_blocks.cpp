// SPDX-License-Identifier: MIT
// One part a block: words, then its numbers folded.
#include "caseload/figures.hpp"
#include "show/page_parts.hpp"
#include "show/words.hpp"

#include <fmt/format.h>

#include <cmath>
#include <type_traits>
#include <utility>

namespace caseload {
namespace {

/// The numbers of a result in the words of the quantity table.
template <class T>
void numbers(const PageAnswer& page, const std::string& part, const T& result, const Units& units,
             HtmlTable& into) {
    each(result, [&](std::string_view name, const auto& value) {
        if constexpr (std::is_same_v<std::decay_t<decltype(value)>, double>) {
            const Quantity& row = quantity(Members<T>::owner, name);
            const bool of_network = row.unit == "degC" && row.how != "calculated";
            into.rows.push_back({units.text(row.words), row.symbol,
                                 of_network ? units.degrees(value)
                                            : fmt::format("{} {}", units.number(value, row.unit),
                                                          units.unit(row.unit, value))});
            unfold(page, into, 2, fmt::format("{}.{}", part, name));
        }
    });
}

HtmlTable number_table(std::string caption) {
    return {std::move(caption), {"What", "Symbol", "Value"}, {}};
}

std::string bearing_words(const PageAnswer& page, std::size_t b, const Units& units) {
    const CoolerSide& side = page.answer.likely.fitted;
    const BearingDamage& damage = side.damage.bearings[b];
    const BearingData& data = page.answer.likely.loads.bearings[b];
    const Percentiles& share = page.answer.band.fitted.life_share[b];
    std::string words = fmt::format(
        "One event uses {} of its life ({} to {}). Worn by: {}. The shaft presses towards {} with "
        "up to {}. Its film reaches {}",
        percent(share.p50), percent(share.p10), percent(share.p90), worn_by(damage),
        clock_words(damage.clock_deg), units.value(std::round(damage.P_largest_N), "N"),
        units.degrees(damage.worst_film_degC));
    words += fmt::format(" and has at its thinnest {} of the viscosity it should have.",
                         figures(damage.worst_kappa, 2));
    if (data.estimated) words += " Ratings estimated from the size.";
    if (const std::string play = running_play_words(data, damage.zone_deg, units); !play.empty())
        words += fmt::format(" {}.", play);
    for (const SeatResult& seat : side.checked.seats)
        if (seat.bearing == damage.name)
            words += fmt::format(
                " Ring loose in its seat above {}{}.", units.degrees(seat.loose_above_degC),
                seat.loose_after_s >= 0
                    ? fmt::format(", reached after {}", duration(seat.loose_after_s))
                    : ", not reached");
    for (const SeatResult& seat : side.checked.seats)
        if (seat.bearing == damage.name && seat.shaft_fit_known)
            words += seat.on_shaft == SeatClass::wrong
                         ? fmt::format(" Its inner ring turns on the shaft, {}.",
                                       units.value(seat.shaft_travel_m, "m/event"))
                         : fmt::format(" Under load {} of its fit on the shaft are left{}.",
                                       units.value(seat.effective_fit_um, "um"),
                                       seat.peak_fit_um < 0 ? ", none under rare loads" : "");
    return words;
}

/// Of a bearing that faces another on its shaft; null: it does not.
const PairState* pair_of(const Assessment& likely, std::size_t b) {
    const auto shaft = static_cast<std::size_t>(likely.loads.bearings[b].shaft);
    if (likely.loads.train.shafts[shaft].thrust_bearing >= 0) return nullptr;
    for (const PairState& pair : likely.fitted.checked.pairs)
        if (pair.shaft == likely.loads.train.shafts[shaft].name) return &pair;
    return nullptr;
}

/// "0.02 % (0.01 % to 0.05 %)".
std::string share_words(const Percentiles& share) {
    if (share.p90 <= 0) return "nothing that counts";
    return fmt::format("{} ({} to {})", percent(share.p50), percent(share.p10), percent(share.p90));
}

std::string gear_words(const PageAnswer& page, std::size_t g) {
    const GearDamage& gear = page.answer.likely.fitted.checked.gears[g];
    if (!gear.calculated) return "Outside what the tooth formulas cover: not calculated.";
    const Percentiles& flank = page.answer.band.fitted.flank_share[g];
    const Percentiles& root = page.answer.band.fitted.root_share[g];
    return fmt::format("One event uses of its flanks' life {}; of its roots' {}.",
                       share_words(flank), share_words(root));
}

std::string spline_part_words(const SplineResult& spline) {
    return fmt::format(
        "One event uses {} of its wear; its largest torque is {} of what it takes at once. A tenth "
        "more load wears nearly twice as much.",
        spline.wear_share > 0 ? percent(spline.wear_share) : "nothing", percent(spline.peak_share));
}

}  // namespace

std::string parts_section(const PageAnswer& page, const Units& units) {
    const Assessment& likely = page.answer.likely;
    std::string out = "<section class=\"parts\">\n<h2>Part by part</h2>\n";
    std::size_t bearing = 0;
    std::size_t gear = 0;
    std::size_t spline = 0;
    for (const Part& part : likely.parts) {
        out += fmt::format("<section class=\"part\">\n<h3>{}</h3>\n<p><strong>{}</strong></p>\n",
                           escaped(spaced(part.name)), escaped(units.text(part.size)));
        std::string behind;
        if (part.name.rfind("bearing.", 0) == 0) {
            out += paragraph(bearing_words(page, bearing, units));
            if (const PairState* pair = pair_of(likely, bearing)) {
                out += paragraph("Facing pair: " + pair_words(*pair, units) + ".");
                HtmlTable table =
                    number_table(fmt::format("Numbers of the pair of {}", pair->shaft));
                numbers(page, "pair." + pair->shaft, *pair, units, table);
                out += folded(table.caption, table_html(table));
            }
            HtmlTable table = number_table(fmt::format("Numbers of {}", spaced(part.name)));
            numbers(page, part.name, likely.fitted.damage.bearings[bearing], units, table);
            numbers(page, part.name, likely.loads.bearings[bearing], units, table);
            behind = folded(table.caption, table_html(table));
            ++bearing;
        } else if (part.name.rfind("gear.", 0) == 0) {
            out += paragraph(gear_words(page, gear));
            const GearDamage& damage = likely.fitted.checked.gears[gear];
            if (damage.calculated) {
                HtmlTable table = number_table(fmt::format("Numbers of {}", spaced(part.name)));
                numbers(page, part.name, damage, units, table);
                behind = folded(table.caption, table_html(table));
            }
            ++gear;
        } else if (part.name.rfind("spline.", 0) == 0) {
            const SplineResult& result = likely.fitted.checked.splines[spline];
            out += paragraph(spline_part_words(result));
            HtmlTable table = number_table(fmt::format("Numbers of {}", spaced(part.name)));
            numbers(page, part.name, result, units, table);
            behind = folded(table.caption, table_html(table));
            ++spline;
        }
        out += paragraph("Look at: " + part.look_at + ".") + behind + "</section>\n";
    }
    return out + "</section>\n";
}

}  // namespace caseload
