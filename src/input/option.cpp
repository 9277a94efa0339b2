// SPDX-License-Identifier: MIT
// Values given on the command line, read by the field table.
#include "caseload/error.hpp"
#include "caseload/input.hpp"
#include "input/fields.hpp"
#include "input/quantity.hpp"

#include <fmt/format.h>

namespace caseload {

double read_option(std::string_view option, std::string_view pattern, std::string_view text) {
    const input::Field& field = input::field_of(pattern);
    const input::Quantity read = input::read_quantity(field.measure, text);
    if (!read.ok)
        refuse_input(fmt::format("{} \"{}\": {}", option, text, read.problem),
                     fmt::format("{}; for example \"{}\"", read.hint, input::example_of(field)));
    if (!(read.value >= field.range.low && read.value <= field.range.high))
        refuse_input(
            fmt::format("{} \"{}\": must be from {:g} to {:g} {}", option, text, field.range.low,
                        field.range.high, input::words_of(field.measure).unit),
            fmt::format("for example \"{}\"", input::example_of(field)));
    return read.value;
}

std::array<double, 3> read_size_option(std::string_view option, std::string_view text) {
    const input::ThreeLengths read = input::read_size(text);
    if (!read.ok) refuse_input(fmt::format("{} \"{}\": {}", option, text, read.problem), read.hint);
    return read.mm;
}

}  // namespace caseload
