// SPDX-License-Identifier: MIT
// The reader of a setup's text alone: any bytes, with their bases, become entries or an Error.
// setup_fuzzer builds a setup of them as well and takes fewer in the same time.
#include "caseload/input.hpp"
#include "input/shortest.hpp"
#include "require.hpp"

#include <cstddef>
#include <cstdint>
#include <optional>
#include <string>

using namespace caseload;
using fuzz::require;

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
    try {
        const Document read({reinterpret_cast<const char*>(data), size}, "fuzz.toml",
                            input_test::find_base);
    } catch (const Error& error) {
        fuzz::require_report(error);
    }
    return 0;
}
