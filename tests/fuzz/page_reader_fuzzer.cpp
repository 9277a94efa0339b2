// SPDX-License-Identifier: MIT
// What the live page asks that is read and not calculated: texts opened, kept, changed entry by
// entry, listed. Every answer is JSON, and none says that it is our bug. page_fuzzer asks all
// questions and takes fewer in the same time.
#include "json_check.hpp"
#include "live/asked.hpp"
#include "live/session.hpp"
#include "require.hpp"

#include <algorithm>
#include <array>
#include <cstddef>
#include <cstdint>
#include <string>
#include <string_view>

using namespace caseload;
using fuzz::require;

namespace {

constexpr std::array<std::string_view, 6> read_only{"new",    "keep",   "open",
                                                    "change", "forget", "entries"};
constexpr std::string_view our_bug = R"({"ok":false,"problems":[],"report":"our bug)";
constexpr int most_questions = 4;

}  // namespace

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
    live::Session session;
    int all = 0;
    const auto ask = [&](const std::string& question, const std::string& first,
                         const std::string& second) {
        if (++all > most_questions) return false;
        if (std::find(read_only.begin(), read_only.end(), question) == read_only.end()) return true;
        const std::string answer = session.answer(question, first, second);
        require(JsonCheck::valid(answer), "not JSON", answer);
        require(answer.rfind(our_bug, 0) != 0, "our bug", answer);
        return true;
    };
    asked::each({reinterpret_cast<const char*>(data), size}, ask);
    return 0;
}
