// SPDX-License-Identifier: MIT
// Any result as JSON: every member, in the order its struct lists them.
#pragma once

#include "caseload/formulas/iso_21771.hpp"
#include "caseload/heat.hpp"
#include "caseload/kinds.hpp"
#include "caseload/quantity.hpp"
#include "show/json_value.hpp"

#include <fmt/format.h>

#include <optional>
#include <string>
#include <string_view>
#include <type_traits>
#include <utility>
#include <vector>

namespace caseload::json_writer {

using json_value::number;
using json_value::text;

template <class Enum>
std::string_view word(Enum kind) {
    return words_for(kind).key;
}

inline std::string_view word(iso_21771::Finding::Severity severity) {
    switch (severity) {
        case iso_21771::Finding::Severity::note:
            return "note";
        case iso_21771::Finding::Severity::watch:
            return "watch";
        case iso_21771::Finding::Severity::stop:
            return "stop";
    }
    return "";
}

/// A temperature the network or its draws found, not one a formula states.
inline constexpr std::string_view network_temp = "degC of the network";

class Writer {
public:
    template <class T>
    void write(const T& value, std::string_view unit) {
        if constexpr (std::is_same_v<T, bool>)
            out_ += value ? "true" : "false";
        else if constexpr (std::is_integral_v<T>)
            out_ += fmt::format("{}", value);
        else if constexpr (std::is_same_v<T, double>)
            // No temperature of the network above the ceiling is printed; oil_above_160_degC says
            // why.
            out_ += unit == network_temp && value > oil_ceiling_degC ? "null" : number(value);
        else if constexpr (std::is_same_v<T, std::string>)
            out_ += text(value);
        else if constexpr (std::is_enum_v<T>)
            out_ += text(word(value));
        else
            members(value, unit);
    }

    template <class T>
    void write(const std::optional<T>& value, std::string_view unit) {
        if (value)
            write(*value, unit);
        else
            out_ += "null";
    }

    template <class T>
    void write(const std::vector<T>& values, std::string_view unit) {
        out_ += '[';
        bool first = true;
        for (const T& value : values) {
            if (!first) out_ += ',';
            first = false;
            write(value, unit);
        }
        out_ += ']';
    }

    /// The unit of the member that contains this result applies to those of its members without
    /// one.
    template <class T>
    void members(const T& result, std::string_view unit = {}) {
        out_ += '{';
        bool first = true;
        each(result, [&](std::string_view name, const auto& value) {
            if (!first) out_ += ',';
            first = false;
            out_ += fmt::format("\"{}\":", name);
            const Quantity& row = quantity(Members<T>::owner, name);
            const bool of_network = row.unit == "degC" && row.how != "calculated";
            write(value, of_network         ? network_temp
                         : row.unit.empty() ? unit
                                            : std::string_view(row.unit));
        });
        if constexpr (std::is_same_v<T, EventHeat>)
            out_ +=
                fmt::format(",\"oil_above_160_degC\":{}", result.peak_oil_degC > oil_ceiling_degC);
        out_ += '}';
    }

    [[nodiscard]] std::string take() { return std::move(out_); }

private:
    std::string out_;
};

/// A whole result as one object.
template <class T>
std::string object(const T& result) {
    Writer writer;
    writer.members(result);
    return writer.take();
}

}  // namespace caseload::json_writer
