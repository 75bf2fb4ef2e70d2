// SPDX-License-Identifier: BSL-1.0
#pragma once

// Puts finished texts into a folder, each whole or not at all.

#include <iosfwd>
#include <string>
#include <vector>

struct OutputFile {
    std::string name;
    std::string text;
};

/// Writes every file beside its place first and moves all of them in once all are written. False, with a line to
/// `errors`, where a file cannot be written; then none of the new texts is in place.
[[nodiscard]] bool write_files(const std::vector<OutputFile>& files, const std::string& folder, std::ostream& errors);
