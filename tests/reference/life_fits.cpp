// SPDX-License-Identifier: MIT
// Prints the life data of the evidence and our fits, for tests/reference/life_fits.R.
#include "caseload/formulas/weibull_fit.hpp"
#include "evidence/life_sets.hpp"

#include <cstdio>

int main() {
    using namespace caseload;
    const auto interval = [](const LifeSet& set) {
        std::vector<weibull_fit::LifeRecord> seen = set.records;
        // Seen failing becomes found failed within a tenth: the same data, interval-censored.
        for (auto& one : seen)
            if (one.from == one.to) one.from *= 0.9;
        return LifeSet{set.name, seen, 0, 0, 0};
    };
    std::puts("set,kind,from,to,count,shape,scale,log_likelihood,scale_at_2");
    for (const LifeSet& original : life_sets())
        for (const bool between : {false, true}) {
            const LifeSet set = between ? interval(original) : original;
            const auto fit = weibull_fit::free_fit(set.records);
            const auto fixed = weibull_fit::fit_of_shape(set.records, 2);
            for (const auto& one : set.records)
                std::printf("%s%s,%s,%.17g,%.17g,%.17g,%.17g,%.17g,%.17g,%.17g\n", set.name.data(),
                            between ? "_between" : "", one.from == one.to ? "seen" : "censored",
                            one.from, one.to, one.count, fit.shape, fit.scale, fit.log_likelihood,
                            fixed.scale);
        }
}
