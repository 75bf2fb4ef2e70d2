// SPDX-License-Identifier: BSL-1.0
#pragma once

// Steps of the site sheet from the posts to the deck: what stands square, straight and level before anything is laid.

#include <eavewright/fault.hpp>
#include <eavewright/framing/row_marks.hpp>
#include <eavewright/roof/plane.hpp>
#include <eavewright/squaring/true_up.hpp>
#include <eavewright/squaring/true_up_pair.hpp>
#include <eavewright/whole_roof/description.hpp>
#include <eavewright/whole_roof/lay_slope.hpp>
#include <eavewright/whole_roof/result.hpp>
#include <eavewright/whole_roof/site_sheet.hpp>

#include <cstddef>
#include <optional>
#include <string>
#include <string_view>
#include <utility>
#include <variant>
#include <vector>

namespace eavewright::detail {

inline constexpr std::string_view common_practice = "common practice";
inline constexpr std::string_view described = "from the description";

/// What the steps are made from.
struct SiteInput {
    const RoofDescription& roof;
    const RoofResult& result;
    const SlopeResult& slope;
    std::size_t index;
    SiteLimits limits;

    [[nodiscard]] bool is_gable() const { return result.slopes.size() == 2; }
    [[nodiscard]] std::string top() const { return is_gable() ? "ridge" : "high edge"; }
    [[nodiscard]] std::string surface() const {
        return slope.surface == Surface::chord_top ? "chord tops" : "purlin tops";
    }
};

/// A step without marks.
[[nodiscard]] inline SiteStep step_of(SiteStepKind kind, std::string title, std::string reading,
                                      std::vector<SiteFigure> expected, std::string if_off) {
    return SiteStep{.kind = kind,
                    .title = std::move(title),
                    .reading = std::move(reading),
                    .expected = std::move(expected),
                    .limit = std::nullopt,
                    .limit_source = {},
                    .if_off = std::move(if_off),
                    .correction = {},
                    .marks_from = {},
                    .mark_columns = {},
                    .marks = {}};
}
[[nodiscard]] inline SiteStep with_limit(SiteStep step, Length limit, std::string_view source) {
    step.limit = limit;
    step.limit_source = std::string{source};
    return step;
}

[[nodiscard]] inline SiteStep corners_step(const SiteInput& in) {
    SiteStep step = step_of(SiteStepKind::corners_plumb, "Corners plumb",
                            "Plumb line or long level on two faces of each corner post, full height.", {},
                            "Ease its brace, pull it back with a strap, brace again; read its neighbours.");
    const Length height = in.result.heights.bearing;
    if (height > one_inch) {  // a benchmark that is no floor says nothing about the post
        step.expected = {{"height of the wall", height}};
        step = with_limit(std::move(step), in.limits.plumb * (height / in.limits.plumb_height),
                          "1/4 in in 10 ft, Ballast via WoodWorks");
    }
    return step;
}

[[nodiscard]] inline SiteStep eave_step(const SiteInput& in) {
    const Length eave = in.slope.trueness ? in.slope.trueness->measured.adjusted.eave : in.slope.plane_length;
    return with_limit(step_of(SiteStepKind::eave_line, "Eave straight and level",
                              "String on equal blocks along the fascia's outer face: the gap at every frame. Height of "
                              "its outer top corner above the benchmark, at both ends.",
                              {{"height at both ends", in.result.heights.fascia_top}, {"eave, corner to corner", eave}},
                              "Shim or trim the tails to the string; raise the low end."),
                      in.limits.eave, common_practice);
}

[[nodiscard]] inline SiteStep top_step(const SiteInput& in) {
    std::vector<SiteFigure> heights{{"chord tops at the " + in.top(), in.result.heights.chord_peak}};
    if (in.slope.purlins) {
        heights.push_back({"purlin tops there", in.result.heights.purlin_peak});
    }
    return with_limit(
        step_of(SiteStepKind::top_line,
                in.is_gable() ? "Ridge straight and at its height" : "High edge straight and at its height",
                "String from end frame to end frame along the " + in.top() +
                    ": the gap at every frame, the height above the benchmark at both ends.",
                std::move(heights),
                "Brace the frame that stands off back to the string. Off in height: look at seat and heel."),
        in.limits.top, common_practice);
}

/// What both diagonals of a slope should read: as they do once what was measured is pulled true.
[[nodiscard]] inline Length expected_diagonal(const SlopeResult& slope) {
    return slope.trueness ? slope.trueness->target_diagonal : slope.diagonal;
}

[[nodiscard]] inline std::vector<SiteFigure> diagonal_figures(const SiteInput& in) {
    const std::vector<SlopeResult>& slopes = in.result.slopes;
    if (slopes.size() == 1) {
        return {{"both diagonals", expected_diagonal(slopes[0])}};
    }
    if (magnitude(expected_diagonal(slopes[0]) - expected_diagonal(slopes[1])) <= count_tolerance) {
        return {{"all four diagonals", expected_diagonal(in.slope)}};
    }
    return {{"both on the " + slopes[0].name, expected_diagonal(slopes[0])},
            {"both on the " + slopes[1].name, expected_diagonal(slopes[1])}};
}

[[nodiscard]] inline std::string side_of(PullDirection pull) { return pull == PullDirection::left ? "left" : "right"; }

/// One ridge over two measured slopes: figures are in front words.
inline void correct_pair(const PairTrueness& pair, SiteStep& step) {
    const auto add_pull = [&] {
        if (pair.pull != PullDirection::none) {
            step.correction.push_back(
                {"ridge to the " + side_of(pair.pull) + ", seen from the front eave", magnitude(pair.ridge_move)});
        }
    };
    switch (pair.verdict) {
        case PairVerdict::square: return;
        case PairVerdict::pull_ridge:
            step.if_off = "As read, pull the ridge as given; it serves both slopes. Then read all four again.";
            return add_pull();
        case PairVerdict::eaves_slid:
            step.if_off =
                "As read, one eave has slid: no pull on the ridge cures it. Move an eave with its walls first.";
            step.correction.push_back({std::string{"back eave stands to the "} +
                                           (pair.eave_slide < no_length ? "left" : "right") + " of the front's",
                                       magnitude(pair.eave_slide)});
            return add_pull();
        case PairVerdict::sides_unequal:
            step.if_off = "As read, opposite sides differ: no pull makes a rectangle. Set the sides first.";
            return add_pull();
        case PairVerdict::readings_disagree:
            step.if_off = "As read, the six of a slope do not close: read them again before anything is pulled.";
            return;
    }
}

/// One slope by itself, in its own words.
inline void correct_slope(const Trueness& now, const std::string& top, SiteStep& step) {
    const auto add_pull = [&] {
        if (now.pull != PullDirection::none) {
            step.correction.push_back({top + " to the " + side_of(now.pull), magnitude(now.ridge_move)});
            step.correction.push_back({now.shorten == Diagonal::up_left
                                           ? "right eave corner's diagonal comes shorter by"
                                           : "left eave corner's diagonal comes shorter by",
                                       now.shorten_by});
        }
    };
    switch (now.verdict) {
        case SquareVerdict::square: return;
        case SquareVerdict::pull:
            step.if_off = "As read, pull the " + top + " as given, then read again.";
            return add_pull();
        case SquareVerdict::pull_but_sides_unequal:
            step.if_off = "As read, pull the " + top + " as given; opposite sides differ, so corners stay off.";
            return add_pull();
        case SquareVerdict::equal_diagonals_unequal_sides:
            step.if_off = "As read, diagonals agree but sides do not: no pull cures that. Set the sides first.";
            return;
        case SquareVerdict::readings_disagree:
            step.if_off = "As read, the six do not close: read them again before anything is pulled.";
            return;
    }
}

[[nodiscard]] inline SiteStep diagonals_step(const SiteInput& in) {
    SiteStep step = with_limit(
        step_of(SiteStepKind::diagonals, in.is_gable() ? "Diagonals of both slopes" : "Diagonals of the slope",
                "Eave corner to far " + in.top() + " corner, at the rake edges, on the " + in.surface() +
                    ": one tape, one pull. The limit is for the difference of the two of a slope.",
                diagonal_figures(in),
                "Pull on the longer one: the " + in.top() +
                    " goes toward its eave corner by about half the difference. Alike but off: read the sides."),
        in.roof.squaring.tolerance.diagonal_difference, described);
    if (in.result.ridge) {
        correct_pair(*in.result.ridge, step);
    } else if (in.slope.trueness) {
        correct_slope(*in.slope.trueness, in.top(), step);
    }
    return step;
}

[[nodiscard]] inline SiteStep braced_step(const SiteInput& in) {
    return with_limit(
        step_of(SiteStepKind::diagonals_braced, "Braces on, straps off, read again",
                "Temporary braces fastened, straps let go: the same diagonals once more.", diagonal_figures(in),
                "Straps on, pull past by what sprang back, brace more, let go, read. Go on once it stays."),
        in.roof.squaring.tolerance.diagonal_difference, described);
}

/// Marks of the purlins at both rakes; where both read alike, once.
inline void add_purlin_marks(const SiteInput& in, SiteStep& step) {
    const std::size_t rows = in.slope.purlins->rows.size();
    const Slope shape = shape_of(in.roof.shape).slopes[in.index];
    const std::vector<RowMark> right = row_marks(*in.slope.purlins, in.slope.frames.plane_right,
                                                 shape.chord_tail_offset, in.roof.tick, dropped_rows_of(in.slope));
    const bool on_chords = build_up_of(in.roof.shape).purlin > no_length;
    bool alike = true;
    for (std::size_t r = 0; r < rows; ++r) {
        alike = alike && in.slope.marks[r].mark == right[r].mark && in.slope.marks[r].on_chord == right[r].on_chord;
    }
    const std::vector<std::string> ends =
        alike ? std::vector<std::string>{""} : std::vector<std::string>{", left", ", right"};
    for (const std::string& end : ends) {
        if (on_chords) {
            step.mark_columns.push_back("chord" + end);
        }
        step.mark_columns.push_back("centre" + end);
    }
    for (std::size_t r = 0; r < rows; ++r) {
        SiteMark mark{in.slope.marks[r].kind == RowKind::top ? "top" : std::to_string(r), {}};
        for (std::size_t end = 0; end < ends.size(); ++end) {
            const RowMark& at = end == 0 ? in.slope.marks[r] : right[r];
            if (on_chords) {
                mark.at.emplace_back(at.on_chord);
            }
            mark.at.emplace_back(at.mark);
        }
        if (in.slope.marks[r].kind != RowKind::eave) {  // the fascia is there already
            step.marks.push_back(std::move(mark));
        }
    }
    step.marks_from = on_chords ? "Chord: lower side of the purlin, from the tail's end. Centre: on the purlin tops, "
                                  "from the fascia's outer face."
                                : "Centres up from the fascia's outer face.";
}

[[nodiscard]] inline SiteStep purlin_step(const SiteInput& in) {
    const bool found = !in.roof.as_built.empty() && in.roof.as_built[in.index].rows.has_value();
    SiteStep step =
        found ? step_of(SiteStepKind::purlin_marks, "Purlins as found, at both rakes",
                        "Read the rows once more where they were read before; marks at the frames stand in the report.",
                        {}, "Give the new readings and lay out again: sheets and screws follow these rows.")
              : step_of(SiteStepKind::purlin_marks, "Purlin marks at both rakes",
                        "Every mark from one hold of the tape, at both rakes; string across, set the purlins, read "
                        "their centres.",
                        {}, "Move the purlin, not the mark. Never step off spaces: they add up.");
    step.expected = {{"widest space", in.slope.purlins->widest_space}};
    add_purlin_marks(in, step);
    return with_limit(std::move(step), in.limits.marks, common_practice);
}

/// The line that the first column, or the first panel, is laid to. Courses along the eave need none.
[[nodiscard]] inline std::optional<SiteStep> base_line_step(const SiteInput& in) {
    const std::vector<SheetPiece>& sheets = in.slope.sheets.pieces;
    const bool columns = !sheets.empty() && in.slope.sheets.run == SupportRun::along_eave;
    const bool panels = !in.roof.deck && in.slope.steel.has_value();
    const std::vector<PlanePoint>& o = in.slope.outline;
    if (!(columns || panels) || o.size() != 4) {
        return std::nullopt;
    }
    const Length from_rake = columns ? sheets.front().width : in.slope.steel->panels.marks.front().eave;
    const bool right = (columns ? in.roof.deck->sheets.start : in.slope.steel->panels.start) == StartCorner::eave_right;
    const std::optional<LongTriangle> triangle =
        long_triangle(o[1].along - o[0].along - from_rake, shorter(o[2].up, o[3].up), in.roof.tick);
    if (!triangle) {
        return std::nullopt;
    }
    return with_limit(
        step_of(SiteStepKind::base_line,
                std::string{"Base line of the first "} + (columns ? "column" : "panel") + ": long triangle",
                "Mark the distance from the rake on the eave. From there the eave leg along the fascia; where slope "
                "leg and third side meet is a point of the line. Snap it to the " +

                    in.top() + ".",
                {{std::string{"from the "} + (right ? "right" : "left") + " rake", from_rake},
                 {"eave leg", triangle->eave_leg},
                 {"slope leg", triangle->slope_leg},
                 {"third side", triangle->third_side}},
                "Trust the triangle and the string, not the rake: its trim hides a taper."),
        in.roof.squaring.tolerance.diagonal_difference, described);
}

[[nodiscard]] inline SiteStep first_row_step(const SiteInput& in) {
    const std::vector<SheetPiece>& pieces = in.slope.sheets.pieces;
    const bool columns = in.slope.sheets.run == SupportRun::along_eave;
    std::vector<SiteFigure> expected{{"lower edge past the fascia", in.slope.purlins
                                                                        ? -in.slope.purlins->sheet_lower_edge
                                                                        : in.roof.deck->sheets.past_fascia}};
    for (const SheetPiece& piece : pieces) {
        if (piece.place == 0 && piece.lane < (columns ? 2 : 1)) {
            expected.push_back(
                {(piece.lane == 0 ? "upper edge of " : "of ") + piece_name(piece), extent_of(piece.outline).high.up});
        }
    }
    if (expected.size() == 3 && magnitude(expected[1].length - expected[2].length) <= count_tolerance) {
        expected.pop_back();
    }
    std::string reading = "String at the upper edges, up from the fascia's outer face. ";
    if (in.slope.stop_board) {
        expected.push_back({"stop board proud", in.slope.stop_board->proud});
        expected.push_back({"packed off the fascia", in.slope.stop_board->off_fascia});
        reading += "The stop board stops the lower ones, " + std::to_string(in.slope.stop_board->screws) +
                   " screws: no foothold, and off before the eave trim.";
    } else {
        reading += "A stop board on the fascia stops the lower ones: no foothold, and off before the eave trim.";
    }
    return with_limit(step_of(SiteStepKind::first_row, "First row to a string", std::move(reading), std::move(expected),
                              "Shift the sheet to string and base line; never spread the gaps."),
                      in.limits.first_row, common_practice);
}

}  // namespace eavewright::detail
