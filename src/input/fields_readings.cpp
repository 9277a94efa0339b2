// SPDX-License-Identifier: MIT
// Fields of what was measured on the case itself: [reading] and [measured].
#include "input/fields.hpp"
#include "input/item.hpp"

#include <algorithm>

namespace caseload::input {
namespace {

using K = FieldKind;
using M = Measure;

ReadingInput& reading(Setup& s, const Item& i) {
    const auto found = std::find_if(s.readings.begin(), s.readings.end(),
                                    [&](const ReadingInput& one) { return one.name == i.name; });
    if (found != s.readings.end()) return *found;
    s.readings.emplace_back();
    s.readings.back().name = i.name;
    return s.readings.back();
}

Measured& measured(Setup& s) {
    if (!s.measured) s.measured.emplace();
    return *s.measured;
}

MeasuredFactor& factor(Setup& s, const Item& i) {
    auto& all = measured(s).factors;
    const auto found = std::find_if(all.begin(), all.end(),
                                    [&](const MeasuredFactor& one) { return one.name == i.name; });
    if (found != all.end()) return *found;
    all.emplace_back();
    all.back().name = i.name;
    return all.back();
}

constexpr Field readings_rows[] = {
    {.key = "reading.*.place",
     .kind = K::word,
     .accepted = accepted_words<ReadingPlace>,
     .need = true,
     .words = "where it was taken; a temperature label on the wall is not the oil",
     .put = [](Setup& s, const Item& i) { reading(s, i).place = chosen<ReadingPlace>(i); }},
    {.key = "reading.*.leg",
     .kind = K::text,
     .need = true,
     .example = "loop",
     .words = "leg of event.run, or the course, that was driven",
     .put = [](Setup& s, const Item& i) { reading(s, i).leg = i.text(); }},
    {.key = "reading.*.ambient",
     .kind = K::quantity,
     .measure = M::temp_degC,
     .range = {-40, 60},
     .need = true,
     .words = "air in the shade when it was taken",
     .put = [](Setup& s, const Item& i) { reading(s, i).ambient_degC = i.number; }},
    {.key = "reading.*.start",
     .kind = K::quantity,
     .measure = M::temp_degC,
     .range = {-40, 160},
     .words = "whole case when the leg began; left out: the ambient",
     .put = [](Setup& s, const Item& i) { reading(s, i).start_degC = i.number; }},
    {.key = "reading.*.at_pace",
     .kind = K::quantity,
     .measure = M::time_s,
     .range = {60, 86400},
     .example = "30 min",
     .words = "how long the leg had been driven at its pace",
     .put = [](Setup& s, const Item& i) { reading(s, i).at_pace_s = i.number; }},
    {.key = "reading.*.temp",
     .kind = K::quantity,
     .measure = M::temp_degC,
     .range = {-40, 160},
     .example = "104 degC",
     .words = "what was read; of a temperature label the highest window that turned",
     .put = [](Setup& s, const Item& i) { reading(s, i).temp_degC = i.number; }},
    {.key = "reading.*.clear",
     .kind = K::quantity,
     .measure = M::temp_degC,
     .range = {-40, 260},
     .example = "110 degC",
     .words =
         "makes it a temperature label, read after the leg: its lowest window that stayed clear",
     .put = [](Setup& s, const Item& i) { reading(s, i).clear_degC = i.number; }},
    {.key = "reading.*.series",
     .kind = K::rows,
     .words = "logged temperatures by rising time, in place of at_pace and temp",
     .put =
         [](Setup& s, const Item& i) {
             for (const std::vector<double>& row : i.rows)
                 reading(s, i).series.push_back({row[0], row[1]});
         }},
    {.key = "reading.*.series[].after",
     .kind = K::quantity,
     .measure = M::time_s,
     .range = {0, 86400},
     .example = "5 min",
     .words = "time at pace"},
    {.key = "reading.*.series[].temp",
     .kind = K::quantity,
     .measure = M::temp_degC,
     .range = {-40, 160},
     .example = "62 degC",
     .words = "what was logged"},
    {.key = "reading.*.scatter",
     .kind = K::quantity,
     .measure = M::difference_K,
     .range = {0.2, 30},
     .example = "2 K",
     .words = "one standard deviation of the reading; left out: by its place",
     .put = [](Setup& s, const Item& i) { reading(s, i).scatter_K = i.number; }},
    {.key = "reading.*.cooler",
     .kind = K::word,
     .accepted = "as-fitted | off",
     .fallback = "\"as-fitted\"",
     .words = "off: taken with the cooler out of the oil circuit",
     .put = [](Setup& s, const Item& i) { reading(s, i).cooler = i.choice == 0; }},
    {.key = "measured.date",
     .kind = K::text,
     .need = true,
     .when = "measured",
     .example = "2026-05-30",
     .words = "day of the fit; [measured] is written by `caseload calibrate`",
     .put = [](Setup& s, const Item& i) { measured(s).date = i.text(); }},
    {.key = "measured.readings",
     .kind = K::integer,
     .range = {1, 10000},
     .need = true,
     .when = "measured",
     .words = "temperatures it rests on",
     .put = [](Setup& s, const Item& i) { measured(s).readings = static_cast<int>(i.number); }},
    {.key = "measured.setup",
     .kind = K::names,
     .when = "measured",
     .words = "check sums of the case as it was measured; another case is told"},
    {.key = "measured.*.median",
     .kind = K::number,
     .range = {0.05, 20},
     .need = true,
     .words = "of a factor of the band",
     .put = [](Setup& s, const Item& i) { factor(s, i).median = i.number; }},
    {.key = "measured.*.spread",
     .kind = K::number,
     .range = {0, 2},
     .need = true,
     .words = "standard deviation of its logarithm",
     .put = [](Setup& s, const Item& i) { factor(s, i).spread = i.number; }},
    {.key = "measured.*.told_apart",
     .kind = K::flag,
     .words = "the readings alone find it; else they only narrow it together with others",
     .put = [](Setup& s, const Item& i) { factor(s, i).told_apart = i.value.flag; }},
    {.key = "measured.*.with",
     .kind = K::numbers,
     .range = {-1, 1},
     .words = "correlations with the factors of the band before it",
     .put = [](Setup& s, const Item& i) { factor(s, i).with = i.numbers; }},
};

}  // namespace

std::span<const Field> reading_fields() {
    return readings_rows;
}

}  // namespace caseload::input
