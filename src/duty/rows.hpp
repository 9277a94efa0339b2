// SPDX-License-Identifier: MIT
// Lines of a log as instants, by the layout the votes found. A line against it is an error.
#pragma once

#include "caseload/duty/event.hpp"
#include "caseload/error.hpp"
#include "duty/clock.hpp"
#include "duty/layout.hpp"
#include "duty/number.hpp"
#include "duty/separators.hpp"
#include "duty/text.hpp"

#include <algorithm>
#include <cstdint>
#include <cstring>
#include <exception>
#include <functional>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

namespace caseload::duty {

struct RowCounts {
    std::size_t lines = 0;  ///< of the whole file
    bool cut_last = false;  ///< the last line had no end and was left out
    std::size_t cut_line = 0;
};

/// Progress of a long file; called each few blocks with the bytes read.
using Progress = std::function<void(std::uint64_t bytes)>;

class RowReader {
public:
    RowReader(const Layout& layout, std::string file, Progress progress);

    /// Calls take(Instant&) for each line.
    template <class Take>
    RowCounts run(TextStream& stream, Take&& take);
    /// The same, the next block being read while the last one is taken.
    template <class Take>
    RowCounts run(TextStream& stream, Take&& take, const SideBySide& side_by_side);

private:
    static constexpr std::size_t longest_line = block_bytes;

    struct Line {
        const char* begin;
        const char* end;
    };

    /// What a line's cell needs of its column.
    struct Field {
        std::ptrdiff_t before;  ///< number of the separator in front of it, from -1
        std::size_t channel;
        double factor;
        double offset;
        const Column* column;
        std::uint32_t bit;  ///< of the channel
        bool last;          ///< of the line: the carriage return behind it is not its own
    };
    [[gnu::noinline]] void read_odd(Line line, const Field& field, std::string_view cell,
                                    Instant& to) const;

    /// One block into the sink's places; false at the end.
    template <class Sink>
    bool read_block(TextStream& stream, Sink& sink);
    [[nodiscard]] RowCounts counts() const;

    [[noreturn]] void refuse(Line line, std::size_t column, std::size_t width, std::string text,
                             std::string hint) const;
    [[noreturn]] void refuse_fields(Line line) const;
    void check_unnamed(Line line, const char* behind_names) const;
    [[noreturn]] void refuse_cell(Line line, const Column& column, std::string_view cell) const;
    [[noreturn]] void refuse_time(Line line) const;
    [[noreturn]] void refuse_long_line() const;
    [[noreturn]] void refuse_clock(Line line, const Column& column) const;
    /// Any line: quotes, clocks, words for a gear. False: it holds nothing.
    [[nodiscard]] bool read_slow(Line line, Instant& instant);
    [[nodiscard]] bool read_record(Line line, Instant& instant);
    /// Columns whose records bear this name, as it stands in the bytes.
    [[nodiscard]] const std::vector<const Column*>& named(std::string_view raw);
    /// Cells of a line with as many fields as the log has.
    void read_plain(Line line, const std::uint32_t* separators, const char* text,
                    Instant& instant) const;
    void read_cell(Line line, const Column& column, std::string_view cell, Instant& to) const;

    /// A line by its separators; that before the first of them ended the line before.
    [[nodiscard]] bool read(Line line, const std::uint32_t* separators, std::size_t fields,
                            const char* text, Instant& instant) {
        if (fields != layout_.dialect.fields || slow_) return read_slow(line, instant);
        if (unnamed_) check_unnamed(line, text + (separators[last_named_] + 1U));
        read_plain(line, separators, text, instant);
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
    std::vector<Field> fields_;
    CellViews cells_;
    std::vector<Named> names_;
    bool slow_;
    bool unnamed_;               ///< fields beyond the names, which have to be empty
    std::ptrdiff_t last_named_;  ///< number of the separator behind the last name
    Progress progress_;
    std::vector<char> buffer_;
    Separators separators_;
    std::size_t kept_ = 0;  ///< bytes of a line begun in the block before
    std::size_t blocks_ = 0;
    std::size_t line_ = 0;  ///< number of the line being read, from 1
};

template <class Sink>
bool RowReader::read_block(TextStream& stream, Sink& sink) {
    constexpr std::size_t piece_bytes = std::size_t{1} << 16;
    if (kept_ > longest_line) refuse_long_line();
    const std::size_t more = stream.read(buffer_.data() + kept_, block_bytes);
    if (more == 0) return false;
    const std::size_t size = kept_ + more;
    std::size_t at = 0;
    std::size_t piece = piece_bytes;
    while (at < size) {
        const char* const text = buffer_.data() + at;
        const std::size_t length = std::min(piece, size - at);
        separators_.find(text, length);
        if (separators_.lines() == 0) {
            if (at + length == size) break;
            piece *= 2;
            continue;
        }
        piece = piece_bytes;
        std::size_t first = 0;
        const char* begin = text;
        for (std::size_t i = 0; i < separators_.lines(); ++i) {
            const std::uint32_t ends_at = separators_.line_ends()[i];
            // Nearly always where a line of the log's fields ends.
            std::size_t last = first + layout_.dialect.fields - 1;
            if (last >= separators_.count() || separators_.at()[last] != ends_at)
                for (last = first; separators_.at()[last] != ends_at;) ++last;
            const char* end = text + ends_at;
            const char* const next = end + 1;
            ++line_;
            if (line_ >= layout_.dialect.first_line) {
                if (end != begin && end[-1] == '\r') --end;
                Instant& instant = sink.place();
                if (read({begin, end}, separators_.at() + first, last - first + 1, text, instant)) {
                    if (!(instant.t_s > -latest_s && instant.t_s < latest_s))
                        refuse_time({begin, end});
                    sink.take();
                }
            }
            begin = next;
            first = last + 1;
        }
        at += static_cast<std::size_t>(begin - text);
    }
    kept_ = size - at;
    std::memmove(buffer_.data(), buffer_.data() + at, kept_);
    if (progress_ && ++blocks_ % 64 == 0) progress_(stream.bytes_read());
    return true;
}

template <class Take>
RowCounts RowReader::run(TextStream& stream, Take&& take) {
    struct {
        Take& take_one;
        Instant instant;
        Instant& place() { return instant; }
        void take() { take_one(instant); }
    } sink{take, {}};
    while (read_block(stream, sink)) continue;
    return counts();
}

template <class Take>
RowCounts RowReader::run(TextStream& stream, Take&& take, const SideBySide& side_by_side) {
    struct Batch {
        std::vector<Instant> instants;
        std::size_t count = 0;
        std::exception_ptr failed;  ///< behind its instants
        Instant& place() {
            if (count == instants.size()) instants.emplace_back();
            return instants[count];
        }
        void take() { ++count; }
    };
    Batch fresh;
    Batch ready;
    bool more = true;
    // What fails is kept until its turn, so that the first line in the file is the one refused.
    const auto read_on = [&] {
        try {
            more = read_block(stream, fresh);
        } catch (...) {
            fresh.failed = std::current_exception();
            more = false;
        }
    };
    const auto use = [&] {
        try {
            for (std::size_t i = 0; i < ready.count; ++i) take(ready.instants[i]);
        } catch (...) {
            ready.failed = std::current_exception();
        }
        ready.count = 0;
    };
    read_on();
    bool last = false;
    while (!last) {
        std::swap(fresh, ready);
        last = !more;
        if (last)
            use();
        else
            side_by_side(read_on, use);
        if (ready.failed) std::rethrow_exception(ready.failed);
    }
    return counts();
}

}  // namespace caseload::duty
