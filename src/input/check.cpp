// SPDX-License-Identifier: MIT
// One value against its field: kind, unit, range. Long: one kind after the other, which all report
// through the same few functions; lists and rows read their members by them again.
#include "input/completed.hpp"
#include "input/fields.hpp"
#include "input/harmless.hpp"
#include "input/letters.hpp"
#include "input/library.hpp"
#include "input/nearest.hpp"
#include "input/oils.hpp"
#include "input/slips.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cctype>
#include <optional>
#include <utility>

namespace caseload::input {
namespace {

constexpr int least_teeth = 12;
constexpr int most_teeth = 200;
constexpr std::size_t longest_text = 200;

std::string_view kind_words(const Value& value) {
    switch (value.kind) {
        case Value::Kind::text:
            return "text in quotes";
        case Value::Kind::number:
        case Value::Kind::integer:
            return "a bare number";
        case Value::Kind::flag:
            return "true or false without quotes";
        case Value::Kind::list:
            return "a list";
        case Value::Kind::table:
            return "a table";
    }
    return {};
}

class Check {
public:
    Check(Completed& to, const Field& field, std::string shown)
        : to_(to), field_(field), shown_(std::move(shown)) {}

    /// Reads item.value; false after adding a problem.
    bool read(Item& item) {
        const Value& value = item.value;
        if (value.kind == Value::Kind::text && value.text.size() > longest_text)
            return too_long(value);
        switch (field_.kind) {
            case FieldKind::quantity:
                return quantity(value, item);
            case FieldKind::quantities:
                return quantities(value, item);
            case FieldKind::number:
                return number(value, item);
            case FieldKind::integer:
                return integer(value, item);
            case FieldKind::text:
                return name(value);
            case FieldKind::word:
                return word(value, split_words(field_.accepted), item);
            case FieldKind::grade:
                return grade(value, item);
            case FieldKind::flag:
                return value.kind == Value::Kind::flag ||
                       wrong(value, "true or false, without quotes");
            case FieldKind::size:
                return size(value, item);
            case FieldKind::teeth:
                if (const std::optional<Value> counts = counts_of(value)) item.value = *counts;
                return teeth(value, item);
            case FieldKind::numbers:
                return numbers(value, item);
            case FieldKind::names:
                return names(value, item);
            case FieldKind::rows:
                return rows(value, item);
            case FieldKind::pairs:
                return pairs(value, item);
            case FieldKind::part:
                return part(value);
        }
        return false;
    }

private:
    bool report(const Value& value, const std::string& what, std::string hint) {
        to_.add({value.where, fmt::format("{} = {}: {}", shown_, short_text(value), what),
                 std::move(hint)});
        return false;
    }

    bool wrong(const Value& value, std::string_view expected) {
        return report(value,
                      fmt::format("{} found, but this key takes {}", kind_words(value), expected),
                      std::string(field_.words));
    }

    bool too_long(const Value& value) {
        return report(value, "the text is longer than 200 characters", std::string(field_.words));
    }

    struct Read {
        double number = 0;
        bool converted = false;
        std::string slip = {};  ///< the more likely text
    };

    bool in_range(const Value& value, const Read& read) {
        const Range& range = field_.range;
        if (read.number >= range.low && read.number <= range.high) return true;
        const MeasureWords& words = words_of(field_.measure);
        const std::string unit = words.unit.empty() ? "" : fmt::format(" {}", words.unit);
        const std::string read_as =
            read.converted ? fmt::format(" (it is {:.6g}{})", read.number, unit) : "";
        const std::string hint =
            field_.measure == Measure::none || field_.measure == Measure::share
                ? std::string(field_.words)
                : fmt::format("{}, for example {}", field_.words, example_of(field_));
        if (!read.slip.empty())
            return report(value,
                          fmt::format("must be from {:.6g} to {:.6g}{}{}", range.low, range.high,
                                      unit, read_as),
                          read.slip);
        if (read.number <= 0 && range.low > 0)
            return report(value, fmt::format("must be above 0{}", unit), hint);
        return report(
            value,
            fmt::format("must be from {:.6g} to {:.6g}{}{}", range.low, range.high, unit, read_as),
            hint);
    }

