// SPDX-License-Identifier: BSL-1.0
#pragma once

// What is listed under the drawing: pieces to cut, frame centres, purlin marks at every frame.

#include <eavewright/drawing/page.hpp>

#include <cstddef>
#include <map>
#include <string>
#include <utility>
#include <vector>

namespace eavewright::detail {

/// Pieces that are cut alike.
struct CutGroup {
    std::string size;
    bool whole;
    bool slanted;
    std::size_t count;
    std::string names;
};

[[nodiscard]] inline std::vector<CutGroup> cut_groups(const Sheets& sheets, const Page& page) {
    std::map<std::pair<std::string, int>, std::size_t> index;
    std::vector<CutGroup> groups;
    for (const SheetPiece& piece : sheets.pieces) {
        const std::string size = page.figure(piece.width) + " x " + page.figure(piece.length);
        const auto [at, is_new] =
            index.try_emplace({size, (piece.whole ? 1 : 0) + (piece.slanted ? 2 : 0)}, groups.size());
        if (is_new) {
            groups.push_back({size, piece.whole, piece.slanted, 0, {}});
        }
        CutGroup& group = groups[at->second];
        ++group.count;
        group.names += group.names.empty() ? "" : ", ";
        group.names += piece_name(piece);
    }
    return groups;
}

inline void list_pieces(Page& page, const Sheets& sheets) {
    if (sheets.pieces.empty()) {
        return;
    }
    page.heading("Sheets: " + std::to_string(sheets.pieces.size()) + " pieces, " + std::to_string(sheets.whole_sheets) +
                 " whole");
    page.paragraph("Width x length; the length is along the strength axis.", 10.0);
    for (const CutGroup& group : cut_groups(sheets, page)) {
        page.y += 3.0;
        page.paragraph(std::to_string(group.count) + " of " + group.size + (group.whole ? ", whole" : "") +
                           (group.slanted ? ", then cut to the slanting edge" : ""),
                       11.0, true);
        if (!group.whole) {
            page.paragraph(group.names, 10.0, false, 12.0);
        }
    }
}

inline void list_frames(Page& page, const FrameLines& frames) {
    page.heading("Frame centres from the left rake edge");
    std::string words;
    for (std::size_t i = 0; i < frames.centres.size(); ++i) {
        words += i > 0 ? "; " : "";
        words += page.figure(frames.centres[i]);
    }
    page.paragraph(words, 10.0);
}

/// Marks beyond those at the left rake: one paragraph a place, where rows were measured frame by frame.
inline void list_marks_at_frames(Page& page, const SlopeResult& slope) {
    const std::size_t rows = slope.purlins ? slope.purlins->rows.size() : 0;
    if (rows == 0 || slope.marks.size() <= rows) {
        return;
    }
    page.heading("Purlin marks at every frame");
    page.paragraph("Centres up the slope from the outer face of the fascia, eave first.", 10.0);
    for (std::size_t first = rows; first + rows <= slope.marks.size(); first += rows) {
        std::string words;
        for (std::size_t i = first; i < first + rows; ++i) {
            words += i > first ? "; " : "";
            words += page.figure(slope.marks[i].centre);
        }
        page.y += 3.0;
        page.paragraph("Frame at " + page.figure(slope.marks[first].along), 10.0, true);
        page.paragraph(words, 10.0, false, 12.0);
    }
}

}  // namespace eavewright::detail
