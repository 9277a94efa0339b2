// SPDX-License-Identifier: MIT
// Any bytes are a book read or refused with an Error. What is read comes back from the text form
// and from CSV, and where its records fit together, it is told what is due.
#include "caseload/book/record.hpp"
#include "caseload/book/state.hpp"
#include "caseload/show/book.hpp"
#include "caseload/show/problems.hpp"
#include "require.hpp"

#include <cstddef>
#include <cstdint>
#include <optional>
#include <string>
#include <string_view>

using namespace caseload;
using fuzz::require;
using fuzz::require_report;

namespace {

using Read = book::Incoming (*)(std::string_view, const std::string&);

void require_same(Read read, const std::string& form, const book::Records& records) {
    try {
        require(read(form, "again").records == records, "reads back differently", form);
    } catch (const Error& error) {
        require(false, "what was written is refused", problem_report(error) + form);
    }
}

/// A number that is none.
void require_numbers(const std::string& screen) {
    for (const char* const word : {" nan", " inf", " -nan", " -inf"})
        require(screen.find(word) == std::string::npos, "no number on a screen", screen);
}

void tell(const book::Incoming& in, bool due_too) {
    try {
        book::require_references(in.records);
        book::require_corrections(in.records);
        book::require_positions({}, in);
        // Words of the book stand on the other screens.
        require_numbers(book::fleet_screen(book::fleet_of(book::state_of(in.records), "", 1.5)));
        const book::State state = book::state_of(in.records);
        require(!book::case_screen(state, "").empty(), "no screen", "");
        require(!book_json(state, "").empty(), "no document", "");
        if (!due_too) return;
        const auto due = book::due(in.records);
        require(!book::due_screen(due).empty() && !due_json(due).empty(), "no screen", "");
    } catch (const Error& error) {
        require_report(error);
    }
}

}  // namespace

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
    const std::string_view bytes(reinterpret_cast<const char*>(data), size);
    std::optional<book::Incoming> in;
    for (const Read read : {Read{&book::from_text}, Read{&book::from_csv}}) {
        try {
            in = read(bytes, "fuzz");
        } catch (const Error& error) {
            require_report(error);
        }
        if (in) break;
    }
    if (!in) return 0;
    require_same(&book::from_text, book::to_text(in->records), in->records);
    require_same(&book::from_csv, book::to_csv(in->records), in->records);
    // Telling takes longer than reading, and what is due reads a setup: one in 8, one in 64.
    if (size % 8 == 0) tell(*in, size % 64 == 0);
    return 0;
}
