// SPDX-License-Identifier: MIT
#include "cli/files.hpp"

#include "input/harmless.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <atomic>
#include <cstddef>
#include <cstdio>
#include <exception>
#include <fstream>
#include <iterator>
#include <limits>
#include <new>
#include <thread>
#include <utility>
#include <vector>

namespace caseload {

std::filesystem::path path_of(std::string_view name) {
    return std::u8string(name.begin(), name.end());
}

std::string file_name(std::string_view name) {
    const std::u8string last = path_of(name).filename().u8string();
    return {last.begin(), last.end()};
}

std::optional<std::string> file_text(const std::filesystem::path& path) {
    std::error_code failed;
    if (!std::filesystem::is_regular_file(path, failed)) return std::nullopt;
    std::ifstream file(path, std::ios::binary);
    if (!file) return std::nullopt;
    std::string text(std::istreambuf_iterator<char>(file), {});
    if (file.bad()) return std::nullopt;
    return text;
}

Document read_document(const std::string& path) {
    const std::optional<std::string> text = file_text(path_of(path));
    if (!text) throw Error(Error::Kind::file, fmt::format("{}: cannot be read", path));
    const std::filesystem::path folder = path_of(path).parent_path();
    return {*text, input::harmless(file_name(path)),
            [folder](const std::string& name) { return file_text(folder / path_of(name)); }};
}

void print(const std::string& from) {
    const std::string text = input::harmless_lines(from);
    if (std::fwrite(text.data(), 1, text.size(), stdout) != text.size() || std::fflush(stdout) != 0)
        throw Error(Error::Kind::file, "the output cannot be written");
}

void write_file(const std::string& path, const std::string& text) {
    const std::filesystem::path beside = path_of(path + ".part");
    std::error_code failed;
    {
        std::ofstream file(beside, std::ios::binary);
        file.write(text.data(), static_cast<std::streamsize>(text.size()));
        file.close();
        if (file) std::filesystem::rename(beside, path_of(path), failed);
        if (file && !failed) return;
    }
    std::filesystem::remove(beside, failed);
    throw Error(Error::Kind::file,
                fmt::format("{}: cannot be written; is there such a folder, and may you write "
                            "there?",
                            path));
}

namespace {

constexpr std::size_t no_piece = std::numeric_limits<std::size_t>::max();

/// The piece at which a thread ended early, and why.
struct Ended {
    std::size_t at = no_piece;
    std::exception_ptr by;
    bool no_memory = false;
};

/// Pieces of work, handed out in order to whoever is free.
class SharedWork {
public:
    SharedWork(std::size_t n, const std::function<void(std::size_t)>& body, std::size_t threads)
        : n_(n), body_(body), working_(threads) {}

    /// Takes pieces until none is left. A thread whose memory ran out ends: the less of them, the
    /// more is left for the others.
    Ended take(std::size_t thread) noexcept {
        while (!failed_ && thread < working_) {
            const std::size_t i = next_++;
            if (i >= n_) break;
            try {
                body_(i);
            } catch (const std::bad_alloc&) {
                return {i, std::current_exception(), true};
            } catch (...) {
                failed_ = true;
                return {i, std::current_exception(), false};
            }
        }
        return {};
    }

    /// No more threads than these go on; each needs memory of its own.
    void only(std::size_t threads) { working_ = threads; }

    /// What is left, when no other thread runs: as if all had been done one by one.
    void finish(std::vector<Ended> ended) {
        std::sort(ended.begin(), ended.end(),
                  [](const Ended& a, const Ended& b) { return a.at < b.at; });
        for (const Ended& one : ended) {
            if (one.at == no_piece) break;
            if (!one.no_memory) std::rethrow_exception(one.by);
            body_(one.at);
        }
        for (std::size_t i = next_; i < n_; ++i) body_(i);
    }

private:
    std::size_t n_;
    const std::function<void(std::size_t)>& body_;
    std::atomic<std::size_t> next_{0};
    std::atomic<std::size_t> working_;
    std::atomic<bool> failed_{false};
};

}  // namespace

unsigned threads_of(unsigned asked) {
    return asked > 0 ? asked : std::max(1U, std::thread::hardware_concurrency());
}

ForEach on_threads(unsigned threads, unsigned cores) {
    if (threads == 0) threads = cores;
    if (cores > 0) threads = std::min(threads, cores);
    if (threads <= 1) return one_by_one;
    return [threads](std::size_t n, const std::function<void(std::size_t)>& body) {
        const std::size_t wanted = std::max<std::size_t>(1, std::min<std::size_t>(threads, n));
        SharedWork work(n, body, wanted);
        std::vector<Ended> ended(wanted);
        std::vector<std::thread> beside;
        beside.reserve(wanted);
        for (std::size_t k = 1; k < wanted; ++k) {
            try {
                beside.emplace_back([&work, &ended, k] { ended[k] = work.take(k); });
            } catch (const std::exception&) {
                // The system starts no more; a quarter of them leaves it room for the work itself.
                work.only(std::max<std::size_t>(1, k / 4));
                break;
            }
        }
        ended[0] = work.take(0);
        for (std::thread& thread : beside) thread.join();
        work.finish(std::move(ended));
    };
}

}  // namespace caseload
