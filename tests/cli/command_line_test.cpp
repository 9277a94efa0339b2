// SPDX-License-Identifier: MIT
// A command line that cannot be read says what was most likely meant.
#include "cli/command_line.hpp"
#include "files.hpp"
#include "program.hpp"

#include <string>
#include <vector>

namespace caseload::command_line_tests {

namespace {

struct Refused {
    std::string words;
    std::string said;  ///< text and hint
};

}  // namespace

TEST_CASE("program: a call without a command prints four first commands, with exit code 2") {
    const Run none = run_program_as_user("");
    CHECK(none.code == 2);
    CHECK(none.out == first_commands());
    // On standard error, as every refusal.
    CHECK(run_command("(" CASELOAD_PROGRAM " 2>/dev/null)").out.empty());
    for (const std::string command : {"new", "assess", "complete", "compare"})
        CHECK(none.out.find("\n  caseload " + command + " my-case.toml") != std::string::npos);
    // They are what they say they are.
    const std::string all = run_program_as_user("--help").out;
    for (const std::string command : {"new", "assess", "complete", "compare"})
        CHECK(all.find("\n  " + command + " ") != std::string::npos);
}

TEST_CASE("program: an unknown or misplaced command or option names what was meant") {
    const std::vector<Refused> all{
        {"asess light.toml", "unknown command \"asess\"\n  hint: did you mean assess?"},
        {"light.toml", "unknown command \"light.toml\"\n  hint: caseload assess light.toml"},
        {"day.csv", "unknown command \"day.csv\"\n  hint: caseload duty day.csv -o event.toml"},
        {"help", "unknown command \"help\"\n  hint: caseload --help"},
        {"due", "unknown command \"due\"\n  hint: did you mean book due?"},
        {"book shwo", "unknown command \"shwo\" of book\n  hint: did you mean show?"},
        {"book add prt TC-1", "unknown command \"prt\" of book add\n  hint: did you mean part?"},
        {"book", "caseload book needs a command of its own\n  hint: commands of book are add, "},
        {"xylophone", "unknown command \"xylophone\"\n  hint: commands are assess, sets, "},
        {"assess --pag x light.toml",
         "unknown option --pag of assess\n  hint: did you mean --page?"},
        {"assess --pag=x light.toml",
         "unknown option --pag of assess\n  hint: did you mean --page?"},
        {"assess light.toml -json", "unknown option -json of assess\n  hint: write --json"},
        {"assess light.toml json",
         "assess: \"json\" is one word too many\n  hint: did you mean "
         "--json?"},
        {"assess light.toml heavy.toml",
         "assess: \"heavy.toml\" is one word too many\n  hint: a name or value with blanks is "
         "written in quotes"},
        {"cooler light.toml --ambint \"40 degC\"", "unknown option --ambint of cooler\n  hint: "},
        {"sets light.toml --without fan",
         "unknown option --without of sets\n  hint: --without is an option of compare"},
        {"assess --version", "unknown option --version of assess\n  hint: caseload --version"},
        {"--draws 63 assess light.toml",
         "the option --draws is in front of the command\n  hint: write it behind: caseload assess "
         "... --draws"},
        {"--jsn assess light.toml",
         "the option --jsn is in front of the command\n  hint: did you mean --json?"},
        {"--hlep", "unknown option --hlep\n  hint: did you mean --help?"},
        {"sets --top-sped 165",
         "unknown option --top-sped of sets\n  hint: did you mean "
         "--top-speed?"},
        {"sets", "sets: SETUP is required\n  hint: what it takes: caseload sets --help"},
        {"assess light.toml --draws 5",
         "assess: --draws: Value 5 not in range 63 to 1048575\n  hint: what it takes: caseload "
         "assess --help"},
    };
    for (const Refused& one : all) {
        CAPTURE(one.words);
        const Run run = run_program_as_user(one.words);
        CHECK(run.code == 2);
        CAPTURE(run.out);
        CHECK(run.out.rfind("error: " + one.said, 0) == 0);
        const std::string end = "\n1 error; nothing was calculated\n";
        CHECK(run.out.find(end) == run.out.size() - end.size());
    }
    // A value that begins with a minus is none of them.
    const Run minus = run_program_as_user("compare " + test_files::root +
                                          "/docs/examples/light.toml --with vehicle.mass=-5");
    CHECK(minus.out.find("option") == std::string::npos);
    CHECK(run_program_as_user("assess --help").code == 0);
    CHECK(run_program_as_user("book add --help").code == 0);
}

TEST_CASE("program: nan, inf and hexadecimal numbers are refused on the command line") {
    const std::string light = test_files::root + "docs/examples/light.toml";
    for (const std::string& words :
         {std::string("book fleet --shape nan"),
          std::string("book fleet --shape inf"),
          std::string("book fleet --shape 0x1"),
          std::string("book fleet --shape +-1"),
          std::string("duty no.csv -o no.toml --resistance nan"),
          std::string("duty no.csv -o no.toml --resistance 0x.1"),
          "assess " + light + " --draws 0x40",
          "assess " + light + " --draws nan",
          "assess " + light + " --threads 0x2",
          "cooler " + light + " --limit nan",
          "cooler " + light + " --limit \"nan degC\"",
          "cooler " + light + " --limit \"0x50 degC\"",
          "cooler " + light + " --box nanxnanxnan",
          "cooler " + light + " --box \"0x1x20x30 mm\"",
          "cooler " + light + " --core \"infx200x50 mm\"",
          "sets " + light + " --top-speed \"inf km/h\"",
          "bearings " + light + " --outside nan",
          std::string("duty no.csv -o no.toml --shortest-stop \"nan s\""),
          "compare " + light + " --with vehicle.axle_ratio=nan",
          "compare " + light + " --with vehicle.axle_ratio=0x5",
          "compare " + light + " --grid vehicle.axle_ratio=nan:5:3,event.ambient",
          "compare " + light + " --grid \"vehicle.mass,event.ambient=10 degC:inf degC:3\""}) {
        CAPTURE(words);
        const Run run = run_program_as_user(words);
        CAPTURE(run.out);
        CHECK(run.code == 2);
        CHECK(run.out.find("error: ") != std::string::npos);
        CHECK(run.out.find("-nan") == std::string::npos);
    }
    CHECK(run_program_as_user("book fleet --shape nan").out ==
          "error: book fleet: --shape: \"nan\" is not a number in digits, such as 0.3 or 255\n"
          "  hint: what it takes: caseload book fleet --help\n1 error; nothing was calculated\n");
    // Numbers as people write them are taken: what is refused is the missing book.
    for (const char* number : {"1.5", "+1.5", "15e-1", "1.", ".5"})
        CHECK(run_program_as_user(std::string("book fleet --book /no/such.book --shape ") + number)
                  .code == 5);
}

TEST_CASE("program: the manual lists every exit code, and that of a call without a command") {
    const std::string manual = run_program_as_user("manual").out;
    const std::string status = manual.substr(manual.find(".SH EXIT STATUS"));
    CHECK(status.find("or no command was given") != std::string::npos);
    for (const std::string code : {"0", "1", "2", "3", "4", "5", "70", "71"})
        CHECK(status.find("\n" + code + ": ") != std::string::npos);
}

}  // namespace caseload::command_line_tests
