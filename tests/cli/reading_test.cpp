// SPDX-License-Identifier: MIT
// Files as the program reads them: pipes, folders, what is too large, what cannot be read.
#include "files.hpp"
#include "own_folder.hpp"
#include "program.hpp"

#include <filesystem>
#include <string>

namespace reading_tests {

using test_files::has;
using test_files::light_file;

TEST_CASE("reading: a setup may come from a pipe, its files from the current folder") {
    const OwnFolder folder("reading_pipe");
    folder.write("light.toml", file_text(light_file));
    folder.write("our.toml", "caseload = 1\nbase = \"light.toml\"\nvehicle.mass = \"1900 kg\"\n");
    const std::string in = "cd " + folder.path(".") + " && ";
    const Run file = run_command(in + CASELOAD_PROGRAM " complete our.toml");
    REQUIRE(file.code == 0);
    const std::string rest = file.out.substr(file.out.find('\n'));  // behind its name
    for (const std::string& pipe :
         {std::string("cat our.toml | " CASELOAD_PROGRAM " complete /dev/stdin"),
          std::string("bash -c '" CASELOAD_PROGRAM " complete <(cat our.toml)'"),
          std::string(CASELOAD_PROGRAM " complete /dev/stdin <our.toml")}) {
        CAPTURE(pipe);
        const Run run = run_command(in + pipe);
        CHECK(run.code == 0);
        CHECK(run.out.substr(run.out.find('\n')) == rest);
    }
    // What has to name the setup, or read it again, says that it cannot.
    for (const std::string& command : {std::string("calibrate /dev/stdin -o m.toml"),
                                       std::string("assess /dev/stdin --page p.html --live"),
                                       std::string("upgrade /dev/stdin")}) {
        CAPTURE(command);
        const Run run = run_command(in + "cat our.toml | " CASELOAD_PROGRAM " " + command);
        CHECK(run.code == 2);
        CHECK(has(run.out, "nothing was calculated"));
    }
    // A pipe named within a file could keep the program waiting for ever.
    folder.write("piped.toml", "caseload = 1\nbase = \"/dev/stdin\"\n");
    const Run base = run_command(in + CASELOAD_PROGRAM " complete piped.toml </dev/zero");
    CHECK(base.code == 2);
    CHECK(has(base.out, "there is no such file beside this one"));
}

TEST_CASE(
    "reading: no more than it may have is read of a setup, base, library or event, in little "
    "memory") {
    const OwnFolder folder("reading_large");
    folder.write("big.toml", "");
    std::filesystem::resize_file(folder.path("big.toml"), 3'000'000'000);  // all holes
    for (const std::string key : {"base", "library", "event.from"}) {
        folder.write("our.toml", "caseload = 1\n" + key + " = \"big.toml\"\n");
        const Run run = run_command("(ulimit -v 200000; " CASELOAD_PROGRAM " complete " +
                                    folder.path("our.toml") + ")");
        CAPTURE(key);
        CHECK(run.code == 2);
        CHECK(has(run.out, "big.toml: error: the file is larger than 1 MiB"));
    }
    for (const std::string& command :
         {"complete " + folder.path("big.toml"), std::string("complete /dev/zero"),
          "season " + light_file + " " + folder.path("big.toml"),
          "upgrade " + folder.path("big.toml")}) {
        CAPTURE(command);
        const Run run = run_command("(ulimit -v 200000; " CASELOAD_PROGRAM " " + command + ")");
        CHECK(run.code == 2);
        CHECK(has(run.out, "larger than 1 MiB"));
    }
    const Run list =
        run_program_as_user("assess " + light_file + " --each " + folder.path("big.toml"));
    CHECK(list.code == 2);
    CHECK(has(list.out, "the file is larger than 256 MiB"));
}

TEST_CASE("reading: a file that cannot be read to its end is reported as that, not as a bug") {
    // The first page of a process is never mapped: reading it is an error of the device.
    const OwnFolder folder("reading_error");
    folder.write("our.toml", "caseload = 1\nbase = \"/proc/self/mem\"\n");
    for (const std::string& command :
         {"assess " + folder.path("our.toml"), std::string("assess /proc/self/mem"),
          "assess " + light_file + " --each /proc/self/mem", std::string("upgrade /proc/self/mem"),
          "season " + light_file + " /proc/self/mem",
          std::string("book due --book /proc/self/mem.txt")}) {
        CAPTURE(command);
        const Run run = run_program_as_user(command);
        CAPTURE(run.out);
        CHECK(run.code == 5);
        CHECK(has(run.out, "cannot be read"));
        CHECK(!has(run.out, "our bug"));
    }
    const Run folder_run = run_program_as_user("assess " + folder.path("."));
    CHECK(folder_run.code == 5);
    CHECK(has(folder_run.out, "this is a folder; name a file in it"));
}

TEST_CASE(
    "reading: a list too large for the memory ends with exit code 71, not as a bug, in little "
    "memory") {
    const OwnFolder folder("reading_memory");
    folder.write("list.csv", "");
    std::filesystem::resize_file(folder.path("list.csv"), 250'000'000);
    const Run run = run_command("(ulimit -v 150000; " CASELOAD_PROGRAM " assess " + light_file +
                                " --each " + folder.path("list.csv") + ")");
    CHECK(run.code == 71);
    CHECK(run.out ==
          "error: the system gives no more memory\n"
          "  hint: fewer --threads or --draws take less\n");
}

}  // namespace reading_tests
