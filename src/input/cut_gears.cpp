// SPDX-License-Identifier: MIT
// gears.profile_shift and gears.tip_diameter: whose gears they are, and which can run.
#include "input/cut_gears.hpp"

#include "input/build.hpp"
#include "input/fields.hpp"
#include "input/gears.hpp"

#include "caseload/error.hpp"

#include <fmt/format.h>
#include <fmt/ranges.h>

#include <algorithm>
#include <cmath>
#include <optional>

namespace caseload::input {
namespace {

constexpr std::string_view cut_keys[] = {profile_shift_key, tip_diameter_key};
constexpr std::string_view fitted_key = "gears.fitted";

// What a sum of entered shifts may miss the centre distance by, modules: two rounded to hundredths,
// and teeth cut thinner for backlash, 0.1 mm of centre distance at module 5. Judgement.
constexpr double sum_slack = 0.02;
// A shift that undercuts by less is not worth a word, as in iso_21771::findings.
constexpr double undercut_slack = 0.02;

/// Teeth that are fitted; empty where that cannot be read.
std::vector<int> fitted_teeth(const std::map<std::string, Sourced>& leaves) {
    const auto fitted = leaves.find(std::string(fitted_key));
    if (fitted == leaves.end()) return {};
    Completed probe("");
    add_leaf(probe, std::string(fitted_key), fitted->second.leaf, Origin::yours);
    const Item* item = probe.find(std::string(fitted_key));
    if (item == nullptr) return {};
    const std::string of_set = fmt::format("set.{}.teeth", item->text());
    if (item->numbers.empty()) {
        const auto set = leaves.find(of_set);
        if (set == leaves.end()) return {};
        add_leaf(probe, of_set, set->second.leaf, Origin::yours);
        item = probe.find(of_set);
        if (item == nullptr) return {};
    }
    return {item->numbers.begin(), item->numbers.end()};
}

std::vector<int> turned_round(const std::vector<int>& teeth) {
    return {teeth.rbegin(), teeth.rend()};
}

/// Only two gears change places: an idler between two others meets other mates then.
bool other_way_round(const std::vector<int>& teeth, const std::vector<int>& entered) {
    return teeth.size() == 2 && teeth == turned_round(entered);
}

/// How the gears fitted could be cut: all that is left to choose is one shift, or one share of the
/// way to the tips as calculated.
class Cut {
public:
    explicit Cut(const Setup& setup)
        : setup_(setup),
          key_(setup.gears.cut.profile_shift.empty() ? tip_diameter_key : profile_shift_key),
          entered_(key_ == profile_shift_key ? setup.gears.cut.profile_shift
                                             : setup.gears.cut.tip_diameter_mm) {}

    [[nodiscard]] std::string key() const { return std::string(key_); }
    [[nodiscard]] bool of_shifts() const { return key_ == profile_shift_key; }

    /// What is wrong with the entry; "" for nothing.
    [[nodiscard]] std::string wrong() const {
        const std::string sum = of_shifts() ? wrong_sum() : std::string();
        return sum.empty() ? cannot_run(entered_, undercut_slack) : sum;
    }

    /// The nearest list that can run; "" where none can.
    [[nodiscard]] std::string nearest() const {
        const std::vector<double> aim = as_calculated();
        if (aim.size() != entered_.size()) return {};
        // Rounded to what can be typed: on the way that is no further than the step.
        constexpr int steps = 1000;
        for (int step = 0; step <= steps; ++step) {
            const double way = static_cast<double>(step) / steps;
            std::vector<double> list(aim.size());
            for (std::size_t i = 0; i < aim.size(); ++i)
                list[i] = entered_[i] + way * (aim[i] - entered_[i]);
            if (of_shifts()) keep_sums(list);
            for (double& one : list) one = rounded(one);
            if (typed(list) && cannot_run(list, 0).empty()) return words_of_list(list);
        }
        return of_shifts() ? nearest_free() : std::string();
    }

