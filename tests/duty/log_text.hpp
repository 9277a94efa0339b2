// SPDX-License-Identifier: MIT
// A log held as text, for the reader that takes bytes.
#pragma once

#include "caseload/duty/event.hpp"
#include "caseload/duty/log.hpp"

#include <algorithm>
#include <cstring>
#include <string>
#include <utility>

namespace duty_test {

class Text : public caseload::duty::Bytes {
public:
    explicit Text(std::string text) : text_(std::move(text)) {}
    std::size_t read(char* to, std::size_t at_most) override {
        const std::size_t count = read_at(at_, to, at_most);
        at_ += count;
        return count;
    }
    void rewind() { at_ = 0; }
    std::optional<std::uint64_t> size() const override { return text_.size(); }
    std::size_t read_at(std::uint64_t offset, char* to, std::size_t at_most) override {
        const std::size_t from = std::min(static_cast<std::size_t>(offset), text_.size());
        const std::size_t count = std::min(at_most, text_.size() - from);
        std::memcpy(to, text_.data() + from, count);
        return count;
    }

private:
    std::string text_;
    std::size_t at_ = 0;
};

inline caseload::duty::DutyAnswer read(const std::string& text,
                                       const caseload::duty::DutyOptions& options = {}) {
    Text bytes(text);
    return caseload::duty::read_duty(bytes, "log.csv", options);
}

}  // namespace duty_test
