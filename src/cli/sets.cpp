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

struct SetsArguments : SetupQuestion {
    std::string top_speed;
    bool offer = false;
};

void run_sets(const SetsArguments& arguments) {
    const Document document = read_document(arguments.setup);
    Setup setup = document.complete().setup;
    arguments.set_units(setup);
    SetsOptions options;
    options.offer = arguments.offer;
    Progress progress;
    options.band = {.draws = arguments.draws,
                    .for_each = progress.watched(on_threads(arguments.threads), {1.0, {1.0}}),
                    .for_tables = on_threads(arguments.threads)};
    if (!arguments.top_speed.empty())
        options.top_road_speed_mps = read_option("--top-speed", "leg.*.pace", arguments.top_speed);
    const SetsAnswer answer = choose_set(document, options);
    progress.clear();
    print(arguments.json ? sets_json(setup, answer) : sets_screen(setup, answer));
}

}  // namespace

Command sets_command(Syntax program) {
    Syntax command = program.command("sets", "which drop set for this course");
    const auto arguments = std::make_shared<SetsArguments>();
    take_setup_file(command, *arguments, "setup file with [set]");
    command.option("--top-speed", arguments->top_speed,
                   "speed to be reached, for example \"165 km/h\"; else the course's fastest");
    command.flag("--offer", arguments->offer, "pairs of teeth that fit and are not owned");
    take_draws(command, arguments->draws, "draws for each band");
    add_common_options(command, *arguments);
    return {command, [arguments] { run_sets(*arguments); }};
}

}  // namespace caseload
