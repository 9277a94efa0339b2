// SPDX-License-Identifier: MIT
#include "cli/cli.hpp"

#include "caseload/show/curves.hpp"
#include "caseload/show/json.hpp"
#include "caseload/show/text.hpp"
#include "cli/each.hpp"
#include "cli/files.hpp"

#include <fmt/format.h>
#include <CLI/CLI.hpp>

#include <cstdio>
#include <filesystem>
#include <fstream>
#include <optional>
#include <string>

namespace caseload {
namespace {

void write_new(const std::string& path) {
    if (std::filesystem::exists(path))
        throw Error(Error::Kind::file,
                    fmt::format("{}: exists already; choose another name", path));
    std::ofstream file(path, std::ios::binary);
    file << new_setup_text();
    file.close();
    if (!file) throw Error(Error::Kind::file, fmt::format("{}: cannot be written", path));
    print(fmt::format("{}: change the ten entries, then: caseload assess {}\n", path, path));
}

struct AssessOptions {
    std::string setup;
    std::string units;
    EachOptions each;
    std::size_t draws = 1023;
    unsigned threads = 1;
    bool detail = false;
    bool json = false;
    bool curves = false;
};

void run_assess(const AssessOptions& options) {
    const Document document = read_document(options.setup);
    ReadSetup read = document.complete();
    if (!options.units.empty()) read.setup.imperial = options.units == "imperial";
    const Assessment likely = assess(read.setup);
    const Band sure =
        band(read.setup, likely, {.draws = options.draws, .for_each = on_threads(options.threads)});
    const std::vector<Worth> worth = assumptions_by_worth(document, read);
    const Answer answer{read, likely, sure, worth};
    if (options.json) {
        print(assessment_json(answer));
        return;
    }
    print(first_screen(answer) + (options.detail ? detail_screen(answer) : ""));
}

void print_curves(const AssessOptions& options) {
    const ReadSetup read = read_document(options.setup).complete();
    const Prepared prepared = prepare(read.setup);
    Curves curves{read.setup, event_network(prepared, {}), std::nullopt};
    if (read.setup.cooler.fit)
        curves.without = event_network(prepared, {.cooler = false, .pump = true, .fan = true});
    print(curves_json(curves));
}

void answer(AssessOptions& options) {
    if (options.each.list.empty()) {
        if (options.setup.empty())
            throw Error(Error::Kind::input,
                        "assess: name the setup file: caseload assess our.toml");
        options.curves ? print_curves(options) : run_assess(options);
        return;
    }
    options.each.setup = options.setup;
    options.each.draws = options.draws;
    options.each.threads = options.threads;
    run_each(options.each);
}

}  // namespace

int run_program(int argc, char** argv) {
    CLI::App app{
        "caseload: oil temperature, bearing life and service intervals of a transfer case.\n"
        "An estimate for planning: it does not replace inspection, the rule book or a licensed "
        "inspector."};
    app.name("caseload");
    app.require_subcommand(1);
    app.set_version_flag("--version", "caseload 0.1.0");
    AssessOptions options;
    std::string path;
    auto* assess_command = app.add_subcommand("assess", "where a case stands on its event");
    assess_command->add_option("SETUP", options.setup, "setup file");
    assess_command->add_flag("--detail", options.detail, "every part, assumption and note");
    assess_command->add_flag("--json", options.json, "one JSON document");
    assess_command->add_option("--units", options.units, "metric or imperial")
        ->check(CLI::IsMember({"metric", "imperial"}));
    assess_command
        ->add_option("--draws", options.draws,
                     "draws for the band; 2^k - 1 completes a block: 1023, 4095")
        ->check(CLI::Range(63, 1048575));
    assess_command->add_option("--threads", options.threads, "threads for the draws")
        ->check(CLI::Range(1, 256));
    assess_command->add_option("--each", options.each.list,
                               "CSV whose head names keys: one answer a row; without SETUP a list "
                               "of setup files, one a line");
    assess_command->add_option("--out", options.each.out, "with --each: file to write");
    assess_command->add_flag("--resume", options.each.resume,
                             "with --each and --out: go on after the last whole line");
    assess_command->add_option("--shard", options.each.shard, "with --each: k/n, every n-th row");
    assess_command->add_flag("--json-lines", options.each.json_lines,
                             "with --each: one JSON line a row (always so)");
    assess_command
        ->add_flag("--curves", options.curves, "the event's heat network, for another integrator")
        ->excludes("--json", "--detail", "--each");
    auto* complete_command =
        app.add_subcommand("complete", "the completed setup, each value with its origin");
    complete_command->add_option("SETUP", path, "setup file")->required();
    auto* new_command = app.add_subcommand("new", "write a ten-entry setup");
    new_command->add_option("FILE", path, "file to write")->required();
    auto* keys_command = app.add_subcommand("keys", "every key of a setup file");
    try {
        app.parse(argc, argv);
        if (*assess_command) answer(options);
        if (*complete_command) print(completed_text(read_document(path).complete()));
        if (*new_command) write_new(path);
        if (*keys_command) print(key_reference());
        return 0;
    } catch (const CLI::ParseError& error) {
        const int code = app.exit(error);
        return code == 0 ? 0 : 2;
    } catch (const Error& error) {
        std::fputs(problem_report(error).c_str(), stderr);
        return static_cast<int>(error.kind());
    } catch (const std::exception& error) {
        std::fprintf(stderr, "caseload: our bug, please report it with the setup file: %s\n",
                     error.what());
        return 70;
    }
}

}  // namespace caseload
