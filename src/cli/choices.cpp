// SPDX-License-Identifier: MIT
// Questions whose answer is a choice between setups: sets, cooler, bearings, season.
#include "caseload/show/choices.hpp"

#include "caseload/ask/band.hpp"
#include "caseload/show/season.hpp"
#include "cli/commands.hpp"
#include "cli/files.hpp"
#include "cli/progress.hpp"
#include "cli/shared_options.hpp"

#include <memory>
#include <utility>
#include <vector>

namespace caseload {
namespace {

template <class Answer>
using Print = std::string (*)(const Setup& setup, const Answer& answer);

/// Calculates and prints. `rounds`: the share of the work in each round.
template <class Answer, class Ask>
void print_answer(const SetupQuestion& asked, std::vector<double> rounds, const Ask& ask,
                  Print<Answer> screen, Print<Answer> json) {
    const Document document = read_document(asked.setup);
    Setup setup = document.complete().setup;
    asked.set_units(setup);
    Progress progress;
    const Answer found =
        ask(document, BandOptions{.draws = asked.draws,
                                  .for_each = progress.watched(on_threads(asked.threads),
                                                               {1.0, std::move(rounds)}),
                                  .for_tables = on_threads(asked.threads)});
    progress.clear();
    print((asked.json ? json : screen)(setup, found));
}

struct SetsArguments : SetupQuestion {
    std::string top_speed;
    bool offer = false;
};

void run_sets(const SetsArguments& arguments) {
    const auto ask = [&](const Document& document, const BandOptions& band) {
        SetsOptions options;
        options.offer = arguments.offer;
        options.band = band;
        if (!arguments.top_speed.empty())
            options.top_road_speed_mps =
                read_option("--top-speed", "leg.*.pace", arguments.top_speed);
        return choose_set(document, options);
    };
    print_answer<SetsAnswer>(arguments, {1.0}, ask, sets_screen, sets_json);
}

struct CoolerArguments : SetupQuestion {
    CoolerArguments() { draws = 255; }

    std::string limit;
    std::string box;
    std::string core;
};

void run_cooler(const CoolerArguments& arguments) {
    const auto ask = [&](const Document& document, const BandOptions& band) {
        CoolerOptions options;
        options.band = band;
        if (!arguments.limit.empty())
            options.limit_degC = read_option("--limit", "limits.oil_watch", arguments.limit);
        if (!arguments.box.empty()) options.box_mm = read_size_option("--box", arguments.box);
        if (!arguments.core.empty()) options.core_mm = read_size_option("--core", arguments.core);
        return size_cooler(document, options);
    };
    // The cores there are, then the smallest of each kind and the chart.
    print_answer<CoolerAnswer>(arguments, {0.25, 0.75}, ask, cooler_screen, cooler_json);
}

struct BearingsArguments : SetupQuestion {
    BearingsArguments() { draws = 255; }

    std::string position;
    std::string outside;
    std::string width;
    bool thinner = false;
};

void run_bearings(const BearingsArguments& arguments) {
    const auto ask = [&](const Document& document, const BandOptions& band) {
        BearingsOptions options;
        options.band = band;
        options.position = arguments.position;
        if (!arguments.outside.empty())
            options.outside_mm = read_option("--outside", "seal.*.diameter", arguments.outside);
        if (!arguments.width.empty())
            options.width_mm = read_option("--width", "seal.*.diameter", arguments.width);
        options.thinner = arguments.thinner;
        return choose_bearings(document, options);
    };
    // Draws of the fitted bearing, likely values of all others, draws of those good enough so far.
    print_answer<BearingsAnswer>(arguments, {0.2, 0.5, 0.3}, ask, bearings_screen, bearings_json);
}

struct SeasonArguments : SetupQuestion {
    std::string events;
};

void run_season(const SeasonArguments& arguments) {
    const auto ask = [&](const Document& document, const BandOptions& band) {
        const std::string name = shown_name(arguments.events);
        return season(document, read_events(text_of(arguments.events), name), band);
    };
    print_answer<Season>(arguments, {1.0}, ask, season_screen, season_json);
}

}  // namespace

Command sets_command(Syntax program) {
    Syntax command = program.command("sets", "which drop set for this course");
    const auto arguments = std::make_shared<SetsArguments>();
    take_setup_file(command, *arguments, "setup file with [set]");
    command.option("--top-speed", arguments->top_speed,
                   "speed to be reached, for example \"165 km/h\"; else the course's fastest");
    command.flag("--offer", arguments->offer, "pairs of teeth that fit and are not owned");
    take_draws(command, arguments->draws, "calculations for each range");
    add_common_options(command, *arguments);
    return {command, [arguments] { run_sets(*arguments); }};
}

Command cooler_command(Syntax program) {
    Syntax command = program.command("cooler", "whether a cooler is needed, and how small");
    const auto arguments = std::make_shared<CoolerArguments>();
    take_setup_file(command, *arguments);
    command.option("--box", arguments->box,
                   "room for the core, width x height x depth (300x200x50 mm)");
    command.option("--core", arguments->core, "judge this size too");
    command.option("--limit", arguments->limit,
                   "oil temperature to keep, for example \"115 degC\"; else oil_watch");
    take_draws(command, arguments->draws, "calculations for each core");
    add_common_options(command, *arguments, "one JSON document, with the chart over ambient");
    return {command, [arguments] { run_cooler(*arguments); }};
}

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
    take_draws(command, arguments->draws, "calculations for each bearing that may last");
    add_common_options(command, *arguments);
    return {command, [arguments] { run_bearings(*arguments); }};
}

Command season_command(Syntax program) {
    Syntax command = program.command("season", "which action falls after which event");
    const auto arguments = std::make_shared<SeasonArguments>();
    take_setup_file(command, *arguments);
    command.option("EVENTS", arguments->events, "list of coming events, in TOML").required();
    take_draws(command, arguments->draws, "calculations for each range");
    add_common_options(command, *arguments);
    return {command, [arguments] { run_season(*arguments); }};
}

}  // namespace caseload
