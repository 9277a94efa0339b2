// SPDX-License-Identifier: MIT
// How often low to high of random ten-entry cases holds a truth: coverage [CASES [TRUTHS [SEED]]].
// A line a case, then all together.
// Test support asks for it; no test runs here.
#define DOCTEST_CONFIG_IMPLEMENT
#include "coverage.hpp"

#include <cstdio>
#include <cstdlib>

using namespace caseload;

int main(int argc, char** argv) {
    const auto number = [&](int at, int otherwise) {
        return argc > at ? std::atoi(argv[at]) : otherwise;
    };
    const int cases = number(1, 100);
    const int truths = number(2, 200);
    random_setups::Dice dice(static_cast<unsigned>(number(3, 1)));
    coverage::Covered all;
    double least = 1;
    for (int i = 1; i <= cases; ++i) {
        const std::string text = coverage::ten_entries(dice);
        coverage::Covered one;
        try {
            one = coverage::covered(text, truths, static_cast<unsigned>(i));
        } catch (const Error& error) {
            std::printf("%d refused: %s\n", i, error.what());
            continue;
        }
        least = one.share() < least ? one.share() : least;
        all.truths += one.truths;
        all.held += one.held;
        all.below += one.below;
        std::printf("%d %.1f %% held, %d below, %d above\n", i, 100 * one.share(), one.below,
                    one.truths - one.held - one.below);
        std::fflush(stdout);
    }
    if (all.truths == 0) return 1;
    std::printf("all %.2f %% of %d, %.2f %% below, least of a case %.1f %%\n", 100 * all.share(),
                all.truths, 100.0 * all.below / all.truths, 100 * least);
}
