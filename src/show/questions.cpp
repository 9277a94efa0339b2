// SPDX-License-Identifier: MIT
#include "show/questions.hpp"

#include "show/html.hpp"
#include "show/lines.hpp"

#include <fmt/format.h>

#include <vector>

namespace caseload {
namespace {

std::vector<std::string> questions(const Answer& answer, const Units& units) {
    std::vector<std::string> all;
    for (const Notes* notes : {&answer.read.notes, &answer.likely.notes})
        for (const Note& note : *notes)
            if (note.id.rfind("ask.", 0) == 0) all.push_back(units.text(note.text));
    return all;
}

}  // namespace

std::string question_lines(const Answer& answer, const Units& units) {
    std::string out;
    for (const std::string& question : questions(answer, units))
        out += wrapped("  ENTRY?   ", question);
    return out.empty() ? out : out + "\n";
}

std::string question_paragraphs(const Answer& answer, const Units& units) {
    std::string out;
    for (const std::string& question : questions(answer, units))
        out += fmt::format("<p class=\"question\"><strong>Is this entry right?</strong> {}</p>\n",
                           escaped(question));
    return out;
}

}  // namespace caseload
