// SPDX-License-Identifier: MIT
// Prints the likely peak of the oil of one setup: what a program of somebody else would do.
#include "caseload/assess.hpp"
#include "caseload/input.hpp"

#include <cstdio>
#include <filesystem>
#include <fstream>
#include <iterator>
#include <optional>
#include <string>

namespace {

std::string text_of(const std::filesystem::path& path) {
    std::ifstream file(path, std::ios::binary);
    return {std::istreambuf_iterator<char>(file), {}};
}

}  // namespace

int main(int, char** argv) {
    const std::filesystem::path setup(argv[1]);
    const caseload::ReadSetup read = caseload::read_setup(
        text_of(setup), setup.filename().string(), [&setup](const std::string& base) {
            return std::optional<std::string>(text_of(setup.parent_path() / base));
        });
    std::printf("%.6f\n", caseload::assess(read.setup).fitted.event.peak_oil_degC);
}
