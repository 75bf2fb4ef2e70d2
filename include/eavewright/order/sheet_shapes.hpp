// SPDX-License-Identifier: BSL-1.0
#pragma once

// Pieces to be cut from sheets with their outline, in the sheet's own axes: what a hip, a valley or a rake leaves of a
// box.

#include <eavewright/fault.hpp>
#include <eavewright/field.hpp>
#include <eavewright/framing/supports.hpp>
#include <eavewright/order/cut_sheets.hpp>
#include <eavewright/order/sheet_spots.hpp>
#include <eavewright/roof/plane.hpp>
#include <eavewright/tiling/sheets.hpp>
#include <eavewright/units/count.hpp>
#include <eavewright/units/length.hpp>
#include <eavewright/units/tick.hpp>

#include <algorithm>
#include <cmath>
#include <cstddef>
#include <string>
#include <utility>
#include <vector>

namespace eavewright {

/// A piece to cut: its box, and its corners in the box where it is no rectangle. Seen from the sheet's face.
struct SheetShape {
    SheetSize box;  ///< cut sizes, to the tick
    std::vector<CutPoint>
        outline{};          ///< counter-clockwise; nothing for a rectangle. One that is not convex keeps its box
    bool turnable = false;  ///< may lie across the strength axis: blocks and fillers
};
template <>
struct FieldsOf<SheetShape> {
    static constexpr auto list = field_list(
        field("box", FieldUnit::none, "cut sizes of its box", &SheetShape::box),
        field("outline", FieldUnit::length, "corners in its box, none for a rectangle", &SheetShape::outline),
        field("turnable", FieldUnit::none, "may lie across the strength axis", &SheetShape::turnable));
};

namespace detail {
[[nodiscard]] inline bool is_convex(const Spots& spots) {
    for (std::size_t i = 0; i < spots.size(); ++i) {
        if (cross_of(spots[i], spots[(i + 1) % spots.size()], spots[(i + 2) % spots.size()]) < -1e-9) {
            return false;
        }
    }
    return spots.size() > 2 && area_of(spots) > 0.0;
}

/// The straight-sided outline that a piece is sawn to on the sheet: its own where it is convex, else its box.
[[nodiscard]] inline Spots sawn_outline(const SheetShape& shape) {
    Spots spots = spots_of(shape.outline);
    return is_convex(spots) ? hull_of(std::move(spots)) : box_of(inches(shape.box.length), inches(shape.box.width));
}

/// An outline of a box `l` by `w` after it is turned over (about its length) and by quarter turns counter-clockwise,
/// its box still in the corner.
[[nodiscard]] inline Spots turned_outline(Spots spots, double l, double w, int quarters, bool mirrored) {
    if (mirrored) {
        for (Spot& spot : spots) {
            spot.w = w - spot.w;
        }
        std::reverse(spots.begin(), spots.end());
    }
    for (int i = 0; i < quarters; ++i) {
        for (Spot& spot : spots) {
            spot = {w - spot.w, spot.l};
        }
        std::swap(l, w);
    }
    return spots;
}
[[nodiscard]] inline Spots shifted(Spots spots, double l, double w) {
    for (Spot& spot : spots) {
        spot = {spot.l + l, spot.w + w};
    }
    return spots;
}

/// A coordinate of a corner in its box: on the box's sides exactly, else to the tick.
[[nodiscard]] inline Length in_box(Length at, Length exact, Length cut, Tick tick) {
    if (at < tick.step() / 2.0) {
        return no_length;
    }
    return exact - at < tick.step() / 2.0 ? cut : shorter(cut, round_to_tick(at, tick));
}

/// The corners of a laid piece in its box: length up the slope or along the eave, width to the left of that as seen
/// from outside, so that nothing is mirrored.
[[nodiscard]] inline std::vector<CutPoint> corners_in_box(const SheetPiece& piece, const Sheets& sheets, Tick tick) {
    const double cosine = 1.0 / std::sqrt(1.0 + sheets.turn * sheets.turn);
    const double sine = sheets.turn * cosine;
    std::vector<CutPoint> corners;
    for (const PlanePoint& p : piece.outline) {
        const PlanePoint u{p.along * cosine + p.up * sine, p.up * cosine - p.along * sine};
        corners.push_back(sheets.run == SupportRun::along_eave ? CutPoint{u.up, -u.along} : CutPoint{u.along, u.up});
    }
    CutPoint low = corners[0];
    CutPoint high = corners[0];
    for (const CutPoint& c : corners) {
        low = {shorter(low.length, c.length), shorter(low.width, c.width)};
        high = {longer(high.length, c.length), longer(high.width, c.width)};
    }
    for (CutPoint& c : corners) {
        c = {in_box(c.length - low.length, high.length - low.length, piece.length, tick),
             in_box(c.width - low.width, high.width - low.width, piece.width, tick)};
    }
    return corners;
}
}  // namespace detail

/// Area of what a piece is sawn to on its sheet: of its outline where that is convex, else of its box.
[[nodiscard]] inline Area sawn_area(const SheetShape& shape) {
    return Area::from_value(detail::area_of(detail::sawn_outline(shape)));
}

/// What the pieces of a layout are cut to, in their order: box and outline in the sheet's own axes, length up the slope
/// over purlins and along the eave over chords. Corners are rounded to the tick. A piece with a notch or an opening
/// keeps its box: it is sawn out of that by hand. One from which only less than a tick is lost by its hull is taken as
/// straight.
[[nodiscard]] inline std::vector<SheetShape> cut_shapes(const Sheets& sheets, Tick tick = Tick::of_inch(16)) {
    std::vector<SheetShape> shapes;
    shapes.reserve(sheets.pieces.size());
    for (const SheetPiece& piece : sheets.pieces) {
        SheetShape shape{.box = {.width = piece.width, .length = piece.length}};
        if (piece.slanted && piece.cutouts.empty() && piece.outline.size() > 2) {
            detail::Spots spots = detail::spots_of(detail::corners_in_box(piece, sheets, tick));
            const detail::Spots hull = detail::hull_of(spots);
            const double lost = detail::area_of(hull) - std::fabs(detail::area_of(spots));
            const double box = inches(piece.length) * inches(piece.width);
            const double strip = inches(tick.step()) * (inches(piece.length) + inches(piece.width));
            if (hull.size() > 2 && lost < strip && box - detail::area_of(hull) > strip / 2.0) {
                shape.outline = detail::points_of(hull);
            }
        }
        shapes.push_back(std::move(shape));
    }
    return shapes;
}

/// Everything wrong with pieces that are to be cut from `sheet`: a box larger than it, corners off their box.
[[nodiscard]] inline Faults find_faults_of_shapes(const std::vector<SheetShape>& shapes, const SheetSize& sheet) {
    Faults faults;
    const Path list{"pieces"};
    if (shapes.size() > most_sheet_cuts) {
        faults.push_back(Fault{FaultCode::too_much_work, "pieces", std::to_string(shapes.size()) + " pieces",
                               "no more than " + std::to_string(most_sheet_cuts)});
        return faults;
    }
    for (std::size_t i = 0; i < shapes.size(); ++i) {
        const SheetShape& shape = shapes[i];
        const Path at{list, i};
        const bool across = shape.turnable && shape.box.length <= sheet.width && shape.box.width <= sheet.length;
        const Length least = one_inch / 64.0;
        require_within(shape.box.length, least, across ? sheet.width : sheet.length, Path{at, "length"}, faults);
        require_within(shape.box.width, least, across ? sheet.length : sheet.width, Path{at, "width"}, faults);
        const Path outline{at, "outline"};
        if (shape.outline.size() > 100) {
            faults.push_back(Fault{FaultCode::too_much_work, outline.text(),
                                   std::to_string(shape.outline.size()) + " corners", "no more than 100"});
        }
        for (std::size_t c = 0; c < shape.outline.size(); ++c) {
            const Path corner{outline, c};
            require_within(shape.outline[c].length, no_length, shape.box.length, Path{corner, "length"}, faults);
            require_within(shape.outline[c].width, no_length, shape.box.width, Path{corner, "width"}, faults);
        }
    }
    return faults;
}

}  // namespace eavewright
