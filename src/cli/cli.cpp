// SPDX-License-Identifier: MIT
#include "cli/cli.hpp"

#include "caseload/assess.hpp"
#include "caseload/show/json.hpp"
#include "caseload/show/text.hpp"

#include <fmt/format.h>
#include <CLI/CLI.hpp>

#include <cstdio>
#include <exception>
#include <filesystem>
#include <fstream>
#include <iterator>
#include <optional>
#include <string>
#include <thread>
#include <vector>

namespace caseload {
namespace {

std::optional<std::string> file_text(const std::filesystem::path& path) {
    std::error_code failed;
    if (!std::filesystem::is_regular_file(path, failed)) return std::nullopt;
    std::ifstream file(path, std::ios::binary);
    if (!file) return std::nullopt;
    std::string text(std::istreambuf_iterator<char>(file), {});
    if (file.bad()) return std::nullopt;
    return text;
}

Document read_document(const std::string& path) {
    const std::optional<std::string> text = file_text(path);
    if (!text) throw Error(Error::Kind::file, fmt::format("{}: cannot be read", path));
    const std::filesystem::path folder = std::filesystem::path(path).parent_path();
    return {*text, std::filesystem::path(path).filename().string(),
            [folder](const std::string& name) { return file_text(folder / name); }};
}

void print(const std::string& text) {
    if (std::fwrite(text.data(), 1, text.size(), stdout) != text.size() || std::fflush(stdout) != 0)
        throw Error(Error::Kind::file, "the output cannot be written");
}

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
    std::size_t draws = 1023;
    unsigned threads = 1;
    bool detail = false;
    bool json = false;
};

/// Work shared by threads in strides: results stand by number, so their count changes nothing.
ForEach on_threads(unsigned threads) {
    if (threads <= 1) return one_by_one;
    return [threads](std::size_t n, const std::function<void(std::size_t)>& body) {
        std::vector<std::exception_ptr> failed(threads);
        std::vector<std::thread> running;
        for (unsigned k = 0; k < threads; ++k)
            running.emplace_back([&, k] {
                try {
                    for (std::size_t i = k; i < n; i += threads) body(i);
                } catch (...) {
                    failed[k] = std::current_exception();
                }
            });
        for (std::thread& thread : running) thread.join();
        for (const std::exception_ptr& error : failed)
            if (error) std::rethrow_exception(error);
    };
}

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
    assess_command->add_option("SETUP", options.setup, "setup file")->required();
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
    auto* complete_command =
        app.add_subcommand("complete", "the completed setup, each value with its origin");
    complete_command->add_option("SETUP", path, "setup file")->required();
    auto* new_command = app.add_subcommand("new", "write a ten-entry setup");
    new_command->add_option("FILE", path, "file to write")->required();
    auto* keys_command = app.add_subcommand("keys", "every key of a setup file");
    try {
        app.parse(argc, argv);
        if (*assess_command) run_assess(options);
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
