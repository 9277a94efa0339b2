// SPDX-License-Identifier: MIT
// The text of a book is read or refused with an Error; what is read survives both written forms.
// The first byte chooses the form that is read.
#include "caseload/book/record.hpp"
#include "caseload/error.hpp"
#include "caseload/show/problems.hpp"

#include <cstddef>
#include <cstdint>
#include <cstdio>
#include <cstdlib>
#include <string>
#include <string_view>

using namespace caseload;

namespace {

void require(bool holds, const char* what, const std::string& text) {
    if (holds) return;
    std::fprintf(stderr, "%s:\n%s\n", what, text.c_str());
    std::abort();
}

template <class Read>
void read_back(const Read& read, const std::string& written, const book::Records& records) {
    try {
        require(read(written, "again") == records, "reads back differently", written);
    } catch (const Error& error) {
        require(false, "what was written is refused", problem_report(error) + written);
    }
}

}  // namespace

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
    if (size == 0) return 0;
    const std::string_view text(reinterpret_cast<const char*>(data) + 1, size - 1);
    book::Records records;
    try {
        records =
            data[0] % 2 == 0 ? book::from_text(text, "fuzz.txt") : book::from_csv(text, "fuzz.csv");
    } catch (const Error& error) {
        require(error.kind() == Error::Kind::input, "not an input error", error.what());
        require(!problem_report(error).empty(), "no report", error.what());
        return 0;
    }
    read_back(book::from_text, book::to_text(records), records);
    read_back(book::from_csv, book::to_csv(records), records);
    try {
        book::require_references(records);
        for (const book::Record& record : book::corrected(records))
            require(record.kind != "correct", "a correction is left over", record.id);
    } catch (const Error& error) {
        require(error.kind() == Error::Kind::input, "not an input error", error.what());
    }
    return 0;
}
