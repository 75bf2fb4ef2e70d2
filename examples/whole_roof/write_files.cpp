// SPDX-License-Identifier: BSL-1.0
#include "write_files.hpp"

#include <filesystem>
#include <fstream>
#include <ostream>
#include <system_error>

namespace fs = std::filesystem;

namespace {
[[nodiscard]] bool write_one(const fs::path& path, const std::string& text) {
    std::ofstream file{path, std::ios::binary | std::ios::trunc};
    file.write(text.data(), static_cast<std::streamsize>(text.size()));
    file.close();
    return static_cast<bool>(file);
}
}  // namespace

bool write_files(const std::vector<OutputFile>& files, const std::string& folder, std::ostream& errors) {
    std::error_code error;
    fs::create_directories(folder, error);
    std::vector<fs::path> drafts;
    bool written = true;
    for (const OutputFile& file : files) {
        drafts.push_back(fs::path{folder} / (file.name + ".part"));
        written = written && write_one(drafts.back(), file.text);
    }
    for (std::size_t i = 0; i < drafts.size(); ++i) {
        if (written) {
            fs::rename(drafts[i], fs::path{folder} / files[i].name, error);
            written = !error;
        } else {
            fs::remove(drafts[i], error);
        }
    }
    if (!written) {
        errors << "cannot write to " << folder << "\n";
    }
    return written;
}
