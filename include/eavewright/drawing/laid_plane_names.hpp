// SPDX-License-Identifier: BSL-1.0
#pragma once

// Names of sheets and openings on a plane of any outline: each once, inside its own piece, or tied to it.

#include <eavewright/drawing/label_place.hpp>
#include <eavewright/drawing/laid_plane.hpp>
#include <eavewright/drawing/page.hpp>
#include <eavewright/drawing/strips.hpp>
#include <eavewright/roof/plane.hpp>
#include <eavewright/tiling/sheets.hpp>

#include <cstddef>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

namespace eavewright::detail {

[[nodiscard]] inline HalfBox half_box(std::string_view words, double room_size, double high) {
    return {text_width(words, room_size) / 2.0 + 1.0, high / 2.0};
}
[[nodiscard]] inline HalfBox name_box(const std::string& name) {
    return half_box(name, bold_room(name_size), name_size + 2.0);
}

/// The strip that shows a shape at its widest: there it is named.
[[nodiscard]] inline std::size_t home_strip(const std::vector<PlanePoint>& outline,
                                            const std::vector<std::vector<PlanePoint>>& holes, HalfBox half,
                                            const Strips& strips) {
    const Extent extent = extent_of(outline);
    const View view{strips.breaks[0], 0.0, 0.0, strips.scale};
    std::size_t home = 0;
    double most = -2.0;
    for (std::size_t i = 0; i + 1 < strips.breaks.size(); ++i) {
        const bool first = i == 0;
        const bool last = i + 2 == strips.breaks.size();
        const bool from_here = first || extent.high.along > strips.breaks[i];
        const bool to_here = last || extent.low.along < strips.breaks[i + 1];
        const bool all_here =
            (first || extent.low.along >= strips.breaks[i]) && (last || extent.high.along <= strips.breaks[i + 1]);
        if (all_here) {
            return i;
        }
        if (from_here && to_here) {
            const PageShape shape =
                shape_on_page(outline, holes, view, view.x_of(strips.breaks[i]), view.x_of(strips.breaks[i + 1]));
            const double room = place_within(shape, half).room;
            if (room > most + 1e-6) {
                most = room;
                home = i;
            }
        }
    }
    return home;
}

/// Where every piece and every opening is named.
struct Homes {
    std::vector<std::size_t> pieces;
    std::vector<std::size_t> openings;
};
[[nodiscard]] inline Homes homes_of(const DrawnPlane& drawn, const Strips& strips) {
    Homes homes;
    for (const SheetPiece& piece : drawn.sheets.pieces) {
        homes.pieces.push_back(home_strip(piece.outline, piece.cutouts, name_box(piece_name(piece)), strips));
    }
    for (std::size_t i = 0; i < drawn.openings.size(); ++i) {
        homes.openings.push_back(home_strip(drawn.openings[i], {}, name_box(letter_of_opening(drawn, i)), strips));
    }
    return homes;
}

/// What the names of a strip are written with.
struct NameRoom {
    Page& page;
    const DrawnPlane& drawn;
    Strip& strip;
    Box bounds;  ///< within which names may stand that fit in no piece

