// SPDX-License-Identifier: MIT
// Lines of a log as instants, by the layout the votes found. A line against it is an error.
#pragma once

#include "caseload/error.hpp"
#include "duty/clock.hpp"
#include "duty/layout.hpp"
#include "duty/number.hpp"
#include "duty/separators.hpp"
#include "duty/text.hpp"

#include <cstdint>
#include <functional>
#include <string>
#include <string_view>
#include <vector>

namespace caseload::duty {

struct RowCounts {
    std::size_t lines = 0;  ///< of the whole file
    std::size_t rows = 0;   ///< lines of data
    bool cut_last = false;  ///< the last line had no end and was left out
    std::size_t cut_line = 0;
};

/// Progress of a long file; called each few blocks with the bytes read.
using Progress = std::function<void(std::uint64_t bytes)>;

class RowReader {
public:
    RowReader(const Layout& layout, std::string file);

    /// Calls sink(Instant&) for each line.
    template <class Sink>
    RowCounts run(TextStream& stream, Sink&& sink, const Progress& progress);

private:
    struct Line {
        const char* begin;
        const char* end;
    };

    [[noreturn]] void refuse(Line line, std::size_t column, std::size_t width, std::string text,
                             std::string hint) const;
    [[noreturn]] void refuse_fields(Line line, std::size_t fields) const;
    [[noreturn]] void refuse_cell(Line line, const Column& column, std::string_view cell) const;
    [[noreturn]] void refuse_time(Line line) const;
    [[noreturn]] void refuse_long_line() const;
    /// Any line: quotes, clocks, words for a gear. False: it holds nothing.
    [[nodiscard]] bool read_slow(Line line, Instant& instant);
    [[nodiscard]] bool read_record(Line line, Instant& instant);
    /// Columns whose records bear this name, as it stands in the bytes.
    [[nodiscard]] const std::vector<const Column*>& named(std::string_view raw);
    void read_cell(Line line, const Column& column, std::string_view cell, Instant& to) const;

    /// A line by its separators.
    [[nodiscard]] bool read(Line line, const std::uint32_t* separators, std::size_t fields,
                            const char* text, Instant& instant) {
        if (fields != layout_.dialect.fields || slow_) return read_slow(line, instant);
        instant.present = 0;
        for (const Column& column : layout_.columns) {
            const char* const begin =
                column.at == 0 ? line.begin : text + separators[column.at - 1] + 1;
            const char* end = text + separators[column.at];
            if (column.at + 1 == fields) end = line.end;
            double value = 0;
            const Cell cell = number_(begin, end, value);
            if (cell == Cell::wrong) {
                read_cell(line, column, {begin, static_cast<std::size_t>(end - begin)}, instant);
                continue;
            }
            if (cell == Cell::missing) continue;
            instant.set(column.channel, value * column.factor + column.offset);
        }
        if (!instant.has(Channel::time)) return false;
        instant.t_s = instant[Channel::time];
        return true;
    }

    struct Named {
        std::string raw;
        std::vector<const Column*> columns;
    };

    const Layout& layout_;
    std::string file_;
    NumberReader number_;
    CellViews cells_;
    std::vector<Named> names_;
    bool slow_;
    std::size_t line_ = 0;  ///< number of the line being read, from 1
};

template <class Sink>
RowCounts RowReader::run(TextStream& stream, Sink&& sink, const Progress& progress) {
    constexpr std::size_t piece_bytes = std::size_t{1} << 16;
    constexpr std::size_t longest_line = block_bytes;
    constexpr std::size_t margin = 128;  // find() and the number reader look beyond the end
    std::vector<char> buffer(longest_line + block_bytes + margin);
    Separators separators(layout_.dialect.delimiter);
    RowCounts counts;
    Instant instant;
    std::size_t kept = 0;  // bytes of a line begun in the block before
    std::size_t blocks = 0;
    while (true) {
        if (kept > longest_line) refuse_long_line();
        const std::size_t more = stream.read(buffer.data() + kept, block_bytes);
        if (more == 0) break;
        const std::size_t size = kept + more;
        std::size_t at = 0;
        std::size_t piece = piece_bytes;
        while (at < size) {
            const char* const text = buffer.data() + at;
            const std::size_t length = std::min(piece, size - at);
            separators.find(text, length);
            if (separators.lines() == 0) {
                if (at + length == size) break;
                piece *= 2;
                continue;
            }
            piece = piece_bytes;
            std::size_t first = 0;
            const char* begin = text;
            for (std::size_t i = 0; i < separators.lines(); ++i) {
                const std::size_t last = separators.line_ends()[i];
                const char* end = text + separators.at()[last];
                const char* const next = end + 1;
                ++line_;
                if (line_ >= layout_.dialect.first_line) {
                    if (end != begin && end[-1] == '\r') --end;
                    if (read({begin, end}, separators.at() + first, last - first + 1, text,
                             instant)) {
                        if (!(instant.t_s > -latest_s && instant.t_s < latest_s))
                            refuse_time({begin, end});
                        ++counts.rows;
                        sink(instant);
                    }
                }
                begin = next;
                first = last + 1;
            }
            at += static_cast<std::size_t>(begin - text);
        }
        kept = size - at;
        std::memmove(buffer.data(), buffer.data() + at, kept);
        if (progress && ++blocks % 64 == 0) progress(stream.bytes_read());
    }
    counts.lines = line_ + (kept > 0 ? 1 : 0);
    counts.cut_last = kept > 0;
    counts.cut_line = line_ + 1;
    return counts;
}

}  // namespace caseload::duty
