// SPDX-License-Identifier: MIT
// Whatever the live page asks, in any order: every answer is JSON, and none says that it is our
// bug. The session is what caseload_ask keeps for the page, here a new one for each input so that a
// find can be repeated.
#include "json_check.hpp"
#include "live/asked.hpp"
#include "live/session.hpp"
#include "require.hpp"

#include <algorithm>
#include <array>
#include <cstddef>
#include <cstdint>
#include <cstdlib>
#include <string>
#include <string_view>
#include <utility>

using namespace caseload;
using fuzz::require;

namespace {

constexpr std::array<std::string_view, 17> questions{
    "new",   "keep", "open",    "change", "forget", "likely", "entries", "band", "page",
    "worth", "why",  "compare", "sets",   "cooler", "chain",  "json",    "line"};
// Seconds each under sanitizers: one of them, in one input of 64. The others take milliseconds.
constexpr std::array<std::string_view, 9> slow{"band", "page",   "worth", "why", "compare",
                                               "sets", "cooler", "json",  "line"};
constexpr std::string_view our_bug = R"({"ok":false,"problems":[],"report":"our bug)";
constexpr std::size_t one_in = 64;
constexpr int most_questions = 8;

template <class List>
bool among(const List& list, const std::string& word) {
    return std::find(list.begin(), list.end(), word) != list.end();
}

/// More draws than a machine with sanitizers does in a moment.
bool takes_long(const std::string& question, const std::string& first) {
    return (question == "band" || question == "json" || question == "line") &&
           std::atoi(first.c_str()) > 127;
}

}  // namespace

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
    live::Session session;
    static_cast<void>(session.answer("line", "63", ""));  // the draws of what follows
    int all = 0;
    bool slow_asked = size % one_in != 0;
    const auto ask = [&](const std::string& question, const std::string& first,
                         const std::string& second) {
        if (++all > most_questions) return false;
        if (takes_long(question, first)) return true;
        if (among(slow, question) && std::exchange(slow_asked, true)) return true;
        const std::string answer = session.answer(question, first, second);
        require(JsonCheck::valid(answer), "not JSON", answer);
        if (among(questions, question)) require(answer.rfind(our_bug, 0) != 0, "our bug", answer);
        return true;
    };
    asked::each({reinterpret_cast<const char*>(data), size}, ask);
    return 0;
}
