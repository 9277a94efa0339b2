// SPDX-License-Identifier: MIT
// The checked and completed values of a setup, before they become a Setup.
#pragma once

#include "input/item.hpp"

#include "caseload/note.hpp"

#include <map>
#include <set>
#include <string>
#include <string_view>
#include <vector>

namespace caseload::input {

/// Values by key, and every problem found.
class Completed {
public:
    explicit Completed(std::string file) : file_(std::move(file)) {}

    std::vector<Problem> problems;
    Notes notes;
    /// Names a setup may take parts by, for each heading of a library.
    std::map<std::string, std::vector<std::string>> known_parts;
    /// Adds the name in a key of [core], once.
    void add_known_core(const std::string& key);

    [[nodiscard]] const std::map<std::string, Item>& items() const { return items_; }
    [[nodiscard]] bool has(const std::string& key) const { return items_.contains(key); }
    [[nodiscard]] const Item* find(const std::string& key) const;
    /// True if the key is given, rightly or wrongly: no default, not missing.
    [[nodiscard]] bool given(const std::string& key) const { return has(key) || failed(key); }
    /// Text of a word or name; "" if it is not there.
    [[nodiscard]] std::string text(const std::string& key) const;
    /// Names under a heading: names("bearing") gives "input_front", ...
    [[nodiscard]] const std::set<std::string>& names(std::string_view heading) const;
    /// True if the condition of a field is true for the instance `key` belongs to.
    [[nodiscard]] bool holds(std::string_view condition, std::string_view key) const;
    /// True if a key that begins with this was wrong or missing: what depends on it is not checked.
    [[nodiscard]] bool broken(std::string_view beginning) const;

    void put(const std::string& key, Item item);
    /// Numbers a word stands for, kept with the word.
    void set_preset(const std::string& key, std::vector<double> numbers);
    /// Remembers that the key was given but cannot be used.
    void fail(const std::string& key);
    void add(Problem problem);
    /// A problem at the value of a key; at the file as a whole if the key is not there.
    void problem(const std::string& key, std::string text, std::string hint = {});
    /// The same at the first of these keys that the user gave, else at the first that is there.
    void problem_at(const std::vector<std::string>& keys, std::string text, std::string hint);
    void missing(const std::string& key);
    void note(std::string id, std::string about, std::string text);
    [[nodiscard]] bool full() const { return problems.size() >= most_problems; }

    static constexpr std::size_t most_problems = 50;

private:
    [[nodiscard]] Where place_of_missing(const Field& field, const std::string& key) const;
    [[nodiscard]] bool failed(const std::string& key) const { return failed_.contains(key); }

    void add_name(const std::string& key);

    std::map<std::string, Item> items_;
    std::set<std::string> failed_;
    std::map<std::string, std::set<std::string>, std::less<>> names_;
    std::string file_;
};

/// Checks one leaf against its field: kind, unit, range. Adds the item, or its problem.
void add_leaf(Completed& to, const std::string& key, const Leaf& leaf, Origin origin);

/// Checks a value against a field under the name `shown`. False after adding a problem.
bool check_value(Completed& to, const Field& field, const std::string& shown, const Leaf& leaf);

/// Checks a value that the tables supply; our own tables are right, so this always adds it.
void add_value(Completed& to, const std::string& key, const Value& value, Item origin);

/// The keys a field has in this setup: one, or one for each name under its heading.
[[nodiscard]] std::vector<std::string> instances(const Completed& from, const Field& field);

/// Fills what is not given: standard values, what words stand for, what an oil grade and a course
/// say. Then adds a problem for each needed key that is still not there.
void complete_values(Completed& to);

/// Whether another value under a key that is there could fill, need or exclude other keys.
[[nodiscard]] bool decides_others(const Completed& to, const std::string& key);

/// Turns the values into a Setup; adds the problems that several values have together.
[[nodiscard]] Setup build_setup(Completed& from);

}  // namespace caseload::input
