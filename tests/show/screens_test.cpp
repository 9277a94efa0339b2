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

#include <functional>
#include <regex>
#include <string>
#include <vector>

namespace caseload::screens_tests {

namespace {

struct Screens {
    std::string all;
    std::string sets;
    bool cooler = false;
};

/// The screens of one setup; a question that refuses it has none.
Screens screens_of(const Document& document, bool imperial) {
    Screens screens;
    ReadSetup read = document.complete();
    read.setup.imperial = imperial;
    const BandOptions few{.draws = 63};
    const auto add = [&](const std::function<std::string()>& screen) {
        try {
            screens.all += screen();
        } catch (const Error&) {
            return false;
        }
        return true;
    };
    add([&] {
        const Assessment likely = assess(read.setup);
        const Band sure = band(read.setup, likely, few);
        const std::vector<Worth> worth = assumptions_by_worth(document, read);
        const Answer answer{read, likely, sure, worth};
        return first_screen(answer) + detail_screen(answer);
    });
    CoolerOptions cooler;
    cooler.band = few;
    screens.cooler = add([&] { return cooler_screen(read.setup, size_cooler(document, cooler)); });
    add([&] {
        return bearings_screen(
            read.setup, choose_bearings(document, {.position = "", .thinner = true, .band = few}));
    });
    SetsOptions sets;
    sets.band = few;
    add([&] {
        screens.sets = sets_screen(read.setup, choose_set(document, sets));
        return screens.sets;
    });
    return screens;
}

void check_numbers(const std::string& text) {
    static const std::regex exponent(R"([0-9]e[-+]?[0-9])");
    static const std::regex no_zero(R"((^|[^0-9A-Za-z./-])-0(\.0*)?([^0-9.]|$))");
    static const std::regex nothing(R"((^|[^0-9.])0 W(/| per )K)");
    static const std::regex glued(R"((km/h|mph|r/min|%)[-+0-9])");
    for (const std::string& line : test_files::lines(text)) {
        CAPTURE(line);
        CHECK_FALSE(std::regex_search(line, exponent));
        CHECK_FALSE(std::regex_search(line, no_zero));
        CHECK_FALSE(std::regex_search(line, glued));
        CHECK_FALSE(std::regex_search(line, nothing));
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

void check_document(const Document& document, int& coolers) {
    for (const bool imperial : {false, true}) {
        const Screens screens = screens_of(document, imperial);
        check_numbers(screens.all);
        if (!screens.sets.empty()) check_columns(screens.sets);
        coolers += screens.cooler ? 1 : 0;
    }
}

}  // namespace

TEST_CASE("screens: numbers without exponents or signs of zero, columns apart, in every example") {
    int coolers = 0;
    for (const std::string name :
         {"light.toml", "heavy.toml", "trailer.toml", "idler.toml", "shelf.toml", "dip.toml"}) {
        CAPTURE(name);
        check_document(Document(examples::text(name).value(), name, examples::text), coolers);
    }
    // Far above every limit, where cells are widest.
    check_document(Document("caseload = 1\nbase = \"trailer.toml\"\nevent.ambient = \"50 degC\"\n"
                            "vehicle.mass = \"4400 kg\"\ncooler.fit = false\n"
                            "[set.C]\nteeth = [34, 40]\nin_trailer = true\n",
                            "hot.toml", examples::text),
                   coolers);
    CHECK(coolers >= 10);
}

TEST_CASE("screens: numbers without exponents or signs of zero, columns apart, in random setups") {
    int coolers = 0;
    int seen = 0;
    for (const random_setups::Drawn& one : random_setups::drawn(53, 60).ran) {
        CAPTURE(one.text);
        const Document document(one.text, "random.toml", {});
        const Screens screens = screens_of(document, seen++ % 2 == 1);
        check_numbers(screens.all);
        if (!screens.sets.empty()) check_columns(screens.sets);
        coolers += screens.cooler ? 1 : 0;
    }
    CHECK(coolers > 20);
}

TEST_CASE("screens: cooling that is missing, with the share per kelvin where it says something") {
    CHECK(Units(false).short_by({71.2, 1.2}) == "71 W more cooling needed (1 W per K)");
    CHECK(Units(false).short_by({40, 0.4}) == "40 W more cooling needed");
    CHECK(Units(false).short_by({0.2, 0.0}) == "less than 1 W more cooling needed");
    CHECK(Units(false).short_by({2140, 18.3}) == "2.1 kW more cooling needed (18 W per K)");
    CHECK(Units(true).short_by({745.7, 20}) == "1 hp more cooling needed (0.015 hp per F)");
}

}  // namespace caseload::screens_tests
