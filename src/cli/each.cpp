// SPDX-License-Identifier: MIT
#include "caseload/ask/each.hpp"
#include "caseload/ask/on_ground.hpp"
#include "caseload/show/each_line.hpp"
#include "cli/each_lines.hpp"
#include "cli/files.hpp"
#include "cli/progress.hpp"

#include <algorithm>
#include <filesystem>
#include <functional>
#include <mutex>
#include <optional>
#include <utility>

namespace caseload {
namespace {

constexpr std::size_t most_list_bytes = std::size_t{256} << 20U;

/// What one row calculates.
using RowLine = std::function<std::string(std::size_t row)>;

/// A row's setup and what answers it.
struct Row {
    std::size_t number;
    const std::string& name;
    std::function<Setup()> setup;
};

std::string line_of(const Row& row, const BandOptions& draws) {
    try {
        const Setup setup = row.setup();
        const Assessment likely = fitted_answer(setup);
        return each_line(row.number, row.name, setup, likely, line_band(setup, likely, draws));
    } catch (const Error& error) {
        return each_error_line(row.number, row.name, error);
    }
}

/// A document with other values in it, sooner where it is whole without them.
class Changed {
public:
    explicit Changed(const Document& document) : document_(document) {
        try {
            few_.emplace(document);
            ground_.emplace(document.complete());
        } catch (const Error&) {
            few_.reset();  // what is wrong is said of each row that does not mend it
        }
    }
    [[nodiscard]] Setup setup(const std::vector<Change>& changes) const {
        return few_ ? few_->setup(ground_->with(changes)) : document_.complete(changes).setup;
    }

private:
    const Document& document_;
    std::optional<FewChanged> few_;
    std::optional<OnGround> ground_;
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
            try {
                lines_.write(waiting_[next_]);
            } catch (const Error&) {  // not where memory ran out: that piece is done again
                failed_ = true;
                throw;
            }
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

void run_rows(const EachOptions& options, const std::string& sum, std::size_t rows,
              const RowLine& line) {
    const Shard shard = read_shard(options.shard);
    std::vector<std::size_t> mine;
    for (std::size_t row = shard.k - 1; row < rows; row += shard.n) mine.push_back(row);
    Lines lines(options, mine, sum);
    const std::size_t rows_left = mine.size() - lines.kept();
    const unsigned threads = threads_of(options.threads);
    // In blocks, so that lines wait in memory for no more than one of them; within a block each
    // line is written as soon as those before it are.
    const std::size_t block = std::size_t{64} * threads;
    // Lines on the terminal themselves say how far it is.
    Progress progress;
    const bool shown = options.out.empty() && out_on_a_terminal();
    const auto part_of = [&](std::size_t count) {
        return static_cast<double>(count) / static_cast<double>(rows_left);
    };
    for (std::size_t from = lines.kept(); from < mine.size(); from += block) {
        const std::size_t count = std::min(block, mine.size() - from);
        InOrder in_order(lines, count);
        const ForEach for_each =
            shown ? on_threads(threads)
                  : progress.watched(on_threads(threads), {part_of(count), {1.0}});
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

/// A file that is there and would be written may be a setup of the list, or a base of one, which
/// are read row by row only when it is gone.
void note_setups(const std::vector<std::string>& names, const std::string& out) {
    std::error_code none;
    if (out.empty() || !std::filesystem::exists(path_of(out), none)) return;
    for (const std::string& name : names) {
        try {
            static_cast<void>(read_document(name));
        } catch (const Error&) {
            continue;  // its row says so
        }
    }
}

}  // namespace

void run_each(const EachOptions& options) {
    const BandOptions draws{.draws = options.draws, .shared = shared_tables()};
    const std::string list = whole_text_of(options.list, most_list_bytes);
    if (options.setup.empty()) {
        const std::vector<std::string> names = names_in(list);
        note_setups(names, options.out);
        run_rows(options, list_sum(options, {list}), names.size(), [&](std::size_t row) {
            const std::string& name = names[row];
            return line_of({row + 1, name, [&] { return read_document(name).complete().setup; }},
                           draws);
        });
        return;
    }
    std::vector<std::string> texts{list};
    const Document document = read_document(
        options.setup, [&](const std::string&, const std::string& text) { texts.push_back(text); });
    const EachTable table = read_each_table(list, shown_name(options.list));
    const Changed changed(document);
    run_rows(options, list_sum(options, texts), table.rows.size(), [&](std::size_t row) {
        return line_of({row + 1, options.setup, [&] { return changed.setup(table.rows[row]); }},
                       draws);
    });
}

}  // namespace caseload
