// SPDX-License-Identifier: MIT
// Lines of a log as instants, by the layout the votes found. A line against it is an error.
#pragma once

#include "caseload/duty/event.hpp"
#include "caseload/error.hpp"
#include "duty/clock.hpp"
#include "duty/instants.hpp"
#include "duty/layout.hpp"
#include "duty/number.hpp"
#include "duty/separators.hpp"
#include "duty/text.hpp"

#include <algorithm>
#include <cstdint>
#include <cstring>
#include <exception>
#include <functional>
#include <memory>
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

    /// Calls take(Instants&, std::size_t count) for the lines in order, some at a time; it may
    /// change them.
    template <class Take>
    RowCounts run(TextStream& stream, Take&& take);
    /// The same, the next block of text being read while the last one is taken.
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
        std::size_t at;  ///< number of the field
        std::size_t to;  ///< place of its column in Instants
        double factor;
        double offset;
        const NumberForm* form;  ///< of its last number
        const Column* column;
    };
    /// Takes the field's bit from `present` where there is no number.
    [[gnu::noinline]] double read_odd(Line line, const Field& field, std::string_view cell,
                                      std::uint32_t& present) const;

    /// One block of text; next(Instants&) says where to go on when those are full. False at the
    /// end.
    template <class Next>
    bool read_block(TextStream& stream, Instants*& to, Next&& next);
    [[nodiscard]] RowCounts counts() const;

    [[noreturn]] void refuse(Line line, std::size_t column, std::size_t width, std::string text,
                             std::string hint) const;
    [[noreturn]] void refuse_fields(Line line) const;
    void check_unnamed(Line line, const char* behind_names) const;
    [[noreturn]] void refuse_cell(Line line, const Column& column, std::string_view cell) const;
    [[noreturn]] void refuse_time(Line line) const;
    [[noreturn]] void refuse_long_line() const;
    [[noreturn]] void refuse_clock(Line line, const Column& column) const;
    /// Any line: quotes, clocks, words for a gear. False: it is empty.
    [[nodiscard]] bool read_slow(Line line, Instant& instant);
    [[nodiscard]] bool read_record(Line line, Instant& instant);
    /// Columns whose records have this name, byte for byte.
    [[nodiscard]] const std::vector<const Column*>& named(std::string_view raw);
    /// Cells of a line with as many fields as the log has.
    void read_plain(Line line, const std::uint32_t* fields, const char* text, Instants& to) {
        std::uint32_t present = channels_;
        double* const values = to.values.data() + to.count;
        for (Field& field : fields_) {
            const char* const begin = text + fields[field.at];
            const char* const end = text + fields[field.at + 1] - 1;
            double value = 0;
            values[field.to] =
                number_.read_short(begin, end, field.form, value)
                    ? value * field.factor + field.offset
                    : read_odd(line, field, {begin, static_cast<std::size_t>(end - begin)},
                               present);
        }
        to.present[to.count] = present;
    }
    void read_cell(Line line, const Column& column, std::string_view cell, Instant& to) const;

    /// A line by where its fields begin in the text, put behind those read. False: it holds
    /// nothing.
    [[nodiscard]] bool read(Line line, const std::uint32_t* fields, std::size_t count,
                            const char* text, Instants& to) {
        if (count != layout_.dialect.fields || slow_) {
            if (!read_slow(line, one_)) return false;
            to.put(to.count, one_);
            return true;
        }
        if (unnamed_) check_unnamed(line, text + fields[layout_.named]);
        read_plain(line, fields, text, to);
        return (to.present[to.count] >> index(Channel::time) & 1U) != 0;
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
    Instant one_;  ///< of a line read the slow way
    bool slow_;
    bool unnamed_;            ///< fields beyond the names, which have to be empty
    std::uint32_t channels_;  ///< of the fields, by bit
    Progress progress_;
    std::unique_ptr<char[]> buffer_;
    Separators separators_;
    std::size_t kept_ = 0;  ///< bytes of a line begun in the block before
    std::size_t blocks_ = 0;
    std::size_t line_ = 0;  ///< number of the line being read, from 1
};

template <class Next>
bool RowReader::read_block(TextStream& stream, Instants*& to, Next&& next) {
    constexpr std::size_t piece_bytes = std::size_t{1} << 14;
    if (kept_ > longest_line) refuse_long_line();
    const std::size_t more = stream.read(buffer_.get() + kept_, block_bytes);
    if (more == 0) return false;
    const std::size_t size = kept_ + more;
    std::size_t at = 0;
    std::size_t piece = piece_bytes;
    while (at < size) {
        const char* const text = buffer_.get() + at;
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
            const std::uint32_t next_line = separators_.line_starts()[i];
            std::uint32_t* const fields = separators_.fields();
            // Nearly always as many fields on as the log has.
            std::size_t behind = first + layout_.dialect.fields;
            if (behind > separators_.count() || fields[behind] != next_line)
                for (behind = first; fields[behind] != next_line;) ++behind;
            const char* end = text + next_line - 1;
            ++line_;
            if (line_ >= layout_.dialect.first_line) {
                // A carriage return is no part of the last field.
                const bool cut = end != begin && end[-1] == '\r';
                if (cut) --end, --fields[behind];
                if (read({begin, end}, fields + first, behind - first, text, *to)) {
                    const double t_s = to->t_s()[to->count];
                    if (!(t_s > -latest_s && t_s < latest_s)) refuse_time({begin, end});
                    ++to->count;
                    if (to->full()) to = &next(*to);
                }
            }
            begin = text + next_line;
            fields[behind] = next_line;
            first = behind;
        }
        at += static_cast<std::size_t>(begin - text);
    }
    kept_ = size - at;
    std::memmove(buffer_.get(), buffer_.get() + at, kept_);
    if (progress_ && ++blocks_ % 64 == 0) progress_(stream.bytes_read());
    return true;
}

template <class Take>
RowCounts RowReader::run(TextStream& stream, Take&& take) {
    const auto instants = std::make_unique<Instants>();
    const auto use = [&](Instants& full) -> Instants& {
        take(full, std::exchange(full.count, 0));  // gone, too, where taking them fails
        return full;
    };
    Instants* to = instants.get();
    try {
        while (read_block(stream, to, use)) continue;
    } catch (...) {
        use(*to);  // what is wrong with the lines before comes first
        throw;
    }
    use(*to);
    return counts();
}

template <class Take>
RowCounts RowReader::run(TextStream& stream, Take&& take, const SideBySide& side_by_side) {
    struct Batch {
        std::vector<std::unique_ptr<Instants>> parts;
        std::size_t used = 0;
        std::exception_ptr failed;  ///< behind its instants
        Instants& more() {
            if (used == parts.size()) parts.push_back(std::make_unique<Instants>());
            return *parts[used++];
        }
    };
    Batch fresh;
    Batch ready;
    bool more = true;
    // What fails is kept until its turn, so that the first line in the file is the one refused.
    const auto read_on = [&] {
        try {
            Instants* to = &fresh.more();
            more = read_block(stream, to, [&](Instants&) -> Instants& { return fresh.more(); });
        } catch (...) {
            fresh.failed = std::current_exception();
            more = false;
        }
    };
    const auto use = [&] {
        try {
            for (std::size_t i = 0; i < ready.used; ++i)
                take(*ready.parts[i], std::exchange(ready.parts[i]->count, 0));
        } catch (...) {
            ready.failed = std::current_exception();
        }
        ready.used = 0;
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
