// SPDX-License-Identifier: MIT
// Reading files, the project's own among them.
#pragma once

#include <algorithm>
#include <filesystem>
#include <fstream>
#include <initializer_list>
#include <iterator>
#include <sstream>
#include <string>
#include <vector>

namespace test_files {

inline const std::string root = std::string(CASELOAD_ROOT) + "/";

inline const std::string light_file = root + "docs/examples/light.toml";

inline bool has(const std::string& text, const std::string& words) {
    return text.find(words) != std::string::npos;
}

inline std::string file_text(const std::string& path) {
    std::ifstream file(path, std::ios::binary);
    return std::string(std::istreambuf_iterator<char>(file), {});
}

inline std::vector<std::string> lines(const std::string& text) {
    std::vector<std::string> all;
    std::istringstream in(text);
    for (std::string line; std::getline(in, line);) all.push_back(line);
    return all;
}

/// Paths, from the root of the project, of the files below a folder, by ending; in order.
inline std::vector<std::string> below(const std::string& folder,
                                      std::initializer_list<std::string> endings) {
    std::vector<std::string> found;
    for (const auto& entry : std::filesystem::recursive_directory_iterator(root + folder))
        if (std::count(endings.begin(), endings.end(), entry.path().extension().string()) > 0)
            found.push_back(entry.path().lexically_relative(root).generic_string());
    std::sort(found.begin(), found.end());
    return found;
}

}  // namespace test_files
