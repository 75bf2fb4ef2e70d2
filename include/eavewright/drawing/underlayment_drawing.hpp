// SPDX-License-Identifier: BSL-1.0
#pragma once

// The underlayment of one slope as a drawing: a standalone SVG text, made from the result alone.

#include <eavewright/drawing/finding_marks.hpp>
#include <eavewright/drawing/heads.hpp>
#include <eavewright/drawing/number_table.hpp>
#include <eavewright/drawing/options.hpp>
#include <eavewright/drawing/panel_strips.hpp>
#include <eavewright/drawing/strip_edges.hpp>
#include <eavewright/drawing/strip_pieces.hpp>
#include <eavewright/fault.hpp>
#include <eavewright/whole_roof/result.hpp>

#include <cstddef>
#include <cstdint>
#include <string>
#include <vector>

namespace eavewright {

namespace detail {
/// `starter`, or the number of the course from the eave.
[[nodiscard]] inline std::string course_name(const Underlayment& laid, std::int32_t index) {
    const bool starts = laid.courses.front().starter;
    return starts && index == 0 ? "starter" : std::to_string(index + (starts ? 0 : 1));
}

[[nodiscard]] inline MarkShape shape_of(UnderlaymentFindingCode code) {
    switch (code) {
        case UnderlaymentFindingCode::end_lap_too_near: return MarkShape::square;
        case UnderlaymentFindingCode::sliver_piece: return MarkShape::diamond;
        case UnderlaymentFindingCode::narrow_course: return MarkShape::triangle;
        case UnderlaymentFindingCode::course_past_ridge: break;
    }
    return MarkShape::hexagon;
}

[[nodiscard]] inline std::string finding_figures(const UnderlaymentFinding& finding, const Page& page) {
    const std::string measured = measured_against(finding.measured, finding.limit, page);
    const std::string limit = ", limit " + page.figure(finding.limit);
    switch (finding.code) {
        case UnderlaymentFindingCode::end_lap_too_near: return measured + " from one of the course below" + limit;
        case UnderlaymentFindingCode::sliver_piece: return measured + " long" + limit;
        case UnderlaymentFindingCode::narrow_course: return measured + " high" + limit;
        case UnderlaymentFindingCode::course_past_ridge: break;
    }
    return measured + " over the ridge" + limit;
}

/// Courses on the page: heights are stretched, so that a course carries its words.
struct CourseView {
    View view;       ///< at the scale of heights
    double squeeze;  ///< what lengths along the eave are multiplied by, to fit the page
    Length left;
    Length right;

