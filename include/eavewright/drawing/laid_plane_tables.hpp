// SPDX-License-Identifier: BSL-1.0
#pragma once

// What is listed under the drawing of a plane of any outline: its sides, openings, and pieces by what is cut off them.

#include <eavewright/drawing/laid_plane.hpp>
#include <eavewright/drawing/laid_plane_strips.hpp>
#include <eavewright/drawing/number_table.hpp>
#include <eavewright/drawing/page.hpp>
#include <eavewright/roof/openings.hpp>
#include <eavewright/roof/plane.hpp>
#include <eavewright/tiling/sheets.hpp>

#include <algorithm>
#include <cmath>
#include <cstddef>
#include <map>
#include <string>
#include <utility>
#include <vector>

namespace eavewright::detail {

inline constexpr Length on_a_side = Length::from_inches(1e-4);  ///< rounding of where slanted pieces were cut

/// True where the way from `a` to `b` lies on the line through `from` and `to`, some of it between them.
[[nodiscard]] inline bool lies_along(PlanePoint a, PlanePoint b, PlanePoint from, PlanePoint to) {
    const Length length = hypotenuse(to.along - from.along, to.up - from.up);
    if (!(length > no_length)) {
        return false;
    }
    const double dx = (to.along - from.along) / length;
    const double dy = (to.up - from.up) / length;
    const auto off = [&](PlanePoint p) { return (p.up - from.up) * dx - (p.along - from.along) * dy; };
    const auto on = [&](PlanePoint p) { return (p.along - from.along) * dx + (p.up - from.up) * dy; };
    return magnitude(off(a)) < on_a_side && magnitude(off(b)) < on_a_side &&
           shorter(longer(on(a), on(b)), length) - longer(shorter(on(a), on(b)), no_length) > on_a_side;
}

/// True where an edge runs neither with nor across the sheets, by half a tick or more.
[[nodiscard]] inline bool is_slanted(PlanePoint a, PlanePoint b, const Sheets& sheets, Tick tick) {
    const double longest = std::sqrt(1.0 + sheets.turn * sheets.turn);
    const Length with = ((b.along - a.along) + (b.up - a.up) * sheets.turn) / longest;
    const Length across = ((b.up - a.up) - (b.along - a.along) * sheets.turn) / longest;
    const Length half = tick.step() / 2.0;
    return magnitude(with) >= half && magnitude(across) >= half;
}

/// True where an outline turns inwards somewhere.
[[nodiscard]] inline bool has_notch(const std::vector<PlanePoint>& outline) {
    const std::size_t n = outline.size();
    for (std::size_t i = 0; i < n; ++i) {
        if (turn(outline[i], outline[(i + 1) % n], outline[(i + 2) % n]) < -1e-4) {
            return true;
        }
    }
    return false;
}

/// Something said of a piece once.
inline void say_once(std::vector<std::string>& words, const std::string& word) {
    if (std::find(words.begin(), words.end(), word) == words.end()) {
        words.push_back(word);
    }
}
[[nodiscard]] inline std::string joined(const std::vector<std::string>& words) {
    std::string text;
    for (std::size_t i = 0; i < words.size(); ++i) {
        text += i == 0 ? "" : (i + 1 == words.size() ? " and " : ", ");
        text += words[i];
    }
    return text;
}

/// Slanted sides of the plane that a piece is cut along, in words.
[[nodiscard]] inline std::vector<std::string> sides_cut_to(const DrawnPlane& drawn, const SheetPiece& piece,
                                                           Tick tick) {
    std::vector<std::string> sides;
    for (std::size_t i = 0; i < piece.outline.size(); ++i) {
        const PlanePoint a = piece.outline[i];
        const PlanePoint b = piece.outline[(i + 1) % piece.outline.size()];
        for (std::size_t e = 0; is_slanted(a, b, drawn.sheets, tick) && e < drawn.edges.size(); ++e) {
            if (lies_along(a, b, drawn.outline[e], drawn.outline[(e + 1) % drawn.outline.size()])) {
                std::string kind = in_words(name_of(drawn.edges[e]));
                kind.front() = static_cast<char>(kind.front() - 'A' + 'a');
                const bool plain = drawn.edges[e] == EdgeKind::hip || drawn.edges[e] == EdgeKind::valley;
                say_once(sides, (plain ? "the " : "the slanting ") + kind);
            }
        }
    }
    return sides;
}

/// Openings whose edges a piece's outline runs along, by their letters.
[[nodiscard]] inline std::vector<std::string> openings_beside(const DrawnPlane& drawn,
                                                              const std::vector<PlanePoint>& outline) {
    std::vector<std::string> letters;
    const Extent own = extent_of(outline);
    for (std::size_t o = 0; o < drawn.openings.size(); ++o) {
        const std::vector<PlanePoint>& opening = drawn.openings[o];
        const Extent other = extent_of(opening);
        if (own.high.along + on_a_side < other.low.along || other.high.along + on_a_side < own.low.along ||
            own.high.up + on_a_side < other.low.up || other.high.up + on_a_side < own.low.up) {
            continue;
        }
        for (std::size_t e = 0; e < opening.size(); ++e) {
            for (std::size_t i = 0; i < outline.size(); ++i) {
                if (lies_along(outline[i], outline[(i + 1) % outline.size()], opening[e],
                               opening[(e + 1) % opening.size()])) {
                    say_once(letters, letter_of_opening(drawn, o));
                }
            }
        }
    }
    return letters;
}

/// What is cut off the box of a piece: ", then cut to the hip, notched at opening k".
[[nodiscard]] inline std::string cuts_in_words(const DrawnPlane& drawn, const SheetPiece& piece, Tick tick) {
    if (piece.whole || !piece.slanted) {
        return piece.whole ? ", whole" : "";
    }
    std::string words;
    const std::vector<std::string> sides = sides_cut_to(drawn, piece, tick);
    if (!sides.empty()) {
        words += ", then cut to " + joined(sides);
    }
    const std::vector<std::string> beside = openings_beside(drawn, piece.outline);
    const std::string at = beside.empty() ? "" : (beside.size() == 1 ? " opening " : " openings ") + joined(beside);
    if (has_notch(piece.outline)) {
        words += ", notched" + (at.empty() ? "" : " at" + at);
    } else if (!at.empty() && sides.empty() && piece.cutouts.empty()) {
        words += ", then cut to" + at;
    }
    for (const std::vector<PlanePoint>& cutout : piece.cutouts) {
        const std::vector<std::string> inside = openings_beside(drawn, cutout);
        words += ", opening" + (inside.empty() ? "" : " " + inside.front()) + " inside";
    }
    return words.empty() ? ", then cut to the slanting edge" : words;
}

/// Pieces of one size with the same cuts.
struct PlaneCutGroup {
    std::string words;
    bool whole;
    std::size_t count;
    std::string names;
};

[[nodiscard]] inline std::vector<PlaneCutGroup> plane_cut_groups(const DrawnPlane& drawn, const Page& page) {
    std::map<std::string, std::size_t> index;
    std::vector<PlaneCutGroup> groups;
    for (const SheetPiece& piece : drawn.sheets.pieces) {
        const std::string words =
            page.figure(piece.width) + " x " + page.figure(piece.length) + cuts_in_words(drawn, piece, page.tick);
        const auto [at, is_new] = index.try_emplace(words, groups.size());
        if (is_new) {
            groups.push_back({words, piece.whole, 0, {}});
        }
        PlaneCutGroup& group = groups[at->second];
        ++group.count;
        group.names += group.names.empty() ? "" : ", ";
        group.names += piece_name(piece);
    }
    return groups;
}

inline void list_plane_pieces(Page& page, const DrawnPlane& drawn) {
    page.heading("Sheets: " + std::to_string(drawn.sheets.pieces.size()) + " pieces, " +
                 std::to_string(drawn.sheets.whole_sheets) + " whole");
    page.paragraph("Width x length of the box round each; the length is along the strength axis.", 10.0);
    for (const PlaneCutGroup& group : plane_cut_groups(drawn, page)) {
        page.y += 3.0;
        page.paragraph(std::to_string(group.count) + " of " + group.words, 11.0, true);
        if (!group.whole) {
            page.paragraph(group.names, 10.0, false, 12.0);
        }
    }
}

/// The sides by their letters, as many blocks of them beside one another as the page takes.
inline void list_sides(Page& page, const DrawnPlane& drawn) {
    NumberTable table{{"Side", "is", "long"}, {}};
    for (std::size_t i = 0; i < drawn.outline.size(); ++i) {
        std::string kind = in_words(name_of(drawn.edges[i]));
        kind.front() = static_cast<char>(kind.front() - 'A' + 'a');
        table.rows.push_back({letter_of(i), kind, page.figure(edge_length(drawn.outline, i))});
    }
    write_table(page, table);
}

/// Names of the pieces that each opening cuts, by its letter.
[[nodiscard]] inline std::map<std::string, std::string> pieces_at_openings(const DrawnPlane& drawn) {
    std::map<std::string, std::string> names;
    for (const SheetPiece& piece : drawn.sheets.pieces) {
        std::vector<std::string> letters = openings_beside(drawn, piece.outline);
        for (const std::vector<PlanePoint>& cutout : piece.cutouts) {
            for (const std::string& inside : openings_beside(drawn, cutout)) {
                say_once(letters, inside);
            }
        }
        for (const std::string& letter : letters) {
            names[letter] += (names[letter].empty() ? "" : ", ") + piece_name(piece);
        }
    }
    return names;
}

/// Openings with their size, where their lower left corner lies, and the pieces that they cut.
inline void list_openings(Page& page, const DrawnPlane& drawn) {
    if (drawn.openings.empty()) {
        return;
    }
    page.heading("Openings: " + std::to_string(drawn.openings.size()));
    page.paragraph(
        "Width along the eave x height up the slope. Places are those of the lower left corner, from the corner "
        "where side a begins.",
        10.0);
    std::map<std::string, std::string> names = pieces_at_openings(drawn);
    for (std::size_t i = 0; i < drawn.openings.size(); ++i) {
        const Extent extent = extent_of(drawn.openings[i]);
        const std::string letter = letter_of_opening(drawn, i);
        page.y += 3.0;
        page.paragraph(letter + ": " + size_of_opening(drawn.openings[i], page), 11.0, true);
        const std::string& pieces = names[letter];
        page.paragraph("at " + along_figure(drawn, extent.low.along, page) + " along, " +
                           page.figure(extent.low.up - drawn.zero().up) + " up" +
                           (pieces.empty() ? "" : "; cuts " + pieces),
                       10.0, false, 12.0);
    }
}

}  // namespace eavewright::detail
