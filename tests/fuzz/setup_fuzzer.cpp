// SPDX-License-Identifier: MIT
// Any text is read or refused with an Error; what is read survives being written and read again.
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

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
    const std::string_view text(reinterpret_cast<const char*>(data), size);
    std::optional<ReadSetup> first;
    try {
        first = read_setup(text, "fuzz.toml", input_test::find_base);
    } catch (const Error& error) {
        fuzz::require_report(error);
        return 0;
    }
    const std::string completed = completed_text(*first);
    try {
        const ReadSetup second = read_setup(completed, "fuzz.toml", {});
        require(second.setup == first->setup, "reads back differently", completed);
    } catch (const Error& error) {
        require(false, "completed text is refused", problem_report(error) + completed);
    }
    return 0;
}
