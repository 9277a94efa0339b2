// SPDX-License-Identifier: MIT
// The program as a user runs it, and the documents it must agree with.
#include "program.hpp"
#include "caseload/input.hpp"
#include "files.hpp"
#include "own_folder.hpp"
#include "support.hpp"

#include <sstream>
#include <string>

namespace caseload::program_tests {

namespace {

using test_files::root;

Run run(const std::string& arguments) {
    return run_program_as_user(arguments);
}

}  // namespace

TEST_CASE("program: every example is assessed") {
    for (const std::string name : {"light", "heavy", "idler", "dip"}) {
        const Run result = run("assess " + root + "/docs/examples/" + name + ".toml");
        CHECK(result.code == 0);
        const bool cooled = name == "light" || name == "heavy";
        CHECK((result.out.find("with cooler") != std::string::npos) == cooled);
        for (const std::string word :
             {"no cooler", "2 NEXT", "3 HEAT", "4 NOT CALCULATED", "5 MEASURE"})
            CHECK(result.out.find(word) != std::string::npos);
        CHECK(result.out.find("nan") == std::string::npos);
        const Run json =
            run("assess --json --draws 63 " + root + "/docs/examples/" + name + ".toml");
        CHECK(json.code == 0);
        CHECK(json.out.find("\"schema\":1") != std::string::npos);
    }
    const Run imperial =
        run("assess --detail --draws 63 --units imperial " + root + "/docs/examples/light.toml");
    CHECK(imperial.code == 0);
    CHECK(imperial.out.find("degF") != std::string::npos);
    CHECK(imperial.out.find("heat it gives to the housing") != std::string::npos);
    CHECK(imperial.out.find("degC\n") == std::string::npos);
}

TEST_CASE("program: the first screen fits a terminal, and threads change no byte") {
    for (const std::string name : {"light", "heavy"}) {
        const std::string setup = root + "/docs/examples/" + name + ".toml";
        const Run screen = run("assess " + setup);
        std::size_t lines = 0;
        for (std::size_t at = 0; at < screen.out.size(); ++lines) {
            const std::size_t end = screen.out.find('\n', at);
            CAPTURE(screen.out.substr(at, end - at));
            CHECK(end - at <= 100);
            at = end + 1;
        }
        CHECK(lines <= 36);
        CHECK(run("assess --threads 2 " + setup).out == screen.out);
    }
}

TEST_CASE("program: exit codes") {
    CHECK(run("assess /no/such/file.toml").code == 5);
    CHECK(run("assess").code == 2);
    CHECK(run("--help").code == 0);
    CHECK(run("--version").out == "caseload 0.2.0\n");
}

TEST_CASE("program: what new and complete write is read again") {
    const OwnFolder folder("new");
    const std::string path = folder.path("new.toml");
    CHECK(run("new " + path).code == 0);
    CHECK(run("new " + path).code == 5);  // never overwrites
    CHECK(run("assess " + path).code == 0);
    const Run completed = run("complete " + path);
    CHECK(completed.code == 0);
    const ReadSetup again = read_setup(completed.out, "completed.toml", {});
    const ReadSetup first = read_setup(new_setup_text(), "new.toml", {});
    REQUIRE(again.entries.size() == first.entries.size());
    for (std::size_t i = 0; i < first.entries.size(); ++i) {
        CHECK(again.entries[i].key == first.entries[i].key);
        CHECK(again.entries[i].toml == first.entries[i].toml);
    }
}

TEST_CASE("documents: manual and completion name every command and option") {
    const Run manual = run("manual");
    const Run completion = run("manual --completion");
    CHECK(manual.code == 0);
    CHECK(completion.code == 0);
    std::istringstream help(run("--help").out);
    std::string line;
    while (std::getline(help, line) && line.find("Subcommands:") != 0) {
    }
    int commands = 0;
    while (std::getline(help, line)) {
        std::istringstream words(line);
        std::string name;
        if (line.find("  ") != 0 || line[2] == ' ' || !(words >> name)) continue;
        ++commands;
        CAPTURE(name);
        CHECK(manual.out.find("\n.SS " + name + "\n") != std::string::npos);
        CHECK(completion.out.find("        \"" + name + "\") words=") != std::string::npos);
    }
    CHECK(commands >= 13);
    CHECK(manual.out.find(".B \\-\\-top\\-speed\n") != std::string::npos);
    CHECK(completion.out.find("--top-speed") != std::string::npos);
    // Bash itself completes: of "caseload se", the command; of its options, the one begun.
    const auto completes = [&](const std::string& typed, const std::string& last) {
        const std::string script = std::string(CASELOAD_PROGRAM) + " manual --completion";
        const std::string words = typed + " " + last;
        const std::string command = "bash -c 'eval \"$(" + script + ")\"; COMP_WORDS=(" + words +
                                    "); COMP_CWORD=$((${#COMP_WORDS[@]} - 1)); _caseload; "
                                    "echo \"${COMPREPLY[@]}\"'";
        return run_command(command).out;
    };
    CHECK(completes("caseload", "sea") == "season\n");
    CHECK(completes("caseload sets", "--off") == "--offer\n");
    CHECK(completes("caseload book add", "par") == "part\n");
}

TEST_CASE("documents: the key reference is the program's") {
    CHECK(file_text(root + "/docs/input.md") == key_reference());
}

TEST_CASE("documents: the README shows the screen the program prints") {
    const Run screen = run("assess " + root + "/docs/examples/light.toml");
    CHECK(file_text(root + "/README.md").find("```\n" + screen.out + "```\n") != std::string::npos);
}

TEST_CASE("documents: CI runs the README's test command word for word") {
    const std::string readme = file_text(root + "/README.md");
    const std::string ci = file_text(root + "/.ci/run");
    const std::size_t end = readme.find("ctest --preset release");
    REQUIRE(end != std::string::npos);
    const std::size_t begin = readme.rfind('\n', end) + 1;
    const std::string line = readme.substr(begin, readme.find('\n', end) - begin);
    CHECK(line.size() > 100);
    CHECK(ci.find("\n" + line + "\n") != std::string::npos);
}

}  // namespace caseload::program_tests
