// SPDX-License-Identifier: MIT
// The readers of a book's text form and CSV alone: any bytes become records or an Error, and what
// is read comes back from the form it was read in. book_fuzzer says what is due as well and takes
// fewer in the same time.
#include "caseload/book/record.hpp"
#include "caseload/error.hpp"
#include "caseload/show/problems.hpp"
#include "require.hpp"

#include <cstddef>
#include <cstdint>
#include <string>
#include <string_view>

using namespace caseload;
using fuzz::require;

namespace {

template <class Read, class Write>
void try_form(std::string_view bytes, Read from, Write to) {
    book::Incoming in;
    try {
        in = from(bytes, "fuzz");
    } catch (const Error& error) {
        fuzz::require_report(error);
        return;
    }
    const std::string form = to(in.records);
    try {
        require(from(form, "again").records == in.records, "reads back differently", form);
    } catch (const Error& error) {
        require(false, "what was written is refused", problem_report(error) + form);
    }
}

}  // namespace

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
    const std::string_view bytes(reinterpret_cast<const char*>(data), size);
    try_form(bytes, book::from_text, book::to_text);
    try_form(bytes, book::from_csv, book::to_csv);
    return 0;
}
