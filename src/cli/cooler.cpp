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

struct CoolerArguments : SetupQuestion {
    CoolerArguments() { draws = 255; }

    std::string limit;
    std::string box;
    std::string core;
};

void run_cooler(const CoolerArguments& arguments) {
    const Document document = read_document(arguments.setup);
    Setup setup = document.complete().setup;
    arguments.set_units(setup);
    CoolerOptions options;
    // The cores there are, then the smallest of each kind and the chart.
    Progress progress;
    options.band = {
        .draws = arguments.draws,
        .for_each = progress.watched(on_threads(arguments.threads), {1.0, {0.25, 0.75}})};
    if (!arguments.limit.empty())
        options.limit_degC = read_option("--limit", "limits.oil_watch", arguments.limit);
    if (!arguments.box.empty()) options.box_mm = read_size_option("--box", arguments.box);
    if (!arguments.core.empty()) options.core_mm = read_size_option("--core", arguments.core);
    const CoolerAnswer answer = size_cooler(document, options);
    progress.clear();
    print(arguments.json ? cooler_json(setup, answer) : cooler_screen(setup, answer));
}

}  // namespace

Command cooler_command(Syntax program) {
    Syntax command = program.command("cooler", "whether a cooler is needed, and how small");
    const auto arguments = std::make_shared<CoolerArguments>();
    take_setup_file(command, *arguments);
    command.option("--box", arguments->box,
                   "room for the core, width x height x depth (300x200x50 mm)");
    command.option("--core", arguments->core, "judge this size too");
    command.option("--limit", arguments->limit,
                   "oil temperature to keep, for example \"115 degC\"; else oil_watch");
    take_draws(command, arguments->draws, "draws for each core");
    add_common_options(command, *arguments, "one JSON document, with the chart over ambient");
    return {command, [arguments] { run_cooler(*arguments); }};
}

}  // namespace caseload
