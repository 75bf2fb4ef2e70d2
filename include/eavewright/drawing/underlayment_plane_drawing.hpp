// SPDX-License-Identifier: BSL-1.0
#pragma once

// The underlayment of a plane of any outline as a drawing: hips, valleys and openings over the courses.

#include <eavewright/drawing/number_table.hpp>
#include <eavewright/drawing/options.hpp>
#include <eavewright/drawing/page.hpp>
#include <eavewright/drawing/shape_drawing.hpp>
#include <eavewright/drawing/underlayment_drawing.hpp>
#include <eavewright/fault.hpp>
#include <eavewright/roof/parts.hpp>
#include <eavewright/roof/plane.hpp>
#include <eavewright/tiling/lay_underlayment.hpp>
#include <eavewright/tiling/underlayment.hpp>

#include <cstddef>
#include <string>
#include <utility>
#include <vector>

namespace eavewright {

namespace detail {
/// A plane and the underlayment on it.
struct CoveredPlane {
    const std::vector<PlanePoint>& outline;
    const std::vector<EdgeKind>& edges;
    const std::vector<std::vector<PlanePoint>>& openings;
    const Underlayment& laid;
};

[[nodiscard]] inline std::vector<SvgPoint> on_page(const std::vector<PlanePoint>& points, const CourseView& view) {
    std::vector<SvgPoint> seen;
    seen.reserve(points.size());
    for (const PlanePoint& p : points) {
        seen.push_back(view.view.at(view.placed(p.along, p.up)));
    }
    return seen;
}

/// Where a course begins or ends along its lower edge: the end of its outermost piece.
[[nodiscard]] inline Length end_of_course(const Underlayment& laid, std::size_t index, bool at_left) {
    return at_left ? laid.courses[index].left : laid.courses[index].right;
}

/// Marks at one side, each with a leader to the end of its course.
inline void draw_course_marks(Page& page, const Underlayment& laid, const std::vector<RakeMark>& marks,
                              const CourseView& view, bool at_left) {
    const std::vector<double> heights = spread_marks(marks, view.view.scale);
    const double way = at_left ? 1.0 : -1.0;
    const double text_x = view.x_of(at_left ? view.left : view.right) - way * 12.0;
    page.svg.open_group("", at_left ? "Lower edges at the left" : "Lower edges at the right");
    for (std::size_t i = 0; i < marks.size(); ++i) {
        const double y = view.view.eave_y - heights[i];
        const double end = view.x_of(end_of_course(laid, i, at_left));
        const double up = view.view.y_of(marks[i].up);
        page.svg.text({text_x, y + 3.4}, marks[i].words,
                      {.size = mark_text, .anchor = at_left ? TextAnchor::end : TextAnchor::start});
        page.svg.polyline({{text_x + way * 2.0, y}, {text_x + way * 5.0, y}, {text_x + way * 10.0, up}, {end, up}},
                          thin_pen);
    }
    page.svg.close_group();
}

/// The hidden upper edges of the course below, dotted as far as a piece of this course lies over them.
inline void draw_hidden_edges(Page& page, const Underlayment& laid, std::size_t index, const CourseView& view) {
    for (const RollPiece& over : laid.pieces) {
        for (std::size_t i = 0; static_cast<std::size_t>(over.course) == index && i < laid.pieces.size(); ++i) {
            const RollPiece& under = laid.pieces[i];
            const Length left = longer(over.left, under.left);
            const Length right = shorter(over.right, under.right);
            if (under.course + 1 == over.course && under.high < over.high && left < right) {
                page.svg.line({view.x_of(left), view.view.y_of(under.high)},
                              {view.x_of(right), view.view.y_of(under.high)},
                              R"(stroke="#000" stroke-width="0.6" stroke-dasharray="2 3")");
            }
        }
    }
}

/// One course: its pieces and end laps, and what of the course below is hidden.
inline void draw_course_pieces(Page& page, const Underlayment& laid, std::size_t index, const CourseView& view) {
    draw_pieces_and_laps(page, laid, index, view);
    draw_hidden_edges(page, laid, index, view);
}

/// The plane over its courses: openings white and crossed, every edge with the pen of its kind.
inline void draw_plane_over(Page& page, const CoveredPlane& plane, const CourseView& view) {
    for (const std::vector<PlanePoint>& opening : plane.openings) {
        const std::vector<SvgPoint> corners = on_page(opening, view);
        page.svg.polygon(corners, R"(fill="#fff" stroke="#000" stroke-width="2")");
        for (std::size_t i = 0; corners.size() == 4 && i < 2; ++i) {
            page.svg.line(corners[i], corners[i + 2], thin_pen);
        }
    }
    const std::vector<SvgPoint> corners = on_page(plane.outline, view);
    page.svg.polygon(corners, R"(fill="none" stroke="#fff" stroke-width="4")");
    for (std::size_t i = 0; i < corners.size(); ++i) {
        page.svg.line(corners[i], corners[(i + 1) % corners.size()], edge_pen(plane.edges[i]));
    }
}

/// Upper edge of what shows of a piece: where the next course begins, or the plane ends.
[[nodiscard]] inline Length shown_top(const CoveredPlane& plane, const RollPiece& piece) {
    const UnderlaymentCourse& course = plane.laid.courses[static_cast<std::size_t>(piece.course)];
    return shorter(shorter(piece.high, shown_to(course)), extent_of(plane.outline).high.up);
}

/// The widest stretch of a piece that shows on the plane all the way from `low` to `high`.
[[nodiscard]] inline Span shown_stretch(const CoveredPlane& plane, const RollPiece& piece, Length low, Length high) {
    std::vector<Span> stretches{{piece.left, piece.right}};
    for (const Length at : {low, (low + high) / 2.0, high}) {
        std::vector<Span> kept;
        for (const Span& span : along_spans(plane.outline, plane.openings, at)) {
            for (const Span& stretch : stretches) {
                const Span both{longer(span.low, stretch.low), shorter(span.high, stretch.high)};
                if (both.high > both.low) {
                    kept.push_back(both);
                }
            }
        }
        stretches = std::move(kept);
    }
    Span widest{piece.left, piece.left};
    for (const Span& stretch : stretches) {
        widest = stretch.high - stretch.low > widest.high - widest.low ? stretch : widest;
    }
    return widest;
}

/// Names on what shows of the pieces, clear of laps, openings and edges; a piece too small for its name has it in the table.
inline void write_shown_rolls(Page& page, const CoveredPlane& plane, const CourseView& view) {
    const Length half = one_inch * (name_size / 2.0 / view.view.scale);
    for (std::size_t i = 0; i < plane.laid.pieces.size(); ++i) {
        const RollPiece& piece = plane.laid.pieces[i];
        const Length top = shown_top(plane, piece);
        const Length middle = (piece.low + top) / 2.0;
        const Span stretch = shown_stretch(plane, piece, middle - half, middle + half);
        Box seen = view.box(stretch.low, stretch.high, piece.low, top);
        for (const RollEndLap& lap : plane.laid.end_laps) {
            if (lap.over == i || lap.under == i) {
                const Box box = lap_box(plane.laid, lap, view);
                const bool left = box.left + box.right < seen.left + seen.right;
                seen.left = left ? greater(seen.left, box.right) : seen.left;
                seen.right = left ? seen.right : lesser(seen.right, box.left);
            }
        }
        const bool starter = plane.laid.courses[static_cast<std::size_t>(piece.course)].starter;
        if (!starter && seen.bottom - seen.top >= name_size) {
            write_roll(page, piece, seen);
        }
    }
}

/// Heights as on a slope, lengths so that plane and courses fit the page.
[[nodiscard]] inline CourseView plane_view(const CoveredPlane& plane, const Page& page, double left_room,
                                           double right_room) {
    CourseView view = course_view(plane.laid, page, left_room, right_room);
    const Extent extent = extent_of(plane.outline);
    view.left = shorter(view.left, extent.low.along);
    view.right = longer(view.right, extent.high.along);
    const double wide = page.width - left_room - right_room;
    view.squeeze = wide / inches(view.right - view.left) / view.view.scale;
    view.view.left = view.left * view.squeeze;
    return view;
}

inline void draw_covered_plane(Page& page, const CoveredPlane& plane, const DrawingOptions& options, CourseView& view,
                               const std::vector<RakeMark>& left_marks, const std::vector<RakeMark>& right_marks) {
    const Underlayment& laid = plane.laid;
    page.heading("Courses, heights stretched");
    const Extent extent = extent_of(plane.outline);
    Length high = extent.high.up;
    for (const UnderlaymentCourse& course : laid.courses) {
        high = longer(high, course.high);
    }
    double above = inches(high) * view.view.scale + 14.0;
    for (const std::vector<RakeMark>* marks : {&left_marks, &right_marks}) {
        const std::vector<double> heights = spread_marks(*marks, view.view.scale);
        above = heights.empty() ? above : greater(above, heights.back() + 8.0);
    }
    view.view.eave_y = page.y + above;
    for (std::size_t i = 0; i < laid.courses.size(); ++i) {
        draw_course_pieces(page, laid, i, view);
    }
    draw_plane_over(page, plane, view);
    if (options.names) {
        write_shown_rolls(page, plane, view);
    }
    if (options.marks) {
        draw_course_marks(page, laid, left_marks, view, true);
        draw_course_marks(page, laid, right_marks, view, false);
    }
    Strip strip{.view = view.view,
                .from = view.left * view.squeeze,
                .to = view.right * view.squeeze,
                .top = view.view.y_of(high),
                .bottom = view.view.y_of(shorter(extent.low.up, laid.courses.front().low)),
                .first = true,
                .last = true};
    if (options.findings) {
        const std::vector<FindingNote> notes = notes_of(laid, view, page);
        draw_findings(page, notes, group_findings(notes), strip);
    }
    const bool from_right = laid.start == StartCorner::eave_right;
    const UnderlaymentCourse& first = laid.courses.front();
    page.y = draw_start_arrow(page, {view.x_of(from_right ? first.right : first.left), strip.bottom}, from_right,
                              strip.bottom + 8.0, "start here, every course") +
             2.0;
}

/// What the tape of the marks runs along at one side.
[[nodiscard]] inline std::string side_in_words(const CoveredPlane& plane, bool at_left) {
    const std::vector<PlanePoint>& o = plane.outline;
    const std::size_t edge = at_left ? o.size() - 1 : 1;
    const PlanePoint foot = o[at_left ? 0 : 1];
    const PlanePoint head = o[at_left ? o.size() - 1 : 2];
    const bool reaches = head.up > foot.up + count_tolerance && head.up + count_tolerance >= extent_of(o).high.up;
    std::string name = in_words(name_of(plane.edges[edge]));
    name.front() = static_cast<char>(name.front() - 'A' + 'a');
    return reaches ? "up the " + name : "straight up the slope";
}

/// The kinds of edges that the plane has, and how each is drawn.
[[nodiscard]] inline std::string edges_in_words(const CoveredPlane& plane) {
    std::string words;
    const auto add = [&](EdgeKind kind, const char* pen) {
        bool has = false;
        for (const EdgeKind edge : plane.edges) {
            has = has || edge == kind;
        }
        words += has ? (words.empty() ? "" : ", ") + std::string{pen} : "";
    };
    add(EdgeKind::eave, "eave dotted");
    add(EdgeKind::rake, "rake thin");
    add(EdgeKind::hip, "hip plain");
    add(EdgeKind::valley, "valley in long dashes (its strip lies first)");
    add(EdgeKind::pitch_break, "pitch break dash and dot");
    add(EdgeKind::wall, "wall in short thick dashes");
    add(EdgeKind::ridge, "ridge thick");
    add(EdgeKind::high_eave, "high eave dotted");
    return words;
}

inline void write_plane_key(Page& page, const CoveredPlane& plane, const DrawingOptions& options) {
    std::string words;
    if (options.marks) {
        words = "Lower edges of the courses from the eave: at the left on a tape " + side_in_words(plane, true) +
                ", at the right " + side_in_words(plane, false) + ". ";
    }
    words += "Dotted between courses: upper edge of the one below. Edges of the plane: " + edges_in_words(plane) +
             ". What stands out past them is trimmed once it lies.";
    words += plane.openings.empty() ? "" : " Crossed: openings, cut out smaller and turned up.";
    words += plane.laid.end_laps.empty() ? "" : " Hatched: end laps, drawn no narrower than they can be seen.";
    page.y += 2.0;
    page.paragraph(words, 10.0);
}

inline void require_covered_plane(const CoveredPlane& plane) {
    require_outline(plane.outline, "plane.outline");
    if (plane.edges.size() != plane.outline.size()) {
        refuse_drawing(FaultCode::contradiction, "plane.edges", "a kind for each edge");
    }
    for (const std::vector<PlanePoint>& opening : plane.openings) {
        if (opening.size() < 3 || !all_usable(opening)) {
            refuse_drawing(FaultCode::not_finite, "plane.openings", "openings of finite corners");
        }
    }
    require_drawable_underlayment(plane.laid);
}
}  // namespace detail

/// The underlayment of one plane of any outline as a standalone SVG document: courses from the eave up with the plane's edges
/// over them, the roll and length of every piece, marks at both sides, end laps, openings, findings and tables. `laid` is what
/// `lay_underlayment` gave for `plane`; `name` says which plane it is. Options and bytes as for a slope.
///
/// Throws `FaultError`: the first fault of `options`; missing_field for a layout without a course, not_finite,
/// does_not_fit or contradiction for a plane or a layout that do not hold together.
template <Surface surface>
[[nodiscard]] std::string draw_underlayment(const Plane<surface>& plane, const Underlayment& laid,
                                            const std::string& name, const DrawingOptions& options) {
    require_sound(options, "options");
    const detail::CoveredPlane covered{plane.outline, plane.edges, plane.openings, laid};
    detail::require_covered_plane(covered);
    detail::Page page{.width = static_cast<double>(options.page_width), .y = 4.0, .tick = options.tick};
    std::vector<detail::RakeMark> left_marks;
    std::vector<detail::RakeMark> right_marks;
    if (options.marks) {
        left_marks = detail::course_marks(laid, page, true);
        right_marks = detail::course_marks(laid, page, false);
    }
    detail::CourseView view =
        detail::plane_view(covered, page, detail::page_margin + detail::widest_mark(left_marks) + 14.0,
                           detail::page_margin + detail::widest_mark(right_marks) + 14.0);
    detail::write_underlayment_head(page, name, surface, laid, options);
    detail::draw_covered_plane(page, covered, options, view, left_marks, right_marks);
    detail::write_plane_key(page, covered, options);
    const std::vector<detail::FindingNote> notes = detail::notes_of(laid, view, page);
    if (options.findings) {
        detail::draw_legend(page, notes, detail::group_findings(notes));
    }
    if (options.tables) {
        detail::list_courses(page, laid);
        detail::list_rolls(page, laid);
    }
    const std::string title = options.title.empty() ? "Underlayment of " + name : options.title;
    return page.svg.document(page.width, page.y + detail::page_margin, title,
                             "Underlayment of " + name + ": " + std::to_string(laid.courses.size()) + " courses, " +
                                 std::to_string(laid.rolls) + " rolls, " + std::to_string(notes.size()) +
                                 " findings. " + std::string{drawing_caution});
}

}  // namespace eavewright
