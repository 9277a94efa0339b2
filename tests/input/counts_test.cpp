// SPDX-License-Identifier: MIT
// How many of each kind a setup may name, and who named the file a problem is in.
#include "caseload/input.hpp"
#include "caseload/show/problems.hpp"
#include "examples.hpp"
#include "refused.hpp"
#include "support.hpp"

#include <fmt/format.h>

#include <map>
#include <optional>
#include <string>

namespace caseload::counts_tests {

namespace {

const std::string top = "caseload = 1\nbase = \"light.toml\"\n";

std::string report_of(const std::string& text, const FindBase& find = examples::text) {
    const auto error = error_of([&] { (void)read_setup(text, "s.toml", find); });
    if (error) CHECK(error->kind() == Error::Kind::input);
    return error ? problem_report(*error) : std::string();
}

struct Kind {
    std::string heading;
    std::string lines;  ///< of one
    std::string words;
    int most;
    int there;  ///< in the example already
};

const Kind kinds[] = {
    {"joint", "shaft = \"output\"\nend = \"front\"\nangle_down = \"3 deg\"\n", "joints", 20, 2},
    {"seal", "shaft = \"output\"\ndiameter = \"50 mm\"\n", "seals", 50, 3},
    {"reading",
     "place = \"oil-bath\"\ntemp = \"90 degC\"\nleg = \"loop\"\nat_pace = \"1 h\"\n"
     "ambient = \"30 degC\"\n",
     "readings", 1000, 0},
    {"core", "size = \"300x200x50 mm\"\nconstruction = \"plate-fin\"\n", "cores", 200, 0},
    {"candidate", "type = \"deep-groove-ball\"\nsize = \"60x110x22 mm\"\n",
     "bearings to choose from", 1000, 0},
    {"set", "teeth = [33, 41]\n", "drop sets", 200, 0},
    {"leg", "course = \"graded\"\npace = \"50 km/h\"\nduration = \"1 h\"\n",
     "legs that event.run does not drive", 200, 0},
};

std::string with(const Kind& kind, int count) {
    std::string text = top;
    for (int i = 0; i < count; ++i)
        text += fmt::format("[{}.z{}]\n{}", kind.heading, i, kind.lines);
    return text;
}

}  // namespace

TEST_CASE(
    "counts: the largest allowed count is read, one more is refused with its line and both "
    "numbers") {
    for (const Kind& kind : kinds) {
        CAPTURE(kind.heading);
        const std::string most = report_of(with(kind, kind.most - kind.there));
        CHECK(most.find("a setup may have") == std::string::npos);
        const std::string more = report_of(with(kind, kind.most - kind.there + 1));
        CAPTURE(more);
        CHECK(more.find(fmt::format("error: [{}.NAME]: there are {} {}; a setup may have {}\n",
                                    kind.heading, kind.most + 1, kind.words, kind.most)) !=
              std::string::npos);
        CHECK(more.rfind("s.toml:", 0) == 0);
        CHECK(more.find("\n1 error;") != std::string::npos);
    }
}

TEST_CASE(
    "counts: legs driven by the event do not count as unused, however often they are repeated") {
    std::string text = top + "event.run = [";
    std::string legs;
    for (int i = 0; i < 400; ++i) {
        text += fmt::format("{}\"{}d{}\"", i == 0 ? "" : ",", i % 2 == 0 ? "2 x " : "", i) +
                (i % 20 == 19 ? "\n" : "");
        legs += fmt::format(
            "[leg.d{}]\ncourse = \"graded\"\npace = \"50 km/h\"\nduration = "
            "\"1 min\"\n",
            i);
    }
    CHECK(report_of(text + "]\n" + legs).empty());
}

TEST_CASE("counts: cores and bearings of a library count with those of the setup") {
    std::string shop = "caseload = 1\n";
    for (int i = 0; i < 201; ++i)
        shop +=
            fmt::format("[core.z{}]\nsize = \"300x200x50 mm\"\nconstruction = \"plate-fin\"\n", i);
    const std::string report =
        report_of(top + "library = \"shop.toml\"\n", [&](const std::string& name) {
            return name == "shop.toml" ? std::optional<std::string>(shop) : examples::text(name);
        });
    CHECK(report.find("there are 201 cores; a setup may have 200") != std::string::npos);
    CHECK(report.find("shop.toml is library of s.toml (line 3)") != std::string::npos);
}

TEST_CASE("bases: a problem in one says who named it, up to the file that was asked for") {
    const auto report = [](const std::string& bad) {
        const std::map<std::string, std::string> files{
            {"b.toml", "caseload = 1\n\nbase = \"c.toml\"\n"}, {"c.toml", bad}};
        return report_of("caseload = 1\nbase = \"b.toml\"\n", [&](const std::string& name) {
            const auto found = files.find(name);
            return found == files.end() ? examples::text(name)
                                        : std::optional<std::string>(found->second);
        });
    };
    const std::string chain =
        "  c.toml is base of b.toml (line 3), which is base of s.toml (line 2)\n";
    // Of meaning, of syntax, of a limit, of a file not found.
    for (const std::string& bad :
         {std::string("caseload = 1\nbase = \"light.toml\"\nvehicle.mass = 5\n"),
          std::string("caseload = 1\nvehicle.mass = \n"), std::string("caseload = 1\nx = nan\n"),
          std::string("\xEF\xBB\xBF\xEF\xBB\xBF"),
          std::string("caseload = 1\nbase = \"no.toml\"\n"), std::string((1U << 20U) + 1, ' ')}) {
        const std::string said = report(bad);
        CAPTURE(said);
        CHECK(said.rfind("c.toml:", 0) == 0);
        CHECK(said.find(chain) != std::string::npos);
    }
    // The file itself needs no such line.
    CHECK(report_of(top + "vehicle.mass = 5\n").find(" is base of ") == std::string::npos);
}

TEST_CASE("reading: one byte order mark is taken, two are refused") {
    const std::string mark = "\xEF\xBB\xBF";
    CHECK(report_of(mark + top).empty());
    const std::string two = report_of(mark + mark + top);
    CHECK(two.find("s.toml:1:1: error: the file begins with two byte order marks\n") == 0);
}

TEST_CASE("reading: an error caused by an assumed value is reported at the file") {
    const std::string said = report_of(
        "caseload = 1\nbase = \"pattern:three-gear-idler\"\ngears.train = [\"input\", \"no\"]\n");
    CHECK(said.rfind("s.toml:3:", 0) == 0);
    // The train is assumed here, and its shaft has no gear.
    const std::string assumed = report_of("caseload = 1\nshaft.input.gear_at = \"66 mm\"\n");
    CAPTURE(assumed);
    CHECK(assumed.find("gears.train: shaft.output.gear_at is not there") != std::string::npos);
    CHECK(assumed.find("\nerror: ") == std::string::npos);
    CHECK(assumed.rfind("s.toml", 0) == 0);
}

TEST_CASE("reading: a number too large for any key is refused as too large") {
    for (const std::string number : {"1e400", "-1E+999", "99999999999999999999"}) {
        const std::string said = report_of(top + "vehicle.axle_ratio = " + number + "\n");
        CAPTURE(said);
        CHECK(said.find(number + " is beyond the numbers that are read") != std::string::npos);
    }
}

TEST_CASE("reading: not a number and dates are refused with what to write") {
    CHECK(report_of(top + "gears.ratio = nan\n").find("a key that is left out is assumed") !=
          std::string::npos);
    CHECK(report_of(top + "event.duration = 2026-01-01\n").find("with its unit, \"6 h\"") !=
          std::string::npos);
}

}  // namespace caseload::counts_tests
