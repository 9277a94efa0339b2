// SPDX-License-Identifier: MIT
// Is a text one JSON value (RFC 8259), its strings UTF-8?
#pragma once

#include "input/letters.hpp"

#include <cstddef>
#include <string_view>

class JsonCheck {
public:
    static bool valid(std::string_view text) {
        JsonCheck check(text);
        return check.value(0) && check.at_ == text.size();
    }

private:
    explicit JsonCheck(std::string_view text) : text_(text) {}

    [[nodiscard]] char now() const { return at_ < text_.size() ? text_[at_] : '\0'; }
    bool take(std::string_view word) {
        if (text_.substr(at_, word.size()) != word) return false;
        at_ += word.size();
        return true;
    }

    void blanks() {
        while (at_ < text_.size() && std::string_view(" \t\r\n").find(now()) != text_.npos) ++at_;
    }

    bool value(int depth) {
        if (depth > 64) return false;
        blanks();
        const bool good = now() == '{' || now() == '[' ? members(depth)
                          : now() == '"'
                              ? string()
                              : take("true") || take("false") || take("null") || number();
        blanks();
        return good;
    }

    bool members(int depth) {
        const bool object = text_[at_++] == '{';
        const std::string_view end = object ? "}" : "]";
        blanks();
        if (take(end)) return true;
        do {
            if (object && !member_name()) return false;
            if (!value(depth + 1)) return false;
        } while (take(","));
        return take(end);
    }

    bool member_name() {
        blanks();
        if (!string()) return false;
        blanks();
        return take(":");
    }

    bool string() {
        if (!take("\"")) return false;
        while (at_ < text_.size() && now() != '"') {
            const std::size_t length = caseload::input::utf8_length(text_, at_);
            if (length == 0 || static_cast<unsigned char>(now()) < 0x20) return false;
            if (now() != '\\') {
                at_ += length;
                continue;
            }
            ++at_;
            if (now() == 'u') {
                for (int k = 0; k < 4; ++k)
                    if (++at_; !hex(now())) return false;
            } else if (std::string_view("\"\\/bfnrt").find(now()) == std::string_view::npos) {
                return false;
            }
            ++at_;
        }
        return take("\"");
    }

    static bool hex(char c) {
        return caseload::input::digit(c) || (c >= 'a' && c <= 'f') || (c >= 'A' && c <= 'F');
    }

    bool digits() {
        const std::size_t first = at_;
        while (caseload::input::digit(now())) ++at_;
        return at_ > first;
    }

    bool number() {
        take("-");
        const bool zero = now() == '0';
        const std::size_t first = at_;
        if (!digits() || (zero && at_ > first + 1)) return false;
        if (take(".") && !digits()) return false;
        if (take("e") || take("E")) {
            if (!take("+")) take("-");
            return digits();
        }
        return true;
    }

    std::string_view text_;
    std::size_t at_ = 0;
};