    bool quantity(const Value& value, Item& item) {
        if (value.is_number())
            return report(value, "a bare number has no unit",
                          fmt::format("write it with its unit in quotes, for example \"{}\"",
                                      example_of(field_)));
        if (value.kind != Value::Kind::text)
            return wrong(value, fmt::format("one value such as \"{}\"", example_of(field_)));
        if (!field_.accepted.empty() && value.text == field_.accepted) {
            item.by_word = true;
            return true;
        }
        const Quantity read = read_quantity(field_.measure, value.text);
        if (!read.ok) {
            const std::string slip = slipped(field_, value.text);
            if (!slip.empty()) return report(value, read.problem, slip);
            return report(value, read.problem,
                          read.offer_example
                              ? fmt::format("{}; for example \"{}\"", read.hint, example_of(field_))
                              : read.hint);
        }
        if (!read.note.empty())
            to_.note("input.unit", shown_, fmt::format("{}: {}", shown_, read.note));
        item.number = read.value;
        const bool outside = read.value < field_.range.low || read.value > field_.range.high;
        return in_range(value, {read.value, read.converted,
                                outside ? slipped(field_, value.text) : std::string()});
    }

    bool quantities(const Value& value, Item& item) {
        if (value.kind != Value::Kind::list) {
            const bool ok = quantity(value, item);
            item.numbers = {item.number};
            return ok;
        }
        if (value.items.empty())
            return report(value, "the list is empty", std::string(field_.words));
        for (const Value& one : value.items) {
            if (!quantity(one, item)) return false;
            item.numbers.push_back(item.number);
        }
        return true;
    }

    bool number(const Value& value, Item& item) {
        item.number = value.number;
        if (value.kind == Value::Kind::text && field_.measure == Measure::share) {
            const Quantity read = read_quantity(Measure::share, value.text);
            if (!read.ok) return report(value, read.problem, read.hint);
            item.number = read.value;
        } else if (!value.is_number()) {
            return wrong(value, "a bare number, without quotes");
        }
        return in_range(value, {item.number, false});
    }

    bool integer(const Value& value, Item& item) {
        item.number = value.number;
        if (value.kind != Value::Kind::integer)
            return wrong(value, "a whole number, without quotes");
        return in_range(value, {value.number, false});
    }

    bool name(const Value& value) {
        if (value.kind != Value::Kind::text) return wrong(value, "text in quotes");
        if (!is_harmless(value.text))
            return report(value,
                          "the text holds line ends, control characters or marks that turn the "
                          "direction of writing",
                          std::string(field_.words));
        return true;
    }

    bool word(const Value& value, const std::vector<std::string>& accepted, Item& item) {
        if (value.kind != Value::Kind::text)
            return wrong(value, fmt::format("one of the words {}", fmt::join(accepted, ", ")));
        const auto found = std::find(accepted.begin(), accepted.end(), value.text);
        if (found != accepted.end()) {
            item.choice = static_cast<std::size_t>(found - accepted.begin());
            return true;
        }
        const std::string near = nearest_word(accepted, value.text);
        return report(
            value, fmt::format("is not one of {}", fmt::join(accepted, ", ")),
            near.empty() ? std::string(field_.words) : fmt::format("did you mean \"{}\"?", near));
    }

    bool grade(const Value& value, Item& item) {
        const std::vector<std::string>& grades = oil_grades();
        if (value.kind != Value::Kind::text)
            return wrong(value, "a grade such as \"75W-90 synthetic\"");
        if (std::find(grades.begin(), grades.end(), value.text) != grades.end())
            return word(value, grades, item);
        std::vector<std::string> all = grades;
        const std::vector<std::string>& own = to_.known_parts["oil"];
        all.insert(all.begin(), own.begin(), own.end());
        const std::string near = nearest_word(all, value.text);
        return report(value,
                      fmt::format("there is no such grade in the oil table{}",
                                  own.empty() ? "" : " or the library"),
                      near.empty() ? fmt::format("grades are {}", fmt::join(all, ", "))
                                   : fmt::format("did you mean \"{}\"?", near));
    }

    /// A part's name that is known was replaced by the part before its key came here.
    bool part(const Value& value) {
        if (value.kind != Value::Kind::text)
            return wrong(value, fmt::format("the name of a {} of the library", heading()));
        const std::vector<std::string>& own = to_.known_parts[heading()];
        const std::string near = nearest_word(own, value.text);
        std::string hint = fmt::format("name the file that holds it: library = \"shop.toml\"");
        if (!own.empty()) hint = fmt::format("there are {}", fmt::join(own, ", "));
        if (!near.empty()) hint = fmt::format("did you mean \"{}\"?", near);
        return report(value, fmt::format("there is no {} of this name in a library", heading()),
                      std::move(hint));
    }

