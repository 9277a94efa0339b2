// SPDX-License-Identifier: MIT
// The reader of a setup's text alone: any bytes, with their bases, become entries or an Error.
// setup_fuzzer builds a setup of them as well and takes fewer in the same time.
#include "caseload/input.hpp"
#include "caseload/show/problems.hpp"
#include "input/shortest.hpp"
#include "require.hpp"

#include <cstddef>
#include <cstdint>
#include <optional>
#include <string>
#include <string_view>

using namespace caseload;
using fuzz::require;

namespace {

std::optional<std::string> find_base(const std::string& name) {
    if (name == "b") return input_test::shortest();
    return std::nullopt;
}

}  // namespace

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
    try {
        const Document read({reinterpret_cast<const char*>(data), size}, "fuzz.toml", find_base);
    } catch (const Error& error) {
        require(error.kind() == Error::Kind::input, "not an input error", error.what());
        require(!problem_report(error).empty(), "no report", error.what());
    }
    return 0;
}
