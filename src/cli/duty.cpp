// SPDX-License-Identifier: MIT
#include "caseload/show/duty.hpp"
#include "caseload/duty/event.hpp"
#include "caseload/formulas/air.hpp"
#include "caseload/loads.hpp"
#include "cli/commands.hpp"
#include "cli/files.hpp"
#include "cli/log_file.hpp"

#include <fmt/format.h>

#include <cstdio>
#include <filesystem>
#include <map>
#include <memory>
#include <string>
#include <vector>

namespace caseload {
namespace {

struct DutyArguments {
    std::string log;
    std::string out;
    std::string setup;
    std::vector<std::string> map;
    std::vector<std::string> units;
    std::string decimal;
    std::string shortest_stop;
    double resistance = 0;
    bool force = false;
};

void take_pairs(const std::vector<std::string>& pairs, std::string_view option,
                std::map<std::string, std::string>& to) {
    for (const std::string& pair : pairs) {
        const std::size_t sign = pair.find('=');
        if (sign == std::string::npos || sign == 0 || sign + 1 == pair.size())
            throw Error(
                Error::Kind::input,
                {Problem{{},
                         fmt::format("{} {}: this is not a channel and what it is", option, pair),
                         "for example --map engine_speed=\"RPM 1\", --unit time=ms"}});
        to[pair.substr(0, sign)] = pair.substr(sign + 1);
    }
}

/// The car of a setup. Its own event does not matter here, and a file it takes the event from may
/// not be there yet.
duty::Car car_of(const std::string& path, const std::string& out) {
    const std::optional<std::string> text = file_text(path_of(path));
    if (!text) throw Error(Error::Kind::file, fmt::format("{}: cannot be read", path));
    const std::filesystem::path folder = path_of(path).parent_path();
    const std::string to_be_written = file_name(out);
    const FindBase find = [&](const std::string& name) -> std::optional<std::string> {
        if (auto found = file_text(folder / path_of(name))) return found;
        if (name == to_be_written) return "caseload = 1\n";
        return std::nullopt;
    };
    const Document document(*text, file_name(path), find);
    std::vector<Change> changes{{"event.course", "\"graded\""}, {"event.duration", "\"1 h\""}};
    ReadSetup read;
    try {
        read = document.complete(changes);
    } catch (const Error&) {
        // Perhaps only the event's own air is missing, which the log may bring.
        changes.push_back({"event.ambient", "\"20 degC\""});
        read = document.complete(changes);
    }
    duty::Car car;
    car.vehicle = read.setup.vehicle;
    car.drop_ratio = place_train(read.setup).ratio;
    car.air_density_kgpm3 =
        us_standard_atmosphere::air({.temp_degC = read.setup.event.ambient_degC,
                                     .pressure_Pa = site_pressure_Pa(read.setup)})
            .density_kgpm3;
    return car;
}

void run_duty(const DutyArguments& arguments, bool resistance_given) {
    duty::DutyOptions options;
    take_pairs(arguments.map, "--map", options.read.columns);
    take_pairs(arguments.units, "--unit", options.read.units);
    options.read.decimal = arguments.decimal;
    options.force = arguments.force;
    if (resistance_given) options.resistance = arguments.resistance;
    if (!arguments.shortest_stop.empty())
        options.shortest_stop_s =
            read_option("--shortest-stop", "leg.*.duration", arguments.shortest_stop);
    if (!arguments.setup.empty()) options.car = car_of(arguments.setup, arguments.out);
    LogFile log(arguments.log);
    constexpr std::uint64_t long_file = std::uint64_t{256} << 20U;
    if (log.size().value_or(0) > long_file)
        options.progress = [&](std::uint64_t bytes) {
            std::fprintf(stderr, "\r%3.0f %%",
                         100.0 * static_cast<double>(bytes) / static_cast<double>(*log.size()));
        };
    const duty::DutyAnswer answer = duty::read_duty(log, file_name(arguments.log), options);
    if (options.progress) std::fputs("\r     \r", stderr);
    log.check_unchanged();
    write_file(arguments.out, duty::event_text(answer));
    print(duty_screen(answer) +
          fmt::format("\n{} is written. In the setup beside it: event.from = \"{}\"\n",
                      arguments.out, file_name(arguments.out)));
}

}  // namespace

Command duty_command(CLI::App& program) {
    auto* command = program.add_subcommand("duty", "a logger's CSV as an event for event.from");
    const auto arguments = std::make_shared<DutyArguments>();
    command->add_option("LOG", arguments->log, "the log; - reads standard input")->required();
    command->add_option("-o,--out", arguments->out, "event file to write")->required();
    command->add_option("--setup", arguments->setup, "setup whose vehicle the log is of");
    command->add_option("--map", arguments->map,
                        "channel=COLUMN or channel=#5; wins over every known name");
    command->add_option("--unit", arguments->units,
                        "channel=UNIT, where none stands or a wrong one");
    command
        ->add_option("--decimal", arguments->decimal, "point or comma, where the vote is undecided")
        ->check(CLI::IsMember({"point", "comma"}));
    command->add_option("--shortest-stop", arguments->shortest_stop,
                        "shorter rests stay in the drive (1 min)");
    auto* resistance =
        command
            ->add_option("--resistance", arguments->resistance,
                         "rolling resistance of the ground, where torque comes from motion")
            ->check(CLI::Range(0.005, 0.5));
    command->add_flag("--force", arguments->force,
                      "also when less than 80 % of the time is usable");
    return {command, [arguments, resistance] { run_duty(*arguments, resistance->count() > 0); }};
}

}  // namespace caseload
