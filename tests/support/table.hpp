// SPDX-License-Identifier: BSL-1.0
#pragma once

// Reads the tables of outside values under tests/data: comma-separated, "#" lines name the source, quotes doubled.

#include <fstream>
#include <map>
#include <stdexcept>
#include <string>
#include <vector>

using TableRow = std::map<std::string, std::string>;

inline std::vector<std::string> split_table_line(const std::string& line) {
    std::vector<std::string> cells(1);
    bool quoted = false;
    for (std::size_t i = 0; i < line.size(); ++i) {
        const char c = line[i];
        if (c == '"') {
            if (quoted && i + 1 < line.size() && line[i + 1] == '"') {
                cells.back() += '"';
                ++i;
            } else {
                quoted = !quoted;
            }
        } else if (c == ',' && !quoted) {
            cells.emplace_back();
        } else if (c != '\r') {
            cells.back() += c;
        }
    }
    return cells;
}

/// Every row of tests/data/<name>, by column heading. Throws if the file is missing or has no rows.
inline std::vector<TableRow> read_table(const std::string& name) {
    std::ifstream file{std::string{EAVEWRIGHT_TEST_DATA} + "/" + name};
    std::vector<std::string> headings;
    std::vector<TableRow> rows;
    for (std::string line; std::getline(file, line);) {
        if (line.empty() || line[0] == '#') {
            continue;
        }
        const std::vector<std::string> cells = split_table_line(line);
        if (headings.empty()) {
            headings = cells;
            continue;
        }
        TableRow row;
        for (std::size_t i = 0; i < cells.size() && i < headings.size(); ++i) {
            row[headings[i]] = cells[i];
        }
        rows.push_back(std::move(row));
    }
    if (rows.empty()) {
        throw std::runtime_error{"no rows in table " + name};
    }
    return rows;
}
