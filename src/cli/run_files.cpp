// SPDX-License-Identifier: MIT
#include "cli/run_files.hpp"

#include "cli/files.hpp"
#include "cli/part_file.hpp"
#include "input/harmless.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <iterator>
#include <mutex>
#include <set>

namespace caseload {
namespace {

namespace fs = std::filesystem;

/// Files of this run, each once however often it is read.
using FileNames = std::set<fs::path::string_type>;
struct FilesOfRun {
    std::mutex mutex;
    FileNames read;
    FileNames written;
};

FilesOfRun& files_of_run() {
    static FilesOfRun files;
    return files;
}

std::string asked(const Output& output) {
    const std::string name = input::harmless(output.path);
    return output.asked_by.empty() ? name : fmt::format("{} {}", output.asked_by, name);
}

[[noreturn]] void refuse_output(const Output& output, std::string_view why) {
    refuse_input(fmt::format("{}: {}", asked(output), why), "name another file to write");
}

bool is_one_of(const fs::path& file, const FileNames& files) {
    std::error_code none;
    return fs::exists(file, none) && std::any_of(files.begin(), files.end(), [&](const auto& one) {
               return fs::equivalent(file, fs::path(one), none);
           });
}

/// The name a file has or would have, links in its folder followed.
fs::path place_of(const std::string& path) {
    std::error_code none;
    fs::path place = fs::weakly_canonical(fs::absolute(path_of(path), none), none);
#ifdef _WIN32
    // Not there yet, the system cannot be asked; its names differ by more than their case.
    std::wstring name = place.wstring();
    std::transform(name.begin(), name.end(), name.begin(), [](wchar_t c) {
        return c >= L'A' && c <= L'Z' ? static_cast<wchar_t>(c - L'A' + L'a') : c;
    });
    place = name;
#endif
    return place;
}

bool are_one(const std::string& a, const std::string& b) {
    std::error_code none;
    return fs::equivalent(path_of(a), path_of(b), none) || place_of(a) == place_of(b);
}

void require_folder(const Output& output) {
    std::error_code none;
    const fs::path folder = fs::absolute(path_of(output.path), none).parent_path();
    if (!fs::is_directory(folder, none))
        refuse_file(fmt::format("{}: cannot be written; {}", input::harmless(output.path),
                                why_not_written(0)));
}

}  // namespace

void note_read(const fs::path& file) {
    std::error_code none;
    const fs::path whole = fs::absolute(file, none);
    FilesOfRun& run = files_of_run();
    const std::lock_guard<std::mutex> lock(run.mutex);
    run.read.insert(whole.native());
}

void forget_read(const fs::path& file) {
    std::error_code none;
    FilesOfRun& run = files_of_run();
    const std::lock_guard<std::mutex> lock(run.mutex);
    for (auto at = run.read.begin(); at != run.read.end();)
        at = fs::equivalent(fs::path(*at), file, none) ? run.read.erase(at) : std::next(at);
}

void forget_files() {
    FilesOfRun& run = files_of_run();
    const std::lock_guard<std::mutex> lock(run.mutex);
    run.read.clear();
    run.written.clear();
}

void require_plain_output(const Output& output) {
    if (output.path == "-")
        refuse_output(output, "a file to write needs a name; - is none (a file of this name: ./-)");
    require_folder(output);
    switch (kind_of_place(path_of(output.path))) {
        case PlaceKind::nothing:
        case PlaceKind::plain:
            return;
        case PlaceKind::link:
            if (!output.path.starts_with("/dev/"))
                refuse_output(output, "this is a link; it is neither followed nor replaced");
            [[fallthrough]];
        case PlaceKind::other:
            refuse_output(output, "this is a pipe, socket or device, which a file cannot replace");
        case PlaceKind::folder:
            refuse_output(output, "this is a folder");
    }
}

void require_outputs(std::span<const Output> outputs) {
    FilesOfRun& run = files_of_run();
    const std::lock_guard<std::mutex> lock(run.mutex);
    for (std::size_t i = 0; i < outputs.size(); ++i) {
        const Output& output = outputs[i];
        if (output.path.empty()) continue;
        // Before its kind: a link to what is read is named for what it is.
        if (is_one_of(path_of(output.path), run.read))
            refuse_output(output, "this file is read by this run; it is not written over");
        require_plain_output(output);
        for (std::size_t k = 0; k < i; ++k)
            if (!outputs[k].path.empty() && are_one(output.path, outputs[k].path))
                refuse_output(output, fmt::format("{} is written there", asked(outputs[k])));
        if (is_one_of(path_of(output.path), run.written))
            refuse_output(output, "this file was written by this run already");
    }
}

void require_free_name(const std::string& path, std::string_view or_else) {
    std::error_code none;
    if (fs::exists(path_of(path), none))
        refuse_file(fmt::format("{}: exists already; choose another name{}", path, or_else));
}

namespace {

void write_whole(const std::string& path, const std::string& text, PartFile::Over over) {
    PartFile file(path);
    file.write(text);
    file.keep(over);
    FilesOfRun& run = files_of_run();
    const std::lock_guard<std::mutex> lock(run.mutex);
    run.written.insert(fs::absolute(path_of(path)).native());
}

}  // namespace

void write_file(const std::string& path, const std::string& text) {
    require_output({"", path});
    write_whole(path, text, PartFile::Over::any);
}

void write_new_file(const std::string& path, const std::string& text) {
    require_output({"", path});
    write_whole(path, text, PartFile::Over::nothing);
}

void change_file(const std::string& path, const std::string& text) {
    require_plain_output({"", path});
    write_whole(path, text, PartFile::Over::any);
}

}  // namespace caseload
