// SPDX-License-Identifier: BSL-1.0
#pragma once

// A plane of any outline with its sheets, as its drawing sees it.

#include <eavewright/drawing/heads.hpp>
#include <eavewright/drawing/label_place.hpp>
#include <eavewright/drawing/page.hpp>
#include <eavewright/drawing/strips.hpp>
#include <eavewright/fault.hpp>
#include <eavewright/framing/purlin_row.hpp>
#include <eavewright/framing/supports.hpp>
#include <eavewright/roof/plane.hpp>
#include <eavewright/tiling/edge_support.hpp>
#include <eavewright/tiling/sheets.hpp>
#include <eavewright/units/length.hpp>
#include <eavewright/units/pitch.hpp>
#include <eavewright/units/quantities.hpp>

#include <algorithm>
#include <cmath>
#include <cstddef>
#include <optional>
#include <set>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

namespace eavewright {

/// A plane and what lies on it: what `tile_sheets` was given and what it gave.
template <Surface surface>
struct LaidPlane {
    std::string name;
    Plane<surface> plane;
    Supports<surface> supports;
    Sheets sheets;
    std::optional<PurlinRows> purlins{};      ///< where the supports are purlins: names and marks of the rows
    std::optional<EdgeSupport> long_edges{};  ///< drawn where clips or blocks are needed
};

namespace detail {
/// The same without the surface in its type.
struct DrawnPlane {
    const std::string& name;
    Surface surface;
    Pitch pitch;
    Area area;
    const std::vector<PlanePoint>& outline;
    std::vector<EdgeKind> edges;
    const std::vector<std::vector<PlanePoint>>& openings;
    const std::vector<SupportLine>& supports;
    const Sheets& sheets;
    const PurlinRows* purlins;
    const EdgeSupport* long_edges;