    [[nodiscard]] PageShape shape(const std::vector<PlanePoint>& outline,
                                  const std::vector<std::vector<PlanePoint>>& holes) const {
        return shape_on_page(outline, holes, strip.view, strip.view.x_of(strip.from), strip.view.x_of(strip.to));
    }
    void take(SvgPoint at, HalfBox half) const { strip.taken.push_back(half.around(at)); }
};

/// The name of a piece inside it, over its cut size where both fit. False where not even the name does.
[[nodiscard]] inline bool write_name_within(const NameRoom& room, const SheetPiece& piece) {
    const std::string name = piece_name(piece);
    const PageShape shape = room.shape(piece.outline, piece.cutouts);
    if (!piece.whole) {
        const std::string size = room.page.figure(piece.width) + " x " + room.page.figure(piece.length);
        const HalfBox both{greater(half_box(size, least_text, 0.0).wide, name_box(name).wide), 13.0};
        const TextPlace place = place_within(shape, both);
        if (place.room >= 1.0 && is_free(both.around(place.at), room.strip.taken)) {
            room.page.label({place.at.x, place.at.y - 6.0}, name, {.size = name_size, .bold = true});
            room.page.label({place.at.x, place.at.y + 6.0}, size, {.size = least_text});
            room.take(place.at, both);
            return true;
        }
    }
    const TextPlace place = place_within(shape, name_box(name));
    if (place.room < 1.0 || !is_free(name_box(name).around(place.at), room.strip.taken)) {
        return false;
    }
    room.page.label(place.at, name, {.size = name_size, .bold = true});
    room.take(place.at, name_box(name));
    return true;
}

/// A text beside its shape, a leader between them. False where nothing is free within reach.
inline bool write_beside(const NameRoom& room, SvgPoint from, const std::string& words, TextLook look, double reach) {
    const HalfBox half = half_box(words, look.bold ? bold_room(look.size) : look.size, look.size + 2.0);
    const PageShape plane = room.shape(room.drawn.outline, {});
    const std::optional<SvgPoint> at = place_beside(from, half, room.bounds, room.strip.taken, plane, reach);
    if (!at) {
        return false;
    }
    if (at->x != from.x || at->y != from.y) {
        room.page.svg.line(from, *at, thin_pen);
        room.page.svg.circle(from, 1.3, R"(fill="#000")");
    }
    room.page.label(*at, words, look);
    room.take(*at, {half.wide, half.high + 2.0});
    return true;
}

/// The name of a piece that it does not fit in.
inline void write_name_beside(const NameRoom& room, const SheetPiece& piece) {
    const std::string name = piece_name(piece);
    const SvgPoint from = place_within(room.shape(piece.outline, piece.cutouts), name_box(name)).at;
    const TextLook look{.size = name_size, .bold = true};
    for (const double reach : {72.0, 180.0, 400.0}) {
        if (write_beside(room, from, name, look, reach)) {
            return;
        }
    }
    room.page.label(from, name, look);  // a page full of names: better over another than not at all
    room.take(from, name_box(name));
}

/// An opening's letter and size right beside it, where nothing stands there yet.
inline void write_size_beside(const NameRoom& room, const std::vector<PlanePoint>& opening, const std::string& words) {
    const Extent extent = extent_of(opening);
    const SvgPoint low = room.strip.view.at(extent.low);
    const SvgPoint high = room.strip.view.at(extent.high);
    const SvgPoint middle{(low.x + high.x) / 2.0, (low.y + high.y) / 2.0};
    const HalfBox half = half_box(words, least_text, least_text + 2.0);
    const double left = low.x - half.wide - 3.0;
    const double right = high.x + half.wide + 3.0;
    for (const SvgPoint& at :
         {SvgPoint{right, middle.y}, SvgPoint{left, middle.y}, SvgPoint{middle.x, low.y + 9.0},
          SvgPoint{middle.x, high.y - 9.0}, SvgPoint{right, low.y - 4.0}, SvgPoint{right, high.y + 4.0},
          SvgPoint{left, low.y - 4.0}, SvgPoint{left, high.y + 4.0}}) {
        const Box box = half.around(at);
        if (box.left >= room.bounds.left && box.right <= room.bounds.right && is_free(box, room.strip.taken)) {
            room.page.label(at, words, {.size = least_text});
            room.take(at, half);
            return;
        }
    }
}

/// Letter of an opening, and its size under it where there is room for both. False where the size stays to be written.
[[nodiscard]] inline bool write_opening(const NameRoom& room, std::size_t index) {
    const std::vector<PlanePoint>& opening = room.drawn.openings[index];
    const std::string letter = letter_of_opening(room.drawn, index);
    const PageShape shape = room.shape(opening, {});
    const std::string size = size_of_opening(opening, room.page);
    const HalfBox both{half_box(size, least_text, 0.0).wide, 13.0};
    const TextPlace wide = place_within(shape, both);
    const Extent extent = extent_of(opening);  // marks and names keep off the opening
    const SvgPoint low = room.strip.view.at(extent.low);
    const SvgPoint high = room.strip.view.at(extent.high);
    if (wide.room >= 1.0) {
        room.page.label({wide.at.x, wide.at.y - 6.0}, letter, {.size = name_size, .bold = true});
        room.page.label({wide.at.x, wide.at.y + 6.0}, size, {.size = least_text});
        room.take(wide.at, both);
        return true;
    }
    const SvgPoint at = place_within(shape, name_box(letter)).at;
    room.page.label(at, letter, {.size = name_size, .bold = true});
    room.take(at, name_box(letter));
    if (high.x - low.x > 8.0 && low.y - high.y > 8.0) {
        room.strip.taken.push_back({low.x + 3.0, high.y + 3.0, high.x - 3.0, low.y - 3.0});
    }
    return false;
}

/// All names of a strip: openings and pieces that hold theirs first, then those beside. Returns the openings whose
/// size is yet
/// to be written.
[[nodiscard]] inline std::vector<std::size_t> write_plane_names(const NameRoom& room, const Homes& homes,
                                                                std::size_t strip, bool pieces) {
    std::vector<std::size_t> sizes;
    for (std::size_t i = 0; i < room.drawn.openings.size(); ++i) {
        if (homes.openings[i] == strip && !write_opening(room, i)) {
            sizes.push_back(i);
        }
    }
    std::vector<const SheetPiece*> beside;
    for (std::size_t i = 0; pieces && i < homes.pieces.size(); ++i) {
        const SheetPiece& piece = room.drawn.sheets.pieces[i];
        if (homes.pieces[i] == strip && !write_name_within(room, piece)) {
            beside.push_back(&piece);
        }
    }
    for (const SheetPiece* piece : beside) {
        write_name_beside(room, *piece);
    }
    return sizes;
}

/// Sizes of openings that do not hold them: last of all, where names and marks have left room.
inline void write_sizes_beside(const NameRoom& room, const std::vector<std::size_t>& openings) {
    for (const std::size_t opening : openings) {
        const std::vector<PlanePoint>& corners = room.drawn.openings[opening];
        const std::string size = size_of_opening(corners, room.page);
        write_size_beside(room, corners, letter_of_opening(room.drawn, opening) + ": " + size);
    }
}

}  // namespace eavewright::detail
