// SPDX-License-Identifier: MIT
#include "caseload/book/state.hpp"

#include "caseload/assess.hpp"
#include "caseload/error.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

namespace caseload::book {
namespace {

constexpr std::string_view over_heat_code_h = ".over_heat_code_h";

/// A part without a number: the one the case came with.
PartLife& part_at(State& state, const Record& record, const std::string& position) {
    std::string& id = state.cases[record.serial].parts[position];
    if (id.empty()) id = fmt::format("first {} of {}", position, record.serial);
    PartLife& part = state.parts[id];
    part.id = id;
    part.serial = record.serial;
    part.position = position;
    return part;
}

void event(State& state, const Record& record) {
    CaseState& one = state.cases[record.serial];
    const double times = number(record, "times");
    std::map<std::string, bool> counted;
    for (const auto& [key, text] : record.fields) {
        const std::size_t dot = key.rfind('.');
        const std::string measure = dot == key.npos ? key : key.substr(dot + 1);
        if (measure != "share" && measure != "flank" && measure != "root") continue;
        PartLife& part = part_at(state, record, key.substr(0, dot));
        part.used[measure] += times * number(record, key);
        if (counted.emplace(part.id, true).second) {
            part.over_heat_code_h +=
                times * number(record, key.substr(0, dot) + std::string(over_heat_code_h));
            part.events += times;
            part.driving_h += times * number(record, "driving_h");
        }
    }
    one.events += times;
    one.events_since_oil += times;
    one.events_since_look += times;
    one.events_since_opening += times;
    one.driving_h += times * number(record, "driving_h");
    one.oil_dose += times * number(record, "oil.dose");
    one.peak_oil_degC = std::max(one.peak_oil_degC, number(record, "oil.peak_degC"));
    one.last_event = record;
}

void finding(State& state, const Record& record) {
    CaseState& one = state.cases[record.serial];
    const Word& word = finding_word(value(record, "mode"));
    const std::string position = value(record, "position");
    std::string id;
    if (position != "case") {
        PartLife& part = part_at(state, record, position);
        id = part.id;
        if (word.fatigue) part.failed = true;
        if (word.weight == Weight::open_now) part.found_bad = true;
        if (word.weight == Weight::good) part.last_good_share = part.used["share"];
    }
    one.events_since_look = 0;
    if (word.weight == Weight::good) {
        // Looked at again and found good: answers an earlier finding that only asked to watch.
        std::erase_if(one.findings, [&](const OpenFinding& open) {
            return open.position == position && open.weight == Weight::watch;
        });
        return;
    }
    one.findings.push_back(
        {record.date, position, id, std::string(word.words), value(record, "words"), word.weight});
}

void part(State& state, const Record& record) {
    CaseState& one = state.cases[record.serial];
    const std::string position = value(record, "position");
    const std::string id = value(record, "id");
    part_at(state, record, position).serial.clear();  // the part before goes on the shelf
    for (auto& [serial, other] : state.cases)
        std::erase_if(other.parts, [&](const auto& place) { return place.second == id; });
    one.parts[position] = id;
    PartLife& fitted = part_at(state, record, position);
    if (!value(record, "set").empty()) fitted.set = value(record, "set");
    std::erase_if(one.findings, [&](const OpenFinding& open) { return open.position == position; });
}

}  // namespace

State state_of(std::span<const Record> records) {
    State state;
    const Corrected all = corrected_view(records);
    for (const Record* const one_record : all.records) {
        const Record& record = *one_record;
        if (record.kind == "setup") continue;
        CaseState& one = state.cases[record.serial];
        one.serial = record.serial;
        if (record.kind == "event") event(state, record);
        if (record.kind == "oil") {
            one.events_since_oil = 0;
            one.oil_dose = 0;
        }
        if (record.kind == "look") one.events_since_look = 0;
        if (record.kind == "opening") {
            one.events_since_opening = 0;
            one.events_since_look = 0;
            std::erase_if(one.findings,
                          [](const OpenFinding& open) { return open.position == "case"; });
        }
        if (record.kind == "finding") finding(state, record);
        if (record.kind == "part") part(state, record);
    }
    return state;
}

std::vector<std::pair<std::string, std::string>> event_damage_fields(const Setup& setup) {
    const Assessment answer = assess(setup);
    const CoolerSide& side = answer.fitted;
    std::vector<std::pair<std::string, std::string>> fields;
    const auto put = [&](const std::string& key, double x) {
        fields.emplace_back(key, fmt::format("{:.17g}", x));
    };
    for (const BearingDamage& bearing : side.damage.bearings)
        put(fmt::format("bearing.{}.share", bearing.name), bearing.life_share);
    const Wear wear = wear_of(setup, side.event, side.damage, side.checked);
    for (std::size_t g = 0; g < wear.gears.size(); ++g) {
        put(wear.gears[g] + ".flank", wear.teeth[g].flank_share);
        put(wear.gears[g] + ".root", wear.teeth[g].root_share);
    }
    put("oil.dose", wear.oil_dose);
    put("oil.peak_degC", wear.peak_oil_degC);
    put("driving_h", wear.driving_h);
    // All of the driving: the hottest leg says whether rings are over it, no leg for how long.
    for (const Check& check : side.checked.checks)
        if (check.id == CheckId::bearing_ring && check.value > part_limit(setup, check))
            put(check.about + std::string(over_heat_code_h), wear.driving_h);
    put("seat_loose_hot", wear.seat_loose_hot ? 1 : 0);
    if (wear.ring_on_shaft) put("ring_on_shaft", 1);
    put("seal_over_limit", wear.seal_over_limit ? 1 : 0);
    return fields;
}

std::string setup_text(std::span<const Record> records, const std::string& setup) {
    for (const Record& record : records)
        if (record.kind == "setup" && value(record, "hash") == setup) return value(record, "text");
    refuse_input(fmt::format("setup {} is named by an event but not in this book", setup));
}

Replayed recalculate(std::span<const Record> records) {
    Replayed result;
    std::map<std::string, std::vector<std::pair<std::string, std::string>>> by_setup;
    for (const Record& record : corrected(records)) {
        if (record.kind != "event") continue;
        ++result.events;
        auto found = by_setup.find(record.setup);
        if (found == by_setup.end())
            found = by_setup
                        .emplace(record.setup,
                                 event_damage_fields(read_setup(setup_text(records, record.setup),
                                                                "setup " + record.setup, {})
                                                         .setup))
                        .first;
        for (const auto& [key, text] : found->second) {
            const double now = std::strtod(text.c_str(), nullptr);
            const double then = number(record, key);
            // Other compilers differ by less (docs/method.md).
            if (!value(record, key).empty() &&
                std::fabs(now - then) <= 1e-8 * std::max(std::fabs(now), std::fabs(then)))
                continue;
            result.differences.push_back(fmt::format(
                "{} {} {} {}: {} in the book, {} now (program {})", record.date, record.serial,
                record.id, key, value(record, key), text, record.version));
        }
    }
    return result;
}

}  // namespace caseload::book
