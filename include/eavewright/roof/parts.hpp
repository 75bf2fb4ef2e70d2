// SPDX-License-Identifier: BSL-1.0
#pragma once

// Parts of a plane between straight lines square to an axis, whatever the outline: convex or not, with openings.
//
// A set of rings has the plane on the left of every edge: outlines counter-clockwise, openings clockwise. A cut keeps what
// lies strictly on one side and closes it along the line. A corner on the line counts as cut off, so that nothing of no
// width is ever kept, and an edge along the line is drawn anew.

#include <eavewright/field.hpp>
#include <eavewright/roof/openings.hpp>
#include <eavewright/roof/plane.hpp>
#include <eavewright/units/length.hpp>
#include <eavewright/units/quantities.hpp>

#include <algorithm>
#include <cstddef>
#include <utility>
#include <vector>

namespace eavewright {

/// A connected part of a plane: its outline, counter-clockwise, and the openings within it, counter-clockwise too.
struct PlanePart {
    std::vector<PlanePoint> outline;
    std::vector<std::vector<PlanePoint>> cutouts;
};
template <>
struct FieldsOf<PlanePart> {
    static constexpr auto list =
        field_list(field("outline", FieldUnit::length, "corners counter-clockwise", &PlanePart::outline),
                   field("cutouts", FieldUnit::length, "outlines of openings within it", &PlanePart::cutouts));
};

/// Area of a part without its openings.
[[nodiscard]] inline Area net_area(const PlanePart& part) {
    Area area = signed_area(part.outline);
    for (const std::vector<PlanePoint>& cutout : part.cutouts) {
        area -= signed_area(cutout);
    }
    return area;
}

namespace detail {
/// Closed rings, one after another.
struct Rings {
    std::vector<PlanePoint> points;
    std::vector<std::size_t> ends;  ///< one past the last point of each ring
    void clear() {
        points.clear();
        ends.clear();
    }
    void close() {
        const std::size_t from = ends.empty() ? 0 : ends.back();
        while (points.size() > from + 1 && points.back() == points[from]) {
            points.pop_back();
        }
        if (points.size() < from + 3) {
            points.resize(from, PlanePoint{no_length, no_length});
            return;
        }
        ends.push_back(points.size());
    }
    void add(PlanePoint point) {
        const std::size_t from = ends.empty() ? 0 : ends.back();
        if (points.size() == from || points.back() != point) {
            points.push_back(point);
        }
    }
};

/// Twice the area of one ring, in square inches.
[[nodiscard]] inline double twice_area(const PlanePoint* ring, std::size_t count) {
    double twice = 0.0;
    for (std::size_t i = 1; i + 1 < count; ++i) {
        const PlanePoint a{ring[i].along - ring[0].along, ring[i].up - ring[0].up};
        const PlanePoint b{ring[i + 1].along - ring[0].along, ring[i + 1].up - ring[0].up};
        twice += inches(a.along) * inches(b.up) - inches(b.along) * inches(a.up);
    }
    return twice;
}

/// An outline and its openings as rings, each turned the way that keeps the plane on its left.
[[nodiscard]] inline Rings rings_of(const std::vector<PlanePoint>& outline,
                                    const std::vector<std::vector<PlanePoint>>& openings) {
    Rings rings;
    const auto take = [&](const std::vector<PlanePoint>& ring, bool counter_clockwise) {
        const bool turned = (square_inches(signed_area(ring)) > 0.0) != counter_clockwise;
        for (std::size_t i = 0; i < ring.size(); ++i) {
            rings.add(turned ? ring[ring.size() - 1 - i] : ring[i]);
        }
        rings.close();
    };
    take(outline, true);
    for (const std::vector<PlanePoint>& opening : openings) {
        take(opening, false);
    }
    return rings;
}

enum class Axis { along, up };

/// Where a ring crosses the cutting line, and the chain of kept points that starts or ends there.
struct Crossing {
    double key;  ///< ascends in the direction in which the line is walked
    std::size_t chain;
};
/// Points that are kept one after another, from where they come in to where they go out.
struct Chain {
    std::size_t from;
    std::size_t to;
    std::size_t next;
    bool used;
};

/// What a cut works in, kept between cuts so that nothing is allocated twice.
struct CutRoom {
    std::vector<PlanePoint> points;
    std::vector<Chain> chains;
    std::vector<Crossing> entries;
    std::vector<Crossing> exits;
};

/// One cut: on which axis, where, and which side is kept.
struct Cut {
    Axis axis;
    Length at;
    bool keep_above;

