// SPDX-License-Identifier: MIT
// Random setups, one JSON document a line, for the browser and for the Windows program to do again;
// with DRAWS each with its answers by the native engine:
//
//     caseload_random_setups SEED COUNT [DRAWS]
#define DOCTEST_CONFIG_IMPLEMENT
#include "random_setups.hpp"

#include "live/session.hpp"
#include "show/json_value.hpp"

#include <cstdio>
#include <cstdlib>
#include <string>

int main(int argc, char** argv) {
    using namespace caseload;
    if (argc != 3 && argc != 4) {
        std::fputs("usage: caseload_random_setups SEED COUNT [DRAWS]\n", stderr);
        return 2;
    }
    const auto seed = static_cast<unsigned>(std::strtoul(argv[1], nullptr, 10));
    const std::size_t count = std::strtoul(argv[2], nullptr, 10);
    for (const auto& [text, setup] : random_setups::drawn(seed, count).ran) {
        if (argc == 3) {
            fmt::print("{{\"text\":{}}}\n", json_value::text(text));
            continue;
        }
        live::Session session;
        session.answer("open", "random.toml", text);
        const std::string chain = session.answer("chain", "", "");
        const std::string line = session.answer("line", argv[3], "");
        fmt::print("{{\"text\":{},\"chain\":{},\"line\":{}}}\n", json_value::text(text), chain,
                   line);
    }
    return 0;
}
