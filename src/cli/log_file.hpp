// SPDX-License-Identifier: MIT
// A log on disk or from a pipe.
#pragma once

#include "caseload/duty/log.hpp"

#include <cstdio>
#include <memory>
#include <string>

namespace caseload {

/// "-" is standard input. Throws Error{file} for what cannot be read or is a folder.
class LogFile : public duty::Bytes {
public:
    explicit LogFile(const std::string& path);

    [[nodiscard]] std::size_t read(char* to, std::size_t at_most) override;
    [[nodiscard]] std::optional<std::uint64_t> size() const override { return size_; }
    [[nodiscard]] std::size_t read_at(std::uint64_t offset, char* to, std::size_t at_most) override;

    /// Throws Error{file} when the file is another than when it was opened.
    void check_unchanged() const;

private:
    struct Close {
        void operator()(std::FILE* file) const;
    };
    struct Stamp {
        std::uint64_t size = 0;
        std::int64_t changed = 0;
    };
    [[nodiscard]] Stamp stamp() const;

    std::string path_;
    std::unique_ptr<std::FILE, Close> file_;
    std::optional<std::uint64_t> size_;
    Stamp opened_;
};

}  // namespace caseload