    [[nodiscard]] double side(PlanePoint p) const {
        const double off = inches((axis == Axis::up ? p.up : p.along) - at);
        return keep_above ? off : -off;
    }
    /// The line is walked with the kept side on its left.
    [[nodiscard]] double key(PlanePoint p) const {
        const double main = inches(axis == Axis::up ? p.along : p.up);
        return keep_above == (axis == Axis::up) ? main : -main;
    }
    /// Where the edge from `a` to `b` meets the line: the same point whichever side is kept.
    [[nodiscard]] PlanePoint meet(PlanePoint a, PlanePoint b) const {
        const double side_a = side(a);
        const double share = side_a / (side_a - side(b));
        return axis == Axis::up ? PlanePoint{a.along + (b.along - a.along) * share, at}
                                : PlanePoint{at, a.up + (b.up - a.up) * share};
    }
};

/// Takes the kept chains of one ring that the line crosses. Starts at an edge that comes in.
inline void take_chains(const Cut& cut, const PlanePoint* ring, std::size_t count, CutRoom& room) {
    std::size_t start = 0;
    while (!(cut.side(ring[start]) <= 0.0 && cut.side(ring[(start + 1) % count]) > 0.0)) {
        ++start;
    }
    for (std::size_t step = 0; step < count; ++step) {
        const PlanePoint a = ring[(start + step) % count];
        const PlanePoint b = ring[(start + step + 1) % count];
        const bool a_in = cut.side(a) > 0.0;
        const bool b_in = cut.side(b) > 0.0;
        if (!a_in && b_in) {
            const PlanePoint in = cut.meet(a, b);
            room.entries.push_back({cut.key(in), room.chains.size()});
            room.chains.push_back({room.points.size(), 0, 0, false});
            room.points.push_back(in);
        } else if (a_in) {
            room.points.push_back(a);
            if (!b_in) {
                const PlanePoint out = cut.meet(a, b);
                room.exits.push_back({cut.key(out), room.chains.size() - 1});
                room.points.push_back(out);
                room.chains.back().to = room.points.size();
            }
        }
    }
}

/// Joins each chain's end, along the line, to the start of the next: walking the line, the plane begins where a chain ends.
inline void join_chains(CutRoom& room) {
    if (room.entries.size() > 1) {
        const auto before = [](const Crossing& a, const Crossing& b) { return a.key < b.key; };
        std::stable_sort(room.entries.begin(), room.entries.end(), before);
        std::stable_sort(room.exits.begin(), room.exits.end(), before);
    }
    for (std::size_t i = 0; i < room.entries.size(); ++i) {
        room.chains[room.exits[i].chain].next = room.entries[i].chain;
    }
}

/// What lies on the kept side of a cut goes to `kept`.
inline void keep_side(const Rings& rings, const Cut& cut, Rings& kept, CutRoom& room) {
    kept.clear();
    room.points.clear();
    room.chains.clear();
    room.entries.clear();
    room.exits.clear();
    std::size_t from = 0;
    for (const std::size_t end : rings.ends) {
        const PlanePoint* ring = rings.points.data() + from;
        std::size_t inside = 0;
        for (std::size_t i = from; i < end; ++i) {
            inside += cut.side(rings.points[i]) > 0.0 ? 1U : 0U;
        }
        if (inside == end - from) {
            kept.points.insert(kept.points.end(), ring, ring + inside);
            kept.ends.push_back(kept.points.size());
        } else if (inside > 0) {
            take_chains(cut, ring, end - from, room);
        }
        from = end;
    }
    join_chains(room);
    for (std::size_t first = 0; first < room.chains.size(); ++first) {
        for (std::size_t c = first; !room.chains[c].used; c = room.chains[c].next) {
            room.chains[c].used = true;
            for (std::size_t i = room.chains[c].from; i < room.chains[c].to; ++i) {
                kept.add(room.points[i]);
            }
        }
        kept.close();
    }
}

/// The rings as connected parts, in the order of their outlines. What has no area is left out.
inline void add_parts(const Rings& rings, std::vector<PlanePart>& parts) {
    const std::size_t first_part = parts.size();
    bool openings = false;
    std::size_t from = 0;
    for (const std::size_t end : rings.ends) {
        const double area = twice_area(rings.points.data() + from, end - from);
        openings = openings || area < 0.0;
        if (area > 0.0) {
            parts.push_back({{rings.points.begin() + static_cast<std::ptrdiff_t>(from),
                              rings.points.begin() + static_cast<std::ptrdiff_t>(end)},
                             {}});
        }
        from = end;
    }
    from = 0;
    for (std::size_t r = 0; openings && r < rings.ends.size(); ++r) {
        const std::size_t end = rings.ends[r];
        if (twice_area(rings.points.data() + from, end - from) < 0.0) {
            std::vector<PlanePoint> ring{rings.points.begin() + static_cast<std::ptrdiff_t>(from),
                                         rings.points.begin() + static_cast<std::ptrdiff_t>(end)};
            std::reverse(ring.begin(), ring.end());
            for (std::size_t p = first_part; p < parts.size(); ++p) {
                if (parts.size() == first_part + 1 || is_inside(middle_of(ring), parts[p].outline)) {
                    parts[p].cutouts.push_back(std::move(ring));
                    break;
                }
            }
        }
        from = end;
    }
}

/// What lies between two values of an axis.
inline void keep_span(const Rings& rings, Axis axis, Span span, Rings& kept, CutRoom& room) {
    Rings above;
    keep_side(rings, {axis, span.low, true}, above, room);
    keep_side(above, {axis, span.high, false}, kept, room);
}
}  // namespace detail

/// The parts of an outline with openings that lie between two values of along. Exact but for the rounding of where a
/// slanted edge meets a line; the parts to both sides of a line share those points to the bit.
[[nodiscard]] inline std::vector<PlanePart> parts_along(const std::vector<PlanePoint>& outline,
                                                        const std::vector<std::vector<PlanePoint>>& openings,
                                                        Span along) {
    detail::Rings kept;
    detail::CutRoom room;
    detail::keep_span(detail::rings_of(outline, openings), detail::Axis::along, along, kept, room);
    std::vector<PlanePart> parts;
    detail::add_parts(kept, parts);
    return parts;
}
/// The parts that lie between two values of up.
[[nodiscard]] inline std::vector<PlanePart> parts_up(const std::vector<PlanePoint>& outline,
                                                     const std::vector<std::vector<PlanePoint>>& openings, Span up) {
    detail::Rings kept;
    detail::CutRoom room;
    detail::keep_span(detail::rings_of(outline, openings), detail::Axis::up, up, kept, room);
    std::vector<PlanePart> parts;
    detail::add_parts(kept, parts);
    return parts;
}

namespace detail {
/// Where a line square to an axis runs inside: its crossings sorted and paired, a corner on the line counted as on its
/// upper side. Spans that touch are one.
[[nodiscard]] inline std::vector<Span> spans_at(const Rings& rings, Axis axis, Length at) {
    const Cut cut{axis, at, true};
    std::vector<Length> met;
    std::size_t from = 0;
    for (const std::size_t end : rings.ends) {
        for (std::size_t i = from; i < end; ++i) {
            const PlanePoint a = rings.points[i];
            const PlanePoint b = rings.points[i + 1 == end ? from : i + 1];
            if ((cut.side(a) >= 0.0) != (cut.side(b) >= 0.0)) {
                const PlanePoint m = cut.meet(a, b);
                met.push_back(axis == Axis::up ? m.along : m.up);
            }
        }
        from = end;
    }
    std::sort(met.begin(), met.end());
    std::vector<Span> spans;
    for (std::size_t i = 0; i + 1 < met.size(); i += 2) {
        if (!spans.empty() && met[i] <= spans.back().high) {
            spans.back().high = longer(spans.back().high, met[i + 1]);
        } else if (met[i + 1] > met[i]) {
            spans.push_back({met[i], met[i + 1]});
        }
    }
    return spans;
}
}  // namespace detail

/// Where the plane lies on the level line at `up`, between its edges and openings, ascending.
[[nodiscard]] inline std::vector<Span> along_spans(const std::vector<PlanePoint>& outline,
                                                   const std::vector<std::vector<PlanePoint>>& openings, Length up) {
    return detail::spans_at(detail::rings_of(outline, openings), detail::Axis::up, up);
}
/// Where the plane lies on the line straight up the slope at `along`, ascending.
[[nodiscard]] inline std::vector<Span> up_spans(const std::vector<PlanePoint>& outline,
                                                const std::vector<std::vector<PlanePoint>>& openings, Length along) {
    return detail::spans_at(detail::rings_of(outline, openings), detail::Axis::along, along);
}

}  // namespace eavewright
