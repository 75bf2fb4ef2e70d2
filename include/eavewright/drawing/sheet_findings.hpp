// SPDX-License-Identifier: BSL-1.0
#pragma once

// Findings of sheets in words and shapes.

#include <eavewright/drawing/finding_marks.hpp>
#include <eavewright/tiling/sheets.hpp>

#include <cstddef>
#include <optional>
#include <string>
#include <vector>

namespace eavewright::detail {

/// Disc, square, triangle, diamond, trapezoid or hexagon. Solid where a joint lies on nothing.
[[nodiscard]] inline MarkShape shape_of(FindingCode code) {
    switch (code) {
        case FindingCode::joint_on_nothing: return MarkShape::solid_disc;
        case FindingCode::narrow_bearing: return MarkShape::square;
        case FindingCode::sliver_length: return MarkShape::triangle;
        case FindingCode::sliver_width: return MarkShape::diamond;
        case FindingCode::narrow_leg: return MarkShape::trapezoid;
        case FindingCode::edge_past_support: break;
    }
    return MarkShape::hexagon;
}

inline void draw_finding_mark(SvgText& svg, SvgPoint at, FindingCode code, std::size_t number) {
    draw_mark(svg, at, shape_of(code), number);
}

/// What was measured, in the words of its code.
[[nodiscard]] inline std::string finding_figures(const Finding& finding, const Page& page) {
    const std::string limit = page.figure(finding.limit);
    const std::string measured = measured_against(finding.measured, finding.limit, page);
    std::string text;
    switch (finding.code) {
        case FindingCode::joint_on_nothing: text = "bears on " + measured + ", needs " + limit; break;
        case FindingCode::narrow_bearing: text = "bears on " + measured + ", needs " + limit; break;
        case FindingCode::sliver_length: text = measured + " long, limit " + limit; break;
        case FindingCode::sliver_width: text = measured + " wide, limit " + limit; break;
        case FindingCode::edge_past_support: text = measured + " past its support, limit " + limit; break;
        case FindingCode::narrow_leg: text = measured + " left beside an opening, limit " + limit; break;
    }
    return finding.block ? text + "; block " + page.figure(finding.block->length) : text;
}

[[nodiscard]] inline std::vector<FindingNote> notes_of(const Sheets& sheets, const Page& page) {
    std::vector<FindingNote> notes;
    notes.reserve(sheets.findings.size());
    for (const Finding& finding : sheets.findings) {
        notes.push_back(
            {.rank = static_cast<int>(finding.code),
             .shape = shape_of(finding.code),
             .kind = in_words(name_of(finding.code)),
             .figures = finding_figures(finding, page),
             .piece = finding.piece,
             .name = piece_name(sheets.pieces[finding.piece]),
             .place = finding.place,
             .mend = finding.block ? std::optional<Mend>{Mend{finding.block->from, finding.block->to}} : std::nullopt});
    }
    return notes;
}

}  // namespace eavewright::detail
