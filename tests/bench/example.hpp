// SPDX-License-Identifier: MIT
#pragma once

#include "caseload/input.hpp"

#include <filesystem>
#include <fstream>
#include <iterator>
#include <optional>
#include <string>

namespace caseload {

inline Document example(const std::string& name) {
    const std::filesystem::path folder = std::string(CASELOAD_ROOT) + "/docs/examples";
    const auto text = [](const std::filesystem::path& path) {
        std::ifstream in(path, std::ios::binary);
        return std::string(std::istreambuf_iterator<char>(in), {});
    };
    return {text(folder / name), name, [folder, text](const std::string& base) {
                return std::optional<std::string>(text(folder / base));
            }};
}

inline ReadSetup read_example(const std::string& name) {
    return example(name).complete();
}

}  // namespace caseload
