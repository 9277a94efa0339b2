// SPDX-License-Identifier: MIT
// Fields of what was measured on the case itself: [reading] and [measured].
#include "input/field_rows.hpp"

namespace caseload::input {
namespace {

ReadingInput& reading(Setup& s, const Item& i) {
    return named(s.readings, i);
}

Measured& measured(Setup& s) {
    return there(s.measured);
}

MeasuredFactor& factor(Setup& s, const Item& i) {
    return named(measured(s).factors, i);
}

constexpr Field readings_rows[] = {
    row("reading.*.place", {K::word, accepted_words<ReadingPlace>},
        "where it was taken; a temperature label on the wall is not the oil", needed,
        fills<reading, &ReadingInput::place>),
    row("reading.*.leg", K::text, "leg of event.run, or the course, that was driven", needed,
        Example{"loop"}, fills<reading, &ReadingInput::leg>),
    row("reading.*.ambient", {K::quantity, M::temp_degC, {-40, 60}},
        "air in the shade when it was taken", needed, fills<reading, &ReadingInput::ambient_degC>),
    row("reading.*.start", {K::quantity, M::temp_degC, {-40, 160}},
        "whole case when the leg began; left out: the ambient",
        fills<reading, &ReadingInput::start_degC>),
    row("reading.*.at_pace", {K::quantity, M::time_s, {60, 86400}},
        "how long the leg had been driven at its pace", Example{"30 min"},
        fills<reading, &ReadingInput::at_pace_s>),
    row("reading.*.temp", {K::quantity, M::temp_degC, {-40, 160}},
        "what was read; of a temperature label the highest window that turned", Example{"104 degC"},
        fills<reading, &ReadingInput::temp_degC>),
    row("reading.*.clear", {K::quantity, M::temp_degC, {-40, 260}},
        "makes it a temperature label, read after the leg: its lowest window that stayed clear",
        Example{"110 degC"}, fills<reading, &ReadingInput::clear_degC>),
    row("reading.*.series", K::rows,
        "logged temperatures by rising time, in place of at_pace and temp",
        [](Setup& s, const Item& i) {
            for (const std::vector<double>& row : i.rows)
                reading(s, i).series.push_back({row[0], row[1]});
        }),
    row("reading.*.series[].after", {K::quantity, M::time_s, {0, 86400}}, "time at pace",
        Example{"5 min"}),
    row("reading.*.series[].temp", {K::quantity, M::temp_degC, {-40, 160}}, "what was logged",
        Example{"62 degC"}),
    row("reading.*.scatter", {K::quantity, M::difference_K, {0.2, 30}},
        "one standard deviation of the reading; left out: by its place", Example{"2 K"},
        fills<reading, &ReadingInput::scatter_K>),
    row("reading.*.cooler", {K::word, "as-fitted | off"},
        "off: taken with the cooler out of the oil circuit", Standard{"\"as-fitted\""},
        [](Setup& s, const Item& i) { reading(s, i).cooler = i.choice == 0; }),
    row("measured.date", K::text, "day of the fit; [measured] is written by `caseload calibrate`",
        needed, When{"measured"}, Example{"2026-05-30"}, fills<measured, &Measured::date>),
    row("measured.readings", {K::integer, {1, 10000}}, "temperatures it rests on", needed,
        When{"measured"}, fills<measured, &Measured::readings>),
    row("measured.setup", K::names,
        "check sums of the case as it was measured; a note says when it has changed since",
        When{"measured"}),
    row("measured.*.median", {K::number, {0.05, 20}}, "of an uncertain input", needed,
        fills<factor, &MeasuredFactor::median>),
    row("measured.*.spread", {K::number, {0, 2}}, "standard deviation of its logarithm", needed,
        fills<factor, &MeasuredFactor::spread>),
    row("measured.*.told_apart", K::flag,
        "the readings alone find it; else they only narrow it together with others",
        fills<factor, &MeasuredFactor::told_apart>),
    row("measured.*.with", {K::numbers, {-1, 1}},
        "correlations with the uncertain inputs listed before it",
        fills<factor, &MeasuredFactor::with>),
};

}  // namespace

std::span<const Field> reading_fields() {
    return readings_rows;
}

}  // namespace caseload::input