    [[nodiscard]] PlanePoint placed(Length along, Length up) const { return {along * squeeze, up}; }
    [[nodiscard]] double x_of(Length along) const { return view.x_of(along * squeeze); }
    [[nodiscard]] Box box(Length from, Length to, Length low, Length high) const {
        return {x_of(from), view.y_of(high), x_of(to), view.y_of(low)};
    }
};

[[nodiscard]] inline std::vector<FindingNote> notes_of(const Underlayment& laid, const CourseView& courses,
                                                       const Page& page) {
    std::vector<FindingNote> notes;
    for (const UnderlaymentFinding& finding : laid.findings) {
        notes.push_back({.rank = static_cast<int>(finding.code),
                         .shape = shape_of(finding.code),
                         .kind = in_words(name_of(finding.code)),
                         .figures = finding_figures(finding, page),
                         .piece = finding.piece,
                         .name = "course " + course_name(laid, laid.pieces[finding.piece].course),
                         .place = courses.placed(finding.place.along, finding.place.up)});
    }
    return notes;
}

inline void require_drawable_underlayment(const Underlayment& laid) {
    const auto refuse = [](FaultCode code, const char* what, const char* required) {
        refuse_drawing(code, std::string{"slope.underlayment."} + what, required);
    };
    if (laid.courses.empty()) {
        refuse(FaultCode::missing_field, "courses", "a course at least");
    }
    for (const UnderlaymentCourse& course : laid.courses) {
        if (!all_usable({{course.left, course.low}, {course.right, course.high}}) ||
            course.right - course.left < one_inch || !(course.high > course.low)) {
            refuse(FaultCode::not_finite, "courses", "finite ends, an inch apart or more");
        }
    }
    for (const RollPiece& piece : laid.pieces) {
        if (piece.course < 0 || static_cast<std::size_t>(piece.course) >= laid.courses.size() ||
            !all_usable({{piece.left, piece.low}, {piece.right, piece.high}})) {
            refuse(FaultCode::contradiction, "pieces", "finite pieces of the courses");
        }
    }
    for (const UnderlaymentFinding& finding : laid.findings) {
        if (finding.piece >= laid.pieces.size() || !all_usable({finding.place})) {
            refuse(FaultCode::contradiction, "findings", "a piece of the layout and a finite place");
        }
    }
    if (laid.marks.size() != laid.courses.size()) {
        refuse(FaultCode::contradiction, "marks", "a mark for each course");
    }
}

inline void write_underlayment_head(Page& page, const std::string& what, Surface surface, const Underlayment& laid,
                                    const DrawingOptions& options) {
    write_title(page, options.title.empty() ? "Underlayment" : options.title, "Underlayment of " + what, surface);
    page.paragraph(std::to_string(laid.sheets) + (laid.sheets == 1 ? " course" : " courses") +
                       (laid.courses.front().starter ? " on a starter" : "") + ", " + std::to_string(laid.rolls) +
                       (laid.rolls == 1 ? " roll of " : " rolls of ") + page.figure(laid.laps.roll_width) + " x " +
                       page.figure(laid.roll_length) + ".",
                   11.0, true);
    page.paragraph(std::string{laid.laps.layers == 1 ? "One layer" : "Two layers"} + " everywhere: each course shows " +
                       page.figure(laid.laps.exposure) + ", laps the one below by " + page.figure(laid.laps.head_lap) +
                       "; ends lap by " + page.figure(laid.laps.end_lap) + ", at least " +
                       page.figure(laid.laps.end_offset) + " from those of the course below.",
                   10.0);
}

[[nodiscard]] inline std::vector<RakeMark> course_marks(const Underlayment& laid, const Page& page, bool at_left) {
    std::vector<RakeMark> marks;
    for (const CourseMark& mark : laid.marks) {
        marks.push_back({(at_left ? course_name(laid, mark.course) + ": " : std::string{}) +
                             page.figure(at_left ? mark.left : mark.right),
                         mark.exact});
    }
    return marks;
}

/// What a piece is called where it has the room: its roll and its length.
inline void write_roll(Page& page, const RollPiece& piece, const Box& seen) {
    const std::string roll = "roll " + std::to_string(piece.roll + 1);
    for (const std::string& words : {roll + ": " + page.figure(piece.length), roll, std::to_string(piece.roll + 1)}) {
        if (text_width(words, bold_room(name_size)) + 4.0 < seen.right - seen.left) {
            page.label({(seen.left + seen.right) / 2.0, (seen.top + seen.bottom) / 2.0}, words,
                       {.size = name_size, .bold = true});
            return;
        }
    }
}

/// Upper edge of what shows of a course once the next one lies; a starter is covered whole.
[[nodiscard]] inline Length shown_to(const UnderlaymentCourse& course) {
    return course.starter ? course.high : course.low + course.exposed;
}

/// Where a lap stands on the page, no narrower than it can be seen.
[[nodiscard]] inline Box lap_box(const Underlayment& laid, const RollEndLap& lap, const CourseView& view) {
    const UnderlaymentCourse& course = laid.courses[static_cast<std::size_t>(lap.course)];
    Box box = view.box(lap.left, lap.right, course.low, shown_to(course));
    box.right = greater(box.right, box.left + 4.0);
    return box;
}

/// Pieces and end laps of one course.
inline void draw_pieces_and_laps(Page& page, const Underlayment& laid, std::size_t index, const CourseView& view) {
    for (const RollPiece& piece : laid.pieces) {
        if (static_cast<std::size_t>(piece.course) == index) {
            const Box box = view.box(piece.left, piece.right, piece.low, piece.high);
            page.svg.rect({box.left, box.top}, box.right - box.left, box.bottom - box.top,
                          R"(fill="#fff" stroke="#000" stroke-width="1")");
        }
    }
    for (const RollEndLap& lap : laid.end_laps) {
        if (static_cast<std::size_t>(lap.course) == index) {
            const Box box = lap_box(laid, lap, view);
            page.svg.open_group(hatch_pen);
            hatch(page.svg, box, 3.0);
            page.svg.rect({box.left, box.top}, box.right - box.left, box.bottom - box.top, R"(stroke-width="1")");
            page.svg.close_group();
        }
    }
}

/// One course over the one below: its pieces, end laps hatched, and the hidden upper edge of the course below dashed.
inline void draw_course(Page& page, const Underlayment& laid, std::size_t index, const CourseView& view) {
    const UnderlaymentCourse& course = laid.courses[index];
    draw_pieces_and_laps(page, laid, index, view);
    if (index > 0) {
        const Length hidden = laid.courses[index - 1].high;
        if (hidden < course.high) {
            page.svg.line({view.x_of(course.left), view.view.y_of(hidden)},
                          {view.x_of(course.right), view.view.y_of(hidden)},
                          R"(stroke="#000" stroke-width="0.6" stroke-dasharray="2 3")");
        }
    }
}

/// Names on what shows of the pieces, clear of their laps; a course too low for them has them in the table alone.
inline void write_rolls(Page& page, const Underlayment& laid, const CourseView& view) {
    for (std::size_t i = 0; i < laid.pieces.size(); ++i) {
        const RollPiece& piece = laid.pieces[i];
        const UnderlaymentCourse& course = laid.courses[static_cast<std::size_t>(piece.course)];
        Box seen = view.box(piece.left, piece.right, course.low, shown_to(course));
        for (const RollEndLap& lap : laid.end_laps) {
            if (lap.over == i || lap.under == i) {
                const Box box = lap_box(laid, lap, view);
                (box.left + box.right < seen.left + seen.right ? seen.left : seen.right) =
                    box.left + box.right < seen.left + seen.right ? box.right : box.left;
            }
        }
        if (!course.starter && seen.bottom - seen.top >= name_size) {
            write_roll(page, piece, seen);
        }
    }
}

[[nodiscard]] inline CourseView course_view(const Underlayment& laid, const Page& page, double left_room,
                                            double right_room) {
    CourseView view{.view = {no_length, left_room, 0.0, 24.0 / inches(laid.laps.exposure)},
                    .squeeze = 1.0,
                    .left = laid.courses.front().left,
                    .right = laid.courses.front().right};
    for (const UnderlaymentCourse& course : laid.courses) {
        view.left = shorter(view.left, course.left);
        view.right = longer(view.right, course.right);
    }
    const double wide = page.width - left_room - right_room;
    view.squeeze = wide / inches(view.right - view.left) / view.view.scale;
    view.view.left = view.left * view.squeeze;
    return view;
}

/// The courses, the topmost reaching over the ridge, with marks at both rakes.
inline void draw_courses(Page& page, const Underlayment& laid, const DrawingOptions& options, CourseView& view,
                         const std::vector<RakeMark>& left_marks, const std::vector<RakeMark>& right_marks) {
    page.heading("Courses, heights stretched");
    const Length low = laid.courses.front().low;
    const Length high = longer(laid.courses.back().high, low + laid.slope);
    double above = inches(high) * view.view.scale + 14.0;
    for (const std::vector<RakeMark>* marks : {&left_marks, &right_marks}) {
        const std::vector<double> heights = spread_marks(*marks, view.view.scale);
        above = heights.empty() ? above : greater(above, heights.back() + 8.0);
    }
    view.view.eave_y = page.y + above;
    for (std::size_t i = 0; i < laid.courses.size(); ++i) {
        draw_course(page, laid, i, view);
    }
    const double left = view.x_of(view.left);
    const double right = view.x_of(view.right);
    const double ridge = view.view.y_of(low + laid.slope);
    page.svg.line({left - 4.0, ridge}, {right + 4.0, ridge}, break_pen);
    if (options.names) {
        write_rolls(page, laid, view);
    }
    page.svg.line({left, view.view.y_of(no_length)}, {right, view.view.y_of(no_length)}, outline_pen);
    draw_rake_marks(page, left_marks, view.view, left, left - 12.0, "Lower edges up the left rake");
    draw_rake_marks(page, right_marks, view.view, right, right + 12.0, "Lower edges up the right rake");
    Strip strip{.view = view.view,
                .from = view.left * view.squeeze,
                .to = view.right * view.squeeze,
                .top = view.view.y_of(high),
                .bottom = view.view.y_of(low),
                .first = true,
                .last = true};
    if (options.findings) {
        const std::vector<FindingNote> notes = notes_of(laid, view, page);
        draw_findings(page, notes, group_findings(notes), strip);
    }
    const bool from_right = laid.start == StartCorner::eave_right;
    page.y = draw_start_arrow(page, {from_right ? right : left, strip.bottom}, from_right, strip.bottom + 8.0,
                              "start here, every course") +
             2.0;
}

inline void write_underlayment_key(Page& page, const DrawingOptions& options, bool end_laps) {
    std::string words = options.marks ? "At the rakes: the lower edge of each course, on a tape up each rake from its "
                                        "corner at the eave. "
                                      : "";
    words += "Dotted: upper edge of the course below. Dash-dotted: the ridge.";
    words += end_laps ? " Hatched: end laps, drawn no narrower than they can be seen." : "";
    page.y += 2.0;
    page.paragraph(words, 10.0);
}

inline void list_courses(Page& page, const Underlayment& laid) {
    page.heading("Courses from the eave up");
    NumberTable table{{"Course", "Left", "Right", "Height", "Shows"}, {}};
    for (std::size_t i = 0; i < laid.courses.size(); ++i) {
        const UnderlaymentCourse& course = laid.courses[i];
        table.rows.push_back({course_name(laid, course.index), page.figure(laid.marks[i].left),
                              page.figure(laid.marks[i].right), page.figure(course.height),
                              page.figure(course.exposed)});
    }
    write_table(page, table);
}

inline void list_rolls(Page& page, const Underlayment& laid) {
    page.heading("Pieces to cut, roll by roll");
    NumberTable table{{"Roll", "Course", "From", "Length", "Left on roll"}, {}};
    for (const RollPiece& piece : laid.pieces) {
        table.rows.push_back({std::to_string(piece.roll + 1), course_name(laid, piece.course), page.figure(piece.from),
                              page.figure(piece.length), page.figure(piece.roll_left)});
    }
    write_table(page, table);
    page.paragraph("Laid " + page.figure(laid.laid) + ", set aside " + page.figure(laid.set_aside) + ", left over " +
                       page.figure(laid.left_over) + " of roll.",
                   10.0);
}
}  // namespace detail

/// The underlayment of a slope as a standalone SVG document: courses from the eave up with marks at both rakes, the roll
/// and length of every piece, end laps, findings as numbered shapes with their list, and tables of courses and pieces.
/// Heights are stretched, so that a course carries its words on a phone. `options.marks` are those of the courses;
/// `options.frames` and `options.overview` are not used. Every figure is a field of `slope.underlayment` as
/// `write_length` writes it at `options.tick`.
///
/// The same arguments give the same bytes. Throws `FaultError`: the first fault of `options`, missing_field for a slope
/// without underlayment, not_finite or contradiction for a result that does not hold together.
[[nodiscard]] inline std::string draw_underlayment(const SlopeResult& slope, const DrawingOptions& options) {
    require_sound(options, "options");
    if (!slope.underlayment) {
        throw FaultError{Fault{FaultCode::missing_field, "slope.underlayment", "", "a slope with underlayment"}};
    }
    const Underlayment& laid = *slope.underlayment;
    detail::require_drawable_underlayment(laid);
    detail::Page page{.width = static_cast<double>(options.page_width), .y = 4.0, .tick = options.tick};
    std::vector<detail::RakeMark> left_marks;
    std::vector<detail::RakeMark> right_marks;
    if (options.marks) {
        left_marks = detail::course_marks(laid, page, true);
        right_marks = detail::course_marks(laid, page, false);
    }
    detail::CourseView view =
        detail::course_view(laid, page, detail::page_margin + detail::widest_mark(left_marks) + 14.0,
                            detail::page_margin + detail::widest_mark(right_marks) + 14.0);
    detail::write_underlayment_head(page, slope.name == "roof" ? "the roof" : "the " + slope.name + " slope",
                                    Surface::deck_top, laid, options);
    detail::draw_courses(page, laid, options, view, left_marks, right_marks);
    detail::write_underlayment_key(page, options, !laid.end_laps.empty());
    const std::vector<detail::FindingNote> notes = detail::notes_of(laid, view, page);
    if (options.findings) {
        detail::draw_legend(page, notes, detail::group_findings(notes));
    }
    if (options.tables) {
        detail::list_courses(page, laid);
        detail::list_rolls(page, laid);
    }
    const std::string title = options.title.empty() ? "Underlayment of " + slope.name : options.title;
    return page.svg.document(page.width, page.y + detail::page_margin, title,
                             "Underlayment of " + slope.name + ": " + std::to_string(laid.courses.size()) +
                                 " courses, " + std::to_string(laid.rolls) + " rolls, " + std::to_string(notes.size()) +
                                 " findings. " + std::string{drawing_caution});
}

}  // namespace eavewright
