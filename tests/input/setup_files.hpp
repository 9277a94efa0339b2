// SPDX-License-Identifier: MIT
// Setup texts the input tests share.
#pragma once

#include "caseload/input.hpp"
#include "files.hpp"
#include "input/shortest.hpp"

#include <filesystem>
#include <optional>
#include <string>

namespace caseload::input_test {

inline std::string golden_folder() {
    return test_files::root + "tests/golden/";
}

using test_files::file_text;

/// Bases of the bad files: the folder beside them.
inline std::optional<std::string> find_bad_base(const std::string& name) {
    const std::string path = golden_folder() + "bad/base/" + name;
    if (!std::filesystem::is_regular_file(path)) return std::nullopt;
    return file_text(path);
}

inline ReadSetup read(const std::string& text) {
    return read_setup(text, "setup.toml", {});
}

inline const Entry& entry(const ReadSetup& read, const std::string& key) {
    for (const Entry& one : read.entries)
        if (one.key == key) return one;
    static const Entry none;
    return none;
}

inline bool has_note(const ReadSetup& read, const std::string& id, const std::string& about) {
    for (const Note& note : read.notes)
        if (note.id == id && note.about == about) return true;
    return false;
}

}  // namespace caseload::input_test