    /// First part of the key, or the key in the words of a library's parts.
    [[nodiscard]] std::string heading() const {
        return field_.accepted.empty() ? std::string(field_.key.substr(0, field_.key.find('.')))
                                       : std::string(field_.accepted);
    }

    bool size(const Value& value, Item& item) {
        if (value.kind != Value::Kind::text)
            return wrong(value, fmt::format("a size such as \"{}\"", field_.example));
        // No size begins with a letter: a core by its name, and an unknown one.
        if (!field_.accepted.empty() && !value.text.empty() &&
            std::isalpha(static_cast<unsigned char>(value.text.front())) != 0)
            return part(value);
        const ThreeLengths read = read_size(value.text);
        if (!read.ok)
            return report(value, read.problem, fmt::format("{}, {}", field_.words, read.hint));
        for (const double mm : read.mm) {
            if (!in_range(value, {mm, true})) return false;
            item.numbers.push_back(mm);
        }
        return true;
    }

    /// "31/43" as the list it means; nothing for any other value.
    static std::optional<Value> counts_of(const Value& value) {
        if (value.kind != Value::Kind::text || value.text.find('/') == std::string::npos)
            return std::nullopt;
        Value list;
        list.kind = Value::Kind::list;
        list.where = value.where;
        std::string_view rest = value.text;
        while (true) {
            const std::size_t end = std::min(rest.find('/'), rest.size());
            const std::string_view digits = trimmed(rest.substr(0, end));
            if (digits.empty() || digits.size() > 3 ||
                !std::all_of(digits.begin(), digits.end(), digit))
                return std::nullopt;
            Value count;
            count.kind = Value::Kind::integer;
            count.where = value.where;
            for (const char c : digits) count.number = 10 * count.number + (c - '0');
            list.items.push_back(std::move(count));
            if (end == rest.size()) return list;
            rest.remove_prefix(end + 1);
        }
    }

    bool teeth(const Value& value, Item& item) {
        if (value.kind == Value::Kind::text && !field_.accepted.empty()) return true;
        if (value.kind != Value::Kind::list || value.items.empty())
            return wrong(value,
                         field_.accepted.empty()
                             ? "tooth counts such as [33, 41] or 33/41"
                             : "tooth counts such as [33, 41] or 33/41, or the name of a set");
        for (const Value& one : value.items) {
            if (one.kind != Value::Kind::integer || one.number < least_teeth ||
                one.number > most_teeth)
                return report(one,
                              fmt::format("a gear has a whole number of teeth from {} to {}",
                                          least_teeth, most_teeth),
                              "give the teeth of each gear, not a percentage");
            item.numbers.push_back(one.number);
        }
        return true;
    }

    bool numbers(const Value& value, Item& item) {
        if (value.kind != Value::Kind::list || value.items.empty())
            return wrong(value, "a list of numbers such as [2.48, 1.48, 1.0]");
        for (const Value& one : value.items) {
            if (!number(one, item)) return false;
            item.numbers.push_back(item.number);
        }
        return true;
    }

    bool names(const Value& value, Item& item) {
        if (value.kind != Value::Kind::list || value.items.empty())
            return wrong(value, "a list of names in quotes such as [\"input\", \"output\"]");
        for (const Value& one : value.items) {
            if (one.kind != Value::Kind::text) return wrong(one, "names in quotes");
            if (one.text.size() > longest_text) return too_long(one);
            item.texts.push_back(one.text);
        }
        return true;
    }

    [[nodiscard]] std::string member_list() const {
        std::vector<std::string> list;
        for (const Field* member : members_of(field_.key))
            list.emplace_back(member->key.substr(member->key.rfind('.') + 1));
        return fmt::format("{}", fmt::join(list, ", "));
    }

    bool read_member(const Field& member, const Value& value, const std::string& shown,
                     std::vector<double>& row) {
        Item item;
        item.value = value;
        if (!Check(to_, member, shown).read(item)) return false;
        row.push_back(item.number);
        return true;
    }

    bool rows(const Value& value, Item& item) {
        if (value.kind != Value::Kind::list || value.items.empty())
            return wrong(value, fmt::format("a list of rows such as {{ {} }}", member_list()));
        bool ok = true;
        for (std::size_t i = 0; i < value.items.size(); ++i)
            ok = row(value.items[i], fmt::format("{}, row {}", shown_, i + 1), item) && ok;
        return ok;
    }

