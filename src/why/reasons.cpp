// SPDX-License-Identifier: MIT
// Every addressed number of an answer. The steps of a bearing's life are taken at rest, in each
// bin.
#include "caseload/formulas/astm_d341.hpp"
#include "caseload/formulas/iso_281.hpp"
#include "caseload/tables.hpp"
#include "caseload/why.hpp"
#include "input/nearest.hpp"
#include "third_party/toml.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <stdexcept>
#include <type_traits>
#include <utility>

namespace caseload {
namespace {

std::string origin_words(const Entry& entry) {
    if (entry.where.line > 0 && !entry.where.file.empty() &&
        (entry.origin == Origin::yours || entry.origin == Origin::base_file))
        return fmt::format("{}:{}, {}", entry.where.file, entry.where.line, entry.key);
    return fmt::format("{}, {}", entry.key, entry.source.empty() ? "standard" : entry.source);
}

class Collector {
public:
    explicit Collector(const ReadSetup& read)
        : read_(read), table_(toml::parse(embedded_table("why.toml"))) {}

    struct Place {
        std::string_view kind;  ///< heading in tables/why.toml
        std::string part;
        std::string at;
    };

    void add(const Place& place, std::string_view member, double value,
             const Quantity& row = Quantity{}) {
        Number number;
        number.part = place.part;
        number.member = std::string(member);
        number.at = place.at;
        number.address =
            fmt::format("{}.{}{}{}", place.part, member, place.at.empty() ? "" : "@", place.at);
        number.value = value;
        const auto text = [&](const char* key, const std::string& otherwise) {
            return table_[place.kind][member][key].value_or(otherwise);
        };
        number.symbol = text("symbol", row.symbol);
        number.unit = text("unit", row.unit);
        number.words = text("words", row.words);
        number.how = row.how.empty() ? "step" : row.how;
        number.source = text("source", row.source);
        number.value_of = text("value", {});
        number.equation = text("equation", {});
        std::string key = text("key", {});
        if (const std::size_t star = key.find('*'); star != std::string::npos)
            key.replace(star, 1, place.part.substr(place.part.find('.') + 1));
        for (const Entry& entry : read_.entries)
            if (!key.empty() && entry.key == key) number.origin = origin_words(entry);
        all.push_back(std::move(number));
    }

    /// The numbers among the members of a result.
    template <class T>
    void members(const Place& place, const T& result) {
        each(result, [&](std::string_view name, const auto& value) {
            using V = std::decay_t<decltype(value)>;
            if constexpr (std::is_same_v<V, double> || std::is_same_v<V, int>)
                add(place, name, value, quantity(Members<T>::owner, name));
        });
    }

