// SPDX-License-Identifier: MIT
// Every formula `why` prints is recalculated from the printed text, on every shipped example.
#include "own_folder.hpp"
#include "program.hpp"

#include "caseload/show/why.hpp"

#include <doctest/doctest.h>

#include <sstream>
#include <string>

namespace caseload::why_tests {

TEST_CASE("why: operators, functions and precedence of an expression") {
    const auto named = [](std::string_view name) { return name == "x" ? 3.0 : 5.0; };
    CHECK(evaluate("1 + 2 * x^2 - -1", named) == 20);
    CHECK(evaluate("2^3^2 / 2", named) == 256);
    CHECK(evaluate("if(x < y, min(x, y), 0) + 4^(-0.5)", named) == 3.5);
    CHECK(evaluate("lin(x, 1, 10, 2, 20, 4, 40) + [a.b@c/1]", named) == 35);
    CHECK(evaluate("lin(0, 1, 10, 2, 20)", named) == 10);
    CHECK(evaluate("lin(9, 1, 10, 2, 20)", named) == 20);
    CHECK(evaluate("sum(k, 1, 3, k * x) + sum(k, 0, 0, sum(n, 1, 2, n + k))", named) == 21);
    CHECK(evaluate("largest(k, 0, 4, -(k - 3)^2 + x)", named) == 3);
    CHECK(evaluate("floor(2.9) + atan2(0, 1)", named) == 2);
    // Abramowitz and Stegun, table 9.8: e^-1 I_0(1) and e^-1 I_1(1).
    CHECK(evaluate("exp(-1) * besseli(0, 1)", named) ==
          doctest::Approx(0.4657596077).epsilon(1e-9));
    CHECK(evaluate("exp(-1) * besseli(1, 1)", named) ==
          doctest::Approx(0.2079104154).epsilon(1e-9));
    CHECK(names_in("sum(k, 0, n_max, k * x) + [a.b@c/1]") ==
          std::vector<std::string>{"n_max", "x", "[a.b@c/1]"});
    CHECK_THROWS(evaluate("[a.b", named));
    CHECK_THROWS(evaluate("1 +", named));
    CHECK_THROWS(evaluate("(1", named));
    CHECK_THROWS(evaluate("1 2", named));
    CHECK_THROWS(evaluate("sinus(1)", named));
}

TEST_CASE("why: the table rows beside a value are printed, of the branch that applies") {
    const auto named = [](std::string_view name) { return name == "x" ? 3.0 : 5.0; };
    std::vector<Between> rows;
    evaluate("if(x < y, lin(x, 1, 10, 2, 20, 4, 40), lin(y, 1, 1, 9, 9))", named, &rows);
    REQUIRE(rows.size() == 1);
    CHECK(rows[0].at == 3);
    CHECK(rows[0].low_at == 2);
    CHECK(rows[0].low == 20);
    CHECK(rows[0].high_at == 4);
    CHECK(rows[0].high == 40);
    rows.clear();
    evaluate("if(y < x, lin(y, 1, 1, 9, 9), lin(x, 4, 40, 5, 50))", named, &rows);
    REQUIRE(rows.size() == 1);
    CHECK(rows[0].low_at == rows[0].high_at);
    CHECK(rows[0].low == 40);
}

TEST_CASE("why: a sum is split into its terms") {
    CHECK(terms_of("a + b * (c + d) - [e.f@g/1] + h^-2") ==
          std::vector<std::string>{"a", "b * (c + d)", "- [e.f@g/1]", "h^-2"});
    CHECK(terms_of("3e-4 * a").size() == 1);
}

TEST_CASE("why: a wrong printed number is noticed") {
    const std::string text =
        "a\n  formula   x * y\n  result    6 mm\n    x = 2   b\n    y = 3   c\n";
    CHECK(recalculate(text)->agrees);
    std::string wrong = text;
    wrong.replace(wrong.find("6 mm"), 1, "7");
    CHECK_FALSE(recalculate(wrong)->agrees);
    // Half a digit of each input passes, three digits do not.
    std::string close = text;
    close.replace(close.find("6 mm"), 1, "6.00000000001");
    CHECK(recalculate(close)->agrees);
    close.replace(close.find("6.00000000001"), 13, "6.000000001");
    CHECK_FALSE(recalculate(close)->agrees);
    CHECK_THROWS(recalculate("  formula   x * y\n  result    6\n    x = 2   b\n"));
    CHECK_FALSE(recalculate("  result    6\n").has_value());
    const std::string between =
        "  at least  x\n  put in    1\n  at most   2 * x\n  put in    2 * 1\n  result    RESULT\n"
        "    x = 1   b\n";
    const auto with = [&](const std::string& result) {
        std::string put = between;
        put.replace(put.find("RESULT"), 6, result);
        return recalculate(put).value();
    };
    CHECK(with("1.5").agrees);
    CHECK(with("1.5").bounded);
    CHECK(with("2").agrees);
    CHECK_FALSE(with("2.001").agrees);
    CHECK_FALSE(with("0.999").agrees);
    const std::string rest = "  equation  0 = x - y\n    x = 2   b\n    y = ";
    CHECK(recalculate(rest + "2\n")->agrees);
    CHECK_FALSE(recalculate(rest + "2.001\n")->agrees);
}

TEST_CASE("why: every printed formula of every example agrees when recalculated") {
    const std::string root = std::string(CASELOAD_ROOT) + "/";
    for (const std::string name :
         {"docs/examples/dip", "docs/examples/heavy", "docs/examples/idler", "docs/examples/light",
          "docs/examples/shelf", "docs/examples/trailer", "tests/golden/full", "tests/golden/idler",
          "tests/browser/hot", "tests/reference/bolted"}) {
        const Run run = run_program_as_user("why --check " + root + name + ".toml");
        CAPTURE(name);
        CAPTURE(run.out);
        CHECK(run.code == 0);
        CHECK(run.out.find("; 0 do not agree") != std::string::npos);
        // Nine of ten have a formula, not bounds alone.
        std::istringstream counts(run.out);
        double calculated = 0;
        double formulas = 0;
        std::string word;
        counts >> calculated >> word >> word >> word >> word >> word >> formulas;
        CHECK(calculated > 0);
        CHECK(formulas > 0.9 * calculated);
    }
}

TEST_CASE("why: an event, a life, a dead pump or a count that is wrong is noticed") {
    const std::string folder = std::string(CASELOAD_ROOT) + "/docs/examples/";
    const ReadSetup read =
        Document(file_text(folder + "light.toml"), "light.toml", nullptr).complete();
    const Assessment right = assess(read.setup);
    const auto agrees = [&](const Assessment& answer, const std::string& address) {
        return recalculate(why_screen(Reasons(read, answer).why(address))).value().agrees;
    };
    Assessment wrong = right;
    wrong.fitted.event.runs[2].end_oil_degC += 0.1;
    wrong.fitted.damage.bearings[0].life_share *= 1.001;
    wrong.fitted.damage.oil_dose *= 1.001;
    wrong.fitted.intervals.fatigue_events -= 1;
    wrong.fitted.intervals.remaining_events -= 1;
    wrong.pump_dead.churning_W *= 1.001;
    wrong.fitted.event.peak_housing_degC += 0.001;
    for (Check& check : wrong.fitted.checked.checks)
        if (check.id == CheckId::seal_lip || check.id == CheckId::bearing_least_load)
            check.value += 0.001;
    for (const std::string address :
         {"event.end_oil_degC@run/3", "bearing.input_front.life_share", "event.oil_dose",
          "actions.fatigue_events", "actions.remaining_events", "pump_dead.churning_W",
          "event.peak_housing_degC", "seal.input.check_lip",
          "bearing.input_rear.check_least_load"}) {
        CAPTURE(address);
        CHECK(agrees(right, address));
        CHECK_FALSE(agrees(wrong, address));
    }
}

TEST_CASE("why: wrong heat through the flange to a neighbour is noticed") {
    const std::string dip = file_text(std::string(CASELOAD_ROOT) + "/docs/examples/dip.toml");
    const std::vector<Change> entered{{"housing.neighbour_conductance", "\"12 W/K\""},
                                      {"housing.neighbour_temperature", "\"20 degC\""}};
    const std::vector<Change> by_word{{"housing.neighbour", "\"gearbox\""}};
    for (const auto& changes : {entered, by_word}) {
        const ReadSetup read = Document(dip, "dip.toml", nullptr).complete(changes);
        const Assessment right = assess(read.setup);
        Assessment wrong = right;
        IfAny& heat_W = wrong.fitted.legs.at(0).at_rest.neighbour_W;
        REQUIRE(heat_W);
        *heat_W *= 1.001;
        for (const Assessment* answer : std::vector<const Assessment*>{&right, &wrong}) {
            CAPTURE(answer == &right);
            for (const char* address :
                 {"rest.neighbour_W@sand", "rest.housing_degC@sand", "rest.oil_degC@sand"})
                CHECK(recalculate(why_screen(Reasons(read, *answer).why(address))).value().agrees ==
                      (answer == &right));
        }
    }
}

TEST_CASE("why: a long formula goes on in the next line and is read as one") {
    Why why;
    why.number.address = "a.sum";
    why.number.value = 0;
    for (int i = 1; i <= 30; ++i) {
        const std::string name = "[part.number@leg/" + std::to_string(i) + "]";
        why.number.value_of += (i == 1 ? "" : " + ") + name;
        why.names.push_back(name);
        why.inputs.emplace_back().value = i % 2 == 0 ? i : -i;
        why.number.value += why.inputs.back().value;
    }
    const std::string screen = why_screen(why);
    std::size_t from = 0;
    for (std::size_t to = screen.find('\n'); to != std::string::npos;
         from = to + 1, to = screen.find('\n', from))
        CHECK(to - from <= 100);
    CHECK(recalculate(screen)->again == 15);
    CHECK(recalculate(screen)->agrees);
}

TEST_CASE("why: a mistyped address gets the nearest ones") {
    const std::string setup = std::string(CASELOAD_ROOT) + "/docs/examples/light.toml";
    const Run run = run_program_as_user("why " + setup + " bearing.output_rear.kapa@loop/2");
    CHECK(run.code == 2);
    CHECK(run.out.find("bearing.output_rear.kapa@loop/2: no number has this address; nearest: "
                       "bearing.output_rear.kappa@loop/2, ") != std::string::npos);
}

TEST_CASE("why: a number or part without its place gets the addresses that contain it") {
    const std::string why = "why " + std::string(CASELOAD_ROOT) + "/docs/examples/light.toml ";
    const Run number = run_program_as_user(why + "kappa");
    CHECK(number.code == 2);
    CAPTURE(number.out);
    CHECK(number.out.find(" hold it: bearing.input_front.kappa@transit/1, "
                          "bearing.input_rear.kappa@transit/1, ") != std::string::npos);
    CHECK(number.out.find(" more; all of them: --list") != std::string::npos);
    const Run part = run_program_as_user(why + "output_rear");
    CHECK(part.code == 2);
    CHECK(part.out.find(" hold it: bearing.output_rear.") != std::string::npos);
    const Run one = run_program_as_user(why + "driving_h");
    CHECK(one.out.find("1 holds it: event.driving_h; all of them") != std::string::npos);
    const Run misspelt = run_program_as_user(why + "kapa");
    CHECK(misspelt.code == 2);
    CHECK(misspelt.out.find("nearest: bearing.input_front.kappa@") != std::string::npos);
}

TEST_CASE("why: --list --json is one document with an address for each number") {
    const std::string root = std::string(CASELOAD_ROOT) + "/";
    const Run run = run_program_as_user("why " + root + "docs/examples/light.toml --list --json");
    CHECK(run.code == 0);
    CHECK(run.out.rfind("{\"schema\":1,\"command\":\"why\",\"caution\":\"", 0) == 0);
    CHECK(run.out.find("\"setup\":\"light.toml\",\"numbers\":[{\"address\":\"") !=
          std::string::npos);
    CHECK(run.out.substr(run.out.size() - 4) == "}]}\n");
}

TEST_CASE("why: without an address it shows the number that decides") {
    const std::string root = std::string(CASELOAD_ROOT) + "/";
    const auto first_line = [&](const std::string& setup) {
        const Run run = run_program_as_user("why " + root + setup);
        CAPTURE(run.out);
        CHECK(run.code == 0);
        return run.out.substr(0, run.out.find('\n'));
    };
    const std::string stopped = first_line("tests/browser/hot.toml");
    CHECK(stopped.rfind("Stopped by ", 0) == 0);
    CHECK(stopped.find("..") == std::string::npos);
    CHECK(first_line("docs/examples/light.toml").rfind("The oil decides", 0) == 0);
}

TEST_CASE("why: a constant of the formula table 1 % larger ends --check with exit code 70") {
    const std::string root = std::string(CASELOAD_ROOT) + "/";
    std::string table = file_text(root + "tables/why.toml");
    const std::string old = "4500 * n_rpm";  // of the viscosity it needs, above 1000 r/min
    const std::size_t at = table.find(old);
    REQUIRE(at != std::string::npos);
    const OwnFolder folder("why_table");
    folder.write("same.toml", table);
    folder.write("changed.toml", table.replace(at, old.size(), "4545 * n_rpm"));
    const std::string check = "why " + root + "tests/browser/hot.toml --check --formulas ";
    CHECK(run_program_as_user(check + folder.path("same.toml")).code == 0);
    CHECK(run_program_as_user(check + folder.path("changed.toml")).code == 70);
}

}  // namespace caseload::why_tests
