// SPDX-License-Identifier: MIT
#include "duty/dialect.hpp"

#include "caseload/error.hpp"
#include "duty/clock.hpp"
#include "input/letters.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cstdint>
#include <iterator>
#include <map>
#include <utility>

namespace caseload::duty {
namespace {

constexpr std::size_t most_lines = 100000;  // of a window looked at
// "More than 95 %" of the tokens, and "most" of the lines. Common practice, no published
// source.
constexpr double nearly_all = 0.95;
constexpr double most_numbers = 0.5;

[[noreturn]] void refuse(const std::string& file, std::string text, std::string hint) {
    throw Error(Error::Kind::input,
                {Problem{{file, 0, 0, 0, {}}, std::move(text), std::move(hint)}});
}

void add_lines(std::string_view text, std::vector<std::string_view>& to) {
    constexpr std::size_t short_line = 24;  // shorter ones make the list grow
    to.reserve(std::min(text.size() / short_line + 1, most_lines));
    while (!text.empty() && to.size() < most_lines) {
        const std::size_t end = text.find('\n');
        std::string_view line = text.substr(0, end);
        if (!line.empty() && line.back() == '\r') line.remove_suffix(1);
        to.push_back(line);
        if (end == std::string_view::npos) return;
        text.remove_prefix(end + 1);
    }
}

struct Share {
    std::size_t fields = 0;  ///< on most lines
    double of_lines = 0;
};

constexpr char delimiters[] = {';', '\t', '|', ','};
constexpr std::size_t delimiter_count = std::size(delimiters);

using Fields = std::array<std::size_t, delimiter_count>;

/// A lane of 16 bits for each delimiter, 1 in that of the byte's own.
constexpr std::array<std::uint64_t, 256> lanes_of_bytes() {
    std::array<std::uint64_t, 256> lanes{};
    for (std::size_t k = 0; k < delimiter_count; ++k)
        lanes[static_cast<unsigned char>(delimiters[k])] = std::uint64_t{1} << 16 * k;
    return lanes;
}

/// Fields of a line by each delimiter, in one pass.
Fields fields_by_each(std::string_view line) {
    static constexpr auto lanes = lanes_of_bytes();
    constexpr std::size_t most_at_once = 0xFFFF;  // of one lane
    Fields fields;
    fields.fill(1);
    const bool quotes = line.find('"') != std::string_view::npos;
    bool quoted = false;
    while (!line.empty()) {
        std::uint64_t seen = 0;
        const std::string_view part = line.substr(0, most_at_once);
        if (quotes) {
            for (const char c : part) {
                if (c == '"') quoted = !quoted;
                if (!quoted) seen += lanes[static_cast<unsigned char>(c)];
            }
        } else {
            for (const char c : part) seen += lanes[static_cast<unsigned char>(c)];
        }
        for (std::size_t k = 0; k < delimiter_count; ++k) fields[k] += seen >> 16 * k & 0xFFFFU;
        line.remove_prefix(part.size());
    }
    return fields;
}

using Counts = std::map<std::size_t, std::size_t>;  ///< lines by their fields

Share share_of(const Counts& counts, std::size_t filled) {
    Share best;
    for (const auto& [fields, count] : counts) {
        const double share = static_cast<double>(count) / static_cast<double>(filled);
        if (share > best.of_lines) best = {fields, share};
    }
    return best;
}

/// A token of digits and one kind of mark: how it could be read.
struct MarkVote {
    std::size_t tokens = 0;
    std::size_t like_groups = 0;  ///< 1 to 3 digits not beginning with 0, then groups of three
};

/// Votes over the tokens of data lines.
struct Votes {
    MarkVote comma;
    MarkVote point;
    std::size_t comma_last = 0;  ///< both marks in one token, the comma behind
    std::size_t point_last = 0;
};

bool is_digit(char c) {
    return c >= '0' && c <= '9';
}

void count_token(std::string_view token, Votes& votes) {
    if (!token.empty() && (token.front() == '-' || token.front() == '+')) token.remove_prefix(1);
    if (std::all_of(token.begin(), token.end(), is_digit)) return;  // no mark, no vote
    std::size_t digits = 0;
    std::size_t since = 0;  // digits behind the last mark
    std::size_t commas = 0;
    std::size_t points = 0;
    bool comma_last = false;
    bool groups = true;
    for (const char c : token) {
        if (is_digit(c)) {
            ++digits;
            ++since;
        } else if (c == ',' || c == '.') {
            if (commas + points > 0)
                groups = groups && since == 3;
            else
                groups = since > 0 && since <= 3 && token.front() != '0';
            comma_last = c == ',';
            ++(comma_last ? commas : points);
            since = 0;
        } else if (c == 'e' || c == 'E') {
            break;
        } else {
            return;
        }
    }
    if (digits == 0 || commas + points == 0) return;
    // "31.05.2026" is no number by any mark.
    const bool in_groups = groups && since == 3;
    if (commas + points > 1 && (commas == 0 || points == 0) && !in_groups) return;
    if (commas > 0 && points > 0) {
        ++(comma_last ? votes.comma_last : votes.point_last);
        return;
    }
    MarkVote& vote = commas > 0 ? votes.comma : votes.point;
    ++vote.tokens;
    if (in_groups) ++vote.like_groups;
}

bool mostly(std::size_t part, std::size_t of) {
    return of > 0 && static_cast<double>(part) > nearly_all * static_cast<double>(of);
}

void decide_marks(const Votes& votes, const std::string& decimal, const std::string& file,
                  Dialect& dialect) {
    const auto choose = [&](char mark, bool grouped) {
        dialect.decimal = mark;
        dialect.grouping = grouped ? (mark == '.' ? ',' : '.') : '\0';
    };
    if (decimal == "comma" || decimal == "point") {
        const bool comma = decimal == "comma";
        choose(comma ? ',' : '.', (comma ? votes.point : votes.comma).tokens > 0 ||
                                      (comma ? votes.comma_last : votes.point_last) > 0);
        return;
    }
    if (votes.comma_last + votes.point_last > 0) {
        if (mostly(votes.comma_last, votes.comma_last + votes.point_last)) return choose(',', true);
        if (mostly(votes.point_last, votes.comma_last + votes.point_last)) return choose('.', true);
        refuse(file, "this log has both \"1.234,5\" and \"1,234.5\"",
               "say which it is: --decimal comma, or --decimal point");
    }
    const bool comma_groups = mostly(votes.comma.like_groups, votes.comma.tokens);
    const bool point_groups = mostly(votes.point.like_groups, votes.point.tokens);
    if (votes.comma.tokens == 0 && votes.point.tokens == 0) return choose('.', false);
    if (votes.comma.tokens == 0) {
        // A point alone is a decimal, but where a comma could be one it may separate thousands.
        if (point_groups && dialect.delimiter != ',')
            refuse(file,
                   "every number with a point has three digits behind it, as in \"4.120\": a "
                   "decimal or thousands",
                   "say which it is: --decimal point, or --decimal comma");
        return choose('.', false);
    }
    if (votes.point.tokens == 0) return choose(comma_groups ? '.' : ',', comma_groups);
    if (comma_groups && !point_groups) return choose('.', true);
    if (point_groups && !comma_groups) return choose(',', true);
    // A few tokens against nearly all: their line is refused when it is read.
    const std::size_t tokens = votes.comma.tokens + votes.point.tokens;
    if (mostly(votes.comma.tokens, tokens)) return choose(',', false);
    if (mostly(votes.point.tokens, tokens)) return choose('.', false);
    refuse(file, "this log has numbers with a decimal comma and with a decimal point",
           "say which it is: --decimal comma, or --decimal point");
}

}  // namespace

Sampled sample_lines(const Windows& windows, Dialect& dialect, const std::string& file) {
    Sampled sampled;
    if (windows.head.empty()) refuse(file, "the log is empty", "");
    dialect.encoding = vote_encoding(windows);
    std::vector<std::string_view> texts;
    const auto add_text = [&](const std::string& window) {
        if (is_utf16(dialect.encoding))
            texts.push_back(sampled.made.emplace_back(decoded(window, dialect.encoding)));
        else
            texts.push_back(input::without_mark(window));
    };
    add_text(windows.head);
    for (const std::string& window : windows.later) add_text(window);
    const std::string_view head = texts.front();
    if (head.find('\0') != std::string_view::npos)
        refuse(file, "this is not text: it has bytes of zero",
               "export the log as CSV from the logger's own program");
    dialect.lines_by_cr =
        head.find('\n') == std::string_view::npos && head.find('\r') != std::string_view::npos;
    if (dialect.lines_by_cr)
        for (std::string_view& text : texts) {
            std::string& made = sampled.made.emplace_back(text);
            std::replace(made.begin(), made.end(), '\r', '\n');
            text = made;
        }
    sampled.quotes = std::any_of(texts.begin(), texts.end(), [](std::string_view text) {
        return text.find('"') != std::string_view::npos;
    });
    add_lines(texts.front(), sampled.head);
    if (!windows.whole && !sampled.head.empty() && sampled.head.size() < most_lines)
        sampled.head.pop_back();
    for (std::size_t i = 1; i < texts.size(); ++i) {
        std::vector<std::string_view> lines;
        add_lines(texts[i], lines);
        if (lines.size() > 2)
            sampled.later.insert(sampled.later.end(), lines.begin() + 1, lines.end() - 1);
    }
    return sampled;
}

std::vector<std::string> split(std::string_view line, char delimiter) {
    std::vector<std::string> fields(1);
    bool quoted = false;
    for (const char c : line) {
        if (c == '"') {
            quoted = !quoted;
        } else if (c == delimiter && !quoted) {
            fields.emplace_back();
        } else {
            fields.back() += c;
        }
    }
    for (std::string& field : fields) {
        field.erase(field.find_last_not_of(" \t\r") + 1);
        field.erase(0, std::min(field.find_first_not_of(" \t"), field.size()));
    }
    return fields;
}

void CellViews::take(std::string_view line, char delimiter, std::size_t most) {
    views_.clear();
    if (!unquoted_.empty()) unquoted_.clear();
    const char* begin = line.data();
    const char* const end = line.data() + line.size();
    if (line.find('"') == std::string_view::npos) {
        while (true) {
            const char* at = begin;
            while (at != end && *at != delimiter) ++at;
            add({begin, static_cast<std::size_t>(at - begin)});
            if (at == end || views_.size() == most) return;
            begin = at + 1;
        }
    }
    while (true) {
        bool quoted = false;
        std::size_t quotes = 0;
        const char* at = begin;
        for (; at != end && (quoted || *at != delimiter); ++at)
            if (*at == '"') {
                quoted = !quoted;
                ++quotes;
            }
        add({begin, static_cast<std::size_t>(at - begin)}, quotes);
        if (at == end || views_.size() == most) return;
        begin = at + 1;
    }
}

void CellRows::add(std::string_view line) {
    bool quoted = false;
    std::size_t fields = 1;
    if (line.find('"') == std::string_view::npos) {
        for (const char c : line) fields += c == delimiter_ ? 1 : 0;
    } else {
        for (const char c : line) {
            if (c == '"') quoted = !quoted;
            if (c == delimiter_ && !quoted) ++fields;
        }
    }
    if (fields == fields_) lines_.push_back(line);
}

void CellViews::add(std::string_view cell, std::size_t quotes) {
    const auto trimmed = [](std::string_view text) {
        while (!text.empty() && (text.back() == ' ' || text.back() == '\t' || text.back() == '\r'))
            text.remove_suffix(1);
        while (!text.empty() && (text.front() == ' ' || text.front() == '\t'))
            text.remove_prefix(1);
        return text;
    };
    const bool bare = !cell.empty() && cell.front() > ' ' && cell.back() > ' ';
    if (!bare) cell = trimmed(cell);
    if (quotes == 0) {
        views_.push_back(cell);
        return;
    }
    if (quotes == 2 && cell.size() >= 2 && cell.front() == '"' && cell.back() == '"') {
        cell = trimmed(cell.substr(1, cell.size() - 2));
    } else {
        unquoted_.emplace_back(cell);
        std::string& plain = unquoted_.back();
        plain.erase(std::remove(plain.begin(), plain.end(), '"'), plain.end());
        cell = trimmed(plain);
    }
    views_.push_back(cell);
}

void vote(const Sampled& sampled, const ReadOptions& options, const std::string& file,
          Dialect& dialect) {
    // The first tenth of the head may be about the log; a short head is mostly that.
    const std::span<const std::string_view> windows[] = {
        std::span(sampled.head).subspan(sampled.head.size() / 10), sampled.later};
    std::array<Counts, delimiter_count> counts;
    std::size_t filled = 0;
    Fields last{};  // nearly every line is like the one before
    std::size_t alike = 0;
    const auto count_last = [&] {
        for (std::size_t k = 0; k < delimiter_count && alike > 0; ++k) counts[k][last[k]] += alike;
        alike = 0;
    };
    for (const auto& lines : windows)
        for (const std::string_view line : lines) {
            if (line.empty()) continue;
            ++filled;
            const Fields fields = fields_by_each(line);
            if (fields != last) {
                count_last();
                last = fields;
            }
            ++alike;
        }
    count_last();
    Share best;
    double best_rank = 0;
    for (std::size_t k = 0; k < delimiter_count; ++k) {
        const char delimiter = delimiters[k];
        const Share share = share_of(counts[k], filled);
        // A decimal comma is as regular as the delimiter beside it.
        const double rank = share.of_lines - (delimiter == ',' ? 0.1 : 0);
        if (share.fields < 2 || share.of_lines <= most_numbers || rank <= best_rank) continue;
        best = share;
        best_rank = rank;
        dialect.delimiter = delimiter;
    }
    if (best.fields < 2)
        refuse(file, "most lines do not have the same number of commas, semicolons, TABs or bars",
               "a log is one record a line with a delimiter between its fields; decimal commas "
               "between commas make their number differ");
    dialect.fields = best.fields;
    Votes votes;
    CellViews cells;
    // Between commas no cell without quotes has one: its mark can be the point alone, which needs
    // no vote where nobody says it is the comma.
    const bool point_alone =
        dialect.delimiter == ',' && !sampled.quotes && options.decimal != "comma";
    for (const auto& lines : windows)
        for (const std::string_view line : lines) {
            if (point_alone) break;
            cells.take(line, dialect.delimiter);
            if (cells.size() == dialect.fields)
                for (std::size_t i = 0; i < cells.size(); ++i) count_token(cells[i], votes);
        }
    decide_marks(votes, options.decimal, file, dialect);
}

bool is_value(std::string_view cell, const Marks& marks) {
    double value = 0;
    if (clock_s(cell)) return true;
    return number::read_rest(cell, marks, value) == Cell::number;
}

}  // namespace caseload::duty
