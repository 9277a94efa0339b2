// SPDX-License-Identifier: MIT
#include "caseload/show/calibrate.hpp"
#include "cli/commands.hpp"
#include "cli/files.hpp"
#include "cli/progress.hpp"
#include "cli/shared_options.hpp"
#include "cli/today.hpp"

#include <fmt/format.h>

#include <memory>

namespace caseload {
namespace {

struct CalibrateArguments : SetupQuestion {
    std::string out;
    bool force = false;
};

/// Before the work: an output that cannot be written is refused at once.
void refuse_place(const CalibrateArguments& arguments) {
    require_output({"-o", arguments.out});
    static_cast<void>(name_beside(arguments.setup, arguments.out));
    if (!arguments.force) require_free_name(arguments.out, ", or --force");
}

void run_calibrate(const CalibrateArguments& arguments) {
    const ReadSetup read = read_document(arguments.setup).complete();
    if (!arguments.out.empty()) refuse_place(arguments);
    Setup setup = read.setup;
    arguments.set_units(setup);
    // Tables of each run that was read; draws before the readings, and after them.
    Progress progress;
    const Calibration found = calibrate(
        setup, today(), progress.watched(on_threads(arguments.threads), {1.0, {0.4, 0.3, 0.3}}));
    progress.clear();
    if (!arguments.out.empty())
        write_file(arguments.out, measured_setup(name_beside(arguments.setup, arguments.out),
                                                 read.case_sums, found));
    if (arguments.json) {
        print(calibration_json(setup, found));
        return;
    }
    print(calibration_screen(setup, found) +
          (arguments.out.empty() ? "\nTo use it: -o FILE writes a setup on top of this one.\n"
                                 : fmt::format("\nWritten: {}; then: caseload assess {}\n",
                                               arguments.out, arguments.out)));
}

}  // namespace

Command calibrate_command(Syntax program) {
    Syntax command = program.command("calibrate", "what temperatures read on the case say of it");
    const auto arguments = std::make_shared<CalibrateArguments>();
    take_setup_file(command, *arguments, "setup file with [reading.NAME]");
    command.option("-o,--out", arguments->out, "write what was found as a setup on top of this one")
        .names_an_output();
    command.flag("--force", arguments->force, "with -o: overwrite that file");
    add_common_options(command, *arguments);
    return {command, [arguments] { run_calibrate(*arguments); }};
}

}  // namespace caseload
