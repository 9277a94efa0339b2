// SPDX-License-Identifier: MIT
// Fields of [limits], [rules], [aims] and [costs].
#include "input/field_rows.hpp"

namespace caseload::input {
namespace {

constexpr Field rules_rows[] = {
    row("limits.oil_watch", {K::quantity, M::temp_degC, {50, 160}}, "oil above this: watch",
        Example{"121 degC"}, fills<&Setup::limits, &LimitsInput::oil_watch_degC>),
    row("limits.oil_stop", {K::quantity, M::temp_degC, {50, 160}}, "oil above this: stop",
        Example{"135 degC"}, fills<&Setup::limits, &LimitsInput::oil_stop_degC>),
    row("rules.change_oil", {K::quantity, M::events, {1, 100}}, "your own practice: oil change",
        Standard{"\"1 event\"", common_practice},
        [](Setup& s, const Item& i) {
            s.rules.change_oil_events = i.number;
            s.rules.change_oil_own = i.origin != Origin::standard;
        }),
    row("rules.look", {K::quantity, M::events, {1, 100}},
        "drain, read the magnet, feel the end play", Standard{"\"1 event\"", common_practice},
        [](Setup& s, const Item& i) {
            s.rules.look_events = i.number;
            s.rules.look_own = i.origin != Origin::standard;
        }),
    row("rules.open_case", {K::quantity, M::events, {1, 100}}, "open and inspect",
        Standard{"\"4 events\"", common_practice},
        [](Setup& s, const Item& i) {
            s.rules.open_case_events = i.number;
            s.rules.open_case_own = i.origin != Origin::standard;
        }),
    row("aims.rebuild_reliability", {K::number, M::share, {0.5, 0.99}},
        "least chance of calculated parts to last until the case is opened",
        Standard{"0.95", judgement}, fills<&Setup::aims, &AimsInput::rebuild_reliability>),
    row("costs.planned", K::text,
        "a planned rebuild: amount and currency; switches the cheapest opening on", needed,
        When{"costs"}, Example{"2500 USD"}),
    row("costs.failure", K::text, "a failure in the field, the lost event included: same currency",
        needed, When{"costs"}, Example{"18000 USD"}),
};

}  // namespace

std::span<const Field> rule_fields() {
    return rules_rows;
}

}  // namespace caseload::input
