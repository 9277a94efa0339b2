// SPDX-License-Identifier: MIT
// What an answer may not depend on: the order of the bearings in the file.
#include "caseload/assess.hpp"
#include "caseload/input.hpp"
#include "examples.hpp"
#include "support.hpp"

#include <algorithm>
#include <cmath>
#include <cstddef>
#include <map>
#include <set>
#include <string>
#include <vector>

namespace caseload::checks_order_tests {

namespace {

/// What an answer says of each part, whatever its place in the file.
struct Said {
    std::map<std::string, std::string> verdicts;
    std::map<std::string, double> numbers;
    std::set<std::string> notes;
};

Said said(const Setup& setup) {
    const Assessment answer = assess(setup);
    Said all;
    std::map<std::string, int> met;
    for (const Check& check : answer.fitted.checked.checks) {
        const std::string id(words_for(check.id).key);
        const std::string key =
            id + " " + check.about + " " + std::to_string(++met[id + check.about]);
        all.verdicts[key] = check.verdict + ", " + check.words;
        all.numbers[key] = check.value;
    }
    for (const BearingDamage& bearing : answer.fitted.damage.bearings) {
        all.numbers["life " + bearing.name] = bearing.life_share;
        all.numbers["basic life " + bearing.name] = bearing.basic_life_share;
        all.numbers["kappa " + bearing.name] = bearing.worst_kappa;
        all.numbers["film " + bearing.name] = bearing.worst_film_degC;
        all.numbers["P " + bearing.name] = bearing.P_largest_N;
    }
    for (const SeatResult& seat : answer.fitted.checked.seats) {
        all.numbers["seat " + seat.bearing] = seat.loose_above_degC;
        all.numbers["pressed " + seat.bearing] = seat.storage.pressure_MPa;
    }
    all.numbers["oil"] = answer.fitted.event.peak_oil_degC;
    all.numbers["oil without"] = answer.without.event.peak_oil_degC;
    all.numbers["dose"] = answer.fitted.damage.oil_dose;
    all.numbers["fatigue"] = answer.fitted.intervals.fatigue_events;
    all.numbers["open"] = answer.fitted.intervals.open_case.after_events;
    all.numbers["reached"] = answer.fitted.intervals.reliability_at_opening;
    all.verdicts["stopped"] = answer.stopped_by;
    all.verdicts["first"] = answer.fitted.intervals.decided_by;
    for (const Part& part : answer.parts) all.verdicts[part.name] = part.look_at;
    for (const Note& note : answer.notes) all.notes.insert(note.id + " " + note.about);
    return all;
}

}  // namespace

TEST_CASE("checks: bearings in another order of the file give the same checks, lives and heat") {
    const std::vector<Change> seats{
        {"bearing.output_rear.seat.carrier", "\"aluminium\""},
        {"bearing.output_rear.seat.ring_interference", "\"0.04 mm\""},
        {"bearing.output_rear.seat.boss_outside", "\"180 mm\""},
        {"bearing.output_rear.seat.shaft_interference", "\"0.02 mm\""},
        {"vehicle.mass", "\"2300 kg\""},
    };
    for (const std::string name : {"light.toml", "idler.toml"}) {
        const Setup as_written =
            examples::setup(name, name == "light.toml" ? seats : std::vector<Change>{});
        const Said first = said(as_written);
        std::vector<Setup> others;
        for (std::size_t by = 1; by < as_written.bearings.size(); ++by) {
            Setup& other = others.emplace_back(as_written);
            std::rotate(other.bearings.begin(),
                        other.bearings.begin() + static_cast<std::ptrdiff_t>(by),
                        other.bearings.end());
        }
        Setup& back = others.emplace_back(as_written);
        std::reverse(back.bearings.begin(), back.bearings.end());
        for (const Setup& other : others) {
            CAPTURE(name);
            CAPTURE(other.bearings.front().name);
            const Said again = said(other);
            CHECK(again.verdicts == first.verdicts);
            CHECK(again.notes == first.notes);
            REQUIRE(again.numbers.size() == first.numbers.size());
            for (const auto& [key, number] : first.numbers) {
                CAPTURE(key);
                REQUIRE(again.numbers.count(key) == 1);
                // The order of sums moves last digits, and an event by less than 1e-6 K.
                CHECK(
                    within(again.numbers.at(key), number, 1e-6 * std::max(1.0, std::fabs(number))));
            }
        }
    }
}

}  // namespace caseload::checks_order_tests
