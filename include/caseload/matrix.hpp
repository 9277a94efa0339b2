// SPDX-License-Identifier: MIT
// Small symmetric, positive definite matrices: of normal distributions and least squares.
#pragma once

#include <cmath>
#include <cstddef>
#include <optional>
#include <vector>

namespace caseload {

/// Square, row by row.
class Matrix {
public:
    explicit Matrix(std::size_t n = 0) : n_(n), a_(n * n, 0.0) {}
    [[nodiscard]] std::size_t size() const { return n_; }
    double& operator()(std::size_t row, std::size_t column) { return a_[row * n_ + column]; }
    double operator()(std::size_t row, std::size_t column) const { return a_[row * n_ + column]; }

private:
    std::size_t n_;
    std::vector<double> a_;
};

/// Lower triangle L with L L' = of; nothing when `of` is not positive definite. A pivot down to
/// -slack counts as zero, for matrices that went through rounding.
inline std::optional<Matrix> cholesky(const Matrix& of, double slack = -1) {
    const std::size_t n = of.size();
    Matrix lower(n);
    for (std::size_t i = 0; i < n; ++i)
        for (std::size_t j = 0; j <= i; ++j) {
            double rest = of(i, j);
            for (std::size_t k = 0; k < j; ++k) rest -= lower(i, k) * lower(j, k);
            if (i != j) {
                lower(i, j) = lower(j, j) > 0 ? rest / lower(j, j) : 0;
            } else if (rest > 0) {
                lower(i, i) = std::sqrt(rest);
            } else if (!(rest >= -slack)) {
                return std::nullopt;
            }
        }
    return lower;
}

/// Solves L L' x = b.
inline std::vector<double> solved(const Matrix& lower, std::vector<double> b) {
    const std::size_t n = lower.size();
    for (std::size_t i = 0; i < n; ++i) {
        for (std::size_t k = 0; k < i; ++k) b[i] -= lower(i, k) * b[k];
        b[i] /= lower(i, i);
    }
    for (std::size_t i = n; i-- > 0;) {
        for (std::size_t k = i + 1; k < n; ++k) b[i] -= lower(k, i) * b[k];
        b[i] /= lower(i, i);
    }
    return b;
}

/// Inverse of L L'.
inline Matrix inverse(const Matrix& lower) {
    const std::size_t n = lower.size();
    Matrix result(n);
    for (std::size_t j = 0; j < n; ++j) {
        std::vector<double> unit(n, 0.0);
        unit[j] = 1;
        const std::vector<double> column = solved(lower, std::move(unit));
        for (std::size_t i = 0; i < n; ++i) result(i, j) = column[i];
    }
    return result;
}

}  // namespace caseload
