// SPDX-License-Identifier: MIT
// Bytes of a log as UTF-8 or Latin-1 text with lines ended by LF.
#pragma once

#include "caseload/duty/log.hpp"

#include <string>
#include <string_view>
#include <vector>

namespace caseload::duty {

inline constexpr std::size_t block_bytes = std::size_t{1} << 20;

/// The parts of a log the votes look at: its first MiB and, of a file, 32 KiB at each sixteenth.
struct Windows {
    std::string head;
    std::vector<std::string> later;
    bool whole = false;  ///< the head is all there is
};
[[nodiscard]] Windows windows_of(Bytes& bytes);

/// By byte order mark, by zeros in every other byte, else UTF-8 if the text is that, else Latin-1.
[[nodiscard]] Encoding vote_encoding(const Windows& windows);

[[nodiscard]] bool is_utf16(Encoding encoding);

/// A whole piece of UTF-16 as UTF-8, without its mark; a character cut at the end is dropped.
[[nodiscard]] std::string decoded(std::string_view raw, Encoding encoding);

/// For people: Latin-1 becomes UTF-8 too.
[[nodiscard]] std::string shown(std::string_view text, Encoding encoding);

/// The text from its start, in pieces.
class TextStream {
public:
    /// head: what was read for the votes; it comes first again.
    TextStream(Bytes& bytes, std::string head, const Dialect& dialect);

    /// Decoded text; 0 at the end. Room for at least 16 bytes.
    [[nodiscard]] std::size_t read(char* to, std::size_t at_most);
    [[nodiscard]] std::uint64_t bytes_read() const { return bytes_read_; }

private:
    [[nodiscard]] std::size_t read_raw(char* to, std::size_t at_most);
    [[nodiscard]] std::size_t read_utf16(char* to, std::size_t at_most);

    Bytes& bytes_;
    std::string head_;
    std::size_t head_at_ = 0;
    Encoding encoding_;
    bool lines_by_cr_;
    std::string carried_;  ///< bytes of a character not yet whole
    std::string raw_;
    std::uint64_t bytes_read_ = 0;
};

}  // namespace caseload::duty
