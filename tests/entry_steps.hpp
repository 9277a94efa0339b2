// SPDX-License-Identifier: MIT
// What a step of 0.1 % of each continuous entry of a setup does to the oil.
#pragma once

#include "caseload/error.hpp"
#include "caseload/heat_curves.hpp"
#include "caseload/input.hpp"
#include "caseload/units.hpp"
#include "heat/basis.hpp"
#include "input/fields.hpp"
#include "loads/kept.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cctype>
#include <cmath>
#include <cstdlib>
#include <string>
#include <utility>
#include <vector>

namespace caseload::entry_steps {

constexpr double step = 1e-3;

struct Moved {
    std::string key;
    std::string toml;  ///< the entry with the step
    double from_degC = 0;
    double to_degC = 0;

    [[nodiscard]] double by_K() const { return std::fabs(to_degC - from_degC); }
};

/// The text with its numbers larger by the step, one in turn. Of lists of lines only what has a
/// unit: shares must go on to sum to 1.
inline std::vector<std::string> stepped(const std::string& toml, bool bare) {
    std::vector<std::string> all;
    bool quoted = false;
    for (std::size_t at = 0; at < toml.size();) {
        const char c = toml[at];
        if (c == '"') quoted = !quoted;
        const bool digit = std::isdigit(static_cast<unsigned char>(c)) != 0;
        const bool inside_word =
            at > 0 &&
            (std::isalpha(static_cast<unsigned char>(toml[at - 1])) != 0 || toml[at - 1] == '_') &&
            toml[at - 1] != 'x';
        if (!digit || inside_word || quoted == bare) {
            ++at;
            continue;
        }
        char* end = nullptr;
        const double value = std::strtod(toml.c_str() + at, &end);
        const auto behind = static_cast<std::size_t>(end - toml.c_str());
        if (value != 0)
            all.push_back(fmt::format("{}{:.12g}{}", toml.substr(0, at), value * (1 + step),
                                      toml.substr(behind)));
        at = behind;
    }
    return all;
}

/// Hottest oil of the event; what is above the ceiling is not printed and counts as there.
inline double told_degC(double peak_degC) {
    return std::min(peak_degC, oil_ceiling_degC);
}

/// Every continuous entry of this setup, given or assumed, by a step; refused steps are left out.
inline std::vector<Moved> moves(const std::string& text) {
    const Document document(text, "random.toml", {});
    const ReadSetup read = document.complete();
    const FewChanged changed(document);
    const KeptLoads loads = keep_loads(read.setup);
    const Prepared prepared = prepare(read.setup, loads.loads);
    CaseCurves curves(prepared);
    const KeptEvent event = keep_event(curves, {});
    const double from_degC = told_degC(event.heat.peak_oil_degC);
    std::vector<Moved> all;
    for (const Entry& entry : read.entries) {
        using K = input::FieldKind;
        const K kind = input::field_of(entry.field).kind;
        const bool bare = kind == K::number || kind == K::numbers;
        const bool takes = bare || kind == K::quantity || kind == K::quantities ||
                           kind == K::size || kind == K::rows || kind == K::pairs;
        if (!takes) continue;
        for (const std::string& toml : stepped(entry.toml, bare)) {
            std::vector<Change> changes{{entry.key, toml}};
            // Another core entered from outside would lose its rating.
            if (entry.key == "cooler.core")
                for (const Entry& rating : read.entries)
                    if (rating.origin == Origin::yours &&
                        rating.key.rfind("cooler.rating.", 0) == 0)
                        changes.push_back({rating.key, rating.toml});
            try {
                const Setup other = changed.setup(changes);
                const Prepared prepared_other = prepare(other, loads_like(other, loads));
                CaseCurves curves_other(prepared_other, curves);
                all.push_back({entry.key, toml, from_degC,
                               told_degC(event_like(curves_other, event).peak_oil_degC)});
            } catch (const Error&) {
                continue;  // beyond what the key takes, or what a car can have
            }
        }
    }
    return all;
}

/// Switches by temperature out of the text: an entry near theirs may switch.
inline std::string without_switches(const std::string& text) {
    std::string out;
    for (std::size_t at = 0; at < text.size();) {
        const std::size_t end = std::min(text.find('\n', at), text.size() - 1) + 1;
        const std::string line = text.substr(at, end - at);
        if (line.rfind("on_above", 0) != 0 && line.rfind("fan_on_above", 0) != 0) out += line;
        at = end;
    }
    return out;
}

}  // namespace caseload::entry_steps
