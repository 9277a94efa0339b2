// SPDX-License-Identifier: MIT
#include "cli/each_lines.hpp"

#include "cli/files.hpp"
#include "cli/part_file.hpp"
#include "cli/version.hpp"
#include "input/measured_of.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cerrno>
#include <charconv>
#include <filesystem>
#include <limits>
#include <string_view>
#include <utility>

namespace caseload {
namespace {

/// What the line of a row begins with.
std::string beginning_of(std::size_t row) {
    return fmt::format("{{\"number\":{},\"setup\":", row + 1);
}

std::string ending_of(std::string_view sum) {
    return fmt::format(",\"list\":\"{}\"}}\n", sum);
}

constexpr std::size_t sum_digits = 16;
const std::size_t ending_size = ending_of(std::string(sum_digits, '0')).size();

/// An answer with its list, whichever that is.
bool is_answer(std::string_view line) {
    const std::string any = ending_of("");
    const std::string_view before = std::string_view(any).substr(0, any.find("\"}"));
    return line.starts_with("{\"number\":") && line.size() > ending_size &&
           line.substr(line.size() - ending_size).starts_with(before) && line.ends_with("\"}\n");
}

/// Lines of a file that --resume goes on with, checked against what this run would write.
class KeptLines {
public:
    KeptLines(const std::string& path, std::string_view text, const std::string& ending)
        : path_(path), text_(text), ending_(ending) {}

    /// Bytes of them, without a last one cut short; how many there are.
    std::pair<std::size_t, std::size_t> check(std::span<const std::size_t> rows) {
        std::size_t at = 0;
        std::size_t count = 0;
        for (std::size_t end = 0; (end = text_.find('\n', at)) != std::string_view::npos; ++count) {
            const std::string_view line = text_.substr(at, end + 1 - at);
            if (!is_answer(line))
                refuse(fmt::format("line {} is no answer of --each with the sum of its list",
                                   count + 1));
            if (!line.ends_with(ending_))
                refuse(
                    fmt::format("line {} answers another list, setup, number of calculations "
                                "(--draws) or version of the program",
                                count + 1));
            if (count >= rows.size() || !line.starts_with(beginning_of(rows[count])))
                refuse(fmt::format("line {} is not of {}: another shard, or parts put together",
                                   count + 1,
                                   count < rows.size() ? fmt::format("row {}", rows[count] + 1)
                                                       : std::string("a row that is left")));
            at = end + 1;
        }
        const std::string_view rest = text_.substr(at);
        const std::string wanted = count < rows.size() ? beginning_of(rows[count]) : std::string();
        const std::size_t both = std::min(rest.size(), wanted.size());
        if (!rest.empty() && (both == 0 || rest.substr(0, both) != wanted.substr(0, both)))
            refuse(fmt::format("line {} is no answer of --each cut short", count + 1));
        return {at, count};
    }

private:
    [[noreturn]] void refuse(const std::string& why) const {
        refuse_input(fmt::format("--resume --out {}: {}; the file is left as it is", path_, why),
                     "name the file this list, setup and shard were begun with; or begin anew "
                     "without --resume");
    }

    const std::string& path_;
    std::string_view text_;
    const std::string& ending_;
};

}  // namespace

Shard read_shard(const std::string& text) {
    if (text.empty()) return {};
    constexpr std::size_t most_shards = 1'000'000;
    Shard shard;
    const char* const end = text.data() + text.size();
    const auto [slash, first] = std::from_chars(text.data(), end, shard.k);
    if (first == std::errc() && slash != end && *slash == '/') {
        const auto [stop, second] = std::from_chars(slash + 1, end, shard.n);
        if (second == std::errc() && stop == end && shard.k >= 1 && shard.k <= shard.n &&
            shard.n <= most_shards)
            return shard;
    }
    refuse_input(
        fmt::format("--shard {}: write k/n with k from 1 to n and n up to {}, for example 2/8",
                    text, most_shards));
}

std::string list_sum(const EachOptions& options, const std::vector<std::string>& texts) {
    std::string all = fmt::format("{} {}", program_version, options.draws);
    // With its length each text begins where it does.
    for (const std::string& text : texts) all += fmt::format(" {}:{}", text.size(), text);
    return input::text_hash(all);
}

Lines::Lines(const EachOptions& options, std::span<const std::size_t> rows, const std::string& sum)
    : path_(options.out), ending_(ending_of(sum)) {
    if (options.resume && path_.empty())
        refuse_input("--resume: name the file to go on with: --out FILE");
    if (path_.empty()) return;
    require_output({"--out", path_});
    const std::filesystem::path place = path_of(path_);
    if (options.resume) {
        constexpr std::size_t all = std::numeric_limits<std::size_t>::max();
        const std::string text = text_beside(place, all).value_or("");
        const auto [bytes, count] = KeptLines(path_, text, ending_).check(rows);
        kept_ = count;
        std::error_code failed;
        if (bytes < text.size()) std::filesystem::resize_file(place, bytes, failed);
        if (failed) refuse_file(fmt::format("{}: its last line cannot be cut", path_));
    }
    errno = 0;
    file_.emplace(place, std::ios::binary | (options.resume ? std::ios::app : std::ios::trunc));
    if (!*file_)
        throw NotWritten(
            {{}, fmt::format("{}: cannot be written; {}", path_, why_not_written(errno)), {}});
}

void Lines::write(const std::string& line) {
    const std::string marked = line.substr(0, line.size() - 2) + ending_;
    if (!file_) {
        print(marked);
        return;
    }
    errno = 0;
    if (!(*file_ << marked << std::flush))
        throw NotWritten(
            {{},
             fmt::format("{}: cannot be written on; {}", path_, why_not_written(errno)),
             fmt::format("{} whole lines are kept there; when the cause is gone, the same command "
                         "with --resume goes on after them",
                         kept_ + written_)});
    ++written_;
}

}  // namespace caseload