    std::vector<Number> all;

private:
    const ReadSetup& read_;
    toml::table table_;
};

void add_meshes(const Train& train, Collector& to) {
    for (const MeshPlace& mesh : train.meshes) {
        const Collector::Place place{
            "mesh",
            fmt::format("mesh.{}-{}", train.shafts[static_cast<std::size_t>(mesh.driver)].name,
                        train.shafts[static_cast<std::size_t>(mesh.driven)].name),
            {}};
        to.members(place, mesh.pair);
    }
}

void add_rest(const LegAnswer& leg, double made_W, Collector& to) {
    const Collector::Place place{"rest", "rest", leg.name};
    const Steady& rest = leg.at_rest;
    to.members(place, rest.losses.ledger);
    to.members(place, rest.outside);
    to.add(place, "made_W", made_W);
    to.add(place, "cooler_W", rest.cooler_W, quantity("rest", "cooler_W"));
    to.add(place, "exhaust_W", rest.exhaust_W, quantity("rest", "exhaust_W"));
    // Without a balance there is no solved temperature to give reasons for.
    if (rest.found) to.members(place, rest.nodes);
}

void add_bearing(const Prepared& prepared, const LegAnswer& leg, const BearingPlace& in,
                 Collector& to) {
    const BearingData& data = prepared.loads.bearings[in.bearing];
    const BearingRun& run = leg.at_rest.losses.runs[in.bin][in.bearing];
    if (run.n_rpm <= 0) return;
    const Collector::Place place{"bearing", "bearing." + data.name,
                                 fmt::format("{}/{}", leg.name, in.bin + 1)};
    const BearingCondition state = bearing_at_film(prepared, in, run.film_degC);
    const double film_degC = std::min(run.film_degC, hottest_film_degC);
    const astm_d341::Line& line = prepared.oil.sheared;
    to.members(place, run);
    to.add(place, "nu_1_mm2ps",
           iso_281::reference_viscosity_mm2ps({.n_rpm = run.n_rpm, .D_pw_mm = data.d_m_mm}));
    to.add(place, "z_mm2ps",
           std::pow(10, std::pow(10, line.A - line.B * std::log10(film_degC + 273.15))) - 0.7);
    to.add(place, "nu_mm2ps", astm_d341::viscosity_mm2ps(line, film_degC));
    to.add(place, "kappa", state.kappa);
    if (state.P_N <= 0) return;
    const double p = iso_281::life_exponent(data.kind);
    const double life_Mrev = iso_281::basic_life_Mrev({data.C_N, state.P_N, p});
    to.add(place, "p", p);
    to.add(place, "P_N", state.P_N);
    to.add(place, "e_C", state.e_C);
    to.add(place, "a_ISO", state.a_ISO);
    to.add(place, "L_10_Mrev", life_Mrev);
    to.add(place, "L_10_h", iso_281::hours_h({life_Mrev, run.n_rpm}));
}

}  // namespace

Reasons::Reasons(const ReadSetup& read, const Assessment& answer) {
    Collector to(read);
    const Prepared prepared = prepare(read.setup);
    to.add({"shared", "shared", {}}, "A", prepared.oil.sheared.A);
    to.add({"shared", "shared", {}}, "B", prepared.oil.sheared.B);
    add_meshes(answer.loads.train, to);
    for (const BearingData& bearing : answer.loads.bearings)
        to.members({"bearing", "bearing." + bearing.name, {}}, bearing);
    for (const LegAnswer& leg : answer.fitted.legs) {
        add_rest(leg, total_W(leg.at_rest.losses.ledger), to);
        const auto index = static_cast<std::size_t>(leg.leg);
        for (std::size_t bin = 0; bin < leg.at_rest.losses.runs.size(); ++bin)
            for (std::size_t b = 0; b < answer.loads.bearings.size(); ++b)
                add_bearing(prepared, leg, {index, bin, b}, to);
    }
    all_ = std::move(to.all);
    const LegAnswer* hottest = hottest_leg(read.setup, answer.fitted);
    if (hottest != nullptr)
        deciding_ = (hottest->at_rest.found ? "rest.oil_degC@" : "rest.made_W@") + hottest->name;
}

const Number* Reasons::find(std::string_view address) const {
    for (const Number& number : all_)
        if (number.address == address) return &number;
    return nullptr;
}

Why Reasons::why(std::string_view address) const {
    const Number* number = find(address);
    if (number == nullptr) {
        std::vector<std::pair<int, std::string>> near;
        for (const Number& one : all_)
            near.emplace_back(input::edit_distance(address, one.address), one.address);
        std::stable_sort(near.begin(), near.end(),
                         [](const auto& a, const auto& b) { return a.first < b.first; });
        std::string names;
        for (std::size_t i = 0; i < std::min<std::size_t>(3, near.size()); ++i)
            names += (i == 0 ? "" : ", ") + near[i].second;
        throw Error(Error::Kind::input,
                    fmt::format("{}: no number has this address; nearest: {}; all of them: --list",
                                address, names));
    }
    Why why{*number, {}};
    const std::string& expression = number->equation.empty() ? number->value_of : number->equation;
    if (expression.empty()) return why;
    for (const std::string& name : names_in(expression)) {
        const std::string own = number->part + "." + name;
        const Number* input = find(own + "@" + number->at);
        if (input == nullptr) input = find(own);
        if (input == nullptr) input = find("shared." + name);
        if (input == nullptr)
            throw std::logic_error("tables/why.toml: " + number->address + " wants " + name);
        why.inputs.push_back(*input);
    }
    return why;
}

}  // namespace caseload
