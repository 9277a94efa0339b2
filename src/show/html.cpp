// SPDX-License-Identifier: MIT
#include "show/html.hpp"

#include "caseload/tables.hpp"
#include "input/harmless.hpp"

#include <fmt/format.h>

namespace caseload {
namespace {

/// Numbers are aligned under each other and under their head.
bool is_number(std::string_view text) {
    constexpr std::size_t longest = 12;
    const std::size_t at = text.find_first_not_of("+-");
    return at != std::string_view::npos && text[at] >= '0' && text[at] <= '9' &&
           text.size() < longest && text.find('\'') == std::string_view::npos;
}

std::string_view number_class(bool number) {
    return number ? " class=\"n\"" : "";
}

}  // namespace

std::string escaped(std::string_view text) {
    std::string out;
    for (const char c : input::harmless_lines(text)) {
        if (c == '&')
            out += "&amp;";
        else if (c == '<')
            out += "&lt;";
        else if (c == '>')
            out += "&gt;";
        else if (c == '"')
            out += "&quot;";
        else if (c == '\'')
            out += "&#39;";
        else
            out += c;
    }
    return out;
}

std::string table_html(const HtmlTable& table) {
    const std::string caption = escaped(table.caption);
    // More columns than fit a narrow screen: they slide, also by the keys.
    constexpr std::size_t most_columns = 4;
    const bool slides = table.heads.size() > most_columns;
    std::string out =
        slides ? fmt::format(R"(<div class="slides" role="region" aria-label="{}" tabindex="0">)",
                             caption)
               : "";
    out += fmt::format("<table>\n<caption>{}</caption>\n<thead><tr>", caption);
    for (std::size_t i = 0; i < table.heads.size(); ++i)
        out += fmt::format(
            "<th scope=\"col\"{}>{}</th>",
            number_class(i > 0 && !table.rows.empty() && i < table.rows.front().size() &&
                         is_number(table.rows.front()[i])),
            escaped(table.heads[i]));
    out += "</tr></thead>\n<tbody>\n";
    for (std::size_t r = 0; r < table.rows.size(); ++r) {
        const auto& row = table.rows[r];
        out += "<tr>";
        for (std::size_t i = 0; i < row.size(); ++i) {
            const auto behind = table.behind.find({r, i});
            const std::string cell =
                behind == table.behind.end()
                    ? escaped(row[i])
                    : fmt::format(
                          "<details class=\"why\"><summary>{}</summary><pre>{}</pre></details>",
                          escaped(row[i]), escaped(behind->second));
            out += i == 0 ? fmt::format("<th scope=\"row\">{}</th>", cell)
                          : fmt::format("<td{}>{}</td>", number_class(is_number(row[i])), cell);
        }
        out += "</tr>\n";
    }
    return out + "</tbody>\n</table>\n" + (slides ? "</div>\n" : "");
}

std::string figure_html(const Figure& figure) {
    std::string out = fmt::format(
        "<figure>\n<div class=\"wide\">{}</div>\n<div class=\"narrow\">{}</div>\n"
        "<figcaption>{}</figcaption>\n</figure>\n",
        figure.wide, figure.narrow, escaped(figure.caption));
    return out +
           (figure.behind.empty() ? "" : folded("The numbers of this picture", figure.behind));
}

std::string paragraph(std::string_view text) {
    return fmt::format("<p>{}</p>\n", escaped(text));
}

std::string list_html(std::string_view kind, const std::vector<std::string>& items) {
    std::string out = fmt::format("<{}>\n", kind);
    for (const std::string& item : items) out += fmt::format("<li>{}</li>\n", escaped(item));
    return out + fmt::format("</{}>\n", kind);
}

std::string folded(std::string_view summary, std::string_view markup) {
    return fmt::format("<details>\n<summary>{}</summary>\n{}</details>\n", escaped(summary),
                       markup);
}

std::string document_html(const HtmlDocument& document) {
    const std::string sheet = document.sheet.empty()
                                  ? std::string()
                                  : fmt::format("@page {{ size: {}; }}\n", document.sheet);
    return fmt::format(
        "<!DOCTYPE html>\n<html lang=\"en\">\n<head>\n<meta charset=\"utf-8\">\n"
        "<meta name=\"viewport\" content=\"width=device-width, initial-scale=1\">\n"
        "<meta http-equiv=\"Content-Security-Policy\" content=\"default-src 'none'; "
        "style-src 'unsafe-inline'; img-src data:\">\n"
        "<link rel=\"icon\" href=\"data:,\">\n"
        "<title>{}</title>\n<style>\n{}{}</style>\n</head>\n<body "
        "class=\"{}\">\n{}</body>\n</html>\n",
        escaped(document.title), embedded_table("page.css"), sheet, document.kind, document.body);
}

}  // namespace caseload
