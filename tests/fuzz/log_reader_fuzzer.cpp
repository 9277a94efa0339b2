// SPDX-License-Identifier: MIT
// The reader of a log's rows alone: any bytes become instants, all of them numbers, or an Error.
// log_fuzzer makes an event of them as well and takes fewer in the same time.
#include "duty/dialect.hpp"
#include "duty/layout.hpp"
#include "duty/log_text.hpp"
#include "duty/rows.hpp"
#include "duty/text.hpp"
#include "require.hpp"

#include <cmath>
#include <cstddef>
#include <cstdint>
#include <string>

using namespace caseload;
using fuzz::require;

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
    const std::string file = "log.csv";
    duty_test::Text log(std::string(reinterpret_cast<const char*>(data), size));
    try {
        duty::Windows windows = duty::windows_of(log);
        duty::Dialect dialect;
        const duty::Sampled sampled = duty::sample_lines(windows, dialect, file);
        duty::vote(sampled, {}, file, dialect);
        const duty::Layout layout = duty::lay_out(sampled, dialect, {}, file);
        duty::TextStream stream(log, windows.head, layout.dialect);
        duty::RowReader reader(layout, file, {});
        const auto take = [&](const duty::Instants& instants, std::size_t count) {
            require(count <= duty::Instants::most, "more than there is room for", file);
            for (std::size_t i = 0; i < count; ++i) {
                const duty::Instant instant = instants.at(i);
                require(std::isfinite(instant.t_s), "no time", file);
                for (std::size_t c = 0; c < duty::channel_count; ++c)
                    if (instant.has(static_cast<duty::Channel>(c)))
                        require(std::isfinite(instant.value.at(c)), "no number", file);
            }
        };
        const duty::RowCounts rows = reader.run(stream, take);
        require(rows.lines <= size + 1, "more lines than bytes", file);
    } catch (const Error& error) {
        fuzz::require_report(error);
    }
    return 0;
}
