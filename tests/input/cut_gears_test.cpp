// SPDX-License-Identifier: MIT
// gears.profile_shift and gears.tip_diameter: the gears as they were cut.
#include "caseload/assess.hpp"
#include "input/setup_files.hpp"
#include "own_folder.hpp"
#include "program.hpp"
#include "support.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <optional>
#include <string>
#include <tuple>
#include <vector>

namespace caseload::cut_gears_tests {

using namespace caseload::input_test;

namespace {

std::string with(const std::string& lines) {
    return shortest() + lines;
}

std::string problem(const std::string& text) {
    try {
        (void)read(text);
    } catch (const Error& error) {
        if (error.problems().size() != 1) return "not one problem";
        return error.problems().front().text + " | " + error.problems().front().hint;
    }
    return "no problem";
}

std::string idler(const std::string& lines) {
    std::string text = file_text(golden_folder() + "idler.toml");
    return text.insert(text.find("fitted = "), lines);
}

constexpr const char* shifted = "gears.profile_shift = [0.2, -0.2]\n";

}  // namespace

TEST_CASE("cut gears: tips ask for no more shift than can be entered, and a hint can run") {
    // 33 teeth of module 5 mm without shift have tips of 175 mm, with 0.8 of 183 mm.
    const std::string wide = problem(with("gears.tip_diameter = [\"185 mm\", \"203 mm\"]\n"));
    CHECK(wide.find("185 mm means a profile shift of ") != std::string::npos);
    CHECK(wide.find("must be at most 0.8 | the nearest that does: ") != std::string::npos);
    // 13 teeth undercut below 1 - 13 sin^2(20 deg)/2 = 0.2396; half of the sum is 0.
    std::string few = with("gears.profile_shift = [-0.4, 0.4]\n");
    few.replace(few.find("[33, 41]"), 8, "[13, 61]");
    const std::string hint = problem(few);
    CHECK(hint.find("| the nearest that does: gears.profile_shift = [0.24, -0.24]") !=
          std::string::npos);
    few.replace(few.find("[-0.4, 0.4]"), 11, "[0.24, -0.24]");
    CHECK(problem(few) == "no problem");
}

TEST_CASE("cut gears: what is calculated, entered, leaves every number as it is") {
    // 75 teeth where 74 go without shift.
    const auto with_75 = [](const std::string& lines) {
        std::string text = shortest();
        const std::string line = "gears.fitted = [33, 41]\n";
        return text.replace(text.find(line), line.size(), "gears.fitted = [33, 42]\n" + lines);
    };
    const Setup base = read(with_75("")).setup;
    const Train plain = place_train(base);
    const iso_21771::Pair& pair = plain.meshes[0].pair;
    REQUIRE(pair.x_sum < -0.4);
    const std::string entered =
        fmt::format("gears.profile_shift = [{:.17g}, {:.17g}]\n", pair.x_1, pair.x_2);
    const Setup setup = read(with_75(entered)).setup;
    CHECK(place_train(setup) == plain);
    const CoolerSide before = assess(base).fitted;
    const CoolerSide after = assess(setup).fitted;
    CHECK(after.event.peak_oil_degC == before.event.peak_oil_degC);
    CHECK(after.damage.bearings[0].life_share == before.damage.bearings[0].life_share);
    for (std::size_t g = 0; g < before.checked.gears.size(); ++g) {
        CHECK(after.checked.gears[g].S_H == before.checked.gears[g].S_H);
        CHECK(after.checked.gears[g].S_F == before.checked.gears[g].S_F);
    }
    // By the tips, to their printed digits.
    const Train tips = place_train(
        read(with_75(fmt::format("gears.tip_diameter = [\"{:.12g} mm\", \"{:.12g} mm\"]\n",
                                 pair.d_a1_mm, pair.d_a2_mm)))
            .setup);
    CHECK(tips.meshes[0].pair.x_1 == rel(pair.x_1, 1e-9));
    CHECK(tips.meshes[0].pair.eps_alpha == rel(pair.eps_alpha, 1e-9));
}

TEST_CASE("cut gears: shifts reach tips, teeth, loss and oil thrown") {
    const Setup plain = read(shortest()).setup;
    const Setup cut = read(with(shifted)).setup;
    const iso_21771::Pair before = place_train(plain).meshes[0].pair;
    const Train train = place_train(cut);
    const iso_21771::Pair& after = train.meshes[0].pair;
    CHECK(after.d_a1_mm == rel(before.d_a1_mm + 2 * 5 * 0.2, 1e-12));
    CHECK(after.d_f2_mm == rel(before.d_f2_mm - 2 * 5 * 0.2, 1e-12));
    CHECK(train.shafts[0].tip_diameter_mm == after.d_a1_mm);
    CHECK(train.shafts[1].tip_diameter_mm == after.d_a2_mm);
    CHECK(after.alpha_wt_rad == before.alpha_wt_rad);
    CHECK(after.eps_1 > before.eps_1);
    CHECK(after.eps_2 < before.eps_2);
    const CoolerSide was = assess(plain).fitted;
    const CoolerSide is = assess(cut).fitted;
    CHECK(is.event.peak_oil_degC != was.event.peak_oil_degC);
    // More shift makes a root stronger, less makes it weaker: its classic purpose.
    CHECK(is.checked.gears[0].S_F > 1.02 * was.checked.gears[0].S_F);
    CHECK(is.checked.gears[1].S_F < was.checked.gears[1].S_F);
    CHECK(is.checked.gears[0].S_H != was.checked.gears[0].S_H);
}

TEST_CASE("cut gears: the entry belongs to the gears it was made for") {
    const Document document(with(shifted), "setup.toml", {});
    const auto pair_of = [&](const std::string& teeth) {
        const Change change{"gears.fitted", teeth};
        const ReadSetup read = document.complete({&change, 1});
        return place_train(read.setup).meshes[0].pair;
    };
    CHECK(pair_of("[33, 41]").x_1 == 0.2);
    CHECK(pair_of("\"33/41\"").x_1 == 0.2);
    // The two gears change places, each with its own shift.
    CHECK(pair_of("[41, 33]").x_1 == -0.2);
    CHECK(pair_of("[41, 33]").x_2 == 0.2);
    // Other gears of the same sum are not these.
    CHECK(within(pair_of("[34, 40]").x_1, 0, 1e-12));
    const Change other{"gears.fitted", "[34, 40]"};
    const ReadSetup left_out = document.complete({&other, 1});
    CHECK(has_note(left_out, "ask.cut", "gears.profile_shift"));
    CHECK(entry(left_out, "gears.profile_shift").key.empty());
    // As a file of its own the completed setup says the same.
    CHECK(place_train(read(completed_text(left_out)).setup).meshes[0].pair.x_1 ==
          pair_of("[34, 40]").x_1);
    // The fast way of many changes is the long one.
    const FewChanged few(document);
    CHECK(few.setup(other) == left_out.setup);
    // Two changes together: the shift is of the gears beside it.
    const std::vector<Change> both{{"gears.fitted", "[34, 40]"},
                                   {"gears.profile_shift", "[0.1, -0.1]"}};
    CHECK(place_train(document.complete(both).setup).meshes[0].pair.x_1 == 0.1);
    // A change of one key replaces the other one.
    const Change tips{"gears.tip_diameter", "[\"176.5 mm\", \"213.5 mm\"]"};
    CHECK(place_train(document.complete({&tips, 1}).setup).meshes[0].pair.x_1 == rel(0.15, 1e-9));
}

TEST_CASE("cut gears: a newer file that fits other gears leaves them out, and asks") {
    const auto base = [](const std::string&) { return std::optional<std::string>(with(shifted)); };
    const auto file = [&](const std::string& lines) {
        return read_setup("caseload = 1\nbase = \"b\"\n" + lines, "setup.toml", base);
    };
    CHECK(place_train(file("").setup).meshes[0].pair.x_1 == 0.2);
    CHECK_FALSE(has_note(file(""), "ask.cut", "gears.profile_shift"));
    CHECK(place_train(file("gears.fitted = 41/33\n").setup).meshes[0].pair.x_2 == 0.2);
    const ReadSetup other = file("gears.fitted = [34, 40]\n");
    CHECK(within(place_train(other.setup).meshes[0].pair.x_1, 0, 1e-12));
    CHECK(has_note(other, "ask.cut", "gears.profile_shift"));
    // By the name of a set.
    CHECK(place_train(file("[set.A]\nteeth = [33, 41]\n[gears]\nfitted = \"A\"\n").setup)
              .meshes[0]
              .pair.x_1 == 0.2);
}

TEST_CASE("cut gears: other teeth under the name of the fitted set are other gears") {
    std::string text = with(shifted);
    const std::string line = "gears.fitted = [33, 41]\n";
    text.replace(text.find(line), line.size(), "gears.fitted = \"A\"\n");
    text += "set.A.teeth = [33, 41]\nset.B.teeth = [41, 33]\n";
    const Document document(text, "setup.toml", {});
    CHECK(document.complete().setup.gears.cut.profile_shift == std::vector<double>{0.2, -0.2});
    const auto changed = [&](const std::string& key, const std::string& value) {
        const Change change{key, value};
        const ReadSetup long_way = document.complete({&change, 1});
        CHECK(FewChanged(document).setup({&change, 1}) == long_way.setup);
        return long_way;
    };
    const ReadSetup other = changed("set.A.teeth", "[34, 40]");
    CHECK(!other.setup.gears.cut.entered());
    CHECK(has_note(other, "ask.cut", "gears.profile_shift"));
    CHECK(changed("set.A.teeth", "[41, 33]").setup.gears.cut.profile_shift ==
          std::vector<double>{-0.2, 0.2});
    CHECK(changed("gears.fitted", "\"B\"").setup.gears.cut.profile_shift ==
          std::vector<double>{-0.2, 0.2});
    // Another set's teeth are not those fitted.
    CHECK(changed("set.B.teeth", "[35, 39]").setup.gears.cut.profile_shift ==
          std::vector<double>{0.2, -0.2});
    // A newer file, and one over that.
    const auto base = [&](const std::string& name) {
        return std::optional<std::string>(
            name == "b" ? text : "caseload = 1\nbase = \"b\"\nset.A.teeth = [34, 40]\n");
    };
    const auto over = [&](const std::string& name, const std::string& lines) {
        return read_setup("caseload = 1\nbase = \"" + name + "\"\n" + lines, "setup.toml", base);
    };
    CHECK(!over("b", "set.A.teeth = [34, 40]\n").setup.gears.cut.entered());
    CHECK(!over("c", "").setup.gears.cut.entered());
    CHECK(over("c", "set.A.teeth = [33, 41]\n").setup.gears.cut.entered());
    CHECK(over("c", shifted).setup.gears.cut.entered());
}

TEST_CASE("cut gears: a leg with a set of its own has gears of its own") {
    const std::string legs = "set.B.teeth = [34, 40]\nset.C.teeth = [41, 33]\n";
    Setup setup = read(with(legs + shifted)).setup;
    for (const auto& [set, x_1, said] : {std::tuple{"B", 0.0, 1}, std::tuple{"C", -0.2, 0}}) {
        Setup other = setup;
        other.gears.teeth = setup.sets.at(set).teeth;
        other.gears.fitted_name = set;
        const Train train = place_train(other);
        CHECK(within(train.meshes[0].pair.x_1, x_1, 1e-12));
        int notes = 0;
        for (const iso_21771::Finding& finding : train.findings)
            notes += finding.id == "not_as_cut" ? 1 : 0;
        CHECK(notes == said);
    }
}

TEST_CASE("cut gears: an idler has one shift in both its meshes") {
    // 28 + 32 and 32 + 29 teeth of pitch 5 on 6 in: sums 0 and -0.48.
    const Train plain = place_train(read(idler("")).setup);
    const double x_a = plain.meshes[0].pair.x_sum;
    const double x_b = plain.meshes[1].pair.x_sum;
    const Train train = place_train(
        read(idler(fmt::format("profile_shift = [{:.4f}, -0.2, {:.4f}]\n", x_a + 0.2, x_b + 0.2)))
            .setup);
    CHECK(train.meshes[0].pair.x_2 == -0.2);
    CHECK(train.meshes[1].pair.x_1 == -0.2);
    CHECK(within(train.meshes[1].pair.x_2, x_b + 0.2, 5e-5));
    // One tip: the lower of what its mates leave it.
    const double unlike = train.meshes[0].pair.tip_shortening - train.meshes[1].pair.tip_shortening;
    REQUIRE(unlike > 0.01);
    CHECK(train.meshes[0].pair.d_a2_mm == train.meshes[1].pair.d_a1_mm);
    CHECK(train.meshes[0].pair.clearance_2_mm ==
          rel(train.meshes[0].pair.clearance_1_mm + unlike * train.meshes[0].pair.module_mm, 1e-9));
    CHECK(train.shafts[1].tip_diameter_mm == train.meshes[0].pair.d_a2_mm);
    CHECK(train.meshes[0].pair.d_f2_mm == train.meshes[1].pair.d_f1_mm);
    const Train tips = place_train(
        read(idler(fmt::format("tip_diameter = [\"{:.4f} mm\", \"{:.4f} mm\", \"{:.4f} mm\"]\n",
                               train.meshes[0].pair.d_a1_mm, train.meshes[0].pair.d_a2_mm,
                               train.meshes[1].pair.d_a2_mm)))
            .setup);
    CHECK(tips.meshes[0].pair.d_a2_mm == tips.meshes[1].pair.d_a1_mm);
    CHECK(tips.meshes[0].pair.x_2 == tips.meshes[1].pair.x_1);
    CHECK(within(tips.meshes[0].pair.x_1 + tips.meshes[0].pair.x_2, x_a, 1e-12));
    CHECK(within(tips.meshes[1].pair.x_1 + tips.meshes[1].pair.x_2, x_b, 1e-12));
}

TEST_CASE("cut gears: one message says what is wrong, and the nearest that does") {
    const auto said = [](const std::string& lines) { return problem(with(lines)); };
    CHECK(said("gears.profile_shift = [0.1]\n") ==
          "gears.profile_shift has 1 value for the 2 gears of gears.train | one value for each "
          "gear, input gear first");
    const std::string sum = said("gears.profile_shift = [0.3, 0.1]\n");
    CHECK(sum.find("ask for 0.000") != std::string::npos);
    CHECK(sum.find("the nearest that does: gears.profile_shift = [") != std::string::npos);
    CHECK(said("gears.profile_shift = [0.31, -0.3]\n") == "no problem");  // rounded, backlash
    const std::string both =
        said("gears.profile_shift = [0.1, -0.1]\ngears.tip_diameter = [\"176 mm\", \"214 mm\"]\n");
    CHECK(both.find("are both given") != std::string::npos);
    // 20 teeth with -0.3: x_min = 1.25 - 0.38 (1 - sin 20) - 20 sin^2 20 / 2 = -0.170.
    const std::string small = "gears.fitted = [20, 54]\n";
    const auto with_small = [&](const std::string& lines) {
        std::string text = shortest();
        const std::string line = "gears.fitted = [33, 41]\n";
        return problem(text.replace(text.find(line), line.size(), small + lines));
    };
    const std::string undercut = with_small("gears.profile_shift = [-0.3, 0.3]\n");
    CHECK(undercut.find("-0.3 undercuts the 20 tooth gear: its least profile shift is -0.170") !=
          std::string::npos);
    CHECK(with_small("gears.profile_shift = [-0.18, 0.18]\n") == "no problem");
    CHECK(with_small("gears.profile_shift = [-0.195, 0.195]\n") != "no problem");
    const std::string by_tips = with_small("gears.tip_diameter = [\"107 mm\", \"283 mm\"]\n");
    CHECK(by_tips.find("107 mm means a profile shift of -0.300, which undercuts the 20 tooth "
                       "gear: its least profile shift is -0.170") != std::string::npos);
    CHECK(with_small("gears.profile_shift = [0.79, -0.79]\n").find("must be from") !=
          std::string::npos);
    const std::string too_tall = said("gears.tip_diameter = [\"176.2 mm\", \"216.2 mm\"]\n");
    CHECK(too_tall.find("clear the roots of their mate by") != std::string::npos);
    CHECK(said("gears.tip_diameter = [\"150 mm\", \"190 mm\"]\n") != "no problem");
    // 12 teeth under 0.8: pointed, with a word from 0.4 modules down and refused below 0.2.
    const auto pointed = [&](const std::string& lines) {
        std::string text = shortest();
        const std::string line = "gears.fitted = [33, 41]\n";
        return text.replace(text.find(line), line.size(), "gears.fitted = [12, 61]\n" + lines);
    };
    const std::string thin = problem(pointed("gears.profile_shift = [0.8, -0.275]\n"));
    CHECK(thin.find("teeth of the 12 tooth gear are 0.07 ") != std::string::npos);
    CHECK(thin.find("modules thick at the tip") != std::string::npos);
    const std::size_t taken = thin.find("does: ");
    REQUIRE(taken != std::string::npos);
    const Train near = place_train(read(pointed(thin.substr(taken + 6) + "\n")).setup);
    CHECK(near.meshes[0].pair.s_a1_mm >= 0.2 * 5);
    CHECK(near.meshes[0].pair.s_a1_mm < 0.22 * 5);
    CHECK(std::any_of(near.findings.begin(), near.findings.end(), [](const auto& finding) {
        return finding.id == "tip_thickness" &&
               finding.severity == iso_21771::Finding::Severity::watch;
    }));
    // What it offers is taken.
    for (const std::string& one : {sum, too_tall}) {
        const std::size_t at = one.find("does: ");
        REQUIRE(at != std::string::npos);
        CHECK(said(one.substr(at + 6) + "\n") == "no problem");
    }
    const std::size_t at = undercut.find("does: ");
    REQUIRE(at != std::string::npos);
    CHECK(with_small(undercut.substr(at + 6) + "\n") == "no problem");
}

TEST_CASE("cut gears: every printed number of gears as cut recalculates") {
    const OwnFolder folder("cut_gears");
    const std::string light = file_text(test_files::root + "docs/examples/light.toml");
    const auto cut_light = [&](const std::string& line) {
        std::string text = light;
        return text.insert(text.find("oil.grade"), line);
    };
    folder.write("shift.toml", cut_light("gears.profile_shift = [0.2, -0.2]\n"));
    folder.write("tips.toml", cut_light("gears.tip_diameter = [\"176 mm\", \"213 mm\"]\n"));
    folder.write("idler_shift.toml", idler("profile_shift = [0.2, -0.2, -0.28]\n"));
    folder.write("idler.toml", idler("tip_diameter = [\"6.02 in\", \"6.78 in\", \"6.02 in\"]\n"));
    for (const std::string name : {"shift", "tips", "idler", "idler_shift"}) {
        const Run run = run_program_as_user("why --check " + folder.path(name + ".toml"));
        CAPTURE(name);
        CAPTURE(run.out);
        CHECK(run.code == 0);
        CHECK(run.out.find("; 0 do not agree") != std::string::npos);
    }
    const auto number = [&](const std::string& file, const std::string& address) {
        return run_program_as_user("why " + folder.path(file + ".toml") + " mesh.input-output." +
                                   address)
            .out;
    };
    CHECK(number("shift", "x_1").find("shift.toml:6, gears.profile_shift") != std::string::npos);
    CHECK(number("tips", "d_a1_mm").find("tips.toml:6, gears.tip_diameter") != std::string::npos);
    CHECK(number("tips", "x_1").find("formula   x_sum - x_2") != std::string::npos);
    CHECK(number("tips", "x_2").find("d_a2_mm = 213") != std::string::npos);
}

TEST_CASE("cut gears: screens of sets, of a change and the page say whose shift it is") {
    const OwnFolder folder("cut_screens");
    std::string text = file_text(test_files::root + "docs/examples/light.toml");
    text.insert(text.find("oil.grade"), "gears.profile_shift = [0.2, -0.2]\n");
    folder.write("cut.toml", text + "\n[set.B]\nteeth = [34, 40]\n[set.C]\nteeth = [41, 33]\n");
    const std::string file = folder.path("cut.toml");
    const Run sets = run_program_as_user("sets " + file + " --draws 63");
    CHECK(sets.code == 0);
    CHECK(sets.out.find("AS CUT         gears.profile_shift for 33/41, either way round") !=
          std::string::npos);
    const Run other = run_program_as_user("compare " + file + " --with gears.fitted=34/40");
    CHECK(other.code == 0);
    CHECK(other.out.find("gears.profile_shift is of the gears 33/41; 34/40 is calculated with") !=
          std::string::npos);
    const Run round = run_program_as_user("compare " + file + " --with gears.fitted=41/33");
    CHECK(round.code == 0);
    CHECK(round.out.find("profile_shift") == std::string::npos);
    CHECK(run_program_as_user("assess " + file + " --page " + folder.path("p.html")).code == 0);
    const std::string page = file_text(folder.path("p.html"));
    CHECK(page.find("0.200, entered") != std::string::npos);
    CHECK(page.find("-0.200, entered") != std::string::npos);
    const Run bad =
        run_program_as_user("compare " + file + " --with gears.profile_shift=[0.2,0.1]");
    CHECK(bad.code == 2);
    CHECK(bad.out.find("0.2 and 0.1 are 0.300 together") != std::string::npos);
}

}  // namespace caseload::cut_gears_tests
