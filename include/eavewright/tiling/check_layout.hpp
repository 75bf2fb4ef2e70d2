// SPDX-License-Identifier: BSL-1.0
#pragma once

// A layout of sheets judged on its own: every piece on the plane and within one sheet, none on another, nothing left bare but
// gaps. Knows nothing of how sheets are laid.

#include <eavewright/fault.hpp>
#include <eavewright/roof/parts.hpp>
#include <eavewright/roof/plane.hpp>
#include <eavewright/tiling/sheets.hpp>
#include <eavewright/units/count.hpp>
#include <eavewright/units/length.hpp>
#include <eavewright/units/quantities.hpp>

#include <algorithm>
#include <cmath>
#include <cstddef>
#include <string>
#include <vector>

namespace eavewright {

namespace detail {
/// Where a piece lies on an upright line.
struct Upright {
    Length low;
    Length high;
    std::size_t piece;
};

/// Where pieces lie on an upright line; two that overlap there by more than rounding are a fault.
inline void check_upright(const Sheets& sheets, const std::vector<std::size_t>& pieces, Length along, Faults& faults) {
    std::vector<Upright> runs;
    for (const std::size_t p : pieces) {
        for (const Span& span : up_spans(sheets.pieces[p].outline, sheets.pieces[p].cutouts, along)) {
            runs.push_back({span.low, span.high, p});
        }
    }
    std::sort(runs.begin(), runs.end(), [](const Upright& a, const Upright& b) { return a.low < b.low; });
    for (std::size_t i = 1; i < runs.size(); ++i) {
        if (runs[i].low < runs[i - 1].high - count_tolerance) {
            faults.push_back(Fault{FaultCode::contradiction, "pieces[" + std::to_string(runs[i].piece) + "]",
                                   "on piece " + std::to_string(runs[i - 1].piece) + " by " +
                                       describe_length(runs[i - 1].high - runs[i].low),
                                   "pieces beside one another"});
            return;
        }
    }
}

/// Uprights between every two neighbouring corners of all pieces: whatever overlaps does so on one of them.
inline void check_overlaps(const Sheets& sheets, Faults& faults) {
    struct Event {
        Length at;
        std::size_t piece;
        bool begins;
    };
    std::vector<Event> events;
    std::vector<Length> corners;
    for (std::size_t p = 0; p < sheets.pieces.size(); ++p) {
        if (sheets.pieces[p].outline.empty()) {
            continue;
        }
        const Extent extent = extent_of(sheets.pieces[p].outline);
        events.push_back({extent.low.along, p, true});
        events.push_back({extent.high.along, p, false});
        for (const PlanePoint& corner : sheets.pieces[p].outline) {
            corners.push_back(corner.along);
        }
        for (const std::vector<PlanePoint>& cutout : sheets.pieces[p].cutouts) {
            for (const PlanePoint& corner : cutout) {
                corners.push_back(corner.along);
            }
        }
    }
    std::sort(events.begin(), events.end(), [](const Event& a, const Event& b) { return a.at < b.at; });
    std::sort(corners.begin(), corners.end());
    std::vector<std::size_t> there;
    std::size_t next = 0;
    for (std::size_t c = 0; c + 1 < corners.size() && faults.empty(); ++c) {
        if (corners[c + 1] - corners[c] <= count_tolerance) {
            continue;
        }
        const Length along = (corners[c] + corners[c + 1]) / 2.0;
        for (; next < events.size() && events[next].at <= along; ++next) {
            if (events[next].begins) {
                there.push_back(events[next].piece);
            } else {
                there.erase(std::remove(there.begin(), there.end(), events[next].piece), there.end());
            }
        }
        check_upright(sheets, there, along, faults);
    }
}

inline void check_on_plane(const Sheets& sheets, const std::vector<PlanePoint>& outline,
                           const std::vector<std::vector<PlanePoint>>& openings, Faults& faults) {
    const Rings plane = rings_of(outline, openings);
    for (std::size_t p = 0; p < sheets.pieces.size(); ++p) {
        const SheetPiece& piece = sheets.pieces[p];
        const Extent extent = extent_of(piece.outline);
        // What of the plane lies in the piece's own box is no less than the piece: nothing of it hangs out.
        Rings strip;
        Rings cell;
        CutRoom room;
        keep_span(plane, Axis::along, {extent.low.along, extent.high.along}, strip, room);
        keep_span(strip, Axis::up, {extent.low.up, extent.high.up}, cell, room);
        double there = 0.0;
        std::size_t from = 0;
        for (const std::size_t end : cell.ends) {
            there += twice_area(cell.points.data() + from, end - from) / 2.0;
            from = end;
        }
        const double own = square_inches(net_area({piece.outline, piece.cutouts}));
        const double slack = inches((extent.high.along - extent.low.along) + (extent.high.up - extent.low.up)) * 1e-6;
        if (!(own > 0.0) || own > there + slack) {
            faults.push_back(Fault{FaultCode::contradiction, "pieces[" + std::to_string(p) + "]",
                                   "a piece off the plane", "pieces within the outline and beside openings"});
            return;
        }
    }
}
}  // namespace detail

/// Everything wrong with a layout on `outline` with `openings` (the plane's, its eaves moved past the fascia where the sheets
/// hang over), judged from its pieces alone: a piece off the plane, on another, larger than `sheet`; areas that do not add
/// up; more left bare than `bare`, the area of all gaps. Empty where it may be laid. A turned grid is judged for overlaps
/// and areas, not piece by piece against the outline.
[[nodiscard]] inline Faults find_faults_of_layout(const Sheets& sheets, const std::vector<PlanePoint>& outline,
                                                  const std::vector<std::vector<PlanePoint>>& openings, SheetSize sheet,
                                                  Area bare) {
    Faults faults;
    Area laid = Area::from_value(0.0);
    std::size_t whole = 0;
    for (std::size_t p = 0; p < sheets.pieces.size(); ++p) {
        const SheetPiece& piece = sheets.pieces[p];
        const std::string path = "pieces[" + std::to_string(p) + "]";
        if (piece.outline.size() < 3 || piece.length > sheet.length + count_tolerance ||
            piece.width > sheet.width + count_tolerance) {
            faults.push_back(Fault{FaultCode::contradiction, path, "a piece larger than a sheet or without corners",
                                   "pieces cut from one sheet"});
            return faults;
        }
        laid += net_area({piece.outline, piece.cutouts});
        whole += piece.whole ? 1 : 0;
    }
    if (sheets.turn == 0.0) {
        detail::check_on_plane(sheets, outline, openings, faults);
    }
    detail::check_overlaps(sheets, faults);
    const double plane = square_inches(net_area(PlanePart{outline, openings}));
    const double slack = 1e-9 * plane;
    if (std::fabs(square_inches(laid - sheets.laid)) > slack || whole != sheets.whole_sheets) {
        faults.push_back(
            Fault{FaultCode::contradiction, "laid", "counts or areas that do not add up", "the sum over the pieces"});
    }
    const double left = plane - square_inches(laid);
    if (left < -slack || left > square_inches(bare) + slack) {
        faults.push_back(Fault{FaultCode::contradiction, "laid", std::to_string(left) + " sq in left bare",
                               "no more than " + std::to_string(square_inches(bare)) + " sq in of gaps"});
    }
    return faults;
}

}  // namespace eavewright
