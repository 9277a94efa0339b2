// SPDX-License-Identifier: MIT
#include "show/lines.hpp"

#include <algorithm>

namespace caseload {

std::string wrapped(const std::string& head, const std::string& words) {
    std::string out;
    std::string line = head;
    std::size_t at = 0;
    while (at < words.size()) {
        const std::size_t end = std::min(words.find(' ', at), words.size());
        const std::string word = words.substr(at, end - at);
        if (line.size() > head.size() && line.size() + 1 + word.size() > screen_width) {
            out += line + "\n";
            line = std::string(head.size(), ' ');
        }
        if (line.size() > head.size()) line += ' ';
        line += word;
        at = end + 1;
    }
    return out + line + "\n";
}

}  // namespace caseload
