// SPDX-License-Identifier: BSL-1.0
#pragma once

// What lies in a strip whatever covers the roof: supports, names of pieces, findings.

#include <eavewright/drawing/finding_marks.hpp>
#include <eavewright/drawing/strips.hpp>
#include <eavewright/framing/supports.hpp>

#include <array>
#include <cmath>
#include <cstddef>
#include <string>
#include <vector>

namespace eavewright::detail {

/// A support, or a stretch of it, as a band of its real width.
inline void draw_band(SvgText& svg, const std::vector<PlanePoint>& centreline, Length half, bool along_eave,
                      const View& view) {
    std::vector<PlanePoint> band;
    for (const PlanePoint& p : centreline) {
        band.push_back(along_eave ? PlanePoint{p.along, p.up - half} : PlanePoint{p.along - half, p.up});
    }
    for (auto p = centreline.rbegin(); p != centreline.rend(); ++p) {
        band.push_back(along_eave ? PlanePoint{p->along, p->up + half} : PlanePoint{p->along + half, p->up});
    }
    svg.polygon(view.all(band));
}

/// The part of a centre line that a stretch of its support lies on.
[[nodiscard]] inline std::vector<PlanePoint> part_of_line(const std::vector<PlanePoint>& line, Span stretch,
                                                          bool along_eave) {
    const auto at = [&](Length main) {
        return along_eave ? PlanePoint{main, up_at(line, main)} : PlanePoint{along_at(line, main), main};
    };
    std::vector<PlanePoint> part{at(stretch.low)};
    for (const PlanePoint& p : line) {
        const Length main = along_eave ? p.along : p.up;
        if (main > stretch.low && main < stretch.high) {
            part.push_back(p);
        }
    }
    part.push_back(at(stretch.high));
    return part;
}

/// A support as a band of its real width, where it runs in a strip.
inline void draw_support(SvgText& svg, const SupportLine& support, bool along_eave, const Strip& strip) {
    const Length half = support.width / 2.0;
    if (support.stretches.empty()) {
        draw_band(svg, support.centreline, half, along_eave, strip.view);
    }
    for (const Span& stretch : support.stretches) {
        if (!along_eave || (stretch.high > strip.from && stretch.low < strip.to)) {
            draw_band(svg, part_of_line(support.centreline, stretch, along_eave), half, along_eave, strip.view);
        }
    }
}

/// Supports in a light tone, a touch of line around them so that a thin purlin does not vanish in print.
inline void draw_supports(SvgText& svg, const std::vector<SupportLine>& supports, bool along_eave, const Strip& strip) {
    svg.open_group(R"(fill="#c8c8c8" stroke="#aaa" stroke-width="0.4")", along_eave ? "Purlins" : "Chords");
    for (const SupportLine& support : supports) {
        if (along_eave || strip.touches({{support.centreline.front().along - support.width, no_length},
                                         {support.centreline.front().along + support.width, no_length}})) {
            draw_support(svg, support, along_eave, strip);
        }
    }
    svg.close_group();
}

/// Where the name of a piece goes, and whether a leader must tie it to the piece.
struct NamePlace {
    SvgPoint at;
    bool outside;
};

/// Inside where it fits, else past the edge of the strip that the piece lies at.
[[nodiscard]] inline NamePlace place_name(const Extent& piece, double name_wide, const Strip& strip) {
    const View& view = strip.view;
    const SvgPoint middle = view.at(middle_of(piece));
    const double wide = inches(piece.high.along - piece.low.along) * view.scale;
    const double high = inches(piece.high.up - piece.low.up) * view.scale;
    if (wide >= name_wide + 2.0 && high >= name_size + 1.0) {
        return {middle, false};
    }
    const bool at_side = piece.low.along <= strip.from + one_inch || piece.high.along >= strip.to - one_inch;
    if (wide < name_wide + 2.0 && at_side) {
        const bool to_left = piece.low.along <= strip.from + one_inch && piece.high.along < strip.to - one_inch;
        return {{to_left ? view.x_of(strip.from) - name_wide / 2.0 - 5.0 : view.x_of(strip.to) + name_wide / 2.0 + 5.0,
                 middle.y},
                true};
    }
    if (high >= name_size + 1.0) {
        return {middle, false};  // a narrow lane in the middle of a strip: its name may lap over
    }
    const bool up = middle.y - strip.top < strip.bottom - middle.y;
    return {{middle.x, up ? strip.top - 17.0 : strip.bottom + 9.0}, true};
}

/// The name of a piece, `seen` being what of it lies in the strip. Returns where it went. `over` is how far it may
/// stand
/// past the piece's sides before it goes out of it.
inline NamePlace write_name(Page& page, const Extent& seen, const std::string& name, Strip& strip, double over = 0.0) {
    const double wide = text_width(name, bold_room(name_size));
    const NamePlace place = place_name(seen, wide - over, strip);
    if (place.outside) {
        page.svg.line(strip.view.at(middle_of(seen)), place.at, thin_pen);
    }
    page.label(place.at, name, {.size = name_size, .bold = true});
    strip.taken.push_back({place.at.x - wide / 2.0, place.at.y - 6.0, place.at.x + wide / 2.0, place.at.y + 6.0});
    return place;
}

/// A free place for a mark close to `wanted`, or `wanted` itself where everything around is taken.
[[nodiscard]] inline SvgPoint free_place(SvgPoint wanted, const Strip& strip) {
    constexpr std::array<SvgPoint, 17> moves{{{0, 0},
                                              {0, -17},
                                              {0, 17},
                                              {17, 0},
                                              {-17, 0},
                                              {17, -17},
                                              {-17, -17},
                                              {17, 17},
                                              {-17, 17},
                                              {0, -34},
                                              {0, 34},
                                              {34, 0},
                                              {-34, 0},
                                              {17, -34},
                                              {-17, -34},
                                              {17, 34},
                                              {-17, 34}}};
    constexpr double margin = 20.0;  // past a rake or the ridge there is room for one more
    const double left = strip.view.x_of(strip.from) - (strip.first ? 0.0 : margin);
    const double right = strip.view.x_of(strip.to) + margin;
    for (const SvgPoint& move : moves) {
        const SvgPoint at{wanted.x + move.x, wanted.y + move.y};
        const bool moved = move.x != 0.0 || move.y != 0.0;
        const double half = moved ? mark_radius + 1.0 : mark_radius - 2.5;  // in its own place it may touch a neighbour
        const Box box{at.x - half, at.y - half, at.x + half, at.y + half};
        const bool in_strip =
            box.left >= left && box.right <= right && box.top >= strip.top - margin && box.bottom <= strip.bottom;
        if (strip.is_free(box) && (!moved || in_strip)) {
            return at;
        }
    }
    return wanted;
}

/// A mark on its way into a strip.
struct PlacedMark {
    std::size_t finding;
    std::size_t group;
    SvgPoint wanted;
    SvgPoint at;
};

/// Places for the findings of a strip, the gravest kept closest to where they are: `place` says where one goes. Two
/// that read
/// alike at one joint, one for each piece, share a mark.
template <class Place>
[[nodiscard]] std::vector<PlacedMark> place_marks(const std::vector<FindingNote>& notes, const FindingGroups& groups,
                                                  Strip& strip, Place place) {
    std::vector<PlacedMark> marks;
    for (std::size_t g = 0; g < groups.groups.size(); ++g) {
        for (const std::size_t i : groups.groups[g].findings) {
            const SvgPoint wanted = strip.view.at(notes[i].place);
            bool skip = !strip.holds(notes[i].place.along);
            for (const PlacedMark& other : marks) {
                skip = skip || (other.group == g && std::fabs(other.wanted.x - wanted.x) < 3.0 &&
                                std::fabs(other.wanted.y - wanted.y) < 3.0);
            }
            if (!skip) {
                const SvgPoint at = place(wanted);
                marks.push_back({i, g, wanted, at});
                strip.taken.push_back({at.x - mark_radius, at.y - mark_radius, at.x + mark_radius, at.y + mark_radius});
            }
        }
    }
    return marks;
}

/// From a mark to the place that it stands for, where it had to go elsewhere.
inline void draw_mark_leader(SvgText& svg, const PlacedMark& mark) {
    if (mark.at.x != mark.wanted.x || mark.at.y != mark.wanted.y) {
        svg.line(mark.wanted, mark.at, thin_pen);
        svg.circle(mark.wanted, 1.8, R"(fill="#000")");
    }
}

/// Marks of the findings, over what would mend them and their leaders.
inline void draw_findings(Page& page, const std::vector<FindingNote>& notes, const FindingGroups& groups,
                          Strip& strip) {
    const auto place = [&](SvgPoint wanted) { return free_place(wanted, strip); };
    const std::vector<PlacedMark> marks = place_marks(notes, groups, strip, place);
    for (const PlacedMark& mark : marks) {
        const FindingNote& note = notes[mark.finding];
        if (note.mend) {
            page.svg.line(strip.view.at(note.mend->from), strip.view.at(note.mend->to), block_pen);
        }
        draw_mark_leader(page.svg, mark);
    }
    for (const PlacedMark& mark : marks) {
        draw_mark(page.svg, mark.at, notes[mark.finding].shape, mark.group + 1);
    }
}

}  // namespace eavewright::detail
