// SPDX-License-Identifier: MIT
// Where the lines of `assess --each` go, and the lines of an earlier run there.
#pragma once

#include "caseload/ask/band.hpp"

#include <cstddef>
#include <fstream>
#include <optional>
#include <span>
#include <string>
#include <vector>

namespace caseload {

/// `caseload assess [SETUP] --each LIST`.
struct EachOptions {
    std::string setup;  ///< "": the list names setup files
    std::string list;
    std::string out;    ///< file to write; "": standard output
    std::string shard;  ///< "k/n"; "": all
    bool resume = false;
    bool json_lines = false;  ///< the only form there is; the flag names it
    std::size_t draws = 0;
    unsigned threads = 0;  ///< 0: one a processor core
};
void run_each(const EachOptions& options);

/// A part of the rows, "k/n": row k and every n-th after it. Throws Error{input} for text that is
/// none.
struct Shard {
    std::size_t k = 1;
    std::size_t n = 1;
};
Shard read_shard(const std::string& text);

/// What the answers are of: a sum over the list, the texts of the setup, the draws and the version
/// of the program, as each line says it in "list".
std::string list_sum(const EachOptions& options, const std::vector<std::string>& texts);

/// Standard output, or the file of --out. Each line ends with the sum of its list.
class Lines {
public:
    /// `rows`: those to be answered, from 0. With --resume the lines of the file must be the
    /// answers of the first of them, of the same list; a last line that was cut short is taken off,
    /// nothing else. Throws Error{input} for any other file, which stays as it is; NotWritten.
    Lines(const EachOptions& options, std::span<const std::size_t> rows, const std::string& sum);

    /// Rows answered already.
    [[nodiscard]] std::size_t kept() const { return kept_; }
    /// One line with its end. Throws NotWritten.
    void write(const std::string& line);

private:
    std::string path_;
    std::string ending_;
    std::optional<std::ofstream> file_;
    std::size_t kept_ = 0;
    std::size_t written_ = 0;
};

}  // namespace caseload
