// SPDX-License-Identifier: MIT
#include "cli/each.hpp"

#include "caseload/ask/each.hpp"
#include "caseload/show/each_line.hpp"
#include "cli/files.hpp"
#include "cli/progress.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <charconv>
#include <cmath>
#include <filesystem>
#include <fstream>
#include <functional>
#include <mutex>
#include <optional>
#include <utility>
#include <vector>

namespace caseload {
namespace {

struct Shard {
    std::size_t k = 1;
    std::size_t n = 1;
};

Shard read_shard(const std::string& text) {
    if (text.empty()) return {};
    Shard shard;
    const char* const end = text.data() + text.size();
    const auto [slash, first] = std::from_chars(text.data(), end, shard.k);
    if (first == std::errc() && slash != end && *slash == '/') {
        const auto [stop, second] = std::from_chars(slash + 1, end, shard.n);
        if (second == std::errc() && stop == end && shard.k >= 1 && shard.k <= shard.n)
            return shard;
    }
    throw Error(Error::Kind::input,
                fmt::format("--shard {}: write k/n with k from 1 to n, for example 2/8", text));
}

/// What one row calculates.
using RowLine = std::function<std::string(std::size_t row)>;

std::string line_of(std::size_t number, const std::string& name, const Document& document,
                    const std::vector<Change>& changes, std::size_t draws) {
    try {
        const ReadSetup read = document.complete(changes);
        const Assessment likely = assess(read.setup);
        return each_line(number, name, read.setup, likely,
                         band(read.setup, likely, {.draws = draws}));
    } catch (const Error& error) {
        return each_error_line(number, name, error);
    }
}

/// Rows already in the file; a line cut short by a power cut is taken off.
std::size_t lines_kept(const std::string& path) {
    const std::optional<std::string> text = file_text(path_of(path));
    if (!text) return 0;
    const std::size_t whole = text->rfind('\n') == std::string::npos ? 0 : text->rfind('\n') + 1;
    std::error_code failed;
    std::filesystem::resize_file(path_of(path), whole, failed);
    if (failed) throw Error(Error::Kind::file, fmt::format("{}: cannot be cut", path));
    return static_cast<std::size_t>(std::count(text->begin(), text->end(), '\n'));
}

class Lines {
public:
    explicit Lines(const EachOptions& options) {
        if (options.resume && options.out.empty())
            throw Error(Error::Kind::input, "--resume: name the file to go on with: --out FILE");
        if (options.out.empty()) return;
        if (options.resume) kept_ = lines_kept(options.out);
        file_.emplace(path_of(options.out),
                      std::ios::binary | (options.resume ? std::ios::app : std::ios::trunc));
        if (!*file_)
            throw Error(Error::Kind::file, fmt::format("{}: cannot be written", options.out));
    }
    [[nodiscard]] std::size_t kept() const { return kept_; }
    void write(const std::string& text) {
        if (!file_) {
            print(text);
            return;
        }
        if (!(*file_ << text << std::flush))
            throw Error(Error::Kind::file, "the output file cannot be written");
    }

private:
    std::optional<std::ofstream> file_;
    std::size_t kept_ = 0;
};

/// Lines of a block, written in their order by whoever has the next one.
class InOrder {
public:
    InOrder(Lines& lines, std::size_t count) : lines_(lines), waiting_(count) {}
    void add(std::size_t i, std::string line) {
        const std::lock_guard<std::mutex> lock(mutex_);
        waiting_[i] = std::move(line);
        // After one that cannot be written none is.
        while (!failed_ && next_ < waiting_.size() && !waiting_[next_].empty()) {
            failed_ = true;
            lines_.write(waiting_[next_]);
            failed_ = false;
            waiting_[next_++] = std::string();
        }
    }

private:
    Lines& lines_;
    std::mutex mutex_;
    std::vector<std::string> waiting_;
    std::size_t next_ = 0;
    bool failed_ = false;
};

void run_rows(const EachOptions& options, std::size_t rows, const RowLine& line) {
    const Shard shard = read_shard(options.shard);
    std::vector<std::size_t> mine;
    for (std::size_t row = shard.k - 1; row < rows; row += shard.n) mine.push_back(row);
    Lines lines(options);
    if (lines.kept() > mine.size())
        throw Error(Error::Kind::input,
                    fmt::format("{}: {} lines stand there, the list has {} rows for it: another "
                                "list or another shard",
                                options.out, lines.kept(), mine.size()));
    const std::size_t rows_left = mine.size() - lines.kept();
    const unsigned threads = threads_of(options.threads);
    // In blocks, so that lines wait in memory for no more than one of them; within a block each
    // line is written as soon as those before it are.
    const std::size_t block = std::size_t{64} * threads;
    const double blocks =
        std::max(1.0, std::ceil(static_cast<double>(rows_left) / static_cast<double>(block)));
    // Lines on the terminal themselves say how far it is.
    Progress progress(std::vector<double>(static_cast<std::size_t>(blocks), 1 / blocks));
    const ForEach for_each = options.out.empty() && out_on_a_terminal()
                                 ? on_threads(threads)
                                 : progress.watched(on_threads(threads));
    for (std::size_t from = lines.kept(); from < mine.size(); from += block) {
        const std::size_t count = std::min(block, mine.size() - from);
        InOrder in_order(lines, count);
        for_each(count, [&](std::size_t i) { in_order.add(i, line(mine[from + i])); });
    }
}

std::vector<std::string> names_in(const std::string& text) {
    std::vector<std::string> names;
    std::string name;
    for (const char c : text + "\n") {
        if (c != '\n' && c != '\r') {
            name += c;
            continue;
        }
        while (!name.empty() && (name.back() == ' ' || name.back() == '\t')) name.pop_back();
        name.erase(0, std::min(name.find_first_not_of(" \t"), name.size()));
        if (!name.empty() && name.front() != '#') names.push_back(name);
        name.clear();
    }
    return names;
}

}  // namespace

void run_each(const EachOptions& options) {
    const std::optional<std::string> list = file_text(path_of(options.list));
    if (!list) throw Error(Error::Kind::file, fmt::format("{}: cannot be read", options.list));
    if (options.setup.empty()) {
        const std::vector<std::string> names = names_in(*list);
        run_rows(options, names.size(), [&](std::size_t row) {
            try {
                return line_of(row + 1, names[row], read_document(names[row]), {}, options.draws);
            } catch (const Error& error) {
                return each_error_line(row + 1, names[row], error);
            }
        });
        return;
    }
    const Document document = read_document(options.setup);
    const EachTable table = read_each_table(*list, file_name(options.list));
    run_rows(options, table.rows.size(), [&](std::size_t row) {
        return line_of(row + 1, options.setup, document, table.rows[row], options.draws);
    });
}

}  // namespace caseload
