// SPDX-License-Identifier: MIT
#include "caseload/show/why.hpp"
#include "cli/commands.hpp"
#include "cli/files.hpp"

#include <fmt/format.h>

#include <memory>
#include <string>

namespace caseload {
namespace {

struct WhyArguments {
    std::string setup;
    std::string address;
    bool list = false;
    bool check = false;
};

/// Every printed formula put in again; counts, and what does not agree.
int check(const Reasons& reasons) {
    int calculated = 0;
    int told = 0;
    int wrong = 0;
    std::string out;
    for (const Number& number : reasons.all()) {
        if (number.how == "entered" || !number.origin.empty()) continue;
        ++calculated;
        const auto again = put_in_again(why_screen(reasons.why(number.address)));
        if (!again) continue;
        ++told;
        if (again->agrees) continue;
        ++wrong;
        out += fmt::format("{}: printed {:.12g}, put in again {:.12g}\n", number.address,
                           again->printed, again->again);
    }
    print(
        fmt::format("{}{} calculated numbers with an address, {} with a formula to put in again, "
                    "{} of these do not agree\n",
                    out, calculated, told, wrong));
    return wrong == 0 ? 0 : 1;
}

int run_why(const WhyArguments& arguments) {
    const ReadSetup read = read_document(arguments.setup).complete();
    const Assessment answer = assess(read.setup);
    const Reasons reasons(read, answer);
    if (arguments.check) return check(reasons);
    if (arguments.list) {
        std::string out;
        for (const Number& number : reasons.all())
            out += fmt::format("{:<44} {}\n", number.address, number.words);
        print(out);
        return 0;
    }
    if (!arguments.address.empty()) {
        print(why_screen(reasons.why(arguments.address)));
        return 0;
    }
    if (!answer.stopped_by.empty())
        print("Stopped by " + answer.stopped_by + "\nChecks have no address; of the heat:\n");
    if (reasons.deciding().empty())
        throw Error(Error::Kind::input, "nothing is driven: name an address, see --list");
    print(why_screen(reasons.why(reasons.deciding())));
    return 0;
}

}  // namespace

Command why_command(CLI::App& program) {
    auto* command = program.add_subcommand("why", "one number, its formula and what goes into it");
    const auto arguments = std::make_shared<WhyArguments>();
    const auto code = std::make_shared<int>(0);
    command->add_option("SETUP", arguments->setup, "setup file")->required();
    command->add_option("ADDRESS", arguments->address,
                        "the number, see --list; else the oil of the hottest leg");
    command->add_flag("--list", arguments->list, "every address");
    command->add_flag("--check", arguments->check, "put every printed formula in again");
    return {command, [arguments, code] { *code = run_why(*arguments); }, code};
}

}  // namespace caseload