    /// Where the shifts as calculated cannot run either: the free one over all that can be typed.
    [[nodiscard]] std::string nearest_free() const {
        constexpr double step = 0.01;
        const Range& range = field_of(key_).range;
        const int steps = static_cast<int>(std::lround((range.high - range.low) / step));
        for (int away = 0; away <= steps; ++away)
            for (const int way : {away, -away}) {
                std::vector<double> list = entered_;
                list[1] = rounded(std::round(entered_[1] / step) * step + way * step);
                keep_sums(list);
                for (double& one : list) one = rounded(one);
                if (typed(list) && cannot_run(list, 0).empty()) return words_of_list(list);
            }
        return {};
    }

    [[nodiscard]] std::string wanted_sum() const {
        std::vector<std::string> sums;
        for (std::size_t mesh = 0; mesh + 1 < teeth().size(); ++mesh)
            sums.push_back(fmt::format("{:.3f}", sum(mesh)));
        return fmt::format("{}", fmt::join(sums, " and "));
    }

private:
    [[nodiscard]] const std::vector<int>& teeth() const { return setup_.gears.teeth; }
    [[nodiscard]] double rounded(double value) const {
        return of_shifts() ? std::round(value * 1e4) / 1e4 : std::round(value * 100) / 100;
    }
    [[nodiscard]] iso_21771::PairInput input(std::size_t mesh) const {
        return pair_input(setup_, teeth()[mesh], teeth()[mesh + 1], mesh_distance_mm(setup_, mesh));
    }
    [[nodiscard]] double sum(std::size_t mesh) const { return iso_21771::pair(input(mesh)).x_sum; }

    [[nodiscard]] std::string words_of_list(const std::vector<double>& list) const {
        std::vector<std::string> words;
        for (const double one : list)
            words.push_back(of_shifts() ? fmt::format("{:g}", one)
                                        : fmt::format("\"{:g} mm\"", one));
        return fmt::format("{} = [{}]", key_, fmt::join(words, ", "));
    }

    [[nodiscard]] std::string wrong_sum() const {
        for (std::size_t mesh = 0; mesh + 1 < teeth().size(); ++mesh) {
            const double together = entered_[mesh] + entered_[mesh + 1];
            const double wanted = sum(mesh);
            if (std::fabs(together - wanted) <= sum_slack) continue;
            return fmt::format(
                "{:g} and {:g} are {:.3f} together; {} and {} teeth of module {:.4g} "
                "mm on {:.5g} mm ask for {:.3f}",
                entered_[mesh], entered_[mesh + 1], together, teeth()[mesh], teeth()[mesh + 1],
                setup_.gears.module_mm, mesh_distance_mm(setup_, mesh), wanted);
        }
        return {};
    }

    /// One shift is free, that of the second gear: the sums give the others.
    void keep_sums(std::vector<double>& list) const {
        list[0] = sum(0) - list[1];
        if (list.size() == 3) list[2] = sum(1) - list[1];
    }

    /// What is calculated where nothing is entered; both meshes of an idler on its one gear.
    [[nodiscard]] std::vector<double> as_calculated() const {
        std::vector<double> list(teeth().size());
        for (std::size_t mesh = 0; mesh + 1 < teeth().size(); ++mesh) {
            const iso_21771::Pair pair = iso_21771::pair(input(mesh));
            if (mesh == 0) list[0] = of_shifts() ? pair.x_1 : pair.d_a1_mm;
            list[mesh + 1] = of_shifts() ? pair.x_2 : pair.d_a2_mm;
        }
        if (of_shifts()) keep_sums(list);
        return list;
    }

    /// Within what the key takes.
    [[nodiscard]] bool typed(const std::vector<double>& list) const {
        const Range& range = field_of(key_).range;
        return std::all_of(list.begin(), list.end(),
                           [&](double one) { return range.low <= one && one <= range.high; });
    }

