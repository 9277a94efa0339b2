// SPDX-License-Identifier: MIT
#include "bins/weights.hpp"

#include "caseload/matrix.hpp"

#include <utility>

namespace caseload::bins {
namespace {

// Judgement; with it the claims of tests/duty/bins_test.cpp are true.
constexpr double change = 0.1;        // of a time that weighs as much as an error of its tolerance
constexpr double least_factor = 0.2;  // of a bin's own time

/// Changes of the free bins' times; those of the others stay.
std::vector<double> changes(const std::vector<WantedSum>& sums, const std::vector<bool>& free,
                            const std::vector<double>& fixed) {
    const std::size_t rows = sums.size();
    const std::size_t bins = free.size();
    // As few unknowns as sums: x = A' (A A' + 1)^-1 wanted.
    std::vector<std::vector<double>> a(rows, std::vector<double>(bins, 0.0));
    std::vector<double> wanted(rows);
    for (std::size_t k = 0; k < rows; ++k) {
        double sum = 0;
        for (std::size_t i = 0; i < bins; ++i) {
            sum += sums[k].of_bins[i] * (free[i] ? 1 : 1 + fixed[i]);
            if (free[i]) a[k][i] = sums[k].of_bins[i] * change / sums[k].tolerance;
        }
        wanted[k] = (1 - sum) / sums[k].tolerance;
    }
    Matrix normal(rows);
    for (std::size_t k = 0; k < rows; ++k) {
        for (std::size_t j = 0; j < rows; ++j)
            for (std::size_t i = 0; i < bins; ++i) normal(k, j) += a[k][i] * a[j][i];
        normal(k, k) += 1;
    }
    // A sum of squares and 1: positive definite.
    const std::vector<double> y = solved(cholesky(normal).value(), std::move(wanted));
    std::vector<double> found = fixed;
    for (std::size_t i = 0; i < bins; ++i) {
        if (!free[i]) continue;
        found[i] = 0;
        for (std::size_t k = 0; k < rows; ++k) found[i] += change * a[k][i] * y[k];
    }
    return found;
}

}  // namespace

std::vector<double> time_factors(const std::vector<WantedSum>& sums, std::size_t bins) {
    std::vector<bool> free(bins, true);
    std::vector<double> x(bins, 0.0);
    bool bound = true;
    while (bound) {
        x = changes(sums, free, x);
        bound = false;
        for (std::size_t i = 0; i < bins; ++i)
            if (free[i] && x[i] < least_factor - 1) {
                x[i] = least_factor - 1;
                free[i] = false;
                bound = true;
            }
    }
    for (double& one : x) one += 1;
    return x;
}

}  // namespace caseload::bins
