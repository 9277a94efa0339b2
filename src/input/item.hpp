// SPDX-License-Identifier: MIT
// One value of the setup, checked against its field.
#pragma once

#include "caseload/input.hpp"
#include "caseload/kinds.hpp"
#include "input/value.hpp"

#include <cstddef>
#include <string>
#include <vector>

namespace caseload::input {

struct Field;

struct Item {
    Value value;
    const Field* field = nullptr;
    std::string name;  ///< what "*" stands for
    Origin origin = Origin::standard;
    Where where;  ///< of the key
    std::string source;
    std::string low;  ///< plausible ends, as TOML text
    std::string high;
    std::string shown;                      ///< value for people, where its text has more figures
    double number = 0;                      ///< in the measure's own unit
    bool by_word = false;                   ///< a quantity given by the field's one word
    std::vector<double> numbers;            ///< of a size or list
    std::vector<std::vector<double>> rows;  ///< of rows and pairs, members in table order
    std::size_t choice = 0;                 ///< of a word: its place in the accepted words
    std::vector<std::string> texts;         ///< of a list of names
    std::vector<double> preset;             ///< numbers a word stands for without filling a key
    std::string by;                         ///< key whose word, unknown, gives it this number

    [[nodiscard]] const std::string& text() const { return value.text; }
};

/// The kind whose word it is, of a field that accepts the words of this enum.
template <class Enum>
Enum chosen(const Item& item) {
    return kind_rows<Enum>.at(item.choice).kind;
}

}  // namespace caseload::input