    /// Why gears cut by this list cannot run; "" where they can.
    [[nodiscard]] std::string cannot_run(const std::vector<double>& list, double slack) const {
        Setup tried = setup_;
        (of_shifts() ? tried.gears.cut.profile_shift : tried.gears.cut.tip_diameter_mm) = list;
        try {
            const std::vector<double> x = cut_gears(tried, teeth()).shifts;
            const Range& taken = field_of(profile_shift_key).range;
            for (std::size_t gear = 0; gear < teeth().size(); ++gear) {
                if (x[gear] > taken.high)
                    return fmt::format(
                        "{:g} mm means a profile shift of {:.3f} of the {} tooth gear: must be at "
                        "most {:g}",
                        list[gear], x[gear], teeth()[gear], taken.high);
                const double least =
                    iso_21771::least_shift({.z = teeth()[gear],
                                            .pressure_angle_rad = input(0).pressure_angle_rad,
                                            .helix_angle_rad = input(0).helix_angle_rad});
                if (x[gear] < least - slack)
                    return fmt::format(
                        "{} undercuts the {} tooth gear: its least profile shift is {:.3f}",
                        of_shifts() ? fmt::format("{:g}", list[gear])
                                    : fmt::format("{:g} mm means a profile shift of {:.3f}, which",
                                                  list[gear], x[gear]),
                        teeth()[gear], least);
            }
            for (std::size_t mesh = 0; mesh + 1 < teeth().size(); ++mesh) {
                const iso_21771::Pair pair = mesh_pair(tried, teeth(), mesh);
                for (const iso_21771::Finding& found : iso_21771::findings(input(mesh), pair))
                    if (found.severity == iso_21771::Finding::Severity::stop) return found.text;
            }
        } catch (const Error& error) {
            return error.problems().empty() ? error.what() : error.problems().front().text;
        }
        return {};
    }

