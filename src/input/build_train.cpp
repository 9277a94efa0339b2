// SPDX-License-Identifier: MIT
// Train, teeth, sets and shafts together.
#include "input/build.hpp"

#include "caseload/units.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <set>

namespace caseload::input {
namespace {

// Profile shift moves a centre distance by one to one and a half modules; beyond two the teeth
// were counted or the module measured wrongly. Judgement.
constexpr double most_shift_modules = 2;

std::string set_hint(const Setup& setup) {
    if (setup.gears.fitted_name.find('%') != std::string::npos)
        return "give the teeth, input gear first: a percentage can mean two different ratios";
    std::vector<std::string> names;
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
    for (const auto& [name, shaft] : setup.shafts)
        if (!in_train(setup, name))
            from.problem("shaft." + name + ".gear_at",
                         fmt::format("shaft.{} carries a gear that is not in gears.train", name),
                         fmt::format("gears.train is {}", fmt::join(train, ", ")));
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
    const auto& distances = setup.box.centre_distance_mm;
    if (from.broken("gears.") || (distances.size() != 1 && distances.size() + 1 != teeth.size()))
        return;
    const double module_mm = setup.gears.module_mm;
    for (std::size_t i = 0; i + 1 < teeth.size(); ++i) {
        const double actual_mm = distances[distances.size() == 1 ? 0 : i];
        const double per_tooth_mm =
            module_mm / 2 / std::cos(rad_from_deg(setup.gears.helix_angle_deg));
        const double nominal_mm = per_tooth_mm * (teeth[i] + teeth[i + 1]);
        if (std::fabs(nominal_mm - actual_mm) <= most_shift_modules * module_mm) continue;
        from.problem(
            key,
            fmt::format("{}: {} + {} teeth of module {:.4g} mm need about {:.4g} mm between the "
                        "shafts; the case has {:.4g} mm",
                        key, teeth[i], teeth[i + 1], module_mm, nominal_mm, actual_mm),
            fmt::format("teeth that fit sum to about {:.0f}", actual_mm / per_tooth_mm));
    }
}

void check_distances(Completed& from, const Setup& setup) {
    const auto& distances = setup.box.centre_distance_mm;
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

void check_train(Completed& from, Setup& setup) {
    check_shafts_of_train(from, setup);
    check_distances(from, setup);
    GearsInput& gears = setup.gears;
    if (gears.train.size() == 3 && !setup.box.idler_angle_deg) setup.box.idler_angle_deg = 180;
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
}

}  // namespace caseload::input
