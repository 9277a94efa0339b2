// SPDX-License-Identifier: MIT
// The rows above the data: names, and units where there are.
#pragma once

#include "duty/dialect.hpp"

#include <string>
#include <vector>

namespace caseload::duty {

/// Below the names values have to begin within so many lines.
inline constexpr std::size_t rows_to_data = 4;

struct Header {
    std::vector<std::string> names;  ///< in UTF-8; empty: none found
    std::vector<std::string> units;  ///< as many, "" where there is none
    std::size_t line = 0;            ///< from 1
    std::size_t units_line = 0;      ///< 0: none
    std::size_t first_line = 0;      ///< of data
};

/// The first row that names at least two channels, or columns of --map, and has a row of values
/// within the next four. Without one: the last row of words above the first row of values, with
/// `known` false, for the message.
struct FoundHeader {
    Header header;
    bool known = false;
    std::size_t names_alone = 0;  ///< line that names channels, with no values below it; 0: none
};
[[nodiscard]] FoundHeader find_header(const Sampled& sampled, const ReadOptions& options,
                                      const Dialect& dialect);

}  // namespace caseload::duty
