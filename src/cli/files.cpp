// SPDX-License-Identifier: MIT
#include "cli/files.hpp"

#include <fmt/format.h>

#include <cstdio>
#include <exception>
#include <fstream>
#include <iterator>
#include <thread>
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
    return {*text, file_name(path),
            [folder](const std::string& name) { return file_text(folder / path_of(name)); }};
}

void print(const std::string& text) {
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

ForEach on_threads(unsigned threads) {
    if (threads <= 1) return one_by_one;
    return [threads](std::size_t n, const std::function<void(std::size_t)>& body) {
        std::vector<std::exception_ptr> failed(threads);
        std::vector<std::thread> running;
        running.reserve(threads);
        for (unsigned k = 0; k < threads; ++k)
            running.emplace_back([&, k] {
                try {
                    for (std::size_t i = k; i < n; i += threads) body(i);
                } catch (...) {
                    failed[k] = std::current_exception();
                }
            });
        for (std::thread& thread : running) thread.join();
        for (const std::exception_ptr& error : failed)
            if (error) std::rethrow_exception(error);
    };
}

}  // namespace caseload
