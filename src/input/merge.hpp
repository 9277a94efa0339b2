// SPDX-License-Identifier: MIT
// A setup file merged with its bases, key by key.
#pragma once

#include "caseload/input.hpp"
#include "input/library.hpp"
#include "input/value.hpp"

#include <map>
#include <string>
#include <string_view>
#include <vector>

namespace caseload::input {

/// The files of a setup: merged leaves, their texts, and problems that do not stop the reading.
class Merged {
public:
    /// Reads the text and its bases. Throws Error{input} where a text is not TOML or a base is not
    /// found.
    Merged(std::string_view text, const std::string& name, const FindBase& find_base);

    std::map<std::string, Sourced> leaves;
    std::vector<Problem> problems;
    Library library;

    /// Adds leaves of a newer layer: they replace older ones, and drop those that no longer apply.
    void add_layer(std::map<std::string, Sourced>& to, Leaves layer, Origin origin) const;

    /// Whether a leaf of a newer layer under this key can drop or bring others.
    [[nodiscard]] static bool moves_others(const std::string& key);

    /// Adds to the hint of the first problem of each file which file named it, up to the file given
    /// to the program.
    void say_who_named(std::vector<Problem>& found) const;

    /// The line a place is in; "" if the file is not one of these.
    [[nodiscard]] std::string source_line(const Where& where) const;

private:
    struct File {
        std::string_view text;
        std::string name;
        Origin origin;
        bool event_only = false;  ///< named by event.from
    };
    void read(const File& file, const FindBase& find_base);
    void read_base(const Value& base, const FindBase& find_base);
    void read_event(const Value& from, const FindBase& find_base);
    void read_library(const Value& named, const FindBase& find_base);
    void refuse_others_in_event(const Leaves& layer);
    void keep_lines(std::string_view text, const std::string& name);
    /// A key that names a file, its value, and what to write instead if it cannot be read.
    struct Naming {
        std::string_view key;
        const Value& value;
        std::string hint;
    };
    void require_name(const Naming& by, std::string_view what) const;
    void refuse_circle(const Naming& by) const;
    std::string text_beside(const Naming& by, const FindBase& find_base);
    [[noreturn]] void fail(const Naming& by, std::string_view what) const;

    std::map<std::string, std::vector<std::string>> lines_;
    struct Named {
        std::string as;  ///< "base", "library", "event.from"
        Where by;
    };
    std::map<std::string, Named> named_;
    std::vector<std::string> open_;  ///< names of the files being read, the outermost first
};

}  // namespace caseload::input
