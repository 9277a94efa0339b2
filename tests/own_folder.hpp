// SPDX-License-Identifier: MIT
#pragma once

#include <unistd.h>
#include <filesystem>
#include <fstream>
#include <string>

/// A folder for one test, empty at first and gone afterwards; its name holds the process, so that
/// two checkouts tested at once do not meet.
class OwnFolder {
public:
    explicit OwnFolder(const std::string& name)
        : folder_(std::filesystem::temp_directory_path() /
                  ("caseload_" + name + "_" + std::to_string(getpid()))) {
        std::filesystem::remove_all(folder_);
        std::filesystem::create_directory(folder_);
    }
    ~OwnFolder() {
        std::error_code none;
        std::filesystem::remove_all(folder_, none);
    }
    OwnFolder(const OwnFolder&) = delete;
    OwnFolder& operator=(const OwnFolder&) = delete;
    [[nodiscard]] std::string path() const { return folder_; }
    [[nodiscard]] std::string path(const std::string& name) const { return folder_ / name; }
    void write(const std::string& name, const std::string& text) const {
        std::ofstream(path(name), std::ios::binary) << text;
    }

private:
    std::filesystem::path folder_;
};
