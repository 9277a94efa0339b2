// SPDX-License-Identifier: MIT
// Logs as files: several at once, one that changes, one beyond 4 GB, and how much memory it takes.
#include "caseload/error.hpp"
#include "cli/log_file.hpp"
#include "held.hpp"
#include "own_folder.hpp"
#include "program.hpp"

#include <fmt/format.h>

#include <unistd.h>

#include <filesystem>
#include <fstream>
#include <string>

namespace caseload::files_tests {

namespace {

namespace fs = std::filesystem;

/// Logs in a folder of their own.
class Folder : public OwnFolder {
public:
    Folder() : OwnFolder("logs") {}
    [[nodiscard]] std::string at(const std::string& name) const { return path(name); }
    [[nodiscard]] std::size_t files() const {
        std::size_t count = 0;
        for (const auto& one : fs::directory_iterator(path())) count += one.exists() ? 1 : 0;
        return count;
    }
};

void write(const std::string& path, const std::string& text) {
    std::ofstream(path, std::ios::binary) << text;
}

/// Lines a tenth of a second apart; the seed makes logs differ.
std::string log_text(int lines, int seed) {
    std::string text = "Time (s),Case speed (rpm),Case torque (Nm),Speed (m/s)\n";
    for (int i = 0; i < lines; ++i) {
        const int wave = (i * (7 + seed)) % 997;
        text += fmt::format("{:.1f},{},{},{:.2f}\n", i / 10.0, 1500 + 2 * wave, wave - 100 + seed,
                            10 + wave / 50.0);
    }
    return text;
}

const std::string end = "1 error; nothing was calculated\n";

}  // namespace

TEST_CASE("duty: several logs at once give the bytes of each alone") {
    const Folder folder;
    std::string logs;
    for (int k = 0; k < 5; ++k) {
        const std::string log = folder.at(fmt::format("day{}.csv", k));
        write(log, log_text(2000 + 100 * k, k));
        logs += " " + log;
        CHECK(run_program_as_user("duty " + log + " -o " + folder.at(fmt::format("{}.toml", k)))
                  .code == 0);
    }
    fs::create_directory(folder.at("events"));
    const Run one = run_program_as_user("duty" + logs + " --threads 1 -o " + folder.at("events"));
    CHECK(one.code == 0);
    const Run four = run_program_as_user("duty" + logs + " --threads 4 -o " + folder.at("events"));
    CHECK(four.code == 0);
    CHECK(one.out == four.out);
    for (int k = 0; k < 5; ++k) {
        const std::string event = file_text(folder.at(fmt::format("events/day{}.toml", k)));
        CHECK(!event.empty());
        CHECK(event == file_text(folder.at(fmt::format("{}.toml", k))));
    }
}

TEST_CASE("duty: of several logs none is written when one is refused, and two must not be one") {
    const Folder folder;
    write(folder.at("good.csv"), log_text(100, 0));
    write(folder.at("bad.csv"), "Time (s),Case speed (rpm)\n1,2\n2,3\n");
    fs::create_directory(folder.at("events"));
    const Run bad = run_program_as_user("duty " + folder.at("good.csv") + " " +
                                        folder.at("bad.csv") + " -o " + folder.at("events"));
    CHECK(bad.code == 2);
    CHECK(fs::is_empty(folder.at("events")));
    const Run twice = run_program_as_user("duty " + folder.at("good.csv") + " " +
                                          folder.at("good.csv") + " -o " + folder.at("events"));
    CHECK(twice.code == 2);
    CHECK(twice.out == "error: two logs would be written as " + folder.at("events/good.toml") +
                           "\n  hint: give one of them another name, or its own run\n" + end);
    const Run no_folder = run_program_as_user("duty " + folder.at("good.csv") + " " +
                                              folder.at("bad.csv") + " -o " + folder.at("none"));
    CHECK(no_folder.code == 5);
    CHECK(no_folder.out == "error: -o " + folder.at("none") +
                               ": of several logs it is a folder for their events, and there is "
                               "none of this name\n" +
                               end);
    const std::string log = folder.at("good.csv");
    const Run over = run_program_as_user("duty " + log + " -o " + log);
    CHECK(over.code == 2);
    CHECK(over.out == "error: -o " + log +
                          ": this file is read by this run; it is not written over\n  hint: name "
                          "another file to write\n" +
                          end);
    CHECK(file_text(log) == log_text(100, 0));
}

TEST_CASE("duty: readings do not take the place of the event, however it is named") {
    const Folder folder;
    write(folder.at("log.csv"), log_text(100, 0));
    fs::create_directory(folder.at("events"));
    const std::string run =
        "duty " + folder.at("log.csv") + " --setup " CASELOAD_ROOT "/docs/examples/light.toml -o ";
    for (const std::string& rest :
         {folder.at("events") + " --readings " + folder.at("events/log.toml"),
          folder.at("e.toml") + " --readings " + folder.at("events/../e.toml")}) {
        const Run over = run_program_as_user(run + rest);
        CAPTURE(over.out);
        CHECK(over.code == 2);
        CHECK(over.out.find("is written there") != std::string::npos);
    }
    CHECK(fs::is_empty(folder.at("events")));
    CHECK_FALSE(fs::exists(folder.at("e.toml")));
}

TEST_CASE("duty: a log that changes while it is read is refused") {
    const Folder folder;
    const std::string path = folder.at("log.csv");
    write(path, log_text(100, 0));
    const LogFile log(path);
    CHECK_NOTHROW(log.check_unchanged());
    std::ofstream(path, std::ios::binary | std::ios::app) << "10.0,1500,400,15\n";
    CHECK_THROWS_WITH_AS(log.check_unchanged(),
                         (path + ": the file changed while it was read; nothing was written: wait "
                                 "until the logger is done")
                             .c_str(),
                         Error);
}

TEST_CASE("duty: a file beyond 4 GB is read at its sixteenths, and refused where it is no log") {
    const Folder folder;
    const std::string path = folder.at("large.csv");
    write(path, log_text(200000, 0));
    fs::resize_file(path, std::uintmax_t{5} << 30U);  // a hole
    const Run run = run_program_as_user("duty " + path + " -o " + folder.at("event.toml"));
    CHECK(run.code == 2);
    CHECK(run.out ==
          "large.csv:200002:1: error: this line is longer than 1 MiB\n  hint: a log has one record "
          "a line\n" +
              end);
    CHECK(folder.files() == 1);
    LogFile log(path);
    CHECK(*log.size() == std::uint64_t{5} << 30U);
    char read[8] = {};
    CHECK(log.read_at(std::uint64_t{4831838208}, read, sizeof read) == sizeof read);
    CHECK(log.read(read, 4) == 4);
    CHECK(std::string(read, 4) == "Time");
}

TEST_CASE("duty: a log of 40 MB is read in less than 64 MiB") {
    const Folder folder;
    const std::string path = folder.at("long.csv");
    {
        std::ofstream out(path, std::ios::binary);
        out << log_text(1, 0);
        for (int i = 1; i < 1500000; ++i) {
            // Torque and speed that fill many classes.
            const unsigned mixed = static_cast<unsigned>(i) * 2654435761U;
            out << fmt::format("{:.1f},{},{},15.00\n", i / 10.0, 100 + (mixed >> 19U),
                               static_cast<int>(mixed % 5000U) - 1000);
        }
    }
    REQUIRE(fs::file_size(path) > 30000000);
    const ::Held held = run_held({"duty", path, "-o", folder.at("event.toml")});
    CHECK(held.code == 0);
    CHECK(held.most_KiB < 64 * 1024);
    CHECK(fs::exists(folder.at("event.toml")));
}

TEST_CASE("duty: a log of 40 columns is read in less than 64 MiB") {
    const Folder folder;
    const std::string path = folder.at("wide.csv");
    {
        std::ofstream out(path, std::ios::binary);
        std::string sensors;
        out << "Time (s),Case speed (rpm),Case torque (Nm),Speed (m/s)";
        for (int k = 5; k <= 40; ++k) {
            out << fmt::format(",Sensor {} (bar)", k);
            sensors += fmt::format(",{:.3f}", k / 7.0);
        }
        out << "\n";
        for (int i = 0; i < 50000; ++i)
            out << fmt::format("{:.1f},{},{},15.00{}\n", i / 10.0, 1500 + i % 997, i % 499,
                               sensors);
    }
    REQUIRE(fs::file_size(path) > 11000000);
    const ::Held held = run_held({"duty", path, "-o", folder.at("event.toml")});
    CHECK(held.code == 0);
    CHECK(held.most_KiB < 64 * 1024);
}

TEST_CASE("duty: --json is one document a log") {
    const Folder folder;
    write(folder.at("log.csv"), log_text(600, 0));
    const Run run = run_program_as_user("duty " + folder.at("log.csv") + " --json -o " +
                                        folder.at("event.toml"));
    CHECK(run.code == 0);
    CHECK(run.out.rfind("{\"schema\":1,\"command\":\"duty\",\"caution\":", 0) == 0);
    CHECK(run.out.find("\"log\":\"log.csv\",") != std::string::npos);
    CHECK(run.out.find("\"samples\":600,") != std::string::npos);
    CHECK(run.out.find("\"legs\":[{\"name\":\"drive-1\",\"kind\":\"drive\"") != std::string::npos);
    const Run parsed = run_program_as_user(
        "duty " + folder.at("log.csv") + " --json -o " + folder.at("event.toml") +
        " | /usr/bin/python3 -c 'import json,sys; print(len(json.load(sys.stdin)[\"legs\"]))'");
    CHECK(parsed.out == "1\n");
}

}  // namespace caseload::files_tests
