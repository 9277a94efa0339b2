// SPDX-License-Identifier: MIT
// Facing pairs on every screen that has them.
#include "caseload/input.hpp"
#include "examples.hpp"
#include "own_folder.hpp"
#include "program.hpp"

#include <doctest/doctest.h>

#include <sstream>
#include <string>

namespace caseload::pairs_program_tests {

namespace {

using test_files::has;

/// Words one space apart, wherever a screen breaks its lines.
std::string in_one_line(const std::string& text) {
    std::istringstream in(text);
    std::string all;
    for (std::string word; in >> word;) all += (all.empty() ? "" : " ") + word;
    return all;
}

/// Programs run on the idler example with its pair set.
class Idler {
public:
    Idler() : folder_("pairs") { set("idler", R"(end_play = "0.05 mm")"); }
    void set(const std::string& name, const std::string& entry) {
        std::string text = examples::text("idler.toml").value();
        text.insert(text.find("[set]"), "[shaft]\nidler." + entry + "\n\n");
        folder_.write(name + ".toml", text);
    }
    [[nodiscard]] std::string path(const std::string& name) const { return folder_.path(name); }
    void write(const std::string& name, const std::string& text) const {
        folder_.write(name, text);
    }
    [[nodiscard]] std::string screen(const std::string& command, const std::string& name,
                                     const std::string& more = "") const {
        const Run run = run_program_as_user(command + " " + path(name + ".toml") + " " + more);
        CHECK(run.code == 0);
        return in_one_line(run.out);
    }

private:
    OwnFolder folder_;
};

}  // namespace

TEST_CASE("pairs: the screen prints end play or preload when hot, and both ends of what to set") {
    Idler idler;
    idler.set("tight", R"(end_play = "-0.05 mm")");
    CHECK(has(idler.screen("assess", "idler", "--draws 63"),
              "pairs idler, 0.05 mm of end play cold: 0.01 mm of end play hot (loop); set 0.04 mm "
              "to 0.07 mm of end play cold, for 0 to 0.04 mm hot"));
    const std::string tight = idler.screen("assess", "tight", "--draws 63 --detail");
    CHECK(has(tight,
              "idler, 0.05 mm of preload cold: 8.3 kN of preload hot (loop), which makes "
              "the oil 12 K hotter; set 0.04 mm to 0.07 mm of end play cold"));
    CHECK(has(tight,
              "The range keeps this preload; as it feeds itself (gain 0.09) the range is "
              "about 10 % too narrow"));
    CHECK(has(tight, "how far from that it may be set, either way: 0 to 0.04 mm when hot 0.02 mm"));
    // 0.04 mm and 0.07 mm are 0.00157 in and 0.00276 in.
    CHECK(has(idler.screen("assess", "idler", "--draws 63 --units imperial"),
              "set 0.00157 in to 0.00276 in of end play cold"));
    // What to set comes before everything that is done after the event.
    CHECK(has(tight,
              "2 NEXT before it runs idler set with 0.04 mm to 0.07 mm of end play cold: its "
              "preload makes the oil 12 K hotter after this event"));
    idler.set("in",
              "end_play = \"-0.05 mm\"\n\n[bearing]\nidler_front.big_end = \"rear\"\n"
              "idler_rear.big_end = \"front\"");
    CHECK(has(idler.screen("assess", "in", "--draws 63"),
              "0.05 mm of end play hot (transit), on the way there 0.03 mm of preload; set 0.07 mm "
              "to 0.10 mm of preload cold"));
    // A case without such a pair prints nothing of it.
    CHECK_FALSE(
        has(run_program_as_user("assess " + test_files::light_file + " --draws 63").out, "pairs"));
}

TEST_CASE("pairs: sheet and page print what to set") {
    Idler idler;
    const std::string sheet = idler.path("sheet.html");
    const std::string page = idler.path("page.html");
    (void)idler.screen("assess", "idler", "--draws 63 --teardown " + sheet + " --page " + page);
    CHECK(has(file_text(sheet),
              "end play, idler shaft</th><td>to 0.01 mm; to set: 0.04 mm to 0.07 mm "
              "of end play<"));
    CHECK(has(file_text(sheet), "end play, input shaft</th><td>to 0.01 mm<"));
    CHECK(has(file_text(page),
              "Facing pair: idler, 0.05 mm of end play cold: 0.01 mm of end play "
              "hot (loop)"));
    CHECK(has(file_text(page), "Numbers of the pair of idler"));
}

TEST_CASE("pairs: bearings, compare and season print them where they matter") {
    Idler idler;
    idler.set("tight", R"(end_play = "-0.05 mm")");
    const std::string bearings =
        idler.screen("bearings", "tight", "--draws 63 --position idler_front");
    CHECK(has(bearings,
              "pair: 0.05 mm of preload cold becomes 8.3 kN of preload hot (loop), which "
              "makes the oil 12 K hotter; set 0.04 mm to 0.07 mm of end play cold"));
    const std::string compared =
        idler.screen("compare", "idler", "--draws 63 --with 'shaft.idler.end_play=0 mm'");
    CHECK(has(compared,
              "Facing pair of idler: 3.3 kN of preload hot (loop), which makes the oil 4 "
              "K hotter; before: 0.01 mm of end play hot (loop)."));
    CHECK(has(compared, "preload hot, facing pair of idler 0 3300 N"));
    CHECK_FALSE(has(idler.screen("compare", "idler", "--draws 63 --with 'event.altitude=950 m'"),
                    "acing pair"));
    idler.write("events.toml",
                "run = [\"cool\", \"hot\"]\n[event.cool]\nambient = \"25 degC\"\n"
                "[event.hot]\nambient = \"38 degC\"\n");
    const std::string events = idler.path("events.toml") + " --draws 63";
    CHECK_FALSE(has(idler.screen("season", "idler", events), "acing pair"));
    CHECK(has(idler.screen("season", "tight", events),
              "Facing pair of idler: 0.05 mm of preload cold does not suit every event; set 0.05 "
              "mm to 0.07 mm of end play cold."));
    CHECK(has(idler.screen("season", "tight", events + " --json"), R"("pairs":["Facing pair of)"));
    idler.write("events.toml",
                "run = [\"cold\", \"hot\"]\n[event.cold]\nambient = \"-25 degC\"\n"
                "[event.hot]\nambient = \"45 degC\"\n");
    CHECK(has(idler.screen("season", "idler", events),
              "Facing pair of idler: no one setting suits every event; "));
}

TEST_CASE(
    "pairs: a file over another sets its pair in its own way, and a shaft may lose its pair") {
    Idler idler;
    idler.write("loaded.toml",
                "caseload = 1\nbase = \"idler.toml\"\nshaft.idler.preload = \"500 N\"\n");
    CHECK(has(idler.screen("assess", "loaded", "--draws 63"), "of preload cold: "));
    CHECK(has(idler.screen("compare", "idler", "--draws 63 --with 'shaft.idler.preload=500 N'"),
              "Facing pair of idler: "));
    const std::string balls =
        "bearing.idler_front.type = \"deep-groove-ball\"\nbearing.idler_front.locating = true\n"
        "bearing.idler_rear.type = \"cylindrical-roller\"\n";
    idler.write("balls.toml", "caseload = 1\nbase = \"" + std::string(test_files::root) +
                                  "docs/examples/idler.toml\"\n" + balls);
    CHECK_FALSE(has(idler.screen("assess", "balls", "--draws 63"), "pairs idler"));
}

TEST_CASE("compare: in inches and pounds both values of a changed entry are converted") {
    CHECK(has(in_one_line(run_program_as_user("compare " + test_files::light_file +
                                              " --with 'vehicle.mass=+200 kg' --units imperial "
                                              "--draws 63")
                              .out),
              "vehicle.mass 3858 lb -> 4299 lb"));
}

TEST_CASE("pairs: why recalculates what heat makes of a pair, however it was set") {
    Idler idler;
    for (const std::string setting : {R"(preload = "500 N")", R"(turning_torque = "1.5 N m")"}) {
        CAPTURE(setting);
        idler.set("set", setting);
        CHECK(has(idler.screen("why", "set", "--check"), "0 do not agree"));
        const std::string gain = idler.screen("why", "set", "shaft.idler.check_gain");
        CHECK(has(gain, "gain of preload by the heat it makes"));
        CHECK(has(gain, "formula [pair.idler.loop_gain]"));
        CHECK(has(idler.screen("why", "set", "pair.idler.preload_N"),
                  "[bearing.idler_front.k_a])^(1 / (10 / 9))"));
        CHECK(has(idler.screen("why", "set", "pair.idler.tightening_mm"), "span_mm * (housing_pK"));
    }
    CHECK(has(idler.screen("why", "idler", "--check"), "0 do not agree"));
    // No balance, with the pump or without it.
    idler.set("wild",
              "end_play = \"0.05 mm\"\n\n[case]\nstructure_stiffness = \"600 N/um\"\n\n"
              "[bearing]\nidler_front.at = \"-80 mm\"\nidler_rear.at = \"204 mm\"");
    CHECK(has(idler.screen("assess", "wild", "--draws 63"), "at which the oil does not settle"));
    CHECK(has(idler.screen("why", "wild", "--check"), "0 do not agree"));
}

TEST_CASE("pairs: a new setup asks how a pair was set, and takes the answer where there is one") {
    const auto answered = [](std::string text, const std::string& from, const std::string& to) {
        REQUIRE(has(text, from));
        return text.replace(text.find(from), from.size(), to);
    };
    const std::string fresh = new_setup_text();
    CHECK(has(fresh, "how much end play did the dial show"));
    for (const std::string key : {"end_play", "turning_torque"}) {
        CAPTURE(key);
        const std::string own = answered(fresh, "# shaft.output." + key, "shaft.output." + key);
        CHECK_THROWS_WITH_AS((void)Document(own, "ten.toml", {}).complete(),
                             doctest::Contains("shaft output has no two bearings that face each"),
                             Error);
        std::string idler = answered(own, "shaft.output." + key, "shaft.idler." + key);
        idler = answered(idler, "pattern:two-gear-185mm", "pattern:three-gear-idler");
        idler = answered(idler, "[33, 41]", "[28, 36, 39]");
        const ShaftInput shaft =
            Document(idler, "ten.toml", {}).complete().setup.shafts.at("idler");
        CHECK(shaft.end_play_mm.has_value() == (key == "end_play"));
        CHECK(shaft.turning_torque_Nm.has_value() == (key == "turning_torque"));
    }
}

}  // namespace caseload::pairs_program_tests
