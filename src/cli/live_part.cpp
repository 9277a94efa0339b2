// SPDX-License-Identifier: MIT
#include "cli/live_part.hpp"

#include "cli/files.hpp"
#include "cli/version.hpp"
#include "cli/windows.hpp"
#include "live/fill.hpp"

#include <fmt/format.h>

#include <filesystem>
#include <vector>

namespace caseload {
namespace {

constexpr const char* part_name = "caseload.html";
constexpr std::size_t part_bytes = std::size_t{256} << 20U;  // it has a few million

std::filesystem::path program_folder() {
#ifdef _WIN32
    return path_of(program_path()).parent_path();
#else
    std::error_code failed;
    return std::filesystem::read_symlink("/proc/self/exe", failed).parent_path();
#endif
}

}  // namespace

std::string live_part() {
    const std::filesystem::path folder = program_folder();
    const std::vector<std::filesystem::path> places{
        folder / part_name, folder.parent_path() / "share" / "caseload" / part_name,
        folder.parent_path() / "live" / part_name};
    std::string looked;
    for (const std::filesystem::path& place : places) {
        looked += (looked.empty() ? "" : ", ") + name_of(place.u8string());
        const std::optional<std::string> text = text_beside(place, part_bytes);
        if (!text) continue;
        if (text->find(fmt::format("content=\"caseload {} live\"", program_version)) ==
            std::string::npos)
            refuse_file(fmt::format("--live: {} is not the live part of caseload {}",
                                    name_of(place.u8string()), program_version));
        return *text;
    }
    refuse_file(
        fmt::format("--live: the live part, {}, is not there", part_name),
        fmt::format(
            "looked for as {}; without --live the page is complete and shows this answer only",
            looked));
}

namespace {

live::SetupText setup_text(const std::string& path) {
    live::SetupText setup{shown_name(path), "", {}};
    static_cast<void>(read_document(path, [&](const std::string& name, const std::string& text) {
        (setup.text.empty() ? setup.text : setup.beside[name]) = text;
    }));
    return setup;
}

}  // namespace

std::string live_page(const std::string& part, const std::string& setup_path,
                      const PageAnswer& page) {
    return live::filled_page(part, setup_text(setup_path), page);
}

}  // namespace caseload