    bool row(const Value& value, const std::string& shown, Item& item) {
        if (value.kind != Value::Kind::table)
            return wrong(value, fmt::format("rows such as {{ {} }}", member_list()));
        bool ok = true;
        std::vector<double> out;
        std::vector<std::string> known;
        std::vector<std::string> absent;
        for (const Field* member : members_of(field_.key)) {
            const std::string name(member->key.substr(member->key.rfind('.') + 1));
            known.push_back(name);
            const auto found = std::find_if(value.members.begin(), value.members.end(),
                                            [&](const Member& one) { return one.key == name; });
            if (found != value.members.end()) {
                ok = read_member(*member, found->value, fmt::format("{}: {}", shown, name), out) &&
                     ok;
                continue;
            }
            ok = false;
            absent.push_back(name);
        }
        for (const auto& [name, extra] : value.members) {
            if (std::find(known.begin(), known.end(), name) != known.end()) continue;
            const std::string near = nearest_word(known, name);
            absent.erase(std::remove(absent.begin(), absent.end(), near), absent.end());
            ok = false;
            to_.add({extra.where, fmt::format("{}: {} is not a member of a row", shown, name),
                     near.empty() ? fmt::format("members are {}", member_list())
                                  : fmt::format("did you mean {}?", near)});
        }
        for (const std::string& name : absent)
            to_.add({value.where, fmt::format("{}: {} is not there", shown, name),
                     fmt::format("each row is {{ {} }}", member_list())});
        item.rows.push_back(std::move(out));
        return ok;
    }

    bool pairs(const Value& value, Item& item) {
        const std::vector<const Field*> members = members_of(field_.key);
        const std::string example =
            "pairs such as [[\"3000 rpm\", \"700 N m\"], [\"5000 rpm\", \"800 N m\"]]";
        if (value.kind != Value::Kind::list || value.items.empty()) return wrong(value, example);
        for (std::size_t i = 0; i < value.items.size(); ++i) {
            const Value& pair = value.items[i];
            if (pair.kind != Value::Kind::list || pair.items.size() != members.size())
                return wrong(pair, example);
            std::vector<double> out;
            for (std::size_t m = 0; m < members.size(); ++m)
                if (!read_member(*members[m], pair.items[m],
                                 fmt::format("{}, pair {}", shown_, i + 1), out))
                    return false;
            if (!item.rows.empty() && out[0] <= item.rows.back()[0])
                return report(pair, "the speeds of the curve do not rise",
                              std::string(field_.words));
            item.rows.push_back(std::move(out));
        }
        return true;
    }

    Completed& to_;
    const Field& field_;
    std::string shown_;
};

}  // namespace

void add_leaf(Completed& to, const std::string& key, const Leaf& leaf, Origin origin) {
    if (to.full()) return;
    const Field* field = find_field(key);
    const bool empty_table = leaf.value.kind == Value::Kind::table;
    if (field == nullptr && empty_table && is_heading(key)) {
        // [bearing.input_rear] with nothing below: a bearing of which everything is missing.
        if (key.find('.') != std::string::npos) to.fail(key + ".");
        return;
    }
    if (field == nullptr) {
        to.fail(key);
        if (is_heading(key)) {
            to.add({leaf.value.where,
                    fmt::format("{} = {}: {} is a heading, not a key", key, short_text(leaf.value),
                                key),
                    hint_for_heading(key)});
        } else {
            KeyHint hint = hint_for_key(key);
            if (!hint.meant.empty()) to.fail(hint.meant);  // not missing as well
            to.add({leaf.key_where, fmt::format("unknown key {}", key), std::move(hint.text)});
        }
        return;
    }
    Item item;
    item.value = leaf.value;
    item.where = leaf.key_where;
    item.origin = origin;
    item.field = field;
    item.name = name_in(field->key, key);
    if (Check(to, *field, key).read(item)) {
        to.put(key, std::move(item));
        return;
    }
    to.fail(key);
    if (field->kind != FieldKind::part) return;
    for (const std::string& member : members_taken_by(key)) to.fail(member);  // not missing as well
}

bool check_value(Completed& to, const Field& field, const std::string& shown, const Leaf& leaf) {
    Item item;
    item.value = leaf.value;
    return Check(to, field, shown).read(item);
}

void add_value(Completed& to, const std::string& key, const Value& value, Item origin) {
    origin.field = find_field(key);
    origin.value = value;
    origin.name = name_in(origin.field->key, key);
    if (Check(to, *origin.field, key).read(origin)) to.put(key, std::move(origin));
}

}  // namespace caseload::input
