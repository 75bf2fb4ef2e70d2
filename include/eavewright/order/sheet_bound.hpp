// SPDX-License-Identifier: BSL-1.0
#pragma once

// How few sheets any straight-through cutting of pieces can need, with what anybody recomputes it from.
//
// A scale maps the size of a piece, as a share of the sheet, to a share again, so that sizes which fit side by side
// never add up to more than one (a dual feasible function). The products of a scale along the sheet and one across it,
// summed over all pieces, are no more than the sheets (Fekete and Schepers, A combinatorial characterization of
// higher-dimensional orthogonal packing, 2004; the scales: Carlier, Clautiaux and Moukrim, New reduction procedures and
// lower bounds for the two-dimensional bin packing problem with fixed orientation, 2007; both from memory, proven again
// in the comments and tried against exhaustive search).

#include <eavewright/field.hpp>
#include <eavewright/order/cut_sheets.hpp>
#include <eavewright/order/sheet_shapes.hpp>
#include <eavewright/order/sheet_spots.hpp>
#include <eavewright/units/quantities.hpp>

#include <algorithm>
#include <array>
#include <cmath>
#include <cstddef>
#include <cstdint>
#include <string_view>
#include <tuple>
#include <utility>
#include <vector>

namespace eavewright {

/// How a scale maps a share x of the sheet.
enum class ScaleKind {
    as_long,     ///< to x
    large_only,  ///< to 1 above 1 - share, to 0 below share, else to x: what is large leaves no room for what is larger
    floors,  ///< to floor((steps + 1) x) / steps: of sizes over 1/(steps + 1), no more than `steps` lie side by side
    shares,  ///< to whole multiples of share: small sizes rounded down, sizes over 1/2 leave room for so many
};
template <>
struct NamesOf<ScaleKind> {
    static constexpr std::array<std::string_view, 4> list{"as_long", "large_only", "floors", "shares"};
};

/// One scale. `share` lies in (0, 1/2], `steps` in 1 to 100.
struct SizeScale {
    ScaleKind kind = ScaleKind::as_long;
    double share = 0.5;
    int steps = 1;
};
template <>
struct FieldsOf<SizeScale> {
    static constexpr auto list =
        field_list(field("kind", FieldUnit::none, "how it maps a share of the sheet", &SizeScale::kind),
                   field("share", FieldUnit::ratio, "its threshold or unit", &SizeScale::share),
                   field("steps", FieldUnit::count, "its steps", &SizeScale::steps));
};

/// No straight-through cutting needs fewer `sheets`: the greater of the two counts.
struct SheetBound {
    std::int64_t sheets;
    std::int64_t by_area;  ///< area of the pieces over that of a sheet
    SizeScale lengths{};   ///< scales that `sheets_by_scales` gives `sheets` with
    SizeScale widths{};
};
template <>
struct FieldsOf<SheetBound> {
    static constexpr auto list =
        field_list(field("sheets", FieldUnit::count, "no straight-through cutting needs fewer", &SheetBound::sheets),
                   field("by_area", FieldUnit::count, "area of the pieces over that of a sheet", &SheetBound::by_area),
                   field("lengths", FieldUnit::none, "scale along the strength axis", &SheetBound::lengths),
                   field("widths", FieldUnit::none, "scale across it", &SheetBound::widths));
};

namespace detail {
/// The value of a share under a scale. Never greater for a smaller share, so that a share may be rounded down.
[[nodiscard]] inline double scaled_share(const SizeScale& scale, double x) {
    constexpr double hair = 1e-9;  // what division may miss a whole number by
    const double units = std::floor(1.0 / scale.share + hair);
    switch (scale.kind) {
        case ScaleKind::large_only: return x > 1.0 - scale.share ? 1.0 : (x < scale.share ? 0.0 : x);
        case ScaleKind::floors:
            return std::floor(static_cast<double>(scale.steps + 1) * x - hair) / static_cast<double>(scale.steps);
        case ScaleKind::shares:
            return x > 0.5 ? 1.0 - std::floor((1.0 - x) / scale.share + hair) / units
                           : std::fmax(0.0, std::floor(x / scale.share - hair)) / units;
        default: return x;
    }
}
[[nodiscard]] inline bool is_sound(const SizeScale& scale) {
    return scale.share > 1e-6 && scale.share <= 0.5 && scale.steps >= 1 && scale.steps <= 100;
}

/// Rectangles inside a convex outline, their sides along the sheet's, between pairs of heights across it.
[[nodiscard]] inline Spots rectangles_within(const Spots& outline) {
    const SpotExtent extent = extent_of(outline);
    const double l = extent.high.l - extent.low.l;
    const double w = extent.high.w - extent.low.w;
    if (area_of(outline) > l * w - 1e-9) {
        return {{l, w}};
    }
    std::vector<double> heights;
    for (int i = 0; i <= 8; ++i) {
        heights.push_back(extent.low.w + w * i / 8.0);
    }
    const auto along = [&](double at) {  // from where to where the outline reaches
        Spot reach{1e300, -1e300};
        for (std::size_t i = 0; i < outline.size(); ++i) {
            const Spot p = outline[i];
            const Spot q = outline[(i + 1) % outline.size()];
            if ((p.w - at) * (q.w - at) <= 0.0) {
                const double share = p.w == q.w ? 0.0 : (at - p.w) / (q.w - p.w);
                const double l_at = p.l + (q.l - p.l) * share;
                const double l_end = p.w == q.w ? q.l : l_at;
                reach = {std::fmin(reach.l, std::fmin(l_at, l_end)), std::fmax(reach.w, std::fmax(l_at, l_end))};
            }
        }
        return reach;
    };
    Spots within;
    for (std::size_t a = 0; a < heights.size(); ++a) {
        for (std::size_t b = a + 1; b < heights.size(); ++b) {
            const Spot low = along(heights[a]);
            const Spot high = along(heights[b]);
            const double length = std::fmin(low.w, high.w) - std::fmax(low.l, high.l);
            if (length > 0.0) {
                within.push_back({length, heights[b] - heights[a]});
            }
        }
    }
    return within;
}

/// A kind of piece as the bound sees it: rectangles within it as shares of the sheet, each grown by the blade.
struct BoundPiece {
    double times;
    std::vector<Spot> upright;
    std::vector<Spot> turned;  ///< nothing for a piece that may not be turned
};

/// What the shares are of. Two pieces a blade apart are so far apart in one of the two axes, or, where a blade may run
/// at a slant, the blade over sqrt(2) at least. Sizes are rounded down by what a cut may be off.
struct BoundSheet {
    double l;
    double w;
    double blade;
    [[nodiscard]] Spot share(double length, double width) const {
        return {(length + blade - spot_tolerance) / (l + blade + spot_tolerance),
                (width + blade - spot_tolerance) / (w + blade + spot_tolerance)};
    }
};

[[nodiscard]] inline bool any_slant(const std::vector<SheetShape>& shapes) {
    return std::any_of(shapes.begin(), shapes.end(), [](const SheetShape& shape) { return !shape.outline.empty(); });
}
[[nodiscard]] inline BoundSheet bound_sheet(const SheetStock& stock, bool slants) {
    return {inches(stock.sheet.length), inches(stock.sheet.width),
            inches(stock.kerf) * (slants ? std::sqrt(0.5) : 1.0)};
}

/// Indexes of pieces so that equal ones follow each other.
[[nodiscard]] inline std::vector<std::size_t> sorted_shapes(const std::vector<SheetShape>& shapes) {
    const auto before = [&](std::size_t a, std::size_t b) {
        const SheetShape& p = shapes[a];
        const SheetShape& q = shapes[b];
        const auto key = [](const SheetShape& s) { return std::make_tuple(s.box.length, s.box.width, s.turnable); };
        if (key(p) != key(q)) {
            return key(q) < key(p);
        }
        return std::lexicographical_compare(
            p.outline.begin(), p.outline.end(), q.outline.begin(), q.outline.end(), [](CutPoint c, CutPoint d) {
                return std::make_pair(c.length, c.width) < std::make_pair(d.length, d.width);
            });
    };
    std::vector<std::size_t> order(shapes.size());
    for (std::size_t i = 0; i < order.size(); ++i) {
        order[i] = i;
    }
    std::stable_sort(order.begin(), order.end(), before);
    return order;
}
[[nodiscard]] inline bool is_equal(const SheetShape& a, const SheetShape& b) {
    return a.box.length == b.box.length && a.box.width == b.box.width && a.turnable == b.turnable &&
           a.outline == b.outline;
}

[[nodiscard]] inline std::vector<BoundPiece> bound_pieces(const std::vector<SheetShape>& shapes,
                                                          const BoundSheet& sheet) {
    std::vector<BoundPiece> pieces;
    const SheetShape* last = nullptr;
    for (const std::size_t i : sorted_shapes(shapes)) {
        if (last != nullptr && is_equal(*last, shapes[i])) {
            pieces.back().times += 1.0;
            continue;
        }
        last = &shapes[i];
        BoundPiece piece{1.0, {}, {}};
        for (const Spot& within : rectangles_within(sawn_outline(*last))) {
            piece.upright.push_back(sheet.share(within.l, within.w));
            if (last->turnable) {
                piece.turned.push_back(sheet.share(within.w, within.l));
            }
        }
        pieces.push_back(std::move(piece));
    }
    return pieces;
}

/// The scaled sizes of all pieces along one axis: of each its upright rectangles, then its turned ones.
[[nodiscard]] inline std::vector<double> scaled_sizes(const std::vector<BoundPiece>& pieces, const SizeScale& scale,
                                                      bool along) {
    std::vector<double> sizes;
    for (const BoundPiece& piece : pieces) {
        for (const std::vector<Spot>* shares : {&piece.upright, &piece.turned}) {
            for (const Spot& share : *shares) {
                sizes.push_back(scaled_share(scale, along ? share.l : share.w));
            }
        }
    }
    return sizes;
}

/// Each piece by the best rectangle within it, by the lesser of its two ways where it may be turned.
[[nodiscard]] inline double sum_of_products(const std::vector<BoundPiece>& pieces, const std::vector<double>& lengths,
                                            const std::vector<double>& widths) {
    double sum = 0.0;
    std::size_t at = 0;
    const auto best_of = [&](std::size_t count) {
        double best = 0.0;
        for (const std::size_t end = at + count; at < end; ++at) {
            const double product = lengths[at] * widths[at];
            best = product > best ? product : best;
        }
        return best;
    };
    for (const BoundPiece& piece : pieces) {
        double value = best_of(piece.upright.size());
        if (!piece.turned.empty()) {
            const double turned = best_of(piece.turned.size());
            value = turned < value ? turned : value;
        }
        sum += piece.times * value;
    }
    return sum;
}

/// Scales worth trying along one axis, at most `most` of them.
[[nodiscard]] inline std::vector<SizeScale> scales_to_try(const std::vector<BoundPiece>& pieces, bool along,
                                                          std::size_t most) {
    std::vector<double> sizes;
    for (const BoundPiece& piece : pieces) {
        if (piece.upright.empty()) {
            continue;
        }
        const auto larger = [](const Spot& a, const Spot& b) { return a.l * a.w < b.l * b.w; };
        const Spot best = *std::max_element(piece.upright.begin(), piece.upright.end(), larger);
        const double x = along ? best.l : best.w;
        sizes.push_back(x > 0.5 ? 1.0 - x + 1e-6 : x * (1.0 - 1e-6));
        if (!piece.turned.empty()) {
            const double y = along ? piece.turned.front().l : piece.turned.front().w;
            sizes.push_back(y > 0.5 ? 1.0 - y + 1e-6 : y * (1.0 - 1e-6));
        }
    }
    std::sort(sizes.begin(), sizes.end());
    sizes.erase(std::unique(sizes.begin(), sizes.end()), sizes.end());
    std::vector<SizeScale> scales{{}, {ScaleKind::large_only, 0.5, 1}};
    for (int steps = 1; steps <= 8; ++steps) {
        scales.push_back({ScaleKind::floors, 0.5, steps});
    }
    const std::size_t room = most > scales.size() ? (most - scales.size()) / 2 : 0;
    const std::size_t step = room > 0 ? (sizes.size() + room - 1) / room : sizes.size() + 1;
    for (std::size_t i = 0; room > 0 && i < sizes.size(); i += step) {
        const double share = std::fmin(0.5, sizes[i]);
        if (share > 0.01) {
            scales.push_back({ScaleKind::large_only, share, 1});
            scales.push_back({ScaleKind::shares, share, 1});
        }
    }
    return scales;
}
[[nodiscard]] inline std::int64_t whole_sheets(double sum) {
    return static_cast<std::int64_t>(std::ceil(sum - 1e-9));  // rounding of the sum, far below a piece
}
}  // namespace detail

/// Sheets that no cutting by two scales can go below. 0 for a scale out of its range. Slanted pieces count by the best
/// rectangle within them, pieces that may be turned by the lesser of their two ways.
[[nodiscard]] inline std::int64_t sheets_by_scales(const std::vector<SheetShape>& shapes, const SheetStock& stock,
                                                   const SizeScale& lengths, const SizeScale& widths) {
    if (!detail::is_sound(lengths) || !detail::is_sound(widths)) {
        return 0;
    }
    const detail::BoundSheet sheet = detail::bound_sheet(stock, detail::any_slant(shapes));
    const std::vector<detail::BoundPiece> pieces = detail::bound_pieces(shapes, sheet);
    return detail::whole_sheets(detail::sum_of_products(pieces, detail::scaled_sizes(pieces, lengths, true),
                                                        detail::scaled_sizes(pieces, widths, false)));
}

/// Sheets that no cutting can go below by the area of what is sawn.
[[nodiscard]] inline std::int64_t sheets_by_area(const std::vector<SheetShape>& shapes, const SheetStock& stock) {
    double area = 0.0;
    for (const SheetShape& shape : shapes) {
        area += square_inches(sawn_area(shape));
    }
    return detail::whole_sheets(area / square_inches(stock.sheet.length * stock.sheet.width));
}

/// The best bound of the scales tried, with the scales. Takes no more than about two million products.
[[nodiscard]] inline SheetBound bound_sheets(const std::vector<SheetShape>& shapes, const SheetStock& stock) {
    SheetBound bound{0, sheets_by_area(shapes, stock)};
    bound.sheets = bound.by_area;
    const detail::BoundSheet sheet = detail::bound_sheet(stock, detail::any_slant(shapes));
    const std::vector<detail::BoundPiece> pieces = detail::bound_pieces(shapes, sheet);
    double work = 1.0;
    for (const detail::BoundPiece& piece : pieces) {
        work += static_cast<double>(piece.upright.size() + piece.turned.size());
    }
    const auto most = static_cast<std::size_t>(std::fmax(12.0, std::fmin(60.0, std::sqrt(2e6 / work))));
    const std::vector<SizeScale> across = detail::scales_to_try(pieces, false, most);
    std::vector<std::vector<double>> widths;
    for (const SizeScale& scale : across) {
        widths.push_back(detail::scaled_sizes(pieces, scale, false));
    }
    for (const SizeScale& scale : detail::scales_to_try(pieces, true, most)) {
        const std::vector<double> lengths = detail::scaled_sizes(pieces, scale, true);
        for (std::size_t w = 0; w < across.size(); ++w) {
            const std::int64_t sheets = detail::whole_sheets(detail::sum_of_products(pieces, lengths, widths[w]));
            if (sheets > bound.sheets) {
                bound.sheets = sheets;
                bound.lengths = scale;
                bound.widths = across[w];
            }
        }
    }
    return bound;
}

}  // namespace eavewright
