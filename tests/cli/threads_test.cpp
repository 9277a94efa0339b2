// SPDX-License-Identifier: MIT
// Work shared by threads: every piece once, whatever the system gives.
#include "caseload/error.hpp"
#include "cli/files.hpp"
#include "files.hpp"
#include "heat/at_oil.hpp"
#include "own_folder.hpp"
#include "program.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <atomic>
#include <chrono>
#include <cstddef>
#include <filesystem>
#include <new>
#include <string>
#include <thread>
#include <type_traits>
#include <utility>
#include <vector>

namespace caseload::threads_tests {

namespace {

using test_files::root;

template <class T>
concept prepared = requires(T&& setup) { prepare(std::forward<T>(setup)); };
template <class T>
concept prepared_with_loads =
    requires(T&& setup, Loads loads) { prepare(std::forward<T>(setup), std::move(loads)); };

// What is prepared points to its setup.
static_assert(prepared<Setup&> && prepared<const Setup&>);
static_assert(!prepared<Setup> && !prepared<const Setup>);
static_assert(prepared_with_loads<const Setup&> && !prepared_with_loads<Setup>);
static_assert(std::is_constructible_v<CaseCurves, const Prepared&> &&
              !std::is_constructible_v<CaseCurves, Prepared>);

/// What a process gets, in KiB; a new thread's stack is part of its space.
struct Space {
    int all_KiB;
    int stack_KiB;
};

Run within(const Space& space, const std::string& arguments) {
    return run_command(fmt::format("(ulimit -s {}; ulimit -v {}; {} {})", space.stack_KiB,
                                   space.all_KiB, CASELOAD_PROGRAM, arguments));
}

}  // namespace

TEST_CASE("threads: every piece of work is done once, by any number of threads") {
    for (const unsigned threads : {0U, 1U, 2U, 7U, 256U})
        for (const std::size_t n : {0U, 1U, 5U, 1000U}) {
            std::vector<int> done(n, 0);
            on_threads(threads, 0)(n, [&](std::size_t i) { ++done[i]; });
            CHECK(std::count(done.begin(), done.end(), 1) == static_cast<std::ptrdiff_t>(n));
        }
}

TEST_CASE("threads: of several failures that of the first piece is thrown, as on one thread") {
    for (int trial = 0; trial < 50; ++trial)
        for (const unsigned threads : {1U, 2U, 16U}) {
            std::string thrown;
            try {
                on_threads(threads, 0)(200, [&](std::size_t i) {
                    if (i % 10 == 7) {
                        // The later one is often the faster one.
                        if (i == 7) std::this_thread::sleep_for(std::chrono::microseconds(200));
                        throw Error(Error::Kind::input, fmt::format("piece {}", i));
                    }
                });
            } catch (const Error& error) {
                thrown = error.what();
            }
            CHECK(thrown == "piece 7");
        }
}

TEST_CASE("threads: a piece that ran out of memory is tried once more, then refused") {
    for (const unsigned threads : {2U, 16U}) {
        std::vector<std::atomic<int>> tried(100);
        on_threads(threads, 0)(tried.size(), [&](std::size_t i) {
            // More failures than threads: in the end the calling thread does the rest alone.
            if (++tried[i] == 1 && i < threads) throw std::bad_alloc();
        });
        for (std::size_t i = 0; i < tried.size(); ++i) CHECK(tried[i] == (i < threads ? 2 : 1));
        CHECK_THROWS_AS(on_threads(threads, 0)(100,
                                               [](std::size_t i) {
                                                   if (i == 50) throw std::bad_alloc();
                                               }),
                        std::bad_alloc);
    }
}

TEST_CASE("program: threads that cannot start change no byte, in every command") {
    const OwnFolder folder("threads");
    const std::string light = root + "/docs/examples/light.toml";
    folder.write("list.csv", "vehicle.mass\n\"2300 kg\"\n\"2400 kg\"\n\"2500 kg\"\n\"2600 kg\"\n");
    std::string shorter;
    for (int i = 0; i < 6; ++i) shorter += light + "\n";
    folder.write("names.txt", shorter);
    folder.write("season.toml",
                 "run = [\"a\", \"b\"]\n[event.a]\ncourse = \"graded\"\nduration = \"4 h\"\n"
                 "[event.b]\nduration = \"5 h\"\ncourse = \"rock\"\n");
    std::string logs;
    for (int k = 0; k < 40; ++k) {
        std::string log = "Time (s),Case speed (rpm),Case torque (Nm),Speed (m/s)\n";
        for (int i = 0; i < 60; ++i) log += fmt::format("{},{},{},20\n", i, 2000 + 10 * k, 300 + i);
        folder.write(fmt::format("log{}.csv", k), log);
        logs += " " + folder.path(fmt::format("log{}.csv", k));
    }
    std::filesystem::create_directory(folder.path("events"));
    const std::vector<std::string> commands{
        "assess --draws 63 --card " + folder.path("card.html") + " " + light,
        "assess --draws 63 --each " + folder.path("list.csv") + " " + light,
        "assess --draws 63 --each " + folder.path("names.txt"),
        "sets --draws 63 " + root + "/docs/examples/trailer.toml",
        "cooler --draws 63 " + light,
        "bearings --draws 63 " + light,
        "compare --draws 63 --with \"vehicle.mass=2500 kg\" " + light,
        "season --draws 63 " + light + " " + folder.path("season.toml"),
        "calibrate " + root + "/tests/golden/full.toml",
        "duty" + logs + " -o " + folder.path("events"),
    };
    for (const std::string& command : commands) {
        CAPTURE(command);
        const Run alone = run_program_as_user(command + " --threads 1");
        // No second thread starts where its stack does not fit, however many cores there are.
        const Run starved = within({700000, 650000}, command + " --threads 256");
        CHECK(starved.code == alone.code);
        const bool same = starved.out == alone.out;
        CHECK(same);
    }
    const Run alone = run_program_as_user("assess --draws 63 " + light);
    CHECK(within({700000, 8192}, "assess --draws 63 --threads 256 " + light).out == alone.out);
    // So little that there is no answer: a refusal, not an abort.
    const Run none = within({30000, 8192}, "assess --draws 1048575 " + light);
    CHECK(none.code == 71);
    CHECK(none.out ==
          "error: the system gives no more memory\n"
          "  hint: fewer --threads or --draws take less\n");
}

}  // namespace caseload::threads_tests
