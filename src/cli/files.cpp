// SPDX-License-Identifier: MIT
#include "cli/files.hpp"

#include "cli/part_file.hpp"
#include "input/harmless.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <atomic>
#include <cerrno>
#include <cstdio>
#include <cstring>
#include <exception>
#include <limits>
#include <memory>
#include <new>
#include <utility>
#include <vector>

namespace caseload {

std::filesystem::path path_of(std::string_view name) {
    return std::u8string(name.begin(), name.end());
}

std::string name_of(const std::u8string& utf8) {
    return {utf8.begin(), utf8.end()};
}

std::string file_name(std::string_view name) {
    return name_of(path_of(name).filename().u8string());
}

namespace {

struct CloseFile {
    void operator()(std::FILE* file) const { std::fclose(file); }
};
using OpenFile = std::unique_ptr<std::FILE, CloseFile>;

OpenFile opened(const std::filesystem::path& path) {
#ifdef _WIN32
    return OpenFile(_wfopen(path.c_str(), L"rb"));
#else
    return OpenFile(std::fopen(path.c_str(), "rb"));
#endif
}

[[noreturn]] void refuse_reading(const std::string& name, std::string_view why) {
    refuse_file(fmt::format("{}: {}", input::harmless(name), why));
}

std::string read_to(std::size_t at_most, std::FILE* file, const std::string& name) {
    constexpr std::size_t block = std::size_t{1} << 16U;
    std::string text;
    while (text.size() < at_most) {
        const std::size_t before = text.size();
        text.resize(before + std::min(block, at_most - before));
        errno = 0;
        const std::size_t count = std::fread(&text[before], 1, text.size() - before, file);
        const int code = errno;
        text.resize(before + count);
        if (std::ferror(file) != 0)
            refuse_reading(
                name, fmt::format("cannot be read to its end: {}",
                                  code == EIO ? "the disk reports an error" : std::strerror(code)));
        if (count == 0) break;
    }
    return text;
}

}  // namespace

std::string text_of(const std::string& name, std::size_t at_most) {
    const std::filesystem::path path = path_of(name);
    std::error_code failed;
    if (std::filesystem::is_directory(path, failed))
        refuse_reading(name, "this is a folder; name a file in it");
    const OpenFile file = opened(path);
    if (!file) refuse_reading(name, "cannot be read");
    note_read(path);
    return read_to(at_most, file.get(), name);
}

std::string whole_text_of(const std::string& name, std::size_t most_bytes) {
    std::string text = text_of(name, most_bytes + 1);
    if (text.size() > most_bytes)
        refuse_input(fmt::format("{}: the file is larger than {} MiB", name, most_bytes >> 20U));
    return text;
}

std::optional<std::string> text_beside(const std::filesystem::path& path, std::size_t at_most) {
    std::error_code failed;
    if (!std::filesystem::is_regular_file(path, failed)) return std::nullopt;
    const OpenFile file = opened(path);
    if (!file) refuse_reading(name_of(path.u8string()), "cannot be read");
    note_read(path);
    return read_to(at_most, file.get(), name_of(path.u8string()));
}

bool is_stream(const std::string& name) {
    // Also where a shell puts a plain file behind it.
    if (name.starts_with("/dev/")) return true;
    std::error_code failed;
    const std::filesystem::path path = path_of(name);
    return std::filesystem::exists(path, failed) &&
           !std::filesystem::is_regular_file(path, failed) &&
           !std::filesystem::is_directory(path, failed);
}

std::filesystem::path folder_of(const std::string& setup) {
    return is_stream(setup) ? std::filesystem::path() : path_of(setup).parent_path();
}

std::string shown_name(const std::string& path) {
    return input::harmless(is_stream(path) ? path : file_name(path));
}

std::string name_beside(const std::string& file, const std::string& written) {
    if (is_stream(file))
        refuse_input(
            fmt::format("{}: what is read from a pipe has no name that {} could take it by", file,
                        written),
            "name the setup's own file");
    namespace fs = std::filesystem;
    const fs::path folder = fs::absolute(path_of(written)).parent_path();
    return name_of(fs::absolute(path_of(file)).lexically_relative(folder).generic_u8string());
}

Document read_document(const std::string& path, const TextSeen& seen) {
    const std::filesystem::path folder = folder_of(path);
    const std::string name = shown_name(path);
    const std::string text = text_of(path);
    if (seen) seen(name, text);
    return {text, name, [&](const std::string& beside) {
                std::optional<std::string> found = text_beside(folder / path_of(beside));
                if (found && seen) seen(beside, *found);
                return found;
            }};
}

void print(const std::string& from) {
    const std::string text = input::harmless_lines(from);
    errno = 0;
    if (std::fwrite(text.data(), 1, text.size(), stdout) != text.size() || std::fflush(stdout) != 0)
        throw NotWritten({{},
                          fmt::format("standard output cannot be written{}",
                                      errno == ENOSPC ? "; " + why_not_written(errno) : ""),
                          {}});
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
