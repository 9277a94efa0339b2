// SPDX-License-Identifier: MIT
// Joints, splines and seals; the oil, how it is moved, and what it is kept in.
#include "input/build.hpp"
#include "input/fields.hpp"
#include "input/presets.hpp"

#include "caseload/figures.hpp"

#include "caseload/spline_data.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cctype>
#include <optional>

namespace caseload::input {
namespace {

void check_joints(Completed& from, Setup& setup) {
    std::map<std::string, double> sum;
    for (JointInput& joint : setup.joints) {
        const std::string key = "joint." + joint.name;
        check_shaft_name(from, setup, key + ".shaft");
        sum[joint.shaft] += joint.torque_share;
        const bool by_name = joint.name == "front" || joint.name == "rear";
        const End named = joint.name == "front" ? End::front : End::rear;
        if (!from.given(key + ".end")) {
            if (by_name)
                joint.end = named;
            else
                from.problem(key + ".shaft", fmt::format("{}.end is not there", key),
                             "a joint not named front or rear needs end = \"front\" or \"rear\"");
        } else if (by_name && joint.end != named && from.has(key + ".end")) {
            from.problem(key + ".end", fmt::format("{}.end contradicts the name of the joint", key),
                         "a joint named front or rear sits at that end; give it another name");
        }
    }
    for (const auto& [shaft, share] : sum)
        if (share > 1 + share_slack)
            from.note(
                "input.torque_shares", "shaft." + shaft,
                fmt::format("joints on shaft {} take {:.2f} of its torque together", shaft, share));
}

/// Entries of one spline against each other.
void check_spline(Completed& from, const Setup& setup, const SplineInput& spline) {
    const std::string key = "spline." + spline.name;
    check_shaft_name(from, setup, key + ".shaft");
    const auto& train = setup.gears.train;
    if (train.size() == 3 && spline.shaft == train[1])
        from.problem(key + ".shaft",
                     fmt::format("{}.shaft = \"{}\": an idler passes no torque to its shaft", key,
                                 spline.shaft),
                     fmt::format("{} or {}", train.front(), train.back()));
    for (const char* needed : {".teeth", ".pitch_diameter", ".length"})
        if (!from.has(key + needed)) return;
    constexpr double most_diameters = 3;
    if (spline.length_mm > most_diameters * spline.pitch_diameter_mm)
        from.problem_at({key + ".length", key + ".pitch_diameter"},
                        fmt::format("{}.length: {:.4g} mm is more than three times the pitch "
                                    "diameter of {:.4g} mm",
                                    key, spline.length_mm, spline.pitch_diameter_mm),
                        "only the length in mesh counts; a spline that long does not carry on all "
                        "of it");
    const double module_mm = spline.pitch_diameter_mm / spline.teeth;
    constexpr double most_modules = 1.2;
    if (spline.height_mm && *spline.height_mm > most_modules * module_mm)
        from.problem_at({key + ".height", key + ".teeth", key + ".pitch_diameter"},
                        fmt::format("{}.height: teeth of module {:.3g} mm touch over at most "
                                    "{:.3g} mm, not {:.3g} mm",
                                    key, module_mm, most_modules * module_mm, *spline.height_mm),
                        "the height is what both have in common, along the radius");
    const double root_mm = spline_strength::root_diameter_mm(teeth_of(spline));
    if (spline.bore_mm >= most_bore_share * root_mm)
        from.problem_at(
            {key + ".bore", key + ".pitch_diameter"},
            fmt::format("{}.bore: a bore of {:.4g} mm leaves no wall below the roots at {:.4g} mm",
                        key, spline.bore_mm, root_mm),
            "check bore, teeth and pitch_diameter");
}

void check_splines(Completed& from, Setup& setup) {
    std::sort(setup.splines.begin(), setup.splines.end(),
              [](const SplineInput& a, const SplineInput& b) { return a.name < b.name; });
    for (const SplineInput& spline : setup.splines) check_spline(from, setup, spline);
}

void check_seals(Completed& from, Setup& setup) {
    std::sort(setup.seals.begin(), setup.seals.end(),
              [](const SealInput& a, const SealInput& b) { return a.name < b.name; });
    for (SealInput& seal : setup.seals) {
        const std::string key = "seal." + seal.name + ".shaft";
        if (from.given(key))
            check_shaft_name(from, setup, key);
        else if (in_train(setup, seal.name))
            seal.shaft = seal.name;
        else if (!setup.gears.train.empty())
            seal.shaft = setup.gears.train.back();
    }
}

/// Second and third number of an ISO 4406 code, "-/19/16".
struct Codes {
    int at_6um = 0;
    int at_14um = 0;
};

std::optional<Codes> read_codes(const std::string& text) {
    constexpr int highest = 28;
    std::vector<int> numbers;
    std::size_t at = 0;
    while (at <= text.size()) {
        const std::size_t end = std::min(text.find('/', at), text.size());
        const std::string part = text.substr(at, end - at);
        const bool digits = !part.empty() && part.size() <= 2 &&
                            std::all_of(part.begin(), part.end(),
                                        [](unsigned char c) { return std::isdigit(c) != 0; });
        if (!digits && !(numbers.empty() && part == "-")) return std::nullopt;
        numbers.push_back(digits ? std::stoi(part) : highest);
        at = end + 1;
    }
    const bool falling = std::is_sorted(numbers.rbegin(), numbers.rend());
    if (numbers.size() != 3 || !falling || numbers[0] > highest) return std::nullopt;
    return Codes{numbers[1], numbers[2]};
}

void check_cleanliness(Completed& from, Setup& setup) {
    if (!from.has("oil.cleanliness")) return;
    const std::string text = from.text("oil.cleanliness");
    const std::optional<Codes> codes = read_codes(text);
    if (!codes) {
        from.problem("oil.cleanliness",
                     fmt::format("oil.cleanliness = \"{}\": not an ISO 4406 code", text),
                     "three falling numbers up to 28 joined by /, the first may be -: \"-/19/16\"");
        return;
    }
    setup.oil.code_6um = codes->at_6um;
    setup.oil.code_14um = codes->at_14um;
}

struct Amount {
    double value = 0;
    std::string currency;
};

/// "2500 USD": digits with at most one point, and a currency of three capital letters (ISO 4217).
std::optional<Amount> read_amount(const std::string& text) {
    const std::size_t blank = text.find(' ');
    if (blank == std::string::npos || blank == 0 || text.size() != blank + 4) return std::nullopt;
    Amount amount;
    amount.currency = text.substr(blank + 1);
    int points = 0;
    for (std::size_t i = 0; i < blank; ++i) {
        points += text[i] == '.' ? 1 : 0;
        if (std::isdigit(static_cast<unsigned char>(text[i])) == 0 && text[i] != '.')
            return std::nullopt;
    }
    const bool capitals = std::all_of(amount.currency.begin(), amount.currency.end(),
                                      [](char c) { return c >= 'A' && c <= 'Z'; });
    // A dozen digits hold any budget and keep the number exact.
    if (points > 1 || text[0] == '.' || !capitals || blank > 12) return std::nullopt;
    amount.value = std::stod(text.substr(0, blank));
    return amount;
}

void check_costs(Completed& from, Setup& setup) {
    if (!from.has("costs.planned") || !from.has("costs.failure")) return;
    const auto amount = [&](const std::string& key) {
        const std::optional<Amount> read = read_amount(from.text(key));
        if (!read || read->value <= 0)
            from.problem(key, fmt::format("{} = \"{}\": not an amount", key, from.text(key)),
                         "digits, a blank and a currency of three capitals: \"2500 USD\"");
        return read;
    };
    const std::optional<Amount> planned = amount("costs.planned");
    const std::optional<Amount> failure = amount("costs.failure");
    if (!planned || !failure || from.broken("costs.")) return;
    if (planned->currency != failure->currency) {
        from.problem_at({"costs.failure", "costs.planned"},
                        fmt::format("costs.failure is in {}, costs.planned in {}",
                                    failure->currency, planned->currency),
                        "write both in one currency");
        return;
    }
    setup.costs = CostsInput{planned->value, failure->value, planned->currency};
}

void check_depth(Completed& from, const Setup& setup) {
    const LubricationInput& lubrication = setup.lubrication;
    const HousingInput& housing = setup.housing;
    if (lubrication.method != Method::dip || !lubrication.depth_mm ||
        !from.has("lubrication.depth") || !from.has("housing.size") || !from.has("housing.wall"))
        return;
    const double depth_mm = *lubrication.depth_mm;
    const double inside_mm = housing.high_mm - 2 * housing.wall_mm;
    if (inside_mm > 0 && depth_mm >= inside_mm)
        from.problem_at(
            {"lubrication.depth", "housing.size"},
            fmt::format("lubrication.depth: {:.4g} mm of oil do not fit in a housing {:.4g} mm "
                        "high inside",
                        depth_mm, inside_mm),
            "depth is the immersion of the lowest tooth tip, the gears standing still");
}

/// Whether "unknown" gives a key its number.
bool is_unknown(const Completed& from, const std::string& key) {
    const Item* item = from.find(key);
    return item != nullptr && !item->by.empty();
}

/// The temperature that an unknown neighbour is taken to have, for people to see: the setup keeps
/// it as what it is over ambient.
void show_neighbour_temperature(Completed& from, const Setup& setup) {
    const std::string key = "housing.neighbour_temperature";
    if (from.broken("event.ambient")) return;
    const Preset::Meaning& meaning =
        meaning_of("housing.neighbour", from.text("housing.neighbour"));
    const auto over_ambient = [&](double warmer_K) {
        return fmt::format("{} degC", figures(setup.event.ambient_degC + warmer_K, 4));
    };
    const Field& field = field_of(key);
    const auto inside = [&](double warmer_K) {
        const double temp_degC = setup.event.ambient_degC + warmer_K;
        return temp_degC >= field.range.low && temp_degC <= field.range.high;
    };
    const double low_K = meaning.lows.at(0);
    const double high_K = meaning.highs.at(0);
    Item item;
    item.origin = Origin::estimated;
    item.source = fmt::format("{:g} K over ambient, judgement", meaning.numbers.at(0));
    item.field = &field;
    item.value.text = over_ambient(meaning.numbers.at(0));
    item.number = setup.event.ambient_degC + meaning.numbers.at(0);
    if (inside(low_K) && inside(high_K)) {
        Value end;
        end.text = over_ambient(low_K);
        item.low = toml_text(end);
        end.text = over_ambient(high_K);
        item.high = toml_text(end);
    }
    from.put(key, std::move(item));
}

void note_unknown(Completed& from, Setup& setup) {
    setup.unknown = {.mist = is_unknown(from, "lubrication.mist_oil_fraction"),
                     .rehit = is_unknown(from, "lubrication.oil_rehit"),
                     .exhaust = is_unknown(from, "housing.exhaust_heat"),
                     .neighbour_path = is_unknown(from, "housing.neighbour_conductance"),
                     .neighbour_temp = from.text("housing.neighbour") == unknown_word &&
                                       setup.housing.neighbour_WpK > 0 &&
                                       !from.given("housing.neighbour_temperature")};
    const Item* dirt = from.find("housing.dirt");
    const Item* coat = from.find("housing.dirt_thickness");
    setup.housing.dirt_assumed =
        dirt != nullptr && coat != nullptr && coat->origin == Origin::preset &&
        (dirt->origin == Origin::standard || dirt->origin == Origin::pattern);
    if (setup.unknown.neighbour_temp) show_neighbour_temperature(from, setup);
}

void check_neighbour(Completed& from, const Setup& setup) {
    const bool by_word =
        from.given("housing.neighbour") && from.text("housing.neighbour") != "none";
    if (setup.housing.neighbour_WpK > 0 && !by_word && !from.given("housing.neighbour_temperature"))
        from.problem_at({"housing.neighbour_conductance"},
                        "housing.neighbour_conductance: how warm is what the case is bolted to?",
                        "enter housing.neighbour_temperature, or a word for housing.neighbour");
}

}  // namespace

void check_parts(Completed& from, Setup& setup) {
    check_neighbour(from, setup);
    note_unknown(from, setup);
    check_joints(from, setup);
    check_splines(from, setup);
    check_seals(from, setup);
    check_costs(from, setup);
    const HousingInput& housing = setup.housing;
    const double least_mm = std::min({housing.along_mm, housing.across_mm, housing.high_mm});
    if (from.has("housing.size") && from.has("housing.wall") && 2 * housing.wall_mm >= least_mm)
        from.problem_at(
            {"housing.wall", "housing.size"},
            fmt::format("housing.wall: two walls of {:.4g} mm leave no room in {:.4g} mm",
                        housing.wall_mm, least_mm),
            "check housing.wall and housing.size");
    if (setup.vehicle.prop_shaft) {
        const PropShaft& tube = *setup.vehicle.prop_shaft;
        if (!from.broken("vehicle.prop_shaft") && 2 * tube.wall_mm >= tube.outside_mm)
            from.problem_at(
                {"vehicle.prop_shaft.wall", "vehicle.prop_shaft.outside"},
                fmt::format("vehicle.prop_shaft.wall: a wall of {:.4g} mm does not fit a tube of "
                            "{:.4g} mm",
                            tube.wall_mm, tube.outside_mm),
                "check wall and outside");
    }
}

void check_oil(Completed& from, Setup& setup) {
    check_cleanliness(from, setup);
    check_depth(from, setup);
    const OilInput& oil = setup.oil;
    if (from.has("oil.viscosity_40C") && from.has("oil.viscosity_100C") &&
        oil.viscosity_40C_mm2ps <= oil.viscosity_100C_mm2ps)
        from.problem_at(
            {"oil.viscosity_100C", "oil.viscosity_40C"},
            fmt::format("oil.viscosity_100C = {:.4g} mm2/s is not below oil.viscosity_40C = "
                        "{:.4g} mm2/s",
                        oil.viscosity_100C_mm2ps, oil.viscosity_40C_mm2ps),
            "an oil thins as it warms; the two may be exchanged");
    const LimitsInput& limits = setup.limits;
    if (from.has("limits.oil_watch") && from.has("limits.oil_stop") &&
        limits.oil_stop_degC <= limits.oil_watch_degC)
        from.problem_at(
            {"limits.oil_stop", "limits.oil_watch"},
            fmt::format("limits.oil_stop = {:.4g} degC is not above limits.oil_watch = {:.4g} degC",
                        limits.oil_stop_degC, limits.oil_watch_degC),
            "watch comes before stop");
    if (setup.lubrication.method == Method::scavenged && !setup.lubrication.pump &&
        !from.broken("lubrication."))
        from.problem(
            "lubrication.method",
            "a scavenged case needs a pump: no gear dips, so nothing brings the oil",
            "add lubrication.pump = { flow = \"9 L/min\" }, or method = \"dip\" with its depth");
    else if (setup.cooler.fit && !setup.lubrication.pump && !from.broken("lubrication."))
        from.problem("cooler.fit", "cooler.fit: no pump sends oil through the cooler",
                     "add lubrication.pump = { flow = \"9 L/min\" }");
}

}  // namespace caseload::input
