// SPDX-License-Identifier: MIT
// How numbers and columns look on every screen of an answer, whatever the setup.
#include "caseload/ask/bearings.hpp"
#include "caseload/ask/cooler.hpp"
#include "caseload/ask/sets.hpp"
#include "caseload/show/choices.hpp"
#include "caseload/show/text.hpp"
#include "examples.hpp"
#include "files.hpp"
#include "random_setups.hpp"
#include "show/units_shown.hpp"
#include "support.hpp"

#include <optional>
#include <string>
#include <vector>

namespace caseload::screens_tests {

namespace {

/// The answers to every question about one setup; a question that refuses it has none.
struct Answers {
    ReadSetup read;
    std::optional<Assessment> likely;
    Band sure;
    std::vector<Worth> worth;
    std::optional<CoolerAnswer> cooler;
    std::optional<BearingsAnswer> bearings;
    std::optional<SetsAnswer> sets;
};

template <class Ask>
auto answer_of(const Ask& ask) -> std::optional<decltype(ask())> {
    try {
        return ask();
    } catch (const Error&) {
        return std::nullopt;
    }
}

Answers answers_of(const Document& document, bool thorough) {
    Answers answers;
    answers.read = document.complete();
    const BandOptions few{.draws = 63};
    answers.likely = answer_of([&] { return assess(answers.read.setup); });
    if (!answers.likely) return answers;
    answers.sure = band(answers.read.setup, *answers.likely, few);
    if (thorough) answers.worth = assumptions_by_worth(document, answers.read);
    CoolerOptions cooler;
    cooler.band = few;
    if (!thorough) cooler.box_mm = {120, 80, 50};  // fewer sizes to try
    answers.cooler = answer_of([&] { return size_cooler(document, cooler); });
    answers.bearings = answer_of([&] {
        return choose_bearings(document, {.position = "", .thinner = thorough, .band = few});
    });
    SetsOptions sets;
    sets.band = few;
    answers.sets = answer_of([&] { return choose_set(document, sets); });
    return answers;
}

bool digit(char c) {
    return c >= '0' && c <= '9';
}

/// What is wrong with the numbers of a line; "" if nothing is. By hand: a regular expression takes
/// a minute for what this does in a second.
std::string wrong_in(const std::string& line) {
    const auto at = [&](std::size_t i) { return i < line.size() ? line[i] : ' '; };
    for (std::size_t i = 0; i < line.size(); ++i) {
        const char before = i > 0 ? line[i - 1] : ' ';
        const bool sign = at(i + 1) == '-' || at(i + 1) == '+';
        if (line[i] == 'e' && digit(before) && (digit(at(i + 1)) || (sign && digit(at(i + 2)))))
            return "exponent";
        if (line[i] == '-' && at(i + 1) == '0' && (before == ' ' || before == '(')) {
            std::size_t end = i + 2;
            while (at(end) == '.' || at(end) == '0') ++end;
            if (!digit(at(end))) return "sign of zero";
        }
        const bool starts = line[i] == '0' && (before == ' ' || before == '(');
        if (starts && (line.compare(i, 5, "0 W/K") == 0 || line.compare(i, 9, "0 W per K") == 0))
            return "share of nothing";
        for (const std::string unit : {"km/h", "mph", "r/min", "%"})
            if (line.compare(i, unit.size(), unit) == 0) {
                const char next = at(i + unit.size());
                if (digit(next) || next == '-' || next == '+') return "columns run together";
            }
    }
    return {};
}

void check_numbers(const std::string& text) {
    for (const std::string& line : test_files::lines(text)) {
        const std::string wrong = wrong_in(line);
        if (wrong.empty()) continue;
        CAPTURE(line);
        CHECK(wrong == "");
    }
}

/// Cells end one below the other, with a blank before each: that of the widest too.
void check_columns(const std::string& sets) {
    const std::vector<std::string> lines = test_files::lines(sets);
    std::size_t at = 0;
    while (at < lines.size() && lines[at] != "  SETS") ++at;
    REQUIRE(at + 1 < lines.size());
    const std::string& head = lines[at + 1];
    std::vector<std::size_t> ends;
    for (std::size_t i = std::string("    teeth, input first").size(); i < head.size(); ++i)
        if (head[i] != ' ' && (i + 1 == head.size() || head.compare(i + 1, 2, "  ") == 0))
            ends.push_back(i + 1);
    REQUIRE_FALSE(ends.empty());
    for (std::size_t row = at + 1; row < lines.size() && lines[row].rfind("    ", 0) == 0; ++row) {
        const std::string& line = lines[row];
        if (line.find("The other sets") != std::string::npos ||
            line.find("stop at 90 %") != std::string::npos)
            continue;
        CAPTURE(line);
        CHECK(line.size() == ends.back());
        for (std::size_t k = 0; k + 1 < ends.size(); ++k)
            CHECK(line.compare(ends[k], 2, "  ") == 0);
    }
}

/// In both kinds of units.
void check_screens(Answers& answers) {
    Setup& setup = answers.read.setup;
    for (const bool imperial : {false, true}) {
        setup.imperial = imperial;
        if (answers.likely) {
            const Answer answer{answers.read, *answers.likely, answers.sure, answers.worth};
            check_numbers(first_screen(answer) + detail_screen(answer));
        }
        if (answers.cooler) check_numbers(cooler_screen(setup, *answers.cooler));
        if (answers.bearings) check_numbers(bearings_screen(setup, *answers.bearings));
        if (!answers.sets) continue;
        const std::string sets = sets_screen(setup, *answers.sets);
        check_numbers(sets);
        check_columns(sets);
    }
}

}  // namespace

TEST_CASE("screens: the search of these tests finds a number in a line") {
    CHECK(wrong_in("  1e+02 kPa lost") == "exponent");
    CHECK(wrong_in("  X      -6.558e-15") == "exponent");
    CHECK(wrong_in("  torque on the axle pinion   -0 %") == "sign of zero");
    CHECK(wrong_in("  leaves -0.00 F cooler") == "sign of zero");
    CHECK(wrong_in("  short by 40 W, 0 W/K") == "share of nothing");
    CHECK(wrong_in("  top speed 62 km/h69 km/h") == "columns run together");
    CHECK(wrong_in("  -0.05 K, 0.5 W/K, -/19/16, 10 W/K, size 3, -20 degC") == "");
}

TEST_CASE("screens: numbers without exponents or signs of zero, columns apart, in every example") {
    for (const std::string name :
         {"light.toml", "heavy.toml", "trailer.toml", "idler.toml", "shelf.toml", "dip.toml"}) {
        CAPTURE(name);
        Answers answers =
            answers_of(Document(examples::text(name).value(), name, examples::text), true);
        CHECK(answers.cooler.has_value() == (name != "dip.toml"));
        check_screens(answers);
    }
    // Far above every limit, where cells are widest.
    Answers hot = answers_of(Document("caseload = 1\nbase = \"trailer.toml\"\n"
                                      "event.ambient = \"50 degC\"\nvehicle.mass = \"4400 kg\"\n"
                                      "cooler.fit = false\n[set.C]\nteeth = [34, 40]\n"
                                      "in_trailer = true\n",
                                      "hot.toml", examples::text),
                             false);
    REQUIRE(hot.sets.has_value());
    CHECK(hot.sets->sets.front().oil_fitted_degC.p50 > oil_ceiling_degC);
    check_screens(hot);
}

TEST_CASE("screens: numbers without exponents or signs of zero, columns apart, in random setups") {
    int coolers = 0;
    for (const random_setups::Drawn& one : random_setups::drawn(53, 60).ran) {
        CAPTURE(one.text);
        Answers answers = answers_of(Document(one.text, "random.toml", {}), false);
        check_screens(answers);
        coolers += answers.cooler ? 1 : 0;
    }
    CHECK(coolers > 20);
}

TEST_CASE("screens: a number that rounds to 0 has no sign") {
    for (const double near : {-0.3, -1e-12, -0.0}) {
        CHECK(Units(false).temp(near) == "0");
        CHECK(Units(false).width(near) == "0 K");
        CHECK(Units(true).width(near / 2) == "0 F");
        CHECK(Units(false).heat(near) == "0 W");
        CHECK(Units(false).line({"x", near, "degC"}).find("-0") == std::string::npos);
    }
    CHECK(Units(false).line({"x", -6.558e-15, "mm"}).find(" 0 mm") != std::string::npos);
}

TEST_CASE(
    "screens: heat that a leg cannot give off, with its share per kelvin where there is one") {
    CHECK(Units(false).short_by({71.2, 1.2}) == "71 W more cooling needed (1 W per K)");
    CHECK(Units(false).short_by({40, 0.4}) == "40 W more cooling needed");
    CHECK(Units(false).short_by({0.2, 0.0}) == "less than 1 W more cooling needed");
    CHECK(Units(false).short_by({2140, 18.3}) == "2.1 kW more cooling needed (18 W per K)");
    CHECK(Units(true).short_by({745.7, 20}) == "1 hp more cooling needed (0.015 hp per F)");
}

}  // namespace caseload::screens_tests
