// SPDX-License-Identifier: MIT
#include "caseload/ask/band.hpp"
#include "caseload/show/choices.hpp"
#include "cli/commands.hpp"
#include "cli/files.hpp"

#include <memory>
#include <string>

namespace caseload {
namespace {

struct CoolerArguments {
    std::string setup;
    std::string limit;
    std::string box;
    std::string core;
    std::string units;
    std::size_t draws = 255;
    unsigned threads = 1;
    bool json = false;
};

void run_cooler(const CoolerArguments& arguments) {
    const Document document = read_document(arguments.setup);
    Setup setup = document.complete().setup;
    if (!arguments.units.empty()) setup.imperial = arguments.units == "imperial";
    CoolerOptions options;
    options.band = {.draws = arguments.draws, .for_each = on_threads(arguments.threads)};
    if (!arguments.limit.empty())
        options.limit_degC = read_option("--limit", "limits.oil_watch", arguments.limit);
    if (!arguments.box.empty()) options.box_mm = read_size_option("--box", arguments.box);
    if (!arguments.core.empty()) options.core_mm = read_size_option("--core", arguments.core);
    const CoolerAnswer answer = size_cooler(document, options);
    print(arguments.json ? cooler_json(setup, answer) : cooler_screen(setup, answer));
}

}  // namespace

Command cooler_command(CLI::App& program) {
    auto* command = program.add_subcommand("cooler", "whether a cooler is needed, and how small");
    const auto arguments = std::make_shared<CoolerArguments>();
    command->add_option("SETUP", arguments->setup, "setup file")->required();
    command->add_option("--box", arguments->box,
                        "room for the core, width x height x depth (300x200x50 mm)");
    command->add_option("--core", arguments->core, "judge this size too");
    command->add_option("--limit", arguments->limit,
                        "oil temperature to keep, for example \"115 degC\"; else oil_watch");
    command->add_option("--draws", arguments->draws, "draws for each core")
        ->check(CLI::Range(least_draws, most_draws));
    command->add_option("--threads", arguments->threads, "threads for the draws")
        ->check(CLI::Range(1, 256));
    command->add_option("--units", arguments->units, "metric or imperial")
        ->check(CLI::IsMember({"metric", "imperial"}));
    command->add_flag("--json", arguments->json, "one JSON document, with the chart over ambient");
    return {command, [arguments] { run_cooler(*arguments); }};
}

}  // namespace caseload
