// SPDX-License-Identifier: MIT
// What a record must fit into: positions of its case, the order of days.
#include "caseload/book/record.hpp"
#include "caseload/error.hpp"
#include "input/nearest.hpp"

#include <fmt/format.h>

#include <map>
#include <set>

namespace caseload::book {
namespace {

/// Positions with damage in the events of a case.
std::set<std::string> positions_of(std::span<const Record> records, const std::string& serial) {
    std::set<std::string> positions;
    for (const Record& record : records) {
        if (record.kind != "event" || record.serial != serial) continue;
        for (const auto& [key, text] : record.fields) {
            const std::size_t dot = key.rfind('.');
            if (dot == std::string::npos) continue;
            const std::string measure = key.substr(dot + 1);
            if (measure == "share" || measure == "flank" || measure == "root")
                positions.insert(key.substr(0, dot));
        }
    }
    return positions;
}

bool begins(const std::string& text, std::string_view with) {
    return text.rfind(with, 0) == 0 && text.size() > with.size();
}

/// The same problem, at the line of the file that brought the record.
[[noreturn]] void refuse_at(const Incoming& fresh, std::size_t record, const std::string& text,
                            const std::string& hint) {
    Where where;
    where.file = fresh.file;
    if (record < fresh.lines.size()) {
        where.line = fresh.lines[record];
        where.column = 1;
    }
    throw Error(Error::Kind::input, {Problem{where, text, hint}});
}

std::set<std::string> ids_of(std::span<const Record> records) {
    std::set<std::string> ids;
    for (const Record& one : records) ids.insert(one.id);
    return ids;
}

void require_among(const std::set<std::string>& held, const Position& position) {
    const std::string& name = position.name;
    if (position.or_case && name == "case") return;
    const std::vector<std::string> known(held.begin(), held.end());
    const bool seal = begins(name, "seal.");  // worn seals are not calculated as parts
    const bool formed = seal || begins(name, "bearing.") || begins(name, "gear.");
    if (formed && (seal || held.empty() || held.contains(name))) return;
    const std::string near = input::nearest_word(known, name);
    throw Error(
        Error::Kind::input,
        {Problem{{},
                 fmt::format("no position \"{}\" in {}", name, position.serial),
                 !near.empty()  ? fmt::format("did you mean {}?", near)
                 : held.empty() ? "written bearing.NAME, gear.SHAFT or seal.SHAFT, as in the setup"
                                : fmt::format("known: {}{}", fmt::join(known, ", "),
                                              position.or_case ? "; case for a symptom" : "")}});
}

}  // namespace

void require_position(std::span<const Record> records, const Position& position) {
    require_among(positions_of(records, position.serial), position);
}

void require_positions(std::span<const Record> held, const Incoming& fresh) {
    Records both(held.begin(), held.end());
    both.insert(both.end(), fresh.records.begin(), fresh.records.end());
    std::map<std::string, std::size_t> touched;  // by what came in: itself, or its correction
    for (std::size_t i = 0; i < fresh.records.size(); ++i) {
        const Record& one = fresh.records[i];
        touched.emplace(one.kind == "correct" ? value(one, "record") : one.id, i);
    }
    const Records now = corrected(both);
    std::map<std::string, std::set<std::string>> positions;  // by case
    for (const Record& one : now) {
        const auto from = touched.find(one.id);
        if (from == touched.end() || (one.kind != "part" && one.kind != "finding")) continue;
        bool or_case = false;
        if (one.kind == "finding") {
            const Word& word = finding_word(value(one, "mode"));
            or_case = word.symptom || word.weight == Weight::good;
        }
        try {
            const auto [known, first] = positions.try_emplace(one.serial);
            if (first) known->second = positions_of(now, one.serial);
            require_among(known->second, {one.serial, value(one, "position"), or_case});
        } catch (const Error& error) {
            refuse_at(fresh, from->second,
                      fmt::format("record {}: {}", one.id, error.problems().front().text),
                      error.problems().front().hint + "; nothing was added");
        }
    }
}

void require_order(std::span<const Record> held, const Incoming& fresh) {
    const std::set<std::string> there = ids_of(held);
    std::map<std::string, const Record*> last;
    const auto later = [&](const Record& one) {
        if (one.kind == "setup" || one.kind == "correct") return;  // of any day
        const Record*& before = last[one.serial];
        if (before == nullptr || before->date <= one.date) before = &one;
    };
    for (const Record& one : held) later(one);
    for (std::size_t i = 0; i < fresh.records.size(); ++i) {
        const Record& one = fresh.records[i];
        if (there.contains(one.id)) continue;
        const auto before = last.find(one.serial);
        const bool dated = one.kind != "setup" && one.kind != "correct";
        if (dated && before != last.end() && one.date < before->second->date)
            refuse_at(fresh, i,
                      fmt::format("record {}: {} lies before the {} of {} ({})", one.id, one.date,
                                  before->second->kind, before->second->date, before->second->id),
                      "check the date; if it was written up afterwards, add --late; nothing was "
                      "added");
        later(one);
    }
}

std::vector<std::string> begun_twice(std::span<const Record> held, const Incoming& fresh) {
    const std::set<std::string> there = ids_of(held);
    std::set<std::string> begun;
    for (const Record& one : held)
        if (one.kind == "case") begun.insert(one.serial);
    std::set<std::string> twice;
    for (const Record& one : fresh.records)
        if (one.kind == "case" && !there.contains(one.id) && begun.contains(one.serial))
            twice.insert(one.serial);
    return {twice.begin(), twice.end()};
}

}  // namespace caseload::book
