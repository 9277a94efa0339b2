// SPDX-License-Identifier: MIT
// Any bytes are a log read or refused with an Error; the event written of one holds only numbers,
// and a setup takes it.
#include "caseload/duty/event.hpp"
#include "caseload/input.hpp"
#include "caseload/loads.hpp"
#include "caseload/show/duty.hpp"
#include "caseload/show/problems.hpp"
#include "duty/log_text.hpp"
#include "input/courses.hpp"
#include "input/shortest.hpp"
#include "require.hpp"

#include <cstddef>
#include <cstdint>
#include <optional>
#include <string>
#include <string_view>

using namespace caseload;
using fuzz::require;

namespace {

/// A word like a number that is none. Headings of the log may hold it on the screen; the event
/// holds none of the log's words.
bool holds_no_number(const std::string& text) {
    for (const char* const word : {"nan", "inf"})
        for (std::size_t at = 0; (at = text.find(word, at)) != std::string::npos; ++at)
            if (at > 0 && std::string_view(" \"-+=").find(text[at - 1]) != std::string_view::npos)
                return true;
    return false;
}

/// The shortest setup with its event from the log.
std::string setup_text() {
    std::string text = input_test::shortest();
    for (const char* const key : {"event.course", "event.duration"}) {
        const std::size_t at = text.find(key);
        text.erase(at, text.find('\n', at) + 1 - at);
    }
    return text + "event.from = \"e\"\n";
}

}  // namespace

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
    duty_test::Text log(std::string(reinterpret_cast<const char*>(data), size));
    duty::DutyOptions options;
    options.force = true;  // what little is logged goes all the way
    static const Setup setup = read_setup(input_test::shortest(), "setup.toml", {}).setup;
    options.setup = setup;
    if (size % 2 == 1) {  // its car and ground make a track of what has no torque
        options.car = {setup.vehicle, place_train(setup).ratio, 1.1};
        options.ground = {"graded", input::course("graded").ground};
    }
    std::string event;
    try {
        const duty::DutyAnswer answer = duty::read_duty(log, "log.csv", options);
        event = duty::event_text(answer);
        require(!duty_screen(answer).empty(), "no screen", event);
    } catch (const Error& error) {
        fuzz::require_report(error);
        return 0;
    }
    require(!holds_no_number(event), "no number in the event", event);
    // Reading a setup takes longer than the log: one in eight.
    if (size % 8 != 0) return 0;
    try {
        static_cast<void>(read_setup(setup_text(), "fuzz.toml",
                                     [&](const std::string& name) -> std::optional<std::string> {
                                         if (name == "e") return event;
                                         return std::nullopt;
                                     }));
    } catch (const Error& error) {
        require(false, "the event is refused", problem_report(error) + event);
    }
    return 0;
}
