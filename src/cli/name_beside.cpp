// SPDX-License-Identifier: MIT
#include "cli/name_beside.hpp"

#include "cli/files.hpp"

#include <filesystem>

namespace caseload {

std::string name_beside(const std::string& file, const std::string& written) {
    namespace fs = std::filesystem;
    const fs::path folder = fs::absolute(path_of(written)).parent_path();
    const std::u8string relative =
        fs::absolute(path_of(file)).lexically_relative(folder).generic_u8string();
    return {relative.begin(), relative.end()};
}

}  // namespace caseload
