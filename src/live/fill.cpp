// SPDX-License-Identifier: MIT
#include "live/fill.hpp"

#include "live/edit.hpp"
#include "show/html.hpp"
#include "show/json_value.hpp"

#include <fmt/format.h>

#include <stdexcept>
#include <string_view>

namespace caseload::live {
namespace {

void put(std::string& page, std::string_view place, const std::string& what) {
    const std::size_t at = page.find(place);
    if (at == std::string::npos || page.find(place, at + 1) != std::string::npos)
        throw std::invalid_argument(fmt::format("not the live page: {} is not there once", place));
    page.replace(at, place.size(), what);
}

/// The text says what the answer beside it was made with: units of the command line too.
std::string text_as_shown(const SetupText& setup, bool imperial) {
    try {
        const bool in_text =
            read_setup(setup.text, setup.name, [&](const std::string& name) {
                const auto found = setup.beside.find(name);
                return found == setup.beside.end() ? std::optional<std::string>() : found->second;
            }).setup.imperial;
        if (in_text == imperial) return setup.text;
    } catch (const Error&) {
        return setup.text;
    }
    return with_value(setup.text, "units", imperial ? "\"imperial\"" : "\"metric\"");
}

}  // namespace

std::string filled_page(std::string part, const SetupText& setup, const PageAnswer& page) {
    using json_value::text;
    const std::string beside = joined(setup.beside, ",", [](const auto& one) {
        return fmt::format("{}:{}", text(one.first), text(one.second));
    });
    const std::string shown = text_as_shown(setup, page.answer.read.setup.imperial);
    put(part, "<title>caseload</title>",
        fmt::format("<title>{}</title>", escaped(page_title(page.answer.read))));
    put(part, R"(id="given">null<)",
        fmt::format(R"(id="given">{{"name":{},"text":{},"beside":{{{}}}}}<)", text(setup.name),
                    text(shown), beside));
    put(part, "<!--head-->", page_head(page.answer));
    put(part, "<!--body-->", page_sections(page) + page_foot());
    return part;
}

}  // namespace caseload::live
