// SPDX-License-Identifier: MIT
// Train, teeth, sets and shafts together.
#include "input/build.hpp"
#include "input/gears.hpp"

#include "caseload/error.hpp"
#include "caseload/formulas/iso_21771.hpp"
#include "caseload/units.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <optional>
#include <set>

namespace caseload::input {
namespace {

std::string set_hint(const Setup& setup) {
    if (setup.gears.fitted_name.find('%') != std::string::npos)
        return "give the teeth, input gear first: a percentage can mean two different ratios";
    std::vector<std::string> names;
    names.reserve(setup.sets.size());
    for (const auto& [name, set] : setup.sets) names.push_back(name);
    if (names.empty()) return "add it under [set], or give the teeth: fitted = [33, 41]";
    return fmt::format("sets are {}", fmt::join(names, ", "));
}

/// Reports a wrong train once: what names its shafts is not judged after that.
void wrong_train(Completed& from, std::string text, std::string hint) {
    from.problem("gears.train", std::move(text), std::move(hint));
    from.fail("gears.train");
}

void check_shafts_of_train(Completed& from, const Setup& setup) {
    const auto& train = setup.gears.train;
    if (!from.has("gears.train")) return;
    if (train.size() < 2 || train.size() > 3)
        return wrong_train(
            from,
            fmt::format("gears.train: {} shafts cannot be calculated; two, or three with an "
                        "idler between",
                        train.size()),
            "for example [\"input\", \"output\"] or [\"input\", \"idler\", \"output\"]");
    if (std::set<std::string>(train.begin(), train.end()).size() != train.size())
        return wrong_train(from, "gears.train names one shaft twice",
                           "power passes each shaft once");
    for (const std::string& shaft : train) {
        if (from.given("shaft." + shaft + ".gear_at")) continue;
        return wrong_train(
            from,
            fmt::format(
                "gears.train: shaft.{0}.gear_at is not there, so the gear of shaft {0} has no "
                "place",
                shaft),
            fmt::format("add shaft.{} = {{ gear_at = \"66 mm\" }}; shafts with a gear are {}",
                        shaft, fmt::join(from.names("shaft"), ", ")));
    }
    const double face_mm = setup.gears.face_width_mm;
    for (std::size_t i = 0; i + 1 < train.size() && face_mm > 0; ++i) {
        const auto at = [&](std::size_t shaft) { return setup.shafts.at(train[shaft]).gear_at_mm; };
        if (from.broken("shaft.") || std::fabs(at(i) - at(i + 1)) < face_mm) continue;
        from.problem_at(
            {"shaft." + train[i + 1] + ".gear_at", "shaft." + train[i] + ".gear_at"},
            fmt::format("the gears of shafts {} and {} pass each other: at {:.4g} and {:.4g} mm "
                        "with a face width of {:.4g} mm",
                        train[i], train[i + 1], at(i), at(i + 1), face_mm),
            "every gear_at is measured to the middle of the gear from the front inside face");
    }
    for (const auto& [name, shaft] : setup.shafts)
        if (!in_train(setup, name))
            from.problem("shaft." + name + ".gear_at",
                         fmt::format("shaft.{} carries a gear that is not in gears.train", name),
                         fmt::format("gears.train is {}", fmt::join(train, ", ")));
}

iso_21771::PairInput pair_of_mesh(const Setup& setup, const std::vector<int>& teeth,
                                  std::size_t mesh) {
    return pair_input(setup, teeth[mesh], teeth[mesh + 1], mesh_distance_mm(setup, mesh));
}

/// The geometry of a pair; nothing where its tips do not stand above their base circles.
std::optional<iso_21771::Pair> geometry(const iso_21771::PairInput& pair) {
    try {
        return iso_21771::pair(pair);
    } catch (const Error&) {
        return std::nullopt;
    }
}

/// Sums of teeth to offer: pairs of equal gears with them pass every check.
std::vector<int> sums_to_offer(iso_21771::PairInput pair, const std::vector<int>& sums) {
    std::vector<int> good;
    for (const int sum : sums) {
        pair.z_1 = sum / 2;
        pair.z_2 = sum - pair.z_1;
        const std::optional<iso_21771::Pair> made = geometry(pair);
        if (!made) continue;
        const auto findings = iso_21771::findings(pair, *made);
        if (std::none_of(findings.begin(), findings.end(), [](const iso_21771::Finding& finding) {
                return finding.severity == iso_21771::Finding::Severity::stop;
            }))
            good.push_back(sum);
    }
    return good;
}

/// True if the two gears run on their centre distance with profile shift.
bool check_mesh(Completed& from, const Setup& setup, const std::string& key,
                const iso_21771::PairInput& pair) {
    const std::vector<int> sums = iso_21771::fitting_tooth_sums(pair);
    if (std::find(sums.begin(), sums.end(), pair.z_1 + pair.z_2) != sums.end()) return true;
    const std::vector<int> offered = sums_to_offer(pair, sums);
    const double per_tooth_mm = pair.module_mm / 2 / std::cos(pair.helix_angle_rad);
    from.problem(
        key,
        fmt::format("{}: {} + {} teeth of module {:.4g} mm need about {:.4g} mm between the "
                    "shafts; the case has {:.4g} mm",
                    key, pair.z_1, pair.z_2, pair.module_mm, per_tooth_mm * (pair.z_1 + pair.z_2),
                    pair.centre_distance_mm),
        offered.empty()
            ? "no pair of teeth fits this centre distance and module"
            : fmt::format("tooth sums that fit: {} ({:.1f} without profile shift{})",
                          fmt::join(offered, ", "), pair.centre_distance_mm / per_tooth_mm,
                          setup.gears.helix_angle_deg > 0 ? ", helix counted" : ""));
    return false;
}

/// Outside radii of input and output gear together, and what says so.
struct Outside {
    const std::string& key;
    double need_mm;
};

void check_room(Completed& from, const Setup& setup, const Outside& gears) {
    const double there_mm = shafts_apart_mm(setup, 0, 2);
    if (there_mm > gears.need_mm) return;
    const double a_mm = mesh_distance_mm(setup, 0);
    const double b_mm = mesh_distance_mm(setup, 1);
    const double cosine =
        (a_mm * a_mm + b_mm * b_mm - gears.need_mm * gears.need_mm) / (2 * a_mm * b_mm);
    from.problem_at(
        {"case.idler_angle", gears.key},
        fmt::format("{}: the gears of {} and {} run into each other: {:.4g} mm between their "
                    "shafts, their tips need {:.4g} mm",
                    gears.key, setup.gears.train.front(), setup.gears.train.back(), there_mm,
                    gears.need_mm),
        std::fabs(cosine) < 1
            ? fmt::format("case.idler_angle between {0:.1f} and {1:.1f} deg leaves them room",
                          deg_from_rad(std::acos(cosine)), 360 - deg_from_rad(std::acos(cosine)))
            : std::string("no case.idler_angle leaves them room"));
}

/// Input and output gear beside each other need room for their tips.
void check_fold(Completed& from, const Setup& setup, const std::string& key,
                const std::vector<int>& teeth) {
    const std::optional<iso_21771::Pair> first = geometry(pair_of_mesh(setup, teeth, 0));
    const std::optional<iso_21771::Pair> second = geometry(pair_of_mesh(setup, teeth, 1));
    if (first && second) check_room(from, setup, {key, (first->d_a1_mm + second->d_a2_mm) / 2});
}
/// Teeth of one set against train, module and centre distances.
void check_teeth(Completed& from, const Setup& setup, const std::string& key,
                 const std::vector<int>& teeth) {
    const auto& train = setup.gears.train;
    if (teeth.empty() || from.broken("gears.train")) return;
    if (teeth.size() != train.size()) {
        from.problem(key,
                     fmt::format("{} has {} tooth counts for the {} shafts of gears.train", key,
                                 teeth.size(), train.size()),
                     "one count a shaft, input gear first");
        return;
    }
    const auto& distances = setup.transfer_case.centre_distance_mm;
    if (from.broken("gears.") || from.broken("case.") ||
        (distances.size() != 1 && distances.size() + 1 != teeth.size()))
        return;
    bool fits = true;
    for (std::size_t i = 0; i + 1 < teeth.size(); ++i)
        fits = check_mesh(from, setup, key, pair_of_mesh(setup, teeth, i)) && fits;
    if (fits && teeth.size() == 3) check_fold(from, setup, key, teeth);
}

void check_distances(Completed& from, const Setup& setup) {
    const auto& distances = setup.transfer_case.centre_distance_mm;
    const auto& train = setup.gears.train;
    if (distances.size() > 1 && train.size() >= 2 && distances.size() + 1 != train.size())
        from.problem("case.centre_distance",
                     fmt::format("case.centre_distance: {} distances for {} meshes",
                                 distances.size(), train.size() - 1),
                     "one distance, or one for each mesh in train order");
    if (train.size() == 2 && from.has("case.idler_angle"))
        from.note("input.unused", "case.idler_angle",
                  "case.idler_angle has no effect: there is no idler in gears.train");
}

}  // namespace

double mesh_distance_mm(const Setup& setup, std::size_t mesh) {
    const auto& distances = setup.transfer_case.centre_distance_mm;
    return distances[distances.size() == 1 ? 0 : std::min(mesh, distances.size() - 1)];
}

iso_21771::PairInput pair_input(const Setup& setup, int z_1, int z_2, double centre_mm) {
    return {.z_1 = z_1,
            .z_2 = z_2,
            .module_mm = setup.gears.module_mm,
            .pressure_angle_rad = rad_from_deg(setup.gears.pressure_angle_deg),
            .helix_angle_rad = rad_from_deg(setup.gears.helix_angle_deg),
            .centre_distance_mm = centre_mm,
            .shift_share_1 = 0.5,
            .face_width_mm = setup.gears.face_width_mm};
}

double shafts_apart_mm(const Setup& setup, std::size_t first, std::size_t second) {
    if (setup.transfer_case.centre_distance_mm.empty()) return 0;
    if (second == first + 1) return mesh_distance_mm(setup, first);
    const double a_mm = mesh_distance_mm(setup, 0);
    const double b_mm = mesh_distance_mm(setup, 1);
    const double angle = rad_from_deg(setup.transfer_case.idler_angle_deg.value_or(180));
    return std::sqrt(std::max(a_mm * a_mm + b_mm * b_mm - 2 * a_mm * b_mm * std::cos(angle), 0.0));
}

void check_train(Completed& from, Setup& setup) {
    check_shafts_of_train(from, setup);
    check_distances(from, setup);
    GearsInput& gears = setup.gears;
    if (gears.train.size() == 3 && !setup.transfer_case.idler_angle_deg)
        setup.transfer_case.idler_angle_deg = 180;
    if (gears.helix_angle_deg > 0 && !from.given("gears.hand_on_input"))
        from.problem("gears.helix_angle",
                     "gears.helix_angle: helical gears need gears.hand_on_input",
                     "\"right\" or \"left\"; the mate has the other hand");
    if (!gears.fitted_name.empty()) {
        const auto set = setup.sets.find(gears.fitted_name);
        if (set != setup.sets.end())
            gears.teeth = set->second.teeth;
        else if (!from.broken("set."))
            from.problem(
                "gears.fitted",
                fmt::format("gears.fitted = \"{}\": there is no such set", gears.fitted_name),
                set_hint(setup));
    } else {
        check_teeth(from, setup, "gears.fitted", gears.teeth);
    }
    for (const auto& [name, set] : setup.sets)
        check_teeth(from, setup, "set." + name + ".teeth", set.teeth);
    if (!gears.cut.entered()) return;
    gears.cut.teeth = gears.teeth;
    check_cut(from, setup);
    if (!from.problems.empty() || gears.teeth.size() != 3) return;
    const std::string key(gears.cut.profile_shift.empty() ? tip_diameter_key : profile_shift_key);
    check_room(from, setup,
               {key, (mesh_pair(setup, gears.teeth, 0).d_a1_mm +
                      mesh_pair(setup, gears.teeth, 1).d_a2_mm) /
                         2});
}

}  // namespace caseload::input
