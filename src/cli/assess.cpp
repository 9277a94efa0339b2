// SPDX-License-Identifier: MIT
#include "caseload/ask/band.hpp"
#include "caseload/ask/kept.hpp"
#include "caseload/ask/remedy.hpp"
#include "caseload/show/curves.hpp"
#include "caseload/show/json.hpp"
#include "caseload/show/kept.hpp"
#include "caseload/show/page.hpp"
#include "caseload/show/text.hpp"
#include "cli/commands.hpp"
#include "cli/each_lines.hpp"
#include "cli/files.hpp"
#include "cli/live_part.hpp"
#include "cli/progress.hpp"
#include "cli/shared_options.hpp"
#include "input/harmless.hpp"

#include <fmt/format.h>

#include <memory>
#include <optional>
#include <string>
#include <vector>

namespace caseload {
namespace {

struct AssessOptions : SetupQuestion {
    EachOptions each;
    bool detail = false;
    bool curves = false;
    bool live = false;
    std::string at;  ///< oil temperature to keep; "": it is found
    std::string page;
    std::string card;
    std::string teardown;
};

/// Files asked for beside the answer, and which were written.
std::string write_sheets(const AssessOptions& options, const Answer& answer,
                         const BandOptions& draws, const OilTraces& traces,
                         const std::string& part) {
    std::string written;
    const auto write = [&](const std::string& path, const std::string& html) {
        write_file(path, html);
        written += "\nWritten: " + input::harmless(path);
    };
    const Setup& setup = answer.read.setup;
    if (!options.page.empty()) {
        const std::vector<Moment> moments = over_time(answer.likely, traces);
        const std::vector<SeatSweep> seats = seat_sweep(prepare(setup), seat_sweep_temps_degC());
        const Reasons reasons(answer.read, answer.likely);
        const PageAnswer page{answer, moments, seats, &reasons};
        write(options.page, options.live ? live_page(part, options.setup, page) : page_html(page));
    }
    if (!options.card.empty())
        write(options.card, card_html(answer, pit_card(setup, answer.likely, answer.band, draws)));
    if (!options.teardown.empty()) write(options.teardown, teardown_html(answer));
    return written;
}

void run_assess(const AssessOptions& options) {
    if (options.live && options.page.empty())
        refuse_input("--live: name the page it goes into: --page FILE --live");
    if (options.live && is_stream(options.setup))
        refuse_input(
            fmt::format("--live: {} is a pipe, read once; the page holds the setup's "
                        "files: name the setup itself",
                        options.setup));
    const Document document = read_document(options.setup);
    const Output sheets[] = {
        {"--page", options.page}, {"--card", options.card}, {"--teardown", options.teardown}};
    require_outputs(sheets);
    ReadSetup read = document.complete();
    options.set_units(read.setup);
    const std::string part = options.live ? live_part() : "";  // refused before the work, not after
    const Assessment likely = assess(read.setup);
    // Tables, draws and effects of assumptions in millions of instructions, about.
    const double band_cost = 300 + 0.3 * static_cast<double>(options.draws);
    const double worth_cost = 600;
    Progress progress;
    const BandOptions draws{
        .draws = options.draws,
        .for_each = progress.watched(on_threads(options.threads),
                                     {band_cost / (band_cost + worth_cost), {}})};
    OilTraces traces = options.page.empty() ? OilTraces{} : oil_traces(likely);
    const Band sure = band(read.setup, likely, draws, options.page.empty() ? nullptr : &traces);
    const std::vector<Worth> worth =
        assumptions_by_worth(document, read,
                             progress.watched(on_threads(options.threads),
                                              {worth_cost / (band_cost + worth_cost), {1.0}}));
    const Answer answer{read, likely, sure, worth,
                        remedy(document, read.setup, likely, sure, draws)};
    const std::string written = write_sheets(options, answer, draws, traces, part);
    progress.clear();
    if (options.json) {
        print(assessment_json(answer));
        return;
    }
    print(first_screen(answer) + (options.detail ? detail_screen(answer) : "") +
          (written.empty() ? "" : written + "\n"));
}

void print_curves(const AssessOptions& options) {
    const ReadSetup read = read_document(options.setup).complete();
    const Prepared prepared = prepare(read.setup);
    Curves curves{read.setup, event_network(prepared, {}), std::nullopt};
    if (read.setup.cooler.fit)
        curves.without = event_network(prepared, {.cooler = false, .pump = true, .fan = true});
    print(curves_json(curves));
}

void print_kept(const AssessOptions& options) {
    const double oil_degC = read_option("--at", "reading.*.start", options.at);
    ReadSetup read = read_document(options.setup).complete();
    options.set_units(read.setup);
    const KeptAnswer kept = losses_kept_at(read.setup, oil_degC);
    print((options.json ? kept_json : kept_screen)(read.setup, kept));
}

void answer(AssessOptions& options) {
    if (options.each.list.empty()) {
        if (options.setup.empty())
            refuse_input("assess: name the setup file: caseload assess our.toml");
        options.curves        ? print_curves(options)
        : !options.at.empty() ? print_kept(options)
                              : run_assess(options);
        return;
    }
    options.each.setup = options.setup;
    options.each.draws = options.draws;
    options.each.threads = options.threads;
    run_each(options.each);
}

}  // namespace

Command assess_command(Syntax program) {
    Syntax command = program.command(
        "assess", "oil temperature, bearing life and service intervals for one event");
    const auto options = std::make_shared<AssessOptions>();
    command.option("SETUP", options->setup, "setup file");
    command.flag("--detail", options->detail, "every part, assumption and note");
    command.flag("--json", options->json, "one JSON document");
    take_units(command, options->units);
    take_draws(command, options->draws,
               "calculations for the range; 2^k - 1 completes a block: 1023, 4095");
    take_threads(command, options->threads);
    command.option("--each", options->each.list,
                   "CSV whose head names keys: one answer a row; without SETUP a list of "
                   "setup files, one a line");
    command.option("--out", options->each.out, "with --each: file to write").names_an_output();
    command.flag("--resume", options->each.resume,
                 "with --each and --out: go on after the last whole line");
    command.option("--shard", options->each.shard, "with --each: k/n, every n-th row");
    command.flag("--json-lines", options->each.json_lines,
                 "with --each: one JSON line a row (always so)");
    command.flag("--curves", options->curves, "the event's heat network, for another integrator")
        .excludes({"--json", "--detail", "--each"});
    command.option("--at", options->at, "losses with the oil kept at this temperature, as on a rig")
        .excludes({"--detail", "--each", "--curves"});
    const auto sheet = [&](const std::string& name, std::string& path, const std::string& words) {
        command.option(name, path, words)
            .names_an_output()
            .excludes({"--each", "--curves", "--at"});
    };
    sheet("--page", options->page, "write the answer as one HTML page: pictures, then tables");
    command.flag("--live", options->live,
                 "with --page: the page calculates again as its entries are changed");
    sheet("--card", options->card, "write an A6 pit card: what to do at an arrival temperature");
    sheet("--teardown", options->teardown, "write an A4 sheet to tick when the case is opened");
    return {command, [options] { answer(*options); }};
}

}  // namespace caseload
