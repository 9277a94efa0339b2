// SPDX-License-Identifier: MIT
// The one function the page's script calls. Its answer is valid until the next call.
#include "live/session.hpp"

#include <string>

extern "C" const char* caseload_ask(const char* question, const char* first, const char* second) {
    static caseload::live::Session session;
    static std::string answer;
    answer = session.answer(question, first, second);
    return answer.c_str();
}
