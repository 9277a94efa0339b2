// SPDX-License-Identifier: MIT
// Every addressed number of an answer, and the reasons of one.
#include "caseload/why.hpp"

#include "caseload/tables.hpp"
#include "input/harmless.hpp"
#include "input/nearest.hpp"
#include "why/places.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cmath>
#include <optional>
#include <set>
#include <stdexcept>
#include <utility>

namespace caseload {
namespace {

constexpr std::size_t few_terms = 4;
constexpr std::size_t shown_terms = 3;

std::vector<Term> largest_terms(const std::string& expression,
                                const std::function<double(std::string_view)>& named) {
    const std::vector<std::string> texts = terms_of(expression);
    if (texts.size() <= few_terms) return {};
    std::vector<Term> terms;
    terms.reserve(texts.size());
    for (const std::string& text : texts) terms.push_back({text, evaluate(text, named)});
    std::stable_sort(terms.begin(), terms.end(), [](const Term& a, const Term& b) {
        return std::fabs(a.value) > std::fabs(b.value);
    });
    terms.resize(shown_terms);
    return terms;
}

std::string listed(const std::vector<std::string>& addresses) {
    std::string out;
    for (const std::string& address : addresses) out += (out.empty() ? "" : ", ") + address;
    return out;
}

/// A few addresses that contain these words, one of each part first; "" where none does.
std::string holding(const std::vector<Number>& all, std::string_view words) {
    constexpr std::size_t few = 4;
    std::vector<std::string> of_other_parts;
    std::vector<std::string> of_same_parts;
    std::set<std::string> parts;
    for (const Number& one : all)
        if (one.address.find(words) != std::string::npos)
            (parts.insert(one.part).second ? of_other_parts : of_same_parts).push_back(one.address);
    std::vector<std::string> shown = of_other_parts;
    shown.insert(shown.end(), of_same_parts.begin(), of_same_parts.end());
    const std::size_t count = shown.size();
    if (count == 0) return {};
    shown.resize(std::min(few, count));
    return fmt::format("{} hold{} it: {}{}", count, count == 1 ? "s" : "", listed(shown),
                       count > few ? fmt::format(" and {} more", count - few) : "");
}

/// The addresses that contain what was typed; else the nearest by spelling, where it may stand for
/// the whole address or for its part or number alone.
std::string meant_addresses(const std::vector<Number>& all, std::string_view typed) {
    const std::string holds = typed.empty() ? std::string{} : holding(all, typed);
    if (!holds.empty()) return holds;
    std::vector<std::pair<int, std::string>> near;
    for (const Number& one : all) {
        int least = input::edit_distance(typed, one.address);
        for (const std::string& piece : {one.part, one.member, one.part + "." + one.member})
            least = std::min(least, input::edit_distance(typed, piece));
        near.emplace_back(least, one.address);
    }
    std::stable_sort(near.begin(), near.end(),
                     [](const auto& a, const auto& b) { return a.first < b.first; });
    near.resize(std::min<std::size_t>(3, near.size()));
    std::vector<std::string> addresses;
    addresses.reserve(near.size());
    for (const auto& one : near) addresses.push_back(one.second);
    return "nearest: " + listed(addresses);
}

}  // namespace

Reasons::Reasons(const ReadSetup& read, const Assessment& answer)
    : Reasons(read, answer, embedded_table("why.toml")) {}

Reasons::Reasons(const ReadSetup& read, const Assessment& answer, std::string_view formulas) {
    why_detail::Collector to(read, formulas);
    const Prepared prepared = prepare(read.setup);
    const why_detail::Gather gather{read.setup, prepared, answer, to};
    add_ratings(gather);
    add_shared(gather);
    add_trains(gather);
    add_duty(gather);
    add_forces(gather);
    for (const LegAnswer& leg : answer.fitted.legs) {
        add_rest(gather, leg);
        add_gear_losses(gather, leg);
        add_oil_losses(gather, leg);
        add_outside(gather, leg);
        add_cooler(gather, leg);
        add_bearings(gather, leg);
        add_ledger(gather, leg);
    }
    add_event(gather);
    add_lives(gather);
    add_teeth(gather);
    add_flanks(gather);
    add_seats(gather);
    add_splines(gather);
    add_pairs(gather);
    add_actions(gather);
    add_pump_dead(gather);
    add_checks(gather);
    all_ = std::move(to.all);
    index_ = std::move(to.index);
    deciding_ = decide(read.setup, answer);
}

Deciding Reasons::decide(const Setup& setup, const Assessment& answer) const {
    const std::vector<Check> sorted = worst_first(answer.fitted.checked.checks);
    if (!sorted.empty() && sorted.front().verdict == "stop") {
        const Check& worst = sorted.front();
        // Judged over the range it may be in another class; the number is that of one run.
        const bool one_run = check_row(worst.id).over == JudgedOver::range;
        return {check_address(worst),
                (one_run ? "With every uncertain input at its middle stopped by " : "Stopped by ") +
                    worst.about + ": " + worst.consequence + "."};
    }
    if (!answer.stopped_by.empty()) return {"", "Stopped by " + answer.stopped_by};  // no number
    if (!sorted.empty() && sorted.front().verdict == "watch" &&
        answer.fitted.event.peak_oil_degC <= setup.limits.oil_watch_degC)
        return {check_address(sorted.front()),
                "With every uncertain input at its middle on watch: " + sorted.front().about +
                    ": " + sorted.front().consequence + "."};
    const LegAnswer* hottest = hottest_leg(setup, answer.fitted);
    Deciding oil;
    if (hottest != nullptr)
        oil = {(hottest->at_rest.found ? "rest.oil_degC@" : "rest.short_by_W@") + hottest->name,
               "The oil decides: settled on " + hottest->name +
                   ", every uncertain input at its middle."};
    const Intervals& next = answer.fitted.intervals;
    if (answer.fitted.event.peak_oil_degC <= setup.limits.oil_watch_degC &&
        next.open_case.reason == "fatigue" && !next.decided_by.empty()) {
        const std::string part = next.decided_by.substr(0, next.decided_by.rfind(' '));
        for (const char* member : {".life_share", ".check_flank", ".check_root"})
            if (has(part + member) &&
                (part.rfind("gear.", 0) != 0 ||
                 next.decided_by.find(std::string(member).substr(7)) != std::string::npos))
                return {part + member, "Fatigue opens the case: " + next.decided_by + "."};
    }
    return oil;
}

std::string Reasons::check_address(const Check& check) const {
    const std::string_view id = words_for(check.id).key;
    for (const Number& number : all_)
        if (number.check == id && number.part == check.about && number.value == check.value)
            return number.address;
    return {};
}

Why Reasons::why(std::string_view address) const {
    const auto found = index_.find(address);
    if (found == index_.end()) {
        constexpr std::size_t longest_echo = 200;
        const std::string typed = input::shortened_to(longest_echo, address);
        throw Error(Error::Kind::input,
                    fmt::format("{}: no number has this address; {}; all of them: --list", typed,
                                meant_addresses(all_, typed)));
    }
    const Number& number = all_[found->second];
    Why why;
    why.number = number;
    const bool solved = !number.equation.empty();
    const std::string& expression = solved ? number.equation : number.value_of;
    const std::array<const std::string*, 3> formulas{&expression, &number.at_least,
                                                     &number.at_most};
    const bool none = std::all_of(formulas.begin(), formulas.end(),
                                  [](const std::string* one) { return one->empty(); });
    if (none || !number.origin.empty()) return why;
    const auto named = [&](std::string_view name) {
        const Number* input = why_detail::resolve_name(all_, index_, number, std::string(name));
        if (input == nullptr)
            throw std::logic_error("tables/why.toml: " + number.address + " wants " +
                                   std::string(name));
        return input->value;
    };
    std::array<std::optional<Expression>, 3> read;
    for (std::size_t k = 0; k < formulas.size(); ++k) {
        if (formulas[k]->empty()) continue;
        for (const std::string& name : read[k].emplace(*formulas[k]).names()) {
            if (std::find(why.names.begin(), why.names.end(), name) != why.names.end()) continue;
            named(name);
            why.names.push_back(name);
            why.inputs.push_back(*why_detail::resolve_name(all_, index_, number, name));
        }
    }
    const auto input = [&](std::string_view name) {
        const auto held = std::find(why.names.begin(), why.names.end(), name);
        return held == why.names.end()
                   ? named(name)
                   : why.inputs[static_cast<std::size_t>(held - why.names.begin())].value;
    };
    if (!number.residual_allowed.empty())
        why.residual_allowed = evaluate(number.residual_allowed, input);
    if (read[1]) why.at_least = read[1]->value_by(input);
    if (read[2]) why.at_most = read[2]->value_by(input);
    if (!read[0]) return why;
    const double value = read[0]->value_by(input, &why.rows);
    why.residual = solved ? value : value - number.value;
    why.largest = largest_terms(expression, input);
    return why;
}

}  // namespace caseload
