// SPDX-License-Identifier: MIT
// The sheet for the bench, A4: parts in the order of the case, what to look at, room to write.
#include "caseload/ask/pairs.hpp"
#include "show/page_parts.hpp"
#include "show/svg.hpp"
#include "show/words.hpp"

#include <fmt/format.h>
#include <fmt/ranges.h>

#include <array>

namespace caseload {
namespace {

/// Words for findings on rolling bearings. Source: ISO 15243:2017, its six kinds of damage and
/// their parts; from memory.
constexpr std::array<std::array<std::string_view, 2>, 6> findings{
    {{"rolling contact fatigue", "started below the surface; started at the surface"},
     {"wear", "abrasive; adhesive (smearing)"},
     {"corrosion", "by moisture; friction corrosion (fretting, false brinelling)"},
     {"electrical erosion", "excessive current; current leakage"},
     {"plastic deformation", "overload (dents at ball spacing); indented by particles"},
     {"cracking and fracture", "forced; by fatigue; by heat"}}};

constexpr std::string_view box = "<span class=\"box\" aria-hidden=\"true\"></span>";

std::string blank(std::string_view width_class) {
    return fmt::format("<span class=\"blank {}\"></span>", width_class);
}

std::string clock_picture(double clock_deg) {
    Svg svg({{}, 34, 34}, "load towards " + clock_words(clock_deg));
    const Circle face{{17, 17}, 15};
    svg.circle(face, "frame");
    for (int hour = 0; hour < 12; hour += 3)
        svg.line({at_clock(face, 30 * hour), at_clock({{17, 17}, 12}, 30 * hour)}, "ink");
    svg.arrow({{17, 17}, at_clock({{17, 17}, 13}, clock_deg)}, "ink");
    return svg.take();
}

std::string head(const Answer& answer, const Units& units) {
    const Setup& setup = answer.read.setup;
    std::string out = fmt::format("<h1>Teardown: {}</h1>\n<dl class=\"block\">\n",
                                  escaped(page_title(answer.read)));

    const Action& open = answer.likely.fitted.intervals.open_case;
    const std::string when = must_not_run(answer)
                                 ? "do not run it before: " + stop_words(answer, units)
                                 : after(open) + ", " + units.text(open.reason);
    for (const auto& [name, value] :
         {std::pair<std::string_view, std::string>{"Setup", escaped(setup.name)},
          {"Teeth, input first", fmt::format("{}", fmt::join(setup.gears.teeth, " / "))},
          {"Open the case", escaped(when)},
          {"Case number", blank("short")},
          {"Date", blank("short")},
          {"After event", blank("short")},
          {"By", blank("short")}})
        out += fmt::format("<div><dt>{}</dt><dd>{}</dd></div>\n", name, value);
    out += "</dl>\n";
    std::vector<std::string> looks = to_look_at(answer, units);
    for (std::string& one : looks) one = spaced(one);
    return looks.empty() ? out
                         : out + "<p>Look at, by the calculation:</p>\n" + list_html("ul", looks);
}

/// What is read before anything comes apart.
std::string readings(const Answer& answer, const Units& units) {
    const Setup& setup = answer.read.setup;
    std::string rows;
    const auto row = [&](const std::string& what, const std::string& how) {
        rows += fmt::format("<tr><th scope=\"row\">{} {}</th><td>{}</td><td>{}</td></tr>\n", box,
                            escaped(what), escaped(how), blank("long"));
    };
    row("hottest oil seen",
        fmt::format("{}; logger or temperature label, and where it sat", units.degree()));
    row("oil drained", fmt::format("{}; filled: {}", units.imperial() ? "qt or L" : "L",
                                   units.text(fmt::format("{:g} L", setup.oil.fill_L))));
    row("oil looks, smells", "clear, dark, milky, burnt; sample kept");
    row("magnet", "0 clean, 1 paste, 2 fine glitter, 3 slivers, 4 flakes; photo with a scale");
    row("filter cut open", "clean, glitter, flakes");
    for (const ShaftPlace& shaft : answer.likely.loads.train.shafts) {
        std::string how = units.imperial() ? "to 0.0005 in" : "to 0.01 mm";
        for (const PairState& pair : answer.likely.fitted.checked.pairs)
            if (pair.shaft == shaft.name) how += "; to set: " + units.text(pair_setting(pair));
        row("end play, " + spaced(shaft.name) + " shaft", how);
    }
    row("backlash", "at four places of a turn");
    row("turned by hand", "free, stiff, notchy; where in the turn");
    row("seals and breather", "dry, weeping, leaking; breather open");
    row("bolts and torque marks", "all in line");
    return "<section>\n<h2>Before it comes apart</h2>\n<table>\n<caption>Case cold, vehicle on "
           "rated stands, all wheels off the ground</caption>\n<thead><tr><th "
           "scope=\"col\">Reading</th><th scope=\"col\">How</th><th "
           "scope=\"col\">Found</th></tr></thead>\n<tbody>\n" +
           rows + "</tbody>\n</table>\n</section>\n";
}

std::string parts(const Answer& answer, const Units& units) {
    std::string rows;
    std::size_t bearing = 0;
    for (const Part& part : answer.likely.parts) {
        std::string place;
        std::string look = part.look_at;
        if (part.name.rfind("bearing.", 0) == 0) {
            const BearingDamage& damage = answer.likely.fitted.damage.bearings[bearing];
            place = clock_picture(damage.clock_deg);
            if (const std::string play = running_play_words(answer.likely.loads.bearings[bearing],
                                                            damage.zone_deg, units);
                !play.empty())
                look += ". " + play;
            ++bearing;
        }
        rows += fmt::format(
            "<tr><th scope=\"row\">{} {}<br><strong>{}</strong></th><td "
            "class=\"clock\">{}</td><td>{}</td><td>{}<br><span class=\"tick\">{} again</span><span "
            "class=\"tick\">{} new</span></td></tr>\n",
            box, escaped(spaced(part.name)), escaped(units.text(part.size)), place,
            escaped(units.text(look)), blank("long"), box, box);
    }
    return "<section>\n<h2>Parts</h2>\n<table class=\"parts\">\n<caption>Mark each ring at 12 "
           "o'clock before it comes out; clock positions from behind, looking "
           "forward</caption>\n<thead><tr><th scope=\"col\">Part</th><th "
           "scope=\"col\">Load</th><th scope=\"col\">Look at</th><th "
           "scope=\"col\">Found</th></tr></thead>\n<tbody>\n" +
           rows + "</tbody>\n</table>\n</section>\n";
}

std::string words() {
    std::string items;
    for (const auto& [kind, parts] : findings)
        items += fmt::format("<li><strong>{}</strong>: {}</li>\n", kind, parts);
    return "<section>\n<h2>Words for what you find on bearings</h2>\n"
           "<p>The kinds of ISO 15243, so that the next one reads the same in them:</p>\n<ul "
           "class=\"words\">\n" +
           items +
           "</ul>\n<p>On gears: grey staining, pits, spalls, scoring, cracks at the root, chipped "
           "edges, blued by heat.</p>\n</section>\n";
}

}  // namespace

std::string teardown_html(const Answer& answer) {
    const Units units(answer.read.setup.imperial);

    std::string decision;
    for (const std::string_view what : {"run on", "change oil, look again after 20 km",
                                        "replace parts marked new", "retire the case"})
        decision +=
            fmt::format("<span class=\"choice\">{} {}</span> ", box, escaped(units.text(what)));
    const std::string body = "<main>\n" + head(answer, units) + readings(answer, units) +
                             parts(answer, units) + "<section>\n<h2>Decision</h2>\n<p>" + decision +
                             "</p>\n<p>Signed " + blank("long") + "</p>\n</section>\n" + words() +
                             cautions_html() + "</main>\n";
    return document_html({"Teardown: " + page_title(answer.read), "teardown", "A4", body});
}

}  // namespace caseload
