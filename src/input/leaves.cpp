// SPDX-License-Identifier: MIT
// TOML text -> leaves. The only user of the TOML parser.
#include "input/letters.hpp"
#include "input/scan.hpp"
#include "input/syntax.hpp"
#include "input/value.hpp"

#include "third_party/toml.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <new>

namespace caseload::input {
namespace {

class Reader {
public:
    explicit Reader(const Source& source) : source_(source), text_(with_quoted_ratios(source)) {}

    Leaves read() {
        try {
            // Without the file's name: the parser copies that where it may not throw.
            const toml::table root = toml::parse(std::string_view(text_));
            flatten(root, "", 1);
        } catch (const toml::parse_error& problem) {
            const auto begin = problem.source().begin;
            explain_syntax(source_, {static_cast<int>(begin.line), static_cast<int>(begin.column),
                                     std::string(problem.description())});
        } catch (const Error&) {
            throw;
        } catch (const std::bad_alloc&) {
            throw;
        } catch (const std::exception& problem) {
            // An assert of the parser; it does not say where.
            explain_syntax(source_, {first_bad_line(), 1, problem.what()});
        }
        return std::move(leaves_);
    }

private:
    /// The line at which the parser gives up without a parse error: every shorter text passes it.
    [[nodiscard]] int first_bad_line() const {
        const std::string_view text = text_;
        int good = 0;
        int bad = static_cast<int>(source_.count_lines());
        while (bad - good > 1) {
            const int middle = good + (bad - good) / 2;
            const std::string_view last = source_.line(middle);
            const auto size =
                static_cast<std::size_t>(last.data() + last.size() - source_.text().data());
            (gives_up(text.substr(0, size)) ? bad : good) = middle;
        }
        return bad;
    }

    [[nodiscard]] static bool gives_up(std::string_view text) {
        try {
            static_cast<void>(toml::parse(text));
        } catch (const toml::parse_error&) {
            return false;  // an open list or text goes on in the next line
        } catch (const std::bad_alloc&) {
            throw;
        } catch (const std::exception&) {
            return true;
        }
        return false;
    }

    /// A place without its line: thousands of values would each carry a copy.
    [[nodiscard]] Where spot(const Source::Place& at) const {
        return {source_.name(), at.line, at.column, at.width, {}};
    }

    [[nodiscard]] Source::Place place(const toml::source_region& region) const {
        const bool one_line = region.begin.line == region.end.line;
        const int begin = static_cast<int>(region.begin.column);
        const int line = static_cast<int>(region.begin.line);
        // Counted only where it is needed: a value of the command line may be long.
        const int width = one_line
                              ? static_cast<int>(region.end.column) - begin
                              : static_cast<int>(count_characters(source_.line(line))) - begin + 1;
        return {line, begin, std::max(width, 1)};
    }

    [[nodiscard]] Value value_of(const toml::node& node) const {
        Value value;
        const Source::Place at = place(node.source());
        value.where = spot(at);
        if (const auto* text = node.as_string()) {
            value.kind = Value::Kind::text;
            const std::string_view ratio = has_ratios_ ? ratio_at(source_, at) : std::string_view();
            value.text = ratio.empty() ? text->get() : std::string(ratio);
        } else if (const auto* integer = node.as_integer()) {
            value.kind = Value::Kind::integer;
            value.number = static_cast<double>(integer->get());
        } else if (const auto* number = node.as_floating_point()) {
            value.kind = Value::Kind::number;
            value.number = number->get();
            if (!std::isfinite(value.number))
                source_.fail(at, "nan and inf are not numbers to calculate with",
                             "write the number; a key that is left out is assumed");
        } else if (const auto* flag = node.as_boolean()) {
            value.kind = Value::Kind::flag;
            value.flag = flag->get();
        } else if (const auto* list = node.as_array()) {
            value.kind = Value::Kind::list;
            if (list->size() > longest_list)
                source_.fail(at, "the list has more than 1000 members",
                             "bins are slices of a leg's time, 5 to 200 of them");
            for (const toml::node& item : *list) value.items.push_back(value_of(item));
        } else if (const auto* table = node.as_table()) {
            value.kind = Value::Kind::table;
            for (const auto& [key, item] : *table)
                value.members.push_back({std::string(key.str()), value_of(item)});
        } else {
            source_.fail(at, "dates and times have no meaning in a setup",
                         "how long something takes is written with its unit, \"6 h\"; a day as "
                         "text, in quotes");
        }
        return value;
    }

    void flatten(const toml::table& table, const std::string& path, int depth) {
        for (const auto& [key, node] : table) {
            const std::string name(key.str());
            const Source::Place at = place(key.source());
            if (depth > deepest)
                source_.fail(at, "names are nested more than 32 deep",
                             "no key has more than four parts");
            if (name.empty() || name.find('.') != std::string::npos)
                source_.fail(at, "a name in quotes is empty or holds a dot",
                             "names are made of letters, digits, - and _");
            if (name.size() > longest_name)
                source_.fail(at, "a name is longer than 100 characters", "no key needs as many");
            std::string full = path;
            if (!full.empty()) full += '.';
            full += name;
            const auto* inner = node.as_table();
            if (inner != nullptr && !inner->empty()) {
                flatten(*inner, full, depth + 1);
                continue;
            }
            if (is_list_of_headings(node, at))
                source_.fail(at,
                             fmt::format("[[{}]]: headings in double brackets are not used", full),
                             fmt::format("give each one its name: [{}.front]", full));
            leaves_[full] = {value_of(node), spot(at)};
        }
    }

    [[nodiscard]] bool is_list_of_headings(const toml::node& node, const Source::Place& key) const {
        const auto* list = node.as_array();
        if (list == nullptr || list->empty() || !list->front().is_table()) return false;
        const std::string_view line = source_.line(key.line);
        const std::size_t first = line.find_first_not_of(" \t");
        return first != std::string_view::npos && line.substr(first, 2) == "[[";
    }

    static constexpr std::size_t longest_list = 1000;
    static constexpr std::size_t longest_name = 100;
    const Source& source_;
    const std::string text_;  ///< what the parser gets
    const bool has_ratios_ = text_ != source_.text();
    Leaves leaves_;
};

}  // namespace

Leaves parse_leaves(std::string_view text, const std::string& name, std::size_t longest) {
    const Source source(without_mark(text), name);
    check_limits(source, longest);
    return Reader(source).read();
}

}  // namespace caseload::input
