// SPDX-License-Identifier: MIT
// The checked and completed values of a setup, before they become a Setup.
#pragma once

#include "caseload/input.hpp"
#include "input/fields.hpp"
#include "input/value.hpp"

#include <map>
#include <optional>
#include <set>
#include <string>
#include <vector>

namespace caseload::input {

struct Item {
    Value value;
    Origin origin = Origin::standard;
    Where where;  ///< of the key
    std::string source;
    const Field* field = nullptr;
    double number = 0;            ///< of a quantity, number, integer, count
    std::vector<double> numbers;  ///< of a size or list
    std::string low;
    std::string high;
};

/// Collects values and problems; every get() of a missing key adds its problem once.
class Completed {
public:
    std::map<std::string, Item> items;
    std::vector<Problem> problems;
    Notes notes;

    [[nodiscard]] bool has(const std::string& key) const { return items.count(key) != 0; }
    /// Number of a key that must be there; 0 after adding a problem if it is not.
    double number(const std::string& key);
    std::optional<double> optional(const std::string& key) const;
    std::string word(const std::string& key);
    std::string text_or(const std::string& key, const std::string& fallback) const;
    bool flag(const std::string& key);
    /// Names under a heading: names("bearing") gives "input_front", ...
    [[nodiscard]] std::vector<std::string> names(const std::string& heading) const;
    /// A problem at a key's place.
    void problem(const std::string& key, std::string text, std::string hint = {});
    /// The key was given but not accepted: its absence is no second problem.
    void refused(const std::string& key) { missing_.insert(key); }
    [[nodiscard]] bool was_refused(const std::string& key) const {
        return missing_.count(key) != 0;
    }
    void note(std::string id, std::string about, std::string text);

    std::string default_file;  ///< where a missing key is reported

private:
    std::set<std::string> missing_;
};

/// Adds one leaf: finds its field, checks kind, unit and range.
void add_leaf(Completed& to, const std::string& key, const Value& value, const Where& key_where,
              Origin origin);

/// Fills presets and standard values that are not given.
void add_presets(Completed& to);
void add_standards(Completed& to);

/// Turns the values into a Setup; adds problems of meaning.
Setup build_setup(Completed& from);

/// Course lines and pace of a built-in course.
struct Course {
    double pace_mps = 0;
    std::string words;
    std::vector<CourseLine> lines;
};
const Course& course(const std::string& name);

}  // namespace caseload::input
