// SPDX-License-Identifier: MIT
// Splines: contact stress in each bin, what wears them and what they take at once.
#include "caseload/splines.hpp"

#include "caseload/spline_data.hpp"
#include "why/places.hpp"

#include <fmt/format.h>

#include <algorithm>

namespace caseload::why_detail {
namespace {

void add_entries(const Gather& gather, const SplineInput& spline, const Collector::Place& place) {
    Collector& to = gather.to;
    const auto entered = [&](const char* member, double value, const char* key,
                             const std::string& otherwise) {
        std::string origin = to.origin_of(place.part + key);
        to.add(place, member, value).origin = origin.empty() ? otherwise : origin;
    };
    const spline_strength::Teeth teeth = teeth_of(spline);
    const std::string by_fit = fmt::format("by its fit, {}", words_for(spline.fit).key);
    entered("teeth", teeth.count, ".teeth", {});
    entered("pitch_diameter_mm", teeth.pitch_diameter_mm, ".pitch_diameter", {});
    entered("length_mm", teeth.length_mm, ".length", {});
    entered("bore_mm", spline.bore_mm, ".bore", {});
    entered("misalignment_mmpm", misalignment_mmpm(spline), ".misalignment", by_fit);
    if (spline.height_mm)
        entered("height_mm", *spline.height_mm, ".height", {});
    else
        to.step(place, "height_mm",
                fmt::format("{:.12g} * pitch_diameter_mm / teeth", spline_height_modules));
    const std::string hardness = to.origin_of(place.part + ".hardness");
    for (const auto& [member, value] :
         {std::pair{"S_w_MPa", spline_strength::allowed_contact_MPa(hardness_of(spline))},
          std::pair{"S_s_MPa", spline_strength::allowed_shear_MPa(hardness_of(spline))}})
        to.add(place, member, value).origin =
            fmt::format("dudley-1957, {} ({})", words_for(hardness_of(spline)).key,
                        hardness.empty() ? by_fit : hardness);
}

/// Name of the share that a spline's joint passes in a leg; 1 without a joint of its name.
std::string share_of(const Gather& gather, const SplineInput& spline, const std::string& leg) {
    const JointInput* joint = joint_of(gather.setup, spline);
    return joint == nullptr ? "1" : fmt::format("[joint.{}.share@{}]", joint->name, leg);
}

/// What one spline does in the event: the terms of its sums.
struct SplineTerms {
    std::vector<std::string> wear;
    std::vector<std::string> contact;
    std::vector<std::string> blows;  ///< torques
};

void add_leg(const Gather& gather, const SplineInput& spline, const Collector::Place& place,
             std::size_t leg, SplineTerms& terms) {
    Collector& to = gather.to;
    const LegLoads& loads = gather.prepared.loads.legs[leg];
    const int runs = times_run(gather.setup, leg);
    if (runs == 0) return;
    const Train& train = train_of(gather.prepared.loads, loads.train);
    const auto s = static_cast<std::size_t>(
        std::find_if(train.shafts.begin(), train.shafts.end(),
                     [&](const ShaftPlace& shaft) { return shaft.name == spline.shaft; }) -
        train.shafts.begin());
    const std::string shaft = shaft_part(gather, loads.train, static_cast<int>(s));
    for (std::size_t bin = 0; bin < loads.bins.size(); ++bin) {
        const SplineRun run = spline_run(gather.setup, gather.prepared.loads, spline, leg, bin);
        if (run.torque_Nm <= 0) continue;
        const Collector::Place there{"spline", place.part, in_bin(loads.name, bin), {}};
        to.step(there, "torque_Nm",
                fmt::format("abs([duty.torque_Nm@{}]) * [rest.overload@{}] * "
                            "[{}.torque_ratio] * {}",
                            there.at, loads.name, shaft, share_of(gather, spline, loads.name)));
        to.step(there, "S_c_of_bin_MPa",
                fmt::format("2000 * torque_Nm * [{0}.distribution] / ([{0}.pitch_diameter_mm] * "
                            "[{0}.teeth] * [{0}.length_mm] * [{0}.height_mm])",
                            place.part));
        const auto of_bin = [&](const char* member) {
            return fmt::format("[{}.{}@{}]", place.part, member, there.at);
        };
        terms.contact.push_back(of_bin("S_c_of_bin_MPa"));
        terms.blows.push_back(of_bin("torque_Nm"));
        if (spline.fit == SplineFit::piloted || run.turns <= 0) continue;
        to.step(there, "turns",
                fmt::format("{} * [duty.share@{}] * [duty.speed_rpm@{}] * abs([{}.speed_ratio]) * "
                            "[rest.duration_s@{}] / 60",
                            runs, there.at, there.at, shaft, loads.name));
        to.step(
            there, "wear_of_bin",
            fmt::format("{}turns / (1e4 * (S_c_of_bin_MPa / (4 * [{}.S_w_MPa]))^-{:.17g})",
                        spline.oiled ? "" : "5 * ", place.part, spline_strength::wear_exponent));
        terms.wear.push_back(of_bin("wear_of_bin"));
    }
    for (std::size_t k = 0; k < loads.peaks.size(); ++k)
        terms.blows.push_back(fmt::format("abs([peak.torque_Nm@{}]) * [{}.torque_ratio] * {}",
                                          in_bin(loads.name, k), shaft,
                                          share_of(gather, spline, loads.name)));
}

void add_spline(const Gather& gather, const SplineInput& spline, const SplineResult& result) {
    Collector& to = gather.to;
    const Collector::Place place{"spline", "spline." + spline.name, {}, {}};
    add_entries(gather, spline, place);
    to.add(place, result.distribution, quantity("spline", "distribution")).value_of =
        "max(1, 1.5 + 0.5 * log10(misalignment_mmpm * length_mm / 1000 / 0.1016) / log10(2))";
    if (misalignment_mmpm(spline) <= 0) to.number(place.part + ".distribution").value_of = "1";
    SplineTerms terms;
    for (std::size_t leg = 0; leg < gather.prepared.loads.legs.size(); ++leg)
        add_leg(gather, spline, place, leg, terms);
    const auto whole = [&](const char* member, double value, const std::string& formula,
                           const char* otherwise) {
        Number& number = to.add(place, value, quantity("spline", member));
        if (formula.empty())
            mark_as_zero(number, otherwise);
        else
            number.value_of = formula;
    };
    whole("S_c_MPa", result.S_c_MPa, terms.contact.empty() ? "" : extreme_of("max", terms.contact),
          "no torque passes");
    whole("wear_share", result.wear_share, terms.wear.empty() ? "" : sum_of(terms.wear),
          spline.fit == SplineFit::piloted ? "piloted: it does not wear" : "it does not turn");
    if (!terms.blows.empty()) {
        to.step(place, "blow_Nm", extreme_of("max", terms.blows));
        to.step(place, "root_mm", "pitch_diameter_mm * (1 - 1.8 / teeth)");
        to.step(
            place, "blow_contact_MPa",
            "2000 * blow_Nm * distribution / (pitch_diameter_mm * teeth * length_mm * height_mm)");
        to.step(place, "blow_shear_MPa",
                "16000 * blow_Nm * root_mm / (pi * (root_mm^4 - bore_mm^4))");
    }
    whole("peak_share", result.peak_share,
          terms.blows.empty()
              ? ""
              : "max(blow_contact_MPa / (9 * 1.8 * S_w_MPa), blow_shear_MPa / (1.8 * S_s_MPa))",
          "no torque passes");
}

}  // namespace

void add_splines(const Gather& gather) {
    const auto& results = gather.answer.fitted.checked.splines;
    for (std::size_t s = 0; s < results.size(); ++s)
        add_spline(gather, gather.setup.splines[s], results[s]);
}

}  // namespace caseload::why_detail
