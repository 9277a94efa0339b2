// SPDX-License-Identifier: MIT
#include "caseload/ask/band.hpp"
#include "caseload/show/choices.hpp"
#include "cli/commands.hpp"
#include "cli/files.hpp"
#include "cli/progress.hpp"
#include "cli/shared_options.hpp"

#include <memory>
#include <string>

namespace caseload {
namespace {

struct BearingsArguments : SetupQuestion {
    BearingsArguments() { draws = 255; }

    std::string position;
    std::string outside;
    std::string width;
    bool thinner = false;
};

void run_bearings(const BearingsArguments& arguments) {
    const Document document = read_document(arguments.setup);
    Setup setup = document.complete().setup;
    arguments.set_units(setup);
    BearingsOptions options;
    // Draws of what is there, likely values of all others, draws of those that may hold.
    Progress progress;
    options.band = {
        .draws = arguments.draws,
        .for_each = progress.watched(on_threads(arguments.threads), {1.0, {0.2, 0.5, 0.3}}),
        .for_tables = on_threads(arguments.threads)};
    options.position = arguments.position;
    if (!arguments.outside.empty())
        options.outside_mm = read_option("--outside", "seal.*.diameter", arguments.outside);
    if (!arguments.width.empty())
        options.width_mm = read_option("--width", "seal.*.diameter", arguments.width);
    options.thinner = arguments.thinner;
    const BearingsAnswer answer = choose_bearings(document, options);
    progress.clear();
    print(arguments.json ? bearings_json(setup, answer) : bearings_screen(setup, answer));
}

}  // namespace

Command bearings_command(Syntax program) {
    Syntax command = program.command(
        "bearings", "whether the bearings are good enough for this build, and which would be");
    const auto arguments = std::make_shared<BearingsArguments>();
    take_setup_file(command, *arguments);
    command.option("--position", arguments->position, "one position; else all");
    command.option("--outside", arguments->outside,
                   "largest outside diameter; else that of the bearing there");
    command.option("--width", arguments->width, "largest width; else that of the bearing there");
    command.flag("--thinner", arguments->thinner,
                 "sizes narrower, of less section or of lower rating than now, too");
    take_draws(command, arguments->draws, "draws for each bearing that may hold");
    add_common_options(command, *arguments);
    return {command, [arguments] { run_bearings(*arguments); }};
}

}  // namespace caseload