    const Setup& setup_;
    std::string_view key_;
    const std::vector<double>& entered_;
};

}  // namespace

void mark_cut(std::map<std::string, Sourced>& leaves) {
    for (const std::string_view key : cut_keys)
        if (const auto cut = leaves.find(std::string(key));
            cut != leaves.end() && cut->second.cut_teeth.empty())
            cut->second.cut_teeth = fitted_teeth(leaves);
}

bool fits_others_than_cut(const Completed& entered, const std::string& key) {
    return std::any_of(std::begin(cut_keys), std::end(cut_keys),
                       [&](std::string_view cut) { return entered.given(std::string(cut)); }) &&
           (key == fitted_key || matches("set.*.teeth", key));
}

void leave_out_cut(std::map<std::string, Sourced>& leaves, Completed& noted) {
    const std::vector<int> now = fitted_teeth(leaves);
    if (now.empty()) return;  // what is wrong with them is said there
    for (const std::string_view key : cut_keys) {
        const auto cut = leaves.find(std::string(key));
        if (cut == leaves.end()) continue;
        const std::vector<int>& entered = cut->second.cut_teeth;
        if (entered.empty() || now == entered) continue;
        std::vector<Value>& list = cut->second.leaf.value.items;
        if (other_way_round(now, entered) && list.size() == 2) {
            std::swap(list[0], list[1]);
            continue;
        }
        noted.note("ask.cut", std::string(key),
                   fmt::format("{} is of the gears {}; {} is calculated with half of the sum of "
                               "profile shifts on each gear: enter how they were cut, if not so",
                               key, teeth_words(entered), teeth_words(now)));
        leaves.erase(cut);
    }
}

std::string teeth_words(const std::vector<int>& teeth) {
    return fmt::format("{}", fmt::join(teeth, "/"));
}

std::string not_as_cut_words(const CutInput& cut, const std::vector<int>& teeth) {
    return fmt::format(
        "{} is of the gears {}: half of the sum of profile shifts on each gear of {}",
        cut.profile_shift.empty() ? tip_diameter_key : profile_shift_key, teeth_words(cut.teeth),
        teeth_words(teeth));
}

CutGears cut_gears(const Setup& setup, const std::vector<int>& teeth) {
    const CutInput& cut = setup.gears.cut;
    const bool turned = teeth != cut.teeth;
    if (!cut.entered() || (turned && !other_way_round(teeth, cut.teeth))) return {};
    CutGears gears{cut.profile_shift, cut.tip_diameter_mm};
    if (gears.shifts.empty()) {
        iso_21771::MeasuredTips tips{{}, gears.tips_mm};
        for (std::size_t mesh = 0; mesh + 1 < cut.teeth.size(); ++mesh)
            tips.meshes.push_back(pair_input(setup, cut.teeth[mesh], cut.teeth[mesh + 1],
                                             mesh_distance_mm(setup, mesh)));
        gears.shifts = iso_21771::shifts_of_tips(tips);
    }
    if (turned) {
        std::reverse(gears.shifts.begin(), gears.shifts.end());
        std::reverse(gears.tips_mm.begin(), gears.tips_mm.end());
    }
    return gears;
}

iso_21771::Pair mesh_pair(const Setup& setup, const std::vector<int>& teeth, std::size_t mesh) {
    const iso_21771::PairInput in =
        pair_input(setup, teeth[mesh], teeth[mesh + 1], mesh_distance_mm(setup, mesh));
    const CutGears cut = cut_gears(setup, teeth);
    if (cut.shifts.empty()) return iso_21771::pair(in);
    const iso_21771::Shifts shifts{cut.shifts[mesh], cut.shifts[mesh + 1]};
    if (!cut.tips_mm.empty())
        return iso_21771::pair(in, shifts, {cut.tips_mm[mesh], cut.tips_mm[mesh + 1]});
    const iso_21771::Pair own = iso_21771::pair(in, shifts, {0, 0});
    if (teeth.size() != 3) return own;
    // An idler has one tip: the one that both its mates leave it.
    const std::size_t other = 1 - mesh;
    const iso_21771::Pair beside = iso_21771::pair(
        pair_input(setup, teeth[other], teeth[other + 1], mesh_distance_mm(setup, other)),
        {cut.shifts[other], cut.shifts[other + 1]}, {0, 0});
    return mesh == 0 ? iso_21771::pair(in, shifts, {0, std::min(own.d_a2_mm, beside.d_a1_mm)})
                     : iso_21771::pair(in, shifts, {std::min(own.d_a1_mm, beside.d_a2_mm), 0});
}

void check_cut(Completed& from, const Setup& setup) {
    const GearsInput& gears = setup.gears;
    if (!gears.cut.entered()) return;
    // What is wrong with the teeth or their places is said there.
    if (from.broken("gears.") || from.broken("case.") || from.broken("set.") ||
        !from.problems.empty() || gears.teeth.size() != gears.train.size())
        return;
    const Cut cut(setup);
    const std::size_t count =
        cut.of_shifts() ? gears.cut.profile_shift.size() : gears.cut.tip_diameter_mm.size();
    if (count != gears.teeth.size()) {
        from.problem(cut.key(),
                     fmt::format("{} has {} value{} for the {} gears of gears.train", cut.key(),
                                 count, count == 1 ? "" : "s", gears.teeth.size()),
                     "one value for each gear, input gear first");
        return;
    }
    const std::string wrong = cut.wrong();
    if (wrong.empty()) return;
    const std::string nearest = cut.nearest();
    from.problem(
        cut.key(), fmt::format("{}: {}", cut.key(), wrong),
        nearest.empty()
            ? fmt::format("no shifts do for {} teeth on this centre distance; their sum is "
                          "{}",
                          teeth_words(gears.teeth), cut.wanted_sum())
            : fmt::format("the nearest that does: {}", nearest));
}

}  // namespace caseload::input