    /// Figures along and up count from the corner where the first side begins.
    [[nodiscard]] PlanePoint zero() const { return outline[0]; }
};

template <Surface surface>
[[nodiscard]] DrawnPlane drawn_plane(const LaidPlane<surface>& laid) {
    std::vector<EdgeKind> edges = laid.plane.edges;
    if (edges.empty() && laid.plane.outline.size() == 4) {  // as laying takes a plane of four sides
        edges = {EdgeKind::eave, EdgeKind::rake, EdgeKind::ridge, EdgeKind::rake};
    }
    return {laid.name,
            surface,
            laid.plane.pitch,
            net_area(laid.plane),
            laid.plane.outline,
            std::move(edges),
            laid.plane.openings,
            laid.supports.lines,
            laid.sheets,
            laid.purlins ? &*laid.purlins : nullptr,
            laid.long_edges && laid.long_edges->needed ? &*laid.long_edges : nullptr};
}

inline void require_points(const std::vector<PlanePoint>& points, std::size_t least, const std::string& path) {
    if (points.size() < least || !all_usable(points)) {
        refuse_drawing(FaultCode::not_finite, path, std::to_string(least) + " or more finite points");
    }
}

/// A result made by hand can hold anything; one made by the library passes.
inline void require_drawable(const DrawnPlane& drawn) {
    const auto at = [](const char* list, std::size_t i) { return std::string{list} + "[" + std::to_string(i) + "]"; };
    require_outline(drawn.outline, "plane.outline");
    if (drawn.edges.size() != drawn.outline.size()) {
        refuse_drawing(FaultCode::contradiction, "plane.edges", "a kind for each side");
    }
    for (std::size_t i = 0; i < drawn.openings.size(); ++i) {
        require_points(drawn.openings[i], 3, at("plane.openings", i));
    }
    for (std::size_t i = 0; i < drawn.supports.size(); ++i) {
        require_points(drawn.supports[i].centreline, 2, at("supports", i));
    }
    for (std::size_t i = 0; drawn.purlins != nullptr && i < drawn.purlins->rows.size(); ++i) {
        require_points(drawn.purlins->rows[i].centreline, 2, at("purlins.rows", i));
    }
    for (std::size_t i = 0; i < drawn.sheets.pieces.size(); ++i) {
        require_points(drawn.sheets.pieces[i].outline, 3, at("sheets.pieces", i));
        for (const std::vector<PlanePoint>& cutout : drawn.sheets.pieces[i].cutouts) {
            require_points(cutout, 3, at("sheets.pieces", i));
        }
    }
    for (std::size_t i = 0; i < drawn.sheets.findings.size(); ++i) {
        const Finding& finding = drawn.sheets.findings[i];
        if (finding.piece >= drawn.sheets.pieces.size() || !all_usable({finding.place})) {
            refuse_drawing(FaultCode::contradiction, at("sheets.findings", i), "a piece and a finite place");
        }
    }
}

/// Letters of sides and openings, those left out that read like figures: a, b, ... z, aa, ab, ... Openings go on where
/// the sides
/// end.
[[nodiscard]] inline std::string letter_of(std::size_t index) {
    constexpr std::string_view letters = "abcdefghjkmnpqrstuvwxyz";
    std::string word;
    for (std::size_t n = index + 1; n > 0; n = (n - 1) / letters.size()) {
        word.insert(word.begin(), letters[(n - 1) % letters.size()]);
    }
    return word;
}
[[nodiscard]] inline std::string letter_of_opening(const DrawnPlane& drawn, std::size_t opening) {
    return letter_of(drawn.outline.size() + opening);
}

/// The plane and sheets that hang past it.
[[nodiscard]] inline Extent drawn_extent(const DrawnPlane& drawn) {
    Extent all = extent_of(drawn.outline);
    for (const SheetPiece& piece : drawn.sheets.pieces) {
        const Extent one = extent_of(piece.outline);
        all.low = {shorter(all.low.along, one.low.along), shorter(all.low.up, one.low.up)};
        all.high = {longer(all.high.along, one.high.along), longer(all.high.up, one.high.up)};
    }
    return all;
}

/// How far up a ring reaches between two places along; nothing where it does not come there.
[[nodiscard]] inline std::optional<Span> ups_between(const std::vector<PlanePoint>& ring, Length from, Length to) {
    std::optional<Span> ups;
    const auto take = [&](Length up) { ups = ups ? Span{shorter(ups->low, up), longer(ups->high, up)} : Span{up, up}; };
    for (std::size_t i = 0; i < ring.size(); ++i) {
        const PlanePoint a = ring[i];
        const PlanePoint b = ring[(i + 1) % ring.size()];
        if (from <= a.along && a.along <= to) {
            take(a.up);
        }
        for (const Length cut : {from, to}) {
            if ((a.along < cut) != (b.along < cut)) {
                take(a.up + (b.up - a.up) * ((cut - a.along) / (b.along - a.along)));
            }
        }
    }
    return ups;
}

/// Where lanes begin along the eave, where they run up the slope: a strip that ends there cuts no piece.
[[nodiscard]] inline std::set<Length> lane_starts(const Sheets& sheets) {
    std::vector<std::optional<Length>> lows(static_cast<std::size_t>(sheets.lanes > 0 ? sheets.lanes : 0));
    for (const SheetPiece& piece : sheets.pieces) {
        const auto lane = static_cast<std::size_t>(piece.lane);
        if (sheets.run == SupportRun::along_eave && lane < lows.size()) {
            const Length low = extent_of(piece.outline).low.along;
            lows[lane] = lows[lane] ? shorter(*lows[lane], low) : low;
        }
    }
    std::set<Length> starts;
    for (const std::optional<Length>& low : lows) {
        if (low) {
            starts.insert(*low);
        }
    }
    return starts;
}

/// What the strips of a plane need.
[[nodiscard]] inline StripNeeds needs_of(const DrawnPlane& drawn) {
    StripNeeds needs{.name_wide = widest_name(drawn.sheets),
                     .piece_along = no_length,
                     .piece_up = no_length,
                     .row_spacing = std::nullopt,
                     .edges = lane_starts(drawn.sheets)};
    for (const SheetPiece& piece : drawn.sheets.pieces) {
        const Extent extent = extent_of(piece.outline);
        needs.piece_along = longer(needs.piece_along, extent.high.along - extent.low.along);
        needs.piece_up = longer(needs.piece_up, extent.high.up - extent.low.up);
    }
    if (drawn.purlins != nullptr) {
        needs.row_spacing = drawn.purlins->spacing;
    }
    return needs;
}

/// A ring and holes on the page, between two upright lines.
[[nodiscard]] inline PageShape shape_on_page(const std::vector<PlanePoint>& outline,
                                             const std::vector<std::vector<PlanePoint>>& holes, const View& view,
                                             double left, double right) {
    PageShape shape{{view.all(outline)}, left, right};
    for (const std::vector<PlanePoint>& hole : holes) {
        shape.rings.push_back(view.all(hole));
    }
    return shape;
}

/// Hatches a polygon from lower left to upper right.
inline void hatch_opening(SvgText& svg, const std::vector<SvgPoint>& polygon, double step) {
    double low = polygon[0].x + polygon[0].y;
    double high = low;
    for (const SvgPoint& p : polygon) {
        low = lesser(low, p.x + p.y);
        high = greater(high, p.x + p.y);
    }
    std::vector<SvgPoint> met;
    for (int k = 1; low + step * k < high; ++k) {
        const double sum = low + step * k;
        met.clear();
        for (std::size_t i = 0; i < polygon.size(); ++i) {
            const SvgPoint a = polygon[i];
            const SvgPoint b = polygon[(i + 1) % polygon.size()];
            const double at_a = a.x + a.y - sum;
            const double at_b = b.x + b.y - sum;
            if ((at_a > 0.0) != (at_b > 0.0)) {
                const double share = at_a / (at_a - at_b);
                met.push_back({a.x + (b.x - a.x) * share, a.y + (b.y - a.y) * share});
            }
        }
        std::sort(met.begin(), met.end(), [](const SvgPoint& a, const SvgPoint& b) { return a.x < b.x; });
        for (std::size_t i = 0; i + 1 < met.size(); i += 2) {
            svg.line(met[i], met[i + 1]);
        }
    }
}

/// Openings between two places along the eave: white, hatched, a firm line round them.
inline void draw_openings(SvgText& svg, const DrawnPlane& drawn, const View& view, Length from, Length to) {
    if (drawn.openings.empty()) {
        return;
    }
    svg.open_group(R"(fill="#fff" stroke="#000" stroke-width="1.6")", "Openings");
    for (const std::vector<PlanePoint>& opening : drawn.openings) {
        const Extent extent = extent_of(opening);
        if (extent.high.along < from || extent.low.along > to) {
            continue;
        }
        svg.polygon(view.all(opening));
        svg.open_group(R"(stroke-width="0.6")");
        hatch_opening(svg, view.all(opening), 5.0);
        svg.close_group();
    }
    svg.close_group();
}

/// Width x height of the box round an opening.
[[nodiscard]] inline std::string size_of_opening(const std::vector<PlanePoint>& opening, const Page& page) {
    const Extent extent = extent_of(opening);
    return page.figure(extent.high.along - extent.low.along) + " x " + page.figure(extent.high.up - extent.low.up);
}

/// Whether the laying started at the right.
[[nodiscard]] inline bool started_right(const DrawnPlane& drawn) {
    if (drawn.sheets.pieces.empty()) {
        return false;
    }
    const Extent plane = drawn_extent(drawn);
    const Extent first = extent_of(drawn.sheets.pieces.front().outline);
    return plane.high.along - first.high.along < first.low.along - plane.low.along;
}

/// Which corner of the first piece the laying starts at: its lowest, the one towards the start of two.
[[nodiscard]] inline std::size_t start_of(const DrawnPlane& drawn) {
    const bool right = started_right(drawn);
    const std::vector<PlanePoint>& outline = drawn.sheets.pieces.front().outline;
    std::size_t start = 0;
    for (std::size_t i = 1; i < outline.size(); ++i) {
        const PlanePoint p = outline[i];
        const PlanePoint best = outline[start];
        const bool level = magnitude(p.up - best.up) < one_inch;
        const bool nearer = right ? p.along > best.along : p.along < best.along;
        start = (level ? nearer : p.up < best.up) ? i : start;
    }
    return start;
}

/// The solid corner where the first sheet goes, along the two edges that meet there. Returns its tip.
inline SvgPoint draw_start_corner(Page& page, const DrawnPlane& drawn, const View& view) {
    const std::vector<SvgPoint> outline = view.all(drawn.sheets.pieces.front().outline);
    const std::size_t start = start_of(drawn);
    const SvgPoint tip = outline[start];
    const auto towards = [&](SvgPoint p) {
        const double length = std::sqrt((p.x - tip.x) * (p.x - tip.x) + (p.y - tip.y) * (p.y - tip.y));
        const double share = length > 10.0 ? 10.0 / length : 1.0;
        return SvgPoint{tip.x + (p.x - tip.x) * share, tip.y + (p.y - tip.y) * share};
    };
    page.svg.polygon({tip, towards(outline[(start + 1) % outline.size()]),
                      towards(outline[(start + outline.size() - 1) % outline.size()])},
                     R"(fill="#000")");
    return tip;
}
}  // namespace detail

}  // namespace eavewright
