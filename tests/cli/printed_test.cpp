// SPDX-License-Identifier: MIT
// What a name of a file can do to a terminal, or to the next line that is pasted: nothing.
#include "files.hpp"
#include "own_folder.hpp"
#include "program.hpp"

#include <algorithm>
#include <string>

namespace printed_tests {

namespace {

using test_files::has;

/// Characters a terminal obeys; a line end is none here.
bool is_clean(const std::string& text) {
    return std::none_of(text.begin(), text.end(),
                        [](char c) {
                            const auto byte = static_cast<unsigned char>(c);
                            return (byte < 0x20 && c != '\n') || byte == 0x7F;
                        }) &&
           !has(text, "\xC2\x9B") && !has(text, "\xE2\x80\xAE");
}

// A line end that forges a line, an escape, a control of 8 bits, a turn of writing, a quote.
const std::string nasty = "e\nTRUST\x1B[31m\xC2\x9B\xE2\x80\xAE\"v";
const std::string shown_nasty = "e\\u000ATRUST\\u001B[31m\\u009B\\u202E";

std::string in_quotes(const std::string& path) {
    return "'" + path + "'";
}

}  // namespace

TEST_CASE("program: control characters in names of logs and events are printed, not obeyed") {
    const OwnFolder folder("printed");
    std::string log = "Time (s),Case speed (rpm),Case torque (Nm),Speed (m/s)\n";
    for (int i = 0; i < 90; ++i) log += std::to_string(i) + ",2000,300,20\n";
    folder.write(nasty + ".csv", log);
    const std::string event = folder.path(nasty + ".toml");
    const Run run = run_program_as_user("duty " + in_quotes(folder.path(nasty + ".csv")) + " -o " +
                                        in_quotes(event));
    REQUIRE(run.code == 0);
    CHECK(is_clean(run.out));
    CHECK(has(run.out, shown_nasty + "\"v.csv\n"));
    const std::string pasted = "event.from = \"" + shown_nasty + "\\\"v.toml\"\n";
    CHECK(has(run.out, pasted));
    CHECK(is_clean(file_text(event)));
    CHECK(has(file_text(event), "# From " + shown_nasty + "\"v.csv by caseload duty"));
    // The line it asks for, pasted into a setup, is that file.
    folder.write("our.toml",
                 "caseload = 1\nbase = \"pattern:two-gear-185mm\"\n"
                 "gears.fitted = [33, 41]\noil.grade = \"75W-90 synthetic\"\n"
                 "vehicle.mass = \"2350 kg\"\nvehicle.tyre = \"37 in\"\n"
                 "vehicle.axle_ratio = 5.43\nvehicle.engine_power = \"650 hp\"\n"
                 "housing.place = \"behind-skid-plate\"\nevent.ambient = \"38 degC\"\n" +
                     pasted);
    const Run taken = run_program_as_user("complete " + folder.path("our.toml"));
    CHECK(taken.code == 0);
    CHECK(has(taken.out, "2000 rpm"));
}

TEST_CASE(
    "program: control characters in names of setups and sheets are printed, not obeyed, on every "
    "stream and in files") {
    const OwnFolder folder("printed_setup");
    folder.write(nasty + ".toml", file_text(test_files::light_file));
    const std::string setup = in_quotes(folder.path(nasty + ".toml"));
    const std::string page = folder.path("\x1B]0;x\x07.html");
    const Run run =
        run_program_as_user("assess " + setup + " --draws 63 --page " + in_quotes(page));
    REQUIRE(run.code == 0);
    CHECK(is_clean(run.out));
    CHECK(has(run.out, "\\u001B]0;x\\u0007.html\n"));
    CHECK(is_clean(file_text(page)));
    const Run lines = run_program_as_user("assess " + setup + " --draws 63 --json");
    CHECK(lines.code == 0);
    CHECK(is_clean(lines.out));
    folder.write(nasty + ".toml", "caseload = 2\n");
    const Run refused = run_program_as_user("assess " + setup);
    CHECK(refused.code == 2);
    CHECK(is_clean(refused.out));
    CHECK(has(refused.out, shown_nasty));
}

TEST_CASE("program: a line end in the name of a missing file forges no line of a message") {
    const OwnFolder folder("printed_missing");
    const std::string name = in_quotes(folder.path("a\nerror: forged"));
    const std::string to = in_quotes(folder.path("none/a\nerror: forged"));
    for (const std::string& words : {"assess " + name, "complete " + name, "upgrade " + name,
                                     "new " + to, "duty " + name + " -o " + to}) {
        CAPTURE(words);
        const Run run = run_program_as_user(words);
        CHECK(run.code != 0);
        CHECK(has(run.out, "a\\u000Aerror: forged"));
        CHECK(!has(run.out, "\nerror: forged"));
    }
    const Run made = run_program_as_user("new " + name);
    CHECK(made.code == 0);
    CHECK(!has(made.out, "\nerror: forged"));
}

TEST_CASE("program: a long address is echoed in part") {
    const Run run =
        run_program_as_user("why " + test_files::light_file + " " + std::string(100'000, 'x'));
    CHECK(run.code == 2);
    CHECK(has(run.out, std::string(200, 'x') + "...: no number has this address; nearest: "));
    CHECK(run.out.size() < 1000);
}

}  // namespace printed_tests
