// SPDX-License-Identifier: MIT
// Every formula `why` prints is put in again from the printed text, on every shipped example.
#include "program.hpp"

#include "caseload/show/why.hpp"

#include <doctest/doctest.h>

#include <string>

using namespace caseload;

TEST_CASE("why: an expression is read as written") {
    const auto named = [](std::string_view name) { return name == "x" ? 3.0 : 5.0; };
    CHECK(evaluate("1 + 2 * x^2 - -1", named) == 20);
    CHECK(evaluate("2^3^2 / 2", named) == 256);
    CHECK(evaluate("if(x < y, min(x, y), 0) + 4^(-0.5)", named) == 3.5);
    CHECK_THROWS(evaluate("1 +", named));
    CHECK_THROWS(evaluate("(1", named));
    CHECK_THROWS(evaluate("1 2", named));
    CHECK_THROWS(evaluate("sinus(1)", named));
}

TEST_CASE("why: a wrong printed number is noticed") {
    const std::string text =
        "a\n  formula   x * y\n  result    6 mm\n    x = 2   b\n    y = 3   c\n";
    CHECK(put_in_again(text)->agrees);
    std::string wrong = text;
    wrong.replace(wrong.find("6 mm"), 1, "7");
    CHECK_FALSE(put_in_again(wrong)->agrees);
    CHECK_THROWS(put_in_again("  formula   x * y\n  result    6\n    x = 2   b\n"));
    CHECK_FALSE(put_in_again("  result    6\n").has_value());
    const std::string rest = "  equation  0 = x - y\n    x = 2   b\n    y = ";
    CHECK(put_in_again(rest + "2\n")->agrees);
    CHECK_FALSE(put_in_again(rest + "2.001\n")->agrees);
}

TEST_CASE("why: every printed formula of every example agrees when put in again") {
    for (const std::string name : {"dip", "heavy", "idler", "light", "trailer"}) {
        const Run run = run_program_as_user("why --check " + std::string(CASELOAD_ROOT) +
                                            "/docs/examples/" + name + ".toml");
        CAPTURE(run.out);
        CHECK(run.code == 0);
        CHECK(run.out.find(", 0 of these do not agree") != std::string::npos);
        CHECK(run.out.find(", 0 with a formula") == std::string::npos);
    }
}

TEST_CASE("why: a mistyped address gets the nearest ones") {
    const std::string setup = std::string(CASELOAD_ROOT) + "/docs/examples/light.toml";
    const Run run = run_program_as_user("why " + setup + " bearing.output_rear.kapa@loop/2");
    CHECK(run.code == 2);
    CHECK(run.out.find("bearing.output_rear.kapa@loop/2: no number has this address; nearest: "
                       "bearing.output_rear.kappa@loop/2, ") != std::string::npos);
}
