// SPDX-License-Identifier: MIT
// Setup texts the input tests share.
#pragma once

#include "caseload/input.hpp"

#include <filesystem>
#include <fstream>
#include <iterator>
#include <optional>
#include <string>

namespace caseload::input_test {

inline std::string golden_folder() {
    return std::string(CASELOAD_ROOT) + "/tests/golden/";
}

inline std::string file_text(const std::string& path) {
    std::ifstream file(path, std::ios::binary);
    return std::string(std::istreambuf_iterator<char>(file), {});
}

/// Bases of the bad files: the folder beside them.
inline std::optional<std::string> find_bad_base(const std::string& name) {
    const std::string path = golden_folder() + "bad/base/" + name;
    if (!std::filesystem::is_regular_file(path)) return std::nullopt;
    return file_text(path);
}

/// The shortest useful setup.
inline std::string shortest() {
    return R"(caseload = 1
base = "pattern:two-gear-185mm"
gears.fitted = [33, 41]
oil.grade = "75W-90 synthetic"
housing.place = "behind-skid-plate"
vehicle.mass = "2350 kg"
vehicle.tyre = "37 in"
vehicle.axle_ratio = 5.43
vehicle.engine_power = "650 hp"
event.ambient = "38 degC"
event.course = "rough-desert"
event.duration = "6 h"
)";
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
