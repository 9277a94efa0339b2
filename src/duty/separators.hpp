// SPDX-License-Identifier: MIT
// Where fields and lines end in a piece of text, sixteen bytes at a time.
#pragma once

#include <cstddef>
#include <cstdint>
#include <memory>

namespace caseload::duty {

/// Where fields begin, by delimiters and line ends in order.
class Separators {
public:
    explicit Separators(char delimiter) : delimiter_(delimiter) {}

    /// The text has to be readable to the next multiple of 64 beyond its size.
    void find(const char* text, std::size_t size);

    /// The first is 0; each ends with the separator right before the next.
    [[nodiscard]] std::uint32_t* fields() { return fields_.get(); }
    /// Where lines begin but for the first: behind each line end.
    [[nodiscard]] const std::uint32_t* line_starts() const { return lines_at_.get(); }
    /// Of those that end.
    [[nodiscard]] std::size_t count() const { return count_; }
    [[nodiscard]] std::size_t lines() const { return lines_; }

private:
    void reserve(std::size_t size);

    char delimiter_;
    std::unique_ptr<std::uint32_t[]> fields_;
    std::unique_ptr<std::uint32_t[]> lines_at_;
    std::size_t room_ = 0;
    std::size_t count_ = 0;
    std::size_t lines_ = 0;
};

}  // namespace caseload::duty
