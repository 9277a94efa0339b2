// SPDX-License-Identifier: MIT
// Fields of [limits], [rules], [aims] and [costs].
#include "input/fields.hpp"
#include "input/item.hpp"

namespace caseload::input {
namespace {

using K = FieldKind;
using M = Measure;

constexpr Field rules_rows[] = {
    {.key = "limits.oil_watch",
     .kind = K::quantity,
     .measure = M::temp_degC,
     .range = {50, 160},
     .example = "121 degC",
     .words = "oil above this: watch",
     .put = [](Setup& s, const Item& i) { s.limits.oil_watch_degC = i.number; }},
    {.key = "limits.oil_stop",
     .kind = K::quantity,
     .measure = M::temp_degC,
     .range = {50, 160},
     .example = "135 degC",
     .words = "oil above this: stop",
     .put = [](Setup& s, const Item& i) { s.limits.oil_stop_degC = i.number; }},
    {.key = "rules.change_oil",
     .kind = K::quantity,
     .measure = M::events,
     .range = {1, 100},
     .fallback = "\"1 event\"",
     .words = "your own practice: oil change",
     .source = common_practice,
     .put =
         [](Setup& s, const Item& i) {
             s.rules.change_oil_events = i.number;
             s.rules.change_oil_own = i.origin != Origin::standard;
         }},
    {.key = "rules.look",
     .kind = K::quantity,
     .measure = M::events,
     .range = {1, 100},
     .fallback = "\"1 event\"",
     .words = "drain, read the magnet, feel the end play",
     .source = common_practice,
     .put =
         [](Setup& s, const Item& i) {
             s.rules.look_events = i.number;
             s.rules.look_own = i.origin != Origin::standard;
         }},
    {.key = "rules.open_case",
     .kind = K::quantity,
     .measure = M::events,
     .range = {1, 100},
     .fallback = "\"4 events\"",
     .words = "strip and inspect",
     .source = common_practice,
     .put =
         [](Setup& s, const Item& i) {
             s.rules.open_case_events = i.number;
             s.rules.open_case_own = i.origin != Origin::standard;
         }},
    {.key = "aims.rebuild_reliability",
     .kind = K::number,
     .measure = M::share,
     .range = {0.5, 0.99},
     .fallback = "0.95",
     .words = "least chance of calculated parts to last until the case is opened",
     .source = judgement,
     .put = [](Setup& s, const Item& i) { s.aims.rebuild_reliability = i.number; }},
    {.key = "costs.planned",
     .need = true,
     .when = "costs",
     .example = "2500 USD",
     .words = "a planned rebuild: amount and currency; switches the cheapest opening on"},
    {.key = "costs.failure",
     .need = true,
     .when = "costs",
     .example = "18000 USD",
     .words = "a failure in the field, the lost event included: same currency"},
};

}  // namespace

std::span<const Field> rule_fields() {
    return rules_rows;
}

}  // namespace caseload::input
