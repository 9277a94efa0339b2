// SPDX-License-Identifier: MIT
#include "caseload/show/compare.hpp"
#include "caseload/ask/each.hpp"
#include "caseload/ask/on_ground.hpp"
#include "cli/commands.hpp"
#include "cli/files.hpp"
#include "cli/progress.hpp"
#include "cli/shared_options.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <memory>
#include <optional>
#include <utility>

namespace caseload {
namespace {

struct CompareArguments : SetupQuestion {
    CompareArguments() { draws = 0; }  ///< 0: the usual number

    std::string other;
    std::vector<std::string> with;
    std::string without;
    std::string grid;
};

// Verdicts of a table's cells need fewer draws than one answer.
constexpr std::size_t usual_draws = 1023;
constexpr std::size_t cell_draws = 255;

/// The changes of --with, for the reader and for the screen.
struct WithKeys {
    std::vector<Change> changes;
    std::vector<ChangedKey> keys;
};

WithKeys changes_of(const std::vector<std::string>& with, const ReadSetup& read) {
    WithKeys asked;
    for (const std::string& one : with) {
        const std::size_t equals = one.find('=');
        if (equals == std::string::npos || equals == 0)
            refuse_input(fmt::format("--with \"{}\": no key and value", one),
                         "write key=value, for example --with \"vehicle.mass=2600 kg\", or "
                         "\"vehicle.mass=+300 kg\" to change what is there");
        std::string value = one.substr(equals + 1);
        value.erase(0, std::min(value.find_first_not_of(' '), value.size()));
        std::string key = one.substr(0, equals);
        while (!key.empty() && key.back() == ' ') key.pop_back();
        // A value in its own quotes, as in a setup file, stays as it is.
        const bool quoted = value.size() > 1 && value.front() == '"' && value.back() == '"';
        if (!quoted) value = new_value(read, "--with", key, value);
        asked.keys.push_back(
            changed_key(read, key, quoted ? value.substr(1, value.size() - 2) : value));
        asked.changes.push_back({std::move(key), quoted ? value : cell_toml(value)});
    }
    std::vector<std::string> keys;
    for (const Change& change : asked.changes) keys.push_back(change.key);
    const std::string again = said_twice(keys);
    if (!again.empty())
        refuse_input(fmt::format("--with {}: said twice", again),
                     "of two changes of one thing one would do nothing; leave one out");
    return asked;
}

/// Errors of the reader; those without a file came from --with.
ReadSetup complete_with(const Document& document, const std::vector<Change>& changes) {
    try {
        return document.complete(changes);
    } catch (const Error& error) {
        std::vector<Problem> problems = error.problems();
        for (Problem& problem : problems)
            if (problem.where.line == 0 && !changes.empty()) problem.where.file = "--with";
        throw Error(error.kind(), std::move(problems));
    }
}

/// A second setup on the ground of the first, where both say the same of a course.
ReadSetup other_on_ground(const std::string& path, const OnGround& ground) {
    const Document document = read_document(path);
    ReadSetup other = document.complete();
    const std::vector<Change> kept = ground.under(other);
    return kept.empty() ? std::move(other) : document.complete(kept);
}

struct CompareWork {
    std::size_t draws;
    unsigned threads;
};

/// Both side by side, each with half of the threads for its draws.
std::pair<Calculated, Calculated> both(const ReadSetup& read, const ReadSetup& changed,
                                       const CompareWork& asked) {
    const unsigned threads = std::min(threads_of(asked.threads), threads_of(0));
    Progress progress;
    std::array<std::optional<Calculated>, 2> answers;
    on_threads(threads)(2, [&](std::size_t i) {
        const BandOptions options{
            .draws = asked.draws,
            .for_each = progress.watched(on_threads(std::max(1U, threads / 2)), {0.5, {}})};
        answers.at(i) = calculated(i == 0 ? read : changed, options);
    });
    return {std::move(*answers[0]), std::move(*answers[1])};
}

void run_compare(const CompareArguments& arguments) {
    const int asked = (arguments.other.empty() ? 0 : 1) + (arguments.with.empty() ? 0 : 1) +
                      (arguments.without.empty() ? 0 : 1) + (arguments.grid.empty() ? 0 : 1);
    if (asked != 1)
        throw Error(Error::Kind::input,
                    asked == 0
                        ? "compare: with what? a second setup, --with key=value, --without pump or "
                          "--grid keys"
                        : "compare: one of a second setup, --with, --without and --grid at a time");
    const Document document = read_document(arguments.setup);
    ReadSetup read = document.complete();
    arguments.set_units(read.setup);
    if (!arguments.without.empty()) {
        const Failure found = failure(read.setup, assess(read.setup), arguments.without);
        print(arguments.json ? failure_json(read.setup, found) : failure_screen(read.setup, found));
        return;
    }
    const std::size_t draws = arguments.draws > 0      ? arguments.draws
                              : arguments.grid.empty() ? usual_draws
                                                       : cell_draws;
    if (!arguments.grid.empty()) {
        Progress progress;
        const Region region = fine_region(
            document, read_axes(arguments.grid, read),
            {.draws = draws,
             .for_each = progress.watched(on_threads(arguments.threads), {1.0, {1.0}})});
        progress.clear();
        print(arguments.json ? region_json(read.setup, region) : region_screen(read.setup, region));
        return;
    }
    const WithKeys with = changes_of(arguments.with, read);
    ReadSetup changed = arguments.other.empty()
                            ? complete_with(document, OnGround(read).with(with.changes))
                            : other_on_ground(arguments.other, OnGround(read));
    arguments.set_units(changed.setup);
    const auto [before, after] = both(read, changed, {draws, arguments.threads});
    const Comparison between = compare(before, after);
    const CompareAnswer answer{before, after, between, with.keys};
    print(arguments.json ? compare_json(answer) : compare_screen(answer));
}

}  // namespace

Command compare_command(Syntax program) {
    Syntax command = program.command("compare", "what a change or a failure does");
    const auto arguments = std::make_shared<CompareArguments>();
    take_setup_file(command, *arguments);
    command.option("SETUP2", arguments->other, "setup file to compare with");
    command
        .option("--with", arguments->with,
                "key=value, as in a setup file; key=+value or key=-value changes what is there; "
                "repeatable")
        .repeatable();
    command.option("--without", arguments->without,
                   "fails in the middle of a leg: pump, fan, front_shaft or half_core");
    command.option(
        "--grid", arguments->grid,
        "keys with commas between, each alone or as key=low:high:steps: where the case stays fine");
    take_draws(command, arguments->draws, "calculations for each range; usual 1023, --grid 255");
    add_common_options(command, *arguments);
    return {command, [arguments] { run_compare(*arguments); }};
}

}  // namespace caseload
