// SPDX-License-Identifier: MIT
// What nobody has looked at on the car yet: exhaust, drain and neighbour are "unknown" until a word
// or a number is entered, and are asked about.
#include "caseload/assess.hpp"
#include "examples.hpp"
#include "files.hpp"
#include "own_folder.hpp"
#include "program.hpp"
#include "support.hpp"

#include <algorithm>
#include <string>

namespace caseload::looked_at_tests {

namespace {

ReadSetup read(const std::string& more = {}) {
    return read_setup(new_setup_text() + more, "ten.toml", {});
}

std::vector<Worth> effects(const std::string& more = {}) {
    const Document document(new_setup_text() + more, "ten.toml", {});
    return assumptions_by_worth(document, document.complete());
}

const Worth* effect_of(const std::vector<Worth>& all, const std::string& key) {
    const auto found = std::find_if(all.begin(), all.end(),
                                    [&](const Worth& one) { return one.entry.key == key; });
    return found == all.end() ? nullptr : &*found;
}

double peak_degC(const std::string& more) {
    return fitted_answer(read(more).setup).fitted.event.peak_oil_degC;
}

}  // namespace

TEST_CASE("unknown: a new setup is calculated with no best word") {
    const Setup ten = read().setup;
    CHECK(ten.lubrication.mist_oil_fraction == 0.004);
    CHECK(ten.lubrication.oil_rehit == 1.75);
    CHECK(ten.housing.exhaust_heat_W == 60);
    CHECK(ten.housing.neighbour_WpK == 12);
    CHECK(ten.housing.neighbour_warmer_K == 65);
    CHECK(ten.unknown == NotLookedAt{true, true, true, true, true});
    // Written out it is the same setup.
    const Setup written = read(
                              "lubrication.drain = \"unknown\"\nhousing.exhaust = \"unknown\"\n"
                              "housing.neighbour = \"unknown\"\n")
                              .setup;
    CHECK(written == ten);
}

TEST_CASE("unknown: a word or a number that is entered ends it") {
    CHECK(read("lubrication.drain = \"fair\"\nhousing.exhaust = \"none\"\nhousing.neighbour = "
               "\"gearbox\"\n")
              .setup.unknown == NotLookedAt{});
    CHECK(read("lubrication.oil_rehit = 2\nhousing.exhaust_heat = \"90 W\"\n"
               "housing.neighbour_temperature = \"95 degC\"\n")
              .setup.unknown == NotLookedAt{true, false, false, true, false});
    CHECK(read("housing.neighbour_conductance = \"8 W/K\"\n").setup.unknown ==
          NotLookedAt{true, true, true, false, true});
    // Without a path the neighbour's temperature is no question.
    CHECK(!read("housing.neighbour_conductance = \"0 W/K\"\n").setup.unknown.neighbour_temp);
}

TEST_CASE("unknown: the drain's numbers go to their ends together, under the key of its word") {
    const std::vector<Worth> all = effects();
    const Worth* drain = effect_of(all, "lubrication.drain");
    REQUIRE(drain != nullptr);
    CHECK(drain->entry.number == "unknown");
    CHECK(effect_of(all, "lubrication.oil_rehit") == nullptr);
    const double likely_degC = peak_degC("");
    CHECK(within(drain->oil_high_K,
                 peak_degC("lubrication.mist_oil_fraction = 0.02\nlubrication.oil_rehit = 3.0\n") -
                     likely_degC,
                 0.02));
    CHECK(within(drain->oil_low_K,
                 peak_degC("lubrication.mist_oil_fraction = 0.001\nlubrication.oil_rehit = 1.2\n") -
                     likely_degC,
                 0.02));
    CHECK(drain->oil_high_K > 10);
    // Entered as unknown it is asked about all the same; a word ends that for the other number too.
    CHECK(effect_of(effects("lubrication.drain = \"unknown\"\n"), "lubrication.drain") != nullptr);
    CHECK(effect_of(effects("lubrication.drain = \"good\"\n"), "lubrication.drain") == nullptr);
}

TEST_CASE("unknown: exhaust and neighbour are asked about, the neighbour's temperature by itself") {
    const std::vector<Worth> all = effects();
    const Worth* exhaust = effect_of(all, "housing.exhaust");
    REQUIRE(exhaust != nullptr);
    CHECK(within(exhaust->oil_high_K,
                 peak_degC("housing.exhaust_heat = \"500 W\"\n") - peak_degC(""), 0.02));
    CHECK(effect_of(all, "housing.neighbour") != nullptr);
    const Worth* temp = effect_of(all, "housing.neighbour_temperature");
    REQUIRE(temp != nullptr);
    CHECK(temp->entry.number == "103 degC");  // 38 and 65 K
    CHECK(temp->oil_low_K < -2);
    CHECK(temp->oil_high_K > 2);
    // It follows the air, as no temperature was entered.
    const Document document(new_setup_text(), "ten.toml", {});
    const Change colder{"event.ambient", "\"8 degC\""};
    for (const Setup& setup :
         {document.complete({&colder, 1}).setup, FewChanged(document).setup(colder)})
        CHECK(prepare(setup).neighbour_degC == rel(73, 1e-12));
}

TEST_CASE("unknown: a new setup asks the three questions in comments, and its ten entries stay") {
    const std::string text = new_setup_text();
    for (const char* line : {"# housing.exhaust = \"unknown\"", "# lubrication.drain = \"unknown\"",
                             "# housing.neighbour = \"unknown\""}) {
        const std::size_t at = text.find(line);
        REQUIRE(at != std::string::npos);
        // Without its mark the line is an entry of the file.
        std::string answered = text;
        answered.erase(at, 2);
        CHECK(read_setup(answered, "ten.toml", {}).count_yours == 11);
    }
    CHECK(read().count_yours == 10);
}

TEST_CASE("unknown: upgrade names what a file leaves out, and the word of its earlier answer") {
    const OwnFolder folder("looked_at");
    const auto upgraded = [&](const std::string& more) {
        folder.write("case.toml", new_setup_text() + more);
        const Run run = run_program_as_user("upgrade " + folder.path("case.toml"));
        CHECK(run.code == 0);
        CHECK(test_files::file_text(folder.path("case.toml")) == new_setup_text() + more);
        return run.out;
    };
    const std::string said = upgraded("");
    for (const char* key : {"lubrication.drain", "housing.exhaust", "housing.neighbour"})
        CHECK(said.find(std::string(key) + " is left out: unknown today") != std::string::npos);
    CHECK(said.find("lubrication.drain = \"good\" gives the earlier answer") != std::string::npos);
    const std::string known = upgraded(
        "housing.exhaust = \"none\"\nlubrication.drain = "
        "\"unknown\"\nhousing.neighbour_conductance = \"0 W/K\"\n");
    CHECK(known.find("left out") == std::string::npos);
}

}  // namespace caseload::looked_at_tests
