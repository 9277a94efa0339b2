// SPDX-License-Identifier: MIT
#include "caseload/show/duty.hpp"
#include "caseload/error.hpp"
#include "caseload/formulas/air.hpp"
#include "caseload/loads.hpp"
#include "cli/commands.hpp"
#include "cli/files.hpp"
#include "cli/log_file.hpp"
#include "cli/progress.hpp"
#include "input/courses.hpp"
#include "input/fields.hpp"
#include "input/harmless.hpp"
#include "input/value.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cstdint>
#include <filesystem>
#include <functional>
#include <map>
#include <memory>
#include <new>
#include <optional>
#include <vector>

namespace caseload {
namespace {

struct DutyArguments {
    std::vector<std::string> logs;
    std::string out;
    std::string readings;
    std::string setup;
    std::vector<std::string> map;
    std::vector<std::string> units;
    std::string decimal;
    std::string date;
    std::string shortest_stop;
    double resistance = 0;
    unsigned threads = 0;
    bool force = false;
    bool json = false;
};

void take_pairs(const std::vector<std::string>& pairs, std::string_view option,
                std::map<std::string, std::string>& to) {
    for (const std::string& pair : pairs) {
        const std::size_t sign = pair.find('=');
        if (sign == std::string::npos || sign == 0 || sign + 1 == pair.size())
            refuse_input(fmt::format("{} {}: this is not a channel and what it is", option,
                                     input::harmless(pair)),
                         "for example --map engine_speed=\"RPM 1\", --unit time=ms");
        to[pair.substr(0, sign)] = pair.substr(sign + 1);
    }
}

/// The file a text of a setup takes its event from.
std::vector<std::string> events_named(const std::string& text, const std::string& name) {
    try {
        const input::Leaves leaves = input::parse_leaves(text, name);
        const auto from = leaves.find("event.from");
        if (from != leaves.end()) return {from->second.value.text};
    } catch (const Error&) {
        return {};  // its reader says what is wrong
    }
    return {};
}

/// The course a text of a setup names for its event, or for all its legs alike.
std::string course_named(const std::string& text, const std::string& name) {
    std::string course;
    try {
        for (const auto& [key, leaf] : input::parse_leaves(text, name)) {
            if (key == "event.course") return leaf.value.text;
            const bool of_leg = key.rfind("leg.", 0) == 0 && key.size() > 7 &&
                                key.compare(key.size() - 7, 7, ".course") == 0;
            if (!of_leg) continue;
            if (!course.empty() && course != leaf.value.text) return {};
            course = leaf.value.text;
        }
    } catch (const Error&) {
        return {};  // its reader says what is wrong
    }
    return course;
}

/// The ground of a track: the course the setup drives longest, or else names.
std::string course_of(const Document& document, const std::vector<std::string>& named) {
    try {
        const EventInput event = document.complete().setup.event;
        std::map<std::string, double> driven_s;
        for (const int run : event.run) {
            const LegInput& leg = event.legs[static_cast<std::size_t>(run)];
            if (!leg.course.empty()) driven_s[leg.course] += leg.duration_s;
        }
        const auto longest =
            std::max_element(driven_s.begin(), driven_s.end(),
                             [](const auto& a, const auto& b) { return a.second < b.second; });
        if (longest != driven_s.end()) return longest->first;
    } catch (const Error&) {
        // Its event may not be there yet: what the files name is enough.
    }
    const auto words = input::split_words(input::field_of("event.course").accepted);
    for (const std::string& one : named)
        if (std::find(words.begin(), words.end(), one) != words.end()) return one;
    return {};
}

/// A setup and its car; returns its air, if it has one. Its own event does not matter here, and a
/// file it takes the event from may not be there yet.
std::optional<double> take_setup(const std::string& path, const std::vector<std::string>& events,
                                 duty::DutyOptions& options) {
    const std::string text = text_of(path);
    const std::filesystem::path folder = folder_of(path);
    std::vector<std::string> old_events = events_named(text, path);
    std::map<std::string, int> named;
    std::vector<std::string> courses{course_named(text, path)};
    const FindBase find = [&](const std::string& name) -> std::optional<std::string> {
        if (auto found = text_beside(folder / path_of(name))) {
            ++named[name];
            for (std::string& one : events_named(*found, name)) old_events.push_back(one);
            courses.push_back(course_named(*found, name));
            return found;
        }
        const bool to_be_written =
            std::any_of(events.begin(), events.end(),
                        [&](const std::string& event) { return file_name(event) == name; });
        return to_be_written ? std::optional<std::string>("caseload = 1\n") : std::nullopt;
    };
    const Document document(text, shown_name(path), find);
    // The event of before is what this run writes anew, unless it is a base as well.
    std::error_code none;
    for (const std::string& one : old_events)
        for (const std::string& event : events)
            if (named[one] == 1 &&
                std::filesystem::equivalent(path_of(event), folder / path_of(one), none))
                forget_read(path_of(event));
    std::vector<Change> changes{{"event.course", "\"graded\""}, {"event.duration", "\"1 h\""}};
    ReadSetup read;
    bool has_air = true;
    try {
        read = document.complete(changes);
    } catch (const Error&) {
        // Perhaps only the event's own air is missing, which the log may bring.
        has_air = false;
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
    options.car = std::move(car);
    const std::string course = course_of(document, courses);
    if (!course.empty()) options.ground = {course, input::course(course).ground};
    options.setup = std::move(read.setup);
    return has_air ? std::optional(options.setup->event.ambient_degC) : std::nullopt;
}

struct Asked {
    duty::DutyOptions options;
    std::optional<double> ambient_degC;  ///< of the setup
};

Asked asked(const DutyArguments& arguments, const std::vector<std::string>& events,
            bool resistance_given) {
    Asked found;
    duty::DutyOptions& options = found.options;
    take_pairs(arguments.map, "--map", options.read.columns);
    take_pairs(arguments.units, "--unit", options.read.units);
    options.read.decimal = arguments.decimal;
    options.read.date = arguments.date;
    options.force = arguments.force;
    if (resistance_given) options.resistance = arguments.resistance;
    if (!arguments.shortest_stop.empty())
        options.shortest_stop_s =
            read_option("--shortest-stop", "leg.*.duration", arguments.shortest_stop);
    if (!arguments.setup.empty()) found.ambient_degC = take_setup(arguments.setup, events, options);
    return found;
}

/// Where each log's event goes: the file of -o, or of several logs a file of its name in that
/// folder.
std::vector<std::string> events_of(const DutyArguments& arguments) {
    namespace fs = std::filesystem;
    std::error_code none;
    const fs::path out = path_of(arguments.out);
    std::vector<std::string> events;
    if (arguments.logs.size() == 1 && !fs::is_directory(out, none)) {
        events.push_back(arguments.out);
    } else {
        if (!fs::is_directory(out, none))
            refuse_file(
                fmt::format("-o {}: of several logs it is a folder for their events, and there is "
                            "none of this name",
                            arguments.out));
        for (const std::string& log : arguments.logs) {
            if (log == "-")
                refuse_input("-o is a folder: what is read from standard input has no name there",
                             "name an event file");
            events.push_back(name_of((out / path_of(log).stem()).generic_u8string()) + ".toml");
            if (std::count(events.begin(), events.end(), events.back()) > 1)
                refuse_input(fmt::format("two logs would be written as {}", events.back()),
                             "give one of them another name, or its own run");
        }
    }
    return events;
}

struct LogRead {
    duty::DutyAnswer answer;
    std::optional<Error> failed;
    bool again = false;      ///< the memory ran out the first time
    bool no_memory = false;  ///< for good
};

void two_at_once(const std::function<void()>& first, const std::function<void()>& second) {
    on_threads(2)(2, [&](std::size_t i) { i == 0 ? first() : second(); });
}

/// Each log on a thread of its own, a long one alone on two. When one is refused nothing is written
/// of any.
std::vector<LogRead> read_logs(const DutyArguments& arguments, const duty::DutyOptions& options) {
    std::vector<std::unique_ptr<LogFile>> files;
    std::uint64_t bytes = 0;
    for (const std::string& log : arguments.logs) {
        files.push_back(std::make_unique<LogFile>(log));
        bytes += files.back()->size().value_or(0);
    }
    Progress progress;
    std::vector<LogRead> all(files.size());
    const unsigned threads = threads_of(arguments.threads);
    // A shorter one is read before another thread would pay.
    constexpr std::uint64_t long_log_bytes = 100'000'000;
    const bool one_on_two = files.size() == 1 && threads > 1 && bytes > long_log_bytes;
    on_threads(std::min(threads, static_cast<unsigned>(files.size())))(
        files.size(), [&](std::size_t i) {
            LogRead& one = all[i];
            try {
                if (one.again) files[i] = std::make_unique<LogFile>(arguments.logs[i]);
                duty::DutyOptions own = options;
                if (progress.wanted() && bytes > 0 && !one.again)
                    own.progress = progress.of_next_log(bytes);
                if (one_on_two) own.side_by_side = two_at_once;
                one.answer = duty::read_duty(*files[i], shown_name(arguments.logs[i]), own);
                files[i]->check_unchanged();
            } catch (const Error& error) {
                one.failed = error;
            } catch (const std::bad_alloc&) {
                // Part of standard input is gone.
                if (one.again || arguments.logs[i] == "-") one.no_memory = true;
                one.again = true;
                if (!one.no_memory) throw;
            }
        });
    progress.clear();
    for (const LogRead& one : all)
        if (one.no_memory) throw std::bad_alloc();
    std::vector<Problem> problems;
    std::optional<Error::Kind> kind;
    for (const LogRead& one : all) {
        if (!one.failed) continue;
        if (!kind) kind = one.failed->kind();
        problems.insert(problems.end(), one.failed->problems().begin(),
                        one.failed->problems().end());
    }
    if (kind) throw Error(*kind, std::move(problems));
    return all;
}

void run_duty(const DutyArguments& arguments, bool resistance_given) {
    const std::vector<std::string> events = events_of(arguments);
    if (!arguments.readings.empty() && (arguments.logs.size() != 1 || arguments.setup.empty()))
        refuse_input("--readings is a setup on top of another: it needs --setup SETUP and one log",
                     "caseload duty LOG.csv -o event.toml --setup our-case.toml --readings "
                     "readings.toml");
    for (const std::string& log : arguments.logs)
        if (log != "-") note_read(path_of(log));
    const auto [options, ambient_degC] = asked(arguments, events, resistance_given);
    std::vector<Output> outputs;
    for (const std::string& event : events) outputs.push_back({"-o", event});
    outputs.push_back({"--readings", arguments.readings});
    require_outputs(outputs);
    const std::vector<LogRead> all = read_logs(arguments, options);
    std::string readings;
    if (!arguments.readings.empty())
        readings = duty::readings_text(all[0].answer,
                                       {name_beside(arguments.setup, arguments.readings),
                                        name_beside(events[0], arguments.readings), ambient_degC});
    std::vector<std::string> texts;  // all of them before one is written
    for (const LogRead& one : all) texts.push_back(duty::event_text(one.answer));
    std::string screen;
    for (std::size_t i = 0; i < all.size(); ++i) {
        write_file(events[i], texts[i]);
        if (arguments.json) {
            screen += duty_json(all[i].answer, events[i]);
            continue;
        }
        screen += (i == 0 ? "" : "\n") + duty_screen(all[i].answer) +
                  fmt::format("\n{} is written. In the setup beside it: event.from = {}\n",
                              input::harmless(events[i]), input::quoted(file_name(events[i])));
    }
    if (!readings.empty()) {
        write_file(arguments.readings, readings);
        if (!arguments.json)
            screen += fmt::format("{0} is written; then: caseload calibrate {0}\n",
                                  input::harmless(arguments.readings));
    }
    print(screen);
}

}  // namespace

Command duty_command(Syntax program) {
    Syntax command = program.command(
        "duty",
        "turn a logger's CSV or a phone's track (GPX, CSV) into an event that a setup takes by "
        "event.from");
    const auto arguments = std::make_shared<DutyArguments>();
    command.option("LOG", arguments->logs, "the log or track, or several; - reads standard input")
        .required();
    command.option("-o,--out", arguments->out, "event file to write; of several logs a folder")
        .required()
        .names_an_output();
    command.option(
        "--setup", arguments->setup,
        "setup whose vehicle the log is of; a track needs it, with the course it was on");
    command.option("--map", arguments->map,
                   "channel=COLUMN or channel=#5; wins over every known name");
    command.option("--unit", arguments->units, "channel=UNIT, where none is given, or a wrong one");
    command.option("--decimal", arguments->decimal, "point or comma, where the vote is undecided")
        .one_of({"point", "comma"});
    command
        .option("--date", arguments->date,
                "day-first, month-first or year-first, where the log's dates leave it open")
        .one_of({"day-first", "month-first", "year-first"});
    command.option("--shortest-stop", arguments->shortest_stop,
                   "shorter rests stay in the drive (1 min, of a track 20 s)");
    const Option resistance =
        command
            .option("--resistance", arguments->resistance,
                    "resistance of the ground over weight, where torque comes from motion; of a "
                    "track in place of the course's")
            .within(0.005, 0.5);
    command
        .option("--readings", arguments->readings,
                "write logged oil as a setup for caseload calibrate; with --setup")
        .names_an_output();
    command
        .option("--threads", arguments->threads,
                "of several logs as many at once, a long one alone on two; left out: "
                "one a processor core")
        .within(1, 256);
    command.flag("--json", arguments->json, "one JSON document a log");
    command.flag("--force", arguments->force,
                 "also when less than 80 % of the time is usable, and tracks below 10 min");
    return {command, [arguments, resistance] { run_duty(*arguments, resistance.given()); }};
}

}  // namespace caseload
