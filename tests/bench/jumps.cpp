// SPDX-License-Identifier: MIT
// Random setups, each continuous entry larger by 0.1 % in turn: the largest move of the oil by each
// key, largest first, and every move above 1 K. Fails when there is one.
//
//     caseload_jumps SEED COUNT
#define DOCTEST_CONFIG_IMPLEMENT
#include "entry_steps.hpp"
#include "random_setups.hpp"

#include <cstdio>
#include <cstdlib>
#include <map>

int main(int argc, char** argv) {
    using namespace caseload;
    if (argc != 3) {
        std::fputs("usage: caseload_jumps SEED COUNT\n", stderr);
        return 2;
    }
    const auto seed = static_cast<unsigned>(std::strtoul(argv[1], nullptr, 10));
    const std::size_t count = std::strtoul(argv[2], nullptr, 10);
    std::map<std::string, entry_steps::Moved> largest;
    std::size_t steps = 0;
    std::size_t jumps = 0;
    std::size_t setup = 0;
    std::size_t refused = 0;
    for (const auto& drawn : random_setups::drawn(seed, count).ran) {
        ++setup;
        std::vector<entry_steps::Moved> moves;
        try {
            moves = entry_steps::moves(entry_steps::without_switches(drawn.text));
        } catch (const Error&) {
            ++refused;
            continue;
        }
        for (const entry_steps::Moved& one : moves) {
            ++steps;
            if (one.by_K() > 1) {
                ++jumps;
                fmt::print("setup {}: {} = {}: {:.2f} to {:.2f} degC\n", setup, one.key, one.toml,
                           one.from_degC, one.to_degC);
            }
            entry_steps::Moved& most = largest[one.key];
            if (most.key.empty() || one.by_K() > most.by_K()) most = one;
        }
    }
    std::vector<entry_steps::Moved> all;
    for (const auto& [key, one] : largest) all.push_back(one);
    std::sort(all.begin(), all.end(),
              [](const auto& a, const auto& b) { return a.by_K() > b.by_K(); });
    all.resize(std::min<std::size_t>(all.size(), 15));
    for (const entry_steps::Moved& one : all) fmt::print("{:8.3f} K  {}\n", one.by_K(), one.key);
    fmt::print("{} setups, {} that cannot be calculated, {} steps, {} jumps above 1 K\n", setup,
               refused, steps, jumps);
    return jumps == 0 ? 0 : 1;
}
