// SPDX-License-Identifier: MIT
#include "cli/cli.hpp"

#include "caseload/assess.hpp"
#include "caseload/show/json.hpp"
#include "caseload/show/text.hpp"

#include <fmt/format.h>
#include <CLI/CLI.hpp>

#include <cstdio>
#include <filesystem>
#include <fstream>
#include <iterator>
#include <optional>
#include <string>

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
    bool detail = false;
    bool json = false;
};

void run_assess(const AssessOptions& options) {
    const Document document = read_document(options.setup);
    ReadSetup read = document.complete();
    if (!options.units.empty()) read.setup.imperial = options.units == "imperial";
    const Assessment answer = assess(read.setup);
    const std::vector<Worth> worth = assumptions_by_worth(document, read);
    if (options.json) {
        print(assessment_json(read, answer, worth));
        return;
    }
    print(first_screen(read, answer, worth) +
          (options.detail ? detail_screen(read, answer, worth) : ""));
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
