// SPDX-License-Identifier: MIT
// How far long work is: the words, and every command's bytes by any number of threads. What a
// terminal shows: tests/progress.py.
#include "cli/progress.hpp"

#include "caseload/ask/bearings.hpp"
#include "caseload/ask/calibrate.hpp"
#include "caseload/ask/cooler.hpp"
#include "caseload/ask/region.hpp"
#include "caseload/ask/season.hpp"
#include "caseload/ask/sets.hpp"
#include "caseload/show/calibrate.hpp"
#include "caseload/show/choices.hpp"
#include "caseload/show/compare.hpp"
#include "caseload/show/season.hpp"
#include "cli/files.hpp"
#include "examples.hpp"
#include "files.hpp"
#include "refused.hpp"

#include <doctest/doctest.h>

#include <atomic>
#include <cstddef>
#include <functional>
#include <mutex>
#include <set>
#include <string>
#include <thread>

namespace caseload::progress_tests {

namespace {

constexpr std::size_t few = 63;

Document example(const std::string& name) {
    return {examples::text(name).value(), name, examples::text};
}

/// The same by one thread, two and five, however many cores there are.
void check_same_by_any_threads(const std::function<std::string(const BandOptions&)>& answer) {
    const std::string alone = answer({.draws = few});
    CHECK(alone.size() > 200);
    for (const unsigned threads : {2U, 5U}) {
        const std::string by_more =
            answer({.draws = few, .for_each = on_threads(threads, threads)});
        const bool same = by_more == alone;
        CHECK(same);
    }
}

}  // namespace

TEST_CASE("progress: share done and time left, in words") {
    CHECK(progress_words(0.25, 5) == "25 %, 15 s left");
    CHECK(progress_words(0.999, 10) == "99 %, 1 s left");
    CHECK(progress_words(1, 10) == "99 %, 0 s left");
    CHECK(progress_words(0.01, 1) == "1 %, 99 s left");
    CHECK(progress_words(0.01, 2) == "1 %, 4 min left");
    CHECK(progress_words(0.004, 2) == "0 %, 9 min left");
}

TEST_CASE("threads: left out they are one a processor core") {
    CHECK(threads_of(0) == std::max(1U, std::thread::hardware_concurrency()));
    CHECK(threads_of(7) == 7);
    // Each piece waits for the others, so all threads must be there at once.
    constexpr unsigned cores = 3;
    std::atomic<unsigned> arrived{0};
    std::mutex mutex;
    std::set<std::thread::id> seen;
    on_threads(0, cores)(cores, [&](std::size_t) {
        ++arrived;
        while (arrived < cores) std::this_thread::yield();
        const std::lock_guard<std::mutex> lock(mutex);
        seen.insert(std::this_thread::get_id());
    });
    CHECK(seen.size() == cores);
}

TEST_CASE("threads: sets, cooler and bearings are the same to the byte by any number") {
    const Document trailer = example("trailer.toml");
    const Setup setup = trailer.complete().setup;
    check_same_by_any_threads([&](const BandOptions& band) {
        return sets_json(setup, choose_set(trailer, {std::nullopt, true, band}));
    });
    check_same_by_any_threads([&](const BandOptions& band) {
        CoolerOptions options;
        options.band = band;
        options.core_mm = {{200, 150, 40}};
        return cooler_json(setup, size_cooler(trailer, options));
    });
    check_same_by_any_threads([&](const BandOptions& band) {
        BearingsOptions options;
        options.band = band;
        return bearings_json(setup, choose_bearings(trailer, options));
    });
}

TEST_CASE("threads: a grid, a season and a calibration are the same to the byte by any number") {
    const Document light = example("light.toml");
    const ReadSetup read = light.complete();
    check_same_by_any_threads([&](const BandOptions& band) {
        return region_json(
            read.setup,
            fine_region(
                light,
                read_axes("vehicle.mass=1700 kg:2600 kg:3,event.ambient=5 degC:55 degC:2", read),
                band));
    });
    const auto coming = read_events(
        "run = [\"a\", \"b\", \"a\"]\n[event.a]\ncourse = \"graded\"\nduration = \"3 "
        "h\"\n[event.b]\nduration = \"5 "
        "h\"\n",
        "season.toml");
    check_same_by_any_threads([&](const BandOptions& band) {
        return season_json(read.setup, season(light, coming, band));
    });
    const std::string full = test_files::root + "tests/golden/full.toml";
    const Setup measured = read_document(full).complete().setup;
    check_same_by_any_threads([&](const BandOptions& band) {
        return calibration_json(measured, calibrate(measured, "2026-01-01", band.for_each));
    });
}

TEST_CASE("threads: of several impossible events the first of the season is named") {
    const Document light = example("light.toml");
    const auto coming = read_events(
        "run = [\"a\", \"b\", \"c\"]\n[event.a]\nduration = \"5 h\"\n"
        "[event.b]\ngears.fitted = [23, 31]\n[event.c]\nambient = \"900 degC\"\n",
        "season.toml");
    const auto refusal = [&](const ForEach& for_each) {
        const auto error = error_of([&] {
            static_cast<void>(season(light, coming, {.draws = few, .for_each = for_each}));
        });
        return error ? error->problems().front().text : std::string("none");
    };
    const std::string alone = refusal(one_by_one);
    CHECK(alone.find("event b") != std::string::npos);
    for (int trial = 0; trial < 3; ++trial) CHECK(refusal(on_threads(5, 5)) == alone);
}

}  // namespace caseload::progress_tests
