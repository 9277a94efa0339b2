// SPDX-License-Identifier: MIT
#include "caseload/show/page.hpp"

#include "caseload/figures.hpp"
#include "caseload/show/why.hpp"

#include "show/lines.hpp"
#include "show/page_parts.hpp"
#include "show/words.hpp"

#include <fmt/format.h>
#include <fmt/ranges.h>

#include <algorithm>
#include <utility>

namespace caseload {
namespace {

/// As in the corner of a drawing.
std::string title_block(const Answer& answer, const Units& units) {
    const Setup& setup = answer.read.setup;

    const auto field = [](std::string_view name, const std::string& value) {
        return fmt::format("<div><dt>{}</dt><dd>{}</dd></div>\n", name, escaped(value));
    };
    return "<dl class=\"block\">\n" + field("Setup", setup.name) +
           field("Teeth, input first", fmt::format("{}", fmt::join(setup.gears.teeth, " / "))) +
           field("Event", setup.event.words) +
           field("Driving", fmt::format("{:.1f} h, {}", answer.likely.driving_h,
                                        units.distance(answer.likely.distance_m))) +
           field("Ambient", units.degrees(setup.event.ambient_degC)) +
           field("Entries", fmt::format("{} entered, {} assumed", answer.read.count_yours,
                                        answer.read.count_assumed)) +
           "</dl>\n";
}

std::string next_section(const PageAnswer& page, const Units& units) {
    if (must_not_run(page.answer)) {
        const std::string remedy = remedy_words(page.answer.remedy, units);
        return "<section>\n<h2>Next</h2>\n<p><strong>" +
               escaped(as_sentence("do not run this: " + spaced(stop_words(page.answer, units)))) +
               "</strong></p>\n" + (remedy.empty() ? "" : paragraph(as_sentence(remedy))) +
               paragraph("When to change the oil, look and open is given for a setup that runs.") +
               "</section>\n";
    }
    const Intervals& next = page.answer.likely.fitted.intervals;
    const auto row = [&](const char* what, const Action& action) {
        return std::vector<std::string>{what, after(action), units.text(action.reason)};
    };
    const HtmlTable table{"What to do next, and why then",
                          {"Do", "When", "Why then"},
                          {row("change the oil", next.change_oil),
                           row("drain, read the magnet, feel the end play", next.look),
                           row("open the case", next.open_case)}};

    std::vector<std::string> looks = to_look_at(page.answer, units);
    for (std::string& one : looks) one = spaced(one);
    return "<section>\n<h2>Next</h2>\n" + table_html(table) +
           paragraph(as_sentence(fatigue_words(next))) +
           (looks.empty() ? "" : paragraph("Look at, when opened:") + list_html("ul", looks)) +
           "</section>\n";
}

std::string notes_section(const PageAnswer& page, const Units& units) {
    std::vector<std::string> items;
    for (const Notes* notes : {&page.answer.read.notes, &page.answer.likely.notes})
        for (const Note& note : *notes) items.push_back(units.text(note.text));

    return "<section>\n<h2>Not calculated</h2>\n" +
           paragraph(as_sentence(not_calculated(page.answer.read.setup)) +
                     " They stop cases; look for them.") +
           (items.empty() ? "" : "<h3>Notes</h3>\n" + list_html("ul", items)) + "</section>\n";
}

}  // namespace

std::string spaced(std::string_view name) {
    std::string out(name);
    for (const auto& [kind, after] : {std::pair<std::string_view, std::string_view>{"bearing.", ""},
                                      {"gear.", " gear"},
                                      {"spline.", " spline"},
                                      {"seal.", " seal"}})
        if (out.rfind(kind, 0) == 0) {
            out.erase(0, kind.size());
            out.insert(std::min(out.find(':'), out.size()), after);  // of "seal.input: words" too
        }
    std::replace(out.begin(), out.end(), '_', ' ');
    for (std::size_t at = 0; (at = out.find(".seat", at)) != std::string::npos;) out[at] = ' ';
    return out;
}

std::string unbroken(std::string_view words) {
    std::string out;
    for (const char c : words) out += c == ' ' ? "\u00a0" : std::string(1, c);
    return out;
}

std::string percent(double share) {
    if (share <= 0) return "nothing that counts";
    return percent_figures(share) + " %";
}

void unfold(const PageAnswer& page, HtmlTable& table, std::size_t column,
            const std::string& address) {
    if (page.reasons == nullptr || !page.reasons->has(address)) return;
    table.behind[{table.rows.size() - 1, column}] = why_screen(page.reasons->why(address));
}

std::string cautions_html() {
    return "<section class=\"cautions\">\n<h2>Before you act on this</h2>\n<ul>\n"
           "<li>An estimate for planning. It does not replace an inspection by a competent person, "
           "nor by a licensed inspector or engineer where rules or law ask for one. The rule book "
           "of your sanctioning body and local codes come first: guards, hoops, lines, "
           "firewalls.</li>\n"
           "<li>Stop and open the case at a sudden temperature rise, chips, growing noise or lost "
           "oil, whatever is written here.</li>\n"
           "<li>Oil above 60 degC (140 degF) scalds: let it cool, or wear gloves and eye "
           "protection. Oil mist by a hot exhaust burns.</li>\n"
           "<li>Never measure at unguarded turning shafts. With a locked case every wheel turns: "
           "both axles off the ground, on rated stands, no loose clothing.</li>\n"
           "<li>Never work under a vehicle on a jack. The case is heavy: lift and block it.</li>\n"
           "<li>Scavenge lines and a blocked breather hold pressure. Do not spin bearings with "
           "compressed air: they can burst.</li>\n"
           "<li>Old oil, solvent and crack-test dye: collect them, keep them off skin and out of "
           "drains.</li>\n"
           "<li>A margin to a whirl speed is no certificate of balance or safety.</li>\n"
           "</ul>\n</section>\n";
}

std::string page_title(const ReadSetup& read) {
    return read.setup.title.empty() ? read.setup.name : read.setup.title;
}

std::string page_head(const Answer& answer) {
    const Units units(answer.read.setup.imperial);
    return fmt::format(
        "<header>\n<h1>{}</h1>\n{}{}<p class=\"verdict {}\"><strong>{}</strong> {}</p>\n"
        "</header>\n",
        escaped(page_title(answer.read)), title_block(answer, units),
        question_paragraphs(answer, units), answer.band.verdict, verdict_word(answer),
        escaped(spaced(verdict_sentence(answer, units))));
}

std::string page_sections(const PageAnswer& page) {
    const Units units(page.answer.read.setup.imperial);
    return oil_section(page, units) + next_section(page, units) + ledger_section(page, units) +
           life_section(page, units) + case_section(page, units) + seat_section(page, units) +
           worth_section(page, units) + parts_section(page, units) + notes_section(page, units) +
           cautions_html();
}

std::string page_foot() {
    return "<footer>\n" +
           paragraph(std::string(deference) +
                     " Made by caseload " CASELOAD_VERSION
                     " from the setup named above; the same setup gives the same page.") +
           "</footer>\n";
}

std::string page_html(const PageAnswer& page) {
    return document_html(
        {page_title(page.answer.read), "page", "",
         page_head(page.answer) + "<main>\n" + page_sections(page) + "</main>\n" + page_foot()});
}

}  // namespace caseload
