// SPDX-License-Identifier: MIT
// Pieces of a self-contained page: no script, nothing fetched.
#pragma once

#include <cstddef>
#include <map>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

namespace caseload {

/// Text that cannot be taken for markup; characters HTML does not allow become U+FFFD.
std::string escaped(std::string_view text);

/// Cells are text, not markup. The first of a row is its head.
struct HtmlTable {
    std::string caption;
    std::vector<std::string> heads;
    std::vector<std::vector<std::string>> rows;
    std::map<std::pair<std::size_t, std::size_t>, std::string>
        behind{};  ///< row and column of a cell that unfolds: the text it opens
};
std::string table_html(const HtmlTable& table);

/// A picture drawn twice, for wide and for narrow screens, with its table folded behind it.
struct Figure {
    std::string wide;
    std::string narrow;
    std::string caption;
    std::string behind;  ///< markup; "" for none
};
std::string figure_html(const Figure& figure);

/// "<p>...</p>" of text.
std::string paragraph(std::string_view text);

/// Items of a list, kind "ol" or "ul".
std::string list_html(std::string_view kind, const std::vector<std::string>& items);

/// A line that opens to markup.
std::string folded(std::string_view summary, std::string_view markup);

struct HtmlDocument {
    std::string title;
    std::string kind;   ///< class of the body: page | card | teardown
    std::string sheet;  ///< CSS size of the printed sheet; "" leaves it to the printer
    std::string body;
};
std::string document_html(const HtmlDocument& document);

}  // namespace caseload
