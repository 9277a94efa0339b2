// SPDX-License-Identifier: MIT
// What many answers share, and what they have side by side: the bytes of each alone.
#include "ask/shared_tables.hpp"

#include "ask/fast_case.hpp"
#include "caseload/ask/each.hpp"
#include "caseload/ask/measured.hpp"
#include "caseload/ask/season.hpp"
#include "caseload/ask/sets.hpp"
#include "caseload/show/each_line.hpp"
#include "examples.hpp"
#include "own_folder.hpp"
#include "program.hpp"
#include "support.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <functional>
#include <memory>
#include <string>
#include <thread>
#include <vector>

namespace caseload::shared_tables_tests {

namespace {

const std::string root = CASELOAD_ROOT;

Document document(const std::string& name) {
    return {examples::text(name).value(), name, examples::text};
}

struct Shared {
    bool loads;
    bool outside;
    bool cooler;
};
struct Case {
    Change change;
    Shared with_plain;  ///< tables of the same setup without the change
};
const std::vector<Case> cases{
    {{"vehicle.mass", "\"2100 kg\""}, {false, true, true}},
    {{"cooler.core", "\"200x150x45 mm\""}, {true, true, false}},
    {{"cooler.fit", "false"}, {true, true, false}},
    {{"cooler.thermostat_opens", "\"85.3 degC\""}, {false, false, false}},  // places all grids
    {{"housing.dirt", "\"mud\""}, {true, false, true}},
    {{"housing.place", "\"open\""}, {true, false, true}},
    {{"oil.grade", "\"85W-140 mineral\""}, {false, true, false}},
    {{"oil.cleanliness", "\"-/18/15\""}, {false, true, true}},
    {{"event.ambient", "\"44 degC\""}, {false, false, false}},
    {{"gears.finish", "\"superfinished\""}, {true, true, true}},
};

FastTables made(const Setup& setup, SharedTables& shared) {
    return FastTables(setup, {FastUse::everything, one_by_one, &shared});
}

/// How many pieces each round of work had.
struct Rounds {
    std::vector<std::size_t> pieces{};
    [[nodiscard]] ForEach counted() {
        return [this](std::size_t n, const std::function<void(std::size_t)>& body) {
            pieces.push_back(n);
            one_by_one(n, body);
        };
    }
    [[nodiscard]] std::size_t most() const {
        return pieces.empty() ? 0 : *std::max_element(pieces.begin(), pieces.end());
    }
};

}  // namespace

TEST_CASE("shared tables: a change leaves alone what it does not touch, and nothing else") {
    const Document light = document("light.toml");
    SharedTables shared;
    const FastTables plain = made(light.complete().setup, shared);
    for (const Case& one : cases) {
        CAPTURE(one.change.key);
        const FastTables changed = made(light.complete({&one.change, 1}).setup, shared);
        CHECK((changed.loaded_tables == plain.loaded_tables) == one.with_plain.loads);
        CHECK((changed.life_tables == plain.life_tables) == one.with_plain.loads);
        CHECK((changed.outside_tables == plain.outside_tables) == one.with_plain.outside);
        CHECK((changed.cooler_tables == plain.cooler_tables) == one.with_plain.cooler);
    }
}

TEST_CASE("shared tables: a draw has the bytes of one with tables made for it alone") {
    for (const std::string name : {"light.toml", "trailer.toml", "dip.toml", "shelf.toml"}) {
        CAPTURE(name);
        const Document document = shared_tables_tests::document(name);
        SharedTables shared;
        const FastCase plain(document.complete().setup, {FastUse::everything, one_by_one, &shared});
        for (const Case& one : cases) {
            CAPTURE(one.change.key);
            std::optional<Setup> setup;
            try {
                setup = document.complete({&one.change, 1}).setup;
            } catch (const Error&) {
                continue;  // no such thing there
            }
            for (const FastUse use : {FastUse::everything, FastUse::same_temperatures}) {
                const FastCase alone(*setup, use);
                const FastCase sharing(*setup, {use, one_by_one, &shared});
                const FactorDraws factors_of(*setup);
                for (const auto& point : sobol_points(7))
                    for (const bool cooler : {true, false}) {
                        const DrawResult a = alone.run(factors_of(point), cooler);
                        const DrawResult b = sharing.run(factors_of(point), cooler);
                        CHECK(a.peak_oil_degC == b.peak_oil_degC);
                        CHECK(a.peak_housing_degC == b.peak_housing_degC);
                        CHECK(a.life_share == b.life_share);
                        CHECK(a.oil_dose == b.oil_dose);
                    }
            }
        }
    }
}

TEST_CASE("shared tables: threads that want the same ones at once get the bytes of one") {
    const Document light = document("light.toml");
    SharedTables shared;
    std::vector<double> peaks_degC(6);
    std::vector<double> alone_degC(peaks_degC.size());
    const auto setup_of = [&](std::size_t i) {
        const Change change{"vehicle.mass", fmt::format("\"{} kg\"", 1750 + 100 * (i / 3))};
        return light.complete({&change, 1}).setup;
    };
    std::vector<std::thread> threads;
    for (std::size_t i = 0; i < peaks_degC.size(); ++i) {
        alone_degC[i] = FastCase(setup_of(i)).run({}, true).peak_oil_degC;
        threads.emplace_back([&, i] {
            peaks_degC[i] = FastCase(setup_of(i), {FastUse::everything, one_by_one, &shared})
                                .run({}, true)
                                .peak_oil_degC;
        });
    }
    for (std::thread& thread : threads) thread.join();
    CHECK(peaks_degC == alone_degC);
}

TEST_CASE("shared tables: tables of few setups only stay in memory") {
    const Document light = document("light.toml");
    SharedTables shared;
    std::vector<std::weak_ptr<LoadedTables>> all;
    for (int i = 0; i < 20; ++i) {
        const Change change{"vehicle.mass", fmt::format("\"{} kg\"", 1750 + 10 * i)};
        all.push_back(made(light.complete({&change, 1}).setup, shared).loaded_tables);
    }
    const auto kept =
        std::count_if(all.begin(), all.end(), [](const auto& one) { return !one.expired(); });
    CHECK(kept >= 1);
    CHECK(kept <= 8);
    CHECK(!all.back().expired());
}

TEST_CASE("each: a row is the answer of its setup alone, whatever rows it shares tables with") {
    const OwnFolder folder("each_shared");
    std::string list = "vehicle.mass,cooler.core,housing.dirt,oil.grade\n";
    std::vector<std::vector<Change>> rows;
    const auto add = [&](const std::vector<std::string>& cells) {
        list += fmt::format("{}\n", fmt::join(cells, ","));
        rows.push_back({{"vehicle.mass", cell_toml(cells[0])},
                        {"cooler.core", cell_toml(cells[1])},
                        {"housing.dirt", cell_toml(cells[2])},
                        {"oil.grade", cell_toml(cells[3])}});
    };
    for (const std::string mass : {"1750 kg", "2100 kg"})
        for (const std::string core : {"280x150x45 mm", "200x150x45 mm"})
            add({mass, core, "dust", "75W-90 synthetic"});
    add({"2100 kg", "200x150x45 mm", "mud", "75W-90 synthetic"});
    add({"2100 kg", "200x150x45 mm", "mud", "85W-140 mineral"});
    add({"1750 kg", "280x150x45 mm", "dust", "75W-90 synthetic"});
    folder.write("list.csv", list);
    const std::string light = root + "/docs/examples/light.toml";
    const std::string command =
        "assess " + light + " --draws 63 --each " + folder.path("list.csv") + " --threads ";
    const Run one = run_program_as_user(command + "1");
    CHECK(run_program_as_user(command + "2").out == one.out);
    const Document document = shared_tables_tests::document("light.toml");
    std::size_t at = 0;
    for (std::size_t row = 0; row < rows.size(); ++row) {
        const Setup setup = document.complete(rows[row]).setup;
        const Assessment likely = assess(setup);
        std::string expected =
            each_line(row + 1, light, setup, likely, band(setup, likely, {.draws = 63}));
        expected.resize(expected.size() - 2);  // the list's sum follows
        CHECK(one.out.compare(at, expected.size(), expected) == 0);
        at = one.out.find('\n', at) + 1;
    }
    CHECK(at == one.out.size());
}

TEST_CASE("threads: one answer of sets or season shares its draws between threads") {
    constexpr std::size_t draws = 63;
    // A piece is several draws, of which neither tables nor likely answers have so many.
    constexpr std::size_t least_pieces = draws / FastCase::side_by_side;
    const Document light = document("light.toml");
    Rounds rounds;
    SetsOptions options;
    options.band = {.draws = draws, .for_each = rounds.counted()};
    const SetsAnswer set = choose_set(light, options);
    REQUIRE(set.sets.size() == 1);
    CHECK(rounds.most() >= least_pieces);
    rounds = {};
    const std::vector<ComingEvent> coming =
        read_events("run = [\"a\"]\n[event.a]\nduration = \"5 h\"\ncourse = \"rock\"\n", "a.toml");
    REQUIRE(coming.size() == 1);
    static_cast<void>(season(light, coming, {.draws = draws, .for_each = rounds.counted()}));
    CHECK(rounds.most() >= least_pieces);
    // Several answers are given side by side, each on one thread.
    rounds = {};
    static_cast<void>(choose_set(document("trailer.toml"), options));
    CHECK(rounds.pieces.size() == 1);
}

TEST_CASE("threads: one answer of sets, season or bearings has the same bytes on any of them") {
    const OwnFolder folder("one_answer");
    folder.write("one.toml", "run = [\"a\"]\n[event.a]\nduration = \"5 h\"\ncourse = \"rock\"\n");
    const std::string light = root + "/docs/examples/light.toml";
    for (const std::string& command :
         {"sets --json --draws 63 " + light,
          "season --json --draws 63 " + light + " " + folder.path("one.toml"),
          "bearings --json --draws 63 --position input_front " + light}) {
        CAPTURE(command);
        const Run one = run_program_as_user(command + " --threads 1");
        CHECK(one.code == 0);
        CHECK(run_program_as_user(command + " --threads 2").out == one.out);
        CHECK(run_program_as_user(command + " --threads 7").out == one.out);
    }
}

}  // namespace caseload::shared_tables_tests
