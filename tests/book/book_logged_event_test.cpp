// SPDX-License-Identifier: MIT
// From a logger's file to what is due: duty, a setup that takes the event, its completed text, the
// book.
#include "caseload/input.hpp"
#include "files.hpp"
#include "own_folder.hpp"
#include "program.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cstddef>
#include <optional>
#include <string>
#include <string_view>

namespace caseload::book_logged_event_tests {

namespace {

using test_files::root;

/// Two drives of many torques and speeds with a stop between.
std::string log_text() {
    std::string text = "Time (s),Case speed (rpm),Case torque (Nm),Speed (m/s)\n";
    for (int i = 0; i < 20000; ++i) {
        const bool stands = i > 9000 && i < 11000;
        const int wave = (i * 7) % 997;
        const int swell = (i * 13) % 1499;
        text += stands ? fmt::format("{:.1f},0,0,0\n", i / 10.0)
                       : fmt::format("{:.1f},{},{},{:.2f}\n", i / 10.0, 1200 + 2 * swell,
                                     wave - 150, 10 + swell / 75.0);
    }
    return text;
}

std::size_t count_of(std::string_view text, std::string_view word) {
    std::size_t count = 0;
    for (std::size_t at = text.find(word); at != text.npos; at = text.find(word, at + 1)) ++count;
    return count;
}

std::size_t longest_line(std::string_view text) {
    std::size_t longest = 0;
    for (std::size_t at = 0; at < text.size();) {
        const std::size_t end = std::min(text.find('\n', at), text.size());
        longest = std::max(longest, end - at);
        at = end + 1;
    }
    return longest;
}

}  // namespace

TEST_CASE("book: an event from a log with 48 bins and more goes from the log to what is due") {
    const OwnFolder folder("logged");
    folder.write("day.csv", log_text());
    std::string setup = new_setup_text();
    for (const char* const key : {"event.course", "event.duration", "event.ambient"}) {
        const std::size_t at = setup.find(key);
        setup.erase(at, setup.find('\n', at) + 1 - at);
    }
    folder.write("car.toml", setup + "event.ambient = \"30 degC\"\nevent.from = \"day.toml\"\n");
    const auto run = [&](const std::string& arguments) {
        Run done = run_command("cd " + folder.path("") + " && " CASELOAD_PROGRAM " " + arguments);
        CAPTURE(arguments);
        CAPTURE(done.out);
        CHECK(done.code == 0);
        return done.out;
    };
    run("duty day.csv -o day.toml --setup car.toml");
    const std::string event = file_text(folder.path("day.toml"));
    const std::size_t bins = count_of(event, "share = ");
    CHECK(bins >= 2 * 48);
    CHECK(longest_line(event) <= 110);

    const std::string completed = run("complete car.toml");
    folder.write("whole.toml", completed);
    CHECK(count_of(completed, ", share = ") == bins);
    CHECK(longest_line(completed) < 200);
    const auto beside = [&](const std::string& name) -> std::optional<std::string> {
        return file_text(folder.path(name));
    };
    const Setup of_log = read_setup(file_text(folder.path("car.toml")), "car.toml", beside).setup;
    CHECK(read_setup(completed, "car.toml", {}).setup == of_log);
    CHECK(of_log.event.legs.at(0).bins.size() >= 48);

    run("book add case TC-1 --date 2026-01-02");
    run("book add event TC-1 car.toml --date 2026-01-03 --times 2");
    const std::string due = run("book due");
    CHECK(due.find("TC-1") != due.npos);
    CHECK(run("book show").find("TC-1: 2 events, 1.0 h driven") != std::string::npos);
    CHECK(run("book replay").find("1 event calculated again: all agree") != std::string::npos);
    run("book export shop.txt");
    CHECK(run("book due --book shop.txt") == due);
}

}  // namespace caseload::book_logged_event_tests
