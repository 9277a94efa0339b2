// SPDX-License-Identifier: MIT
#include "caseload/show/season.hpp"
#include "caseload/ask/band.hpp"
#include "cli/commands.hpp"
#include "cli/files.hpp"
#include "cli/progress.hpp"
#include "cli/shared_options.hpp"

#include <memory>
#include <string>

namespace caseload {
namespace {

struct SeasonArguments : SetupQuestion {
    std::string events;
};

void run_season(const SeasonArguments& arguments) {
    const Document document = read_document(arguments.setup);
    Setup setup = document.complete().setup;
    arguments.set_units(setup);
    Progress progress;
    const Season answer =
        season(document, read_events(text_of(arguments.events), shown_name(arguments.events)),
               {.draws = arguments.draws,
                .for_each = progress.watched(on_threads(arguments.threads), {1.0, {1.0}}),
                .for_tables = on_threads(arguments.threads)});
    progress.clear();
    print(arguments.json ? season_json(setup, answer) : season_screen(setup, answer));
}

}  // namespace

Command season_command(Syntax program) {
    Syntax command = program.command("season", "which action falls after which event");
    const auto arguments = std::make_shared<SeasonArguments>();
    take_setup_file(command, *arguments);
    command.option("EVENTS", arguments->events, "list of coming events, in TOML").required();
    take_draws(command, arguments->draws, "draws for each band");
    add_common_options(command, *arguments);
    return {command, [arguments] { run_season(*arguments); }};
}

}  // namespace caseload
