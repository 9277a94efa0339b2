// SPDX-License-Identifier: MIT
// Where fields and lines end in a piece of text, sixteen bytes at a time.
#pragma once

#include <cstddef>
#include <cstdint>
#include <memory>

namespace caseload::duty {

/// Positions of delimiters and line ends in order.
class Separators {
public:
    explicit Separators(char delimiter) : delimiter_(delimiter) {}

    /// The text has to be readable to the next multiple of 64 beyond its size.
    void find(const char* text, std::size_t size);

    /// Before the first stands -1: one more is the start of the text.
    [[nodiscard]] const std::uint32_t* at() const { return at_.get() + 1; }
    /// Positions of those that end lines.
    [[nodiscard]] const std::uint32_t* line_ends() const { return ends_.get(); }
    [[nodiscard]] std::size_t count() const { return count_; }
    [[nodiscard]] std::size_t lines() const { return lines_; }

private:
    void reserve(std::size_t size);

    char delimiter_;
    std::unique_ptr<std::uint32_t[]> at_;
    std::unique_ptr<std::uint32_t[]> ends_;
    std::size_t room_ = 0;
    std::size_t count_ = 0;
    std::size_t lines_ = 0;
};

}  // namespace caseload::duty
