// SPDX-License-Identifier: MIT
#include "cli/name_beside.hpp"

#include "caseload/error.hpp"
#include "cli/files.hpp"

#include <fmt/format.h>

#include <filesystem>

namespace caseload {

std::string name_beside(const std::string& file, const std::string& written) {
    namespace fs = std::filesystem;
    if (is_stream(file))
        refuse_input(
            fmt::format("{}: what is read from a pipe has no name that {} could take it by", file,
                        written),
            "name the setup's own file");
    const fs::path folder = fs::absolute(path_of(written)).parent_path();
    const std::u8string relative =
        fs::absolute(path_of(file)).lexically_relative(folder).generic_u8string();
    return {relative.begin(), relative.end()};
}

}  // namespace caseload
