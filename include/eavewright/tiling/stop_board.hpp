// SPDX-License-Identifier: BSL-1.0
#pragma once

// The first row's stop board: a straight board screwed along the eave for a while, against which the lower edges of the
// first row of sheets are pushed. The row is then straight although the fascia may not be.
//
//            sheet  ___---   The board stands parallel to the fascia's face, packed out from it. Over a plumb fascia a
//       | |___---___---      sheet's square edge meets the board's upper inner corner, `proud` above the surface that the
//       |B|P|F|              sheets lie on; below that corner the edge stands off the board.
//       |_| | |

#include <eavewright/fault.hpp>
#include <eavewright/field.hpp>
#include <eavewright/framing/frame_faults.hpp>
#include <eavewright/framing/frames.hpp>
#include <eavewright/roof/build_up.hpp>
#include <eavewright/roof/plane.hpp>
#include <eavewright/units/count.hpp>
#include <eavewright/units/length.hpp>
#include <eavewright/units/pitch.hpp>

#include <array>
#include <cstddef>
#include <cstdint>
#include <optional>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

namespace eavewright {

/// To be read before a stop board is put up.
inline constexpr std::string_view stop_board_caution =
    "A stop board holds sheets back while they are placed. It is no foothold, no anchor and no fall protection: never "
    "step on it, tie to it or lean a load against it, and follow the local rules for work at height.";

/// When it comes off.
inline constexpr std::string_view stop_board_comes_off =
    "after the first row is nailed along its lower supports, before the eave trim goes on";

/// What a stop board is put up with. Over a plumb tail the fascia's face is plumb, else square to the slope.
struct StopBoardPlan {
    Length stock_length;     ///< longest board to be had
    Length sheet_thickness;  ///< of the sheets that it stops
    Length past_fascia =
        no_length;                  ///< the sheets' lower edge past the fascia's outer face, on the surface they lie on
    std::optional<Length> proud{};  ///< above that surface, square to it: half the sheet's thickness, so that it stops
                                    ///< a sheet, up to all of it, so that nothing stands up; all of it where not given
    TailCut tail = TailCut::plumb;
    Length board_width = Length::from_inches(3.5);  ///< 2x4, PS 20
    Length least_on_fascia =
        Length::from_inches(1.5);                     ///< of its width against the fascia, for screws; common practice
    int screws_a_hold = 2;                            ///< of each board in each place; common practice
    Length most_space = Length::from_inches(48.0);    ///< between places where it is held; common practice
    Length least_bearing = Length::from_inches(0.5);  ///< of each end on the frame behind a joint; common practice
};

/// A place where the board is packed out and screwed.
struct StopBoardHold {
    Length along;
    std::optional<std::size_t>
        frame;            ///< its index; none at a barge rafter, and between frames, where the fascia holds
    Length packing;       ///< behind the board, square to the fascia's face; negative where there is no room
    bool measured;        ///< the fascia's offset was read here, not taken between readings or as none
    std::int64_t screws;  ///< from the outside face, of all boards that meet here
};
template <>
struct FieldsOf<StopBoardHold> {
    static constexpr auto list = field_list(
        field("along", FieldUnit::length, "where along the eave", &StopBoardHold::along),
        field("frame", FieldUnit::count, "index of the frame behind it, null for none", &StopBoardHold::frame),
        field("packing", FieldUnit::length, "between fascia and board", &StopBoardHold::packing),
        field("measured", FieldUnit::none, "the fascia was read here", &StopBoardHold::measured),
        field("screws", FieldUnit::count, "screws, driven from the outside face", &StopBoardHold::screws));
};

/// One board.
struct StopBoardPiece {
    Length from;
    Length to;
    std::int64_t screws;
};
template <>
struct FieldsOf<StopBoardPiece> {
    static constexpr auto list =
        field_list(field("from", FieldUnit::length, "left end along the eave", &StopBoardPiece::from),
                   field("to", FieldUnit::length, "right end along the eave", &StopBoardPiece::to),
                   field("screws", FieldUnit::count, "screws that hold it", &StopBoardPiece::screws));
};

/// Closed, numbered list of what can be wrong with a stop board where it goes.
enum class StopBoardFindingCode : int {
    fascia_past_line = 0,  ///< the fascia stands out past the board's line: move the line out, or dress the fascia
    narrow_joint = 1,      ///< the frame is too narrow for two board ends
};
template <>
struct NamesOf<StopBoardFindingCode> {
    static constexpr std::array<std::string_view, 2> list{"fascia_past_line", "narrow_joint"};
};
/// One thing found: what, where, how much, and the limit it passes.
struct StopBoardFinding {
    StopBoardFindingCode code;
    Length along;
    Length measured;
    Length limit;
};
template <>
struct FieldsOf<StopBoardFinding> {
    static constexpr auto list =
        field_list(field("code", FieldUnit::none, "what was found", &StopBoardFinding::code),
                   field("along", FieldUnit::length, "where along the eave", &StopBoardFinding::along),
                   field("measured", FieldUnit::length, "packing, or bearing", &StopBoardFinding::measured),
                   field("limit", FieldUnit::length, "the limit it passes", &StopBoardFinding::limit));
};

/// A stop board put up. `from` to `to` is where sheets meet it, straight, on the surface they lie on.
struct StopBoard {
    PlanePoint from;
    PlanePoint to;
    Length proud;             ///< its upper inner corner above that surface, square to it
    Length least_proud;       ///< less stops no sheet
    Length most_proud;        ///< more stands up past the sheet
    Length above_fascia_top;  ///< its upper inner corner above the fascia's outer top corner, along the fascia's face
    Length off_fascia;        ///< packing behind it where the fascia is straight
    std::vector<StopBoardPiece> pieces;
    std::vector<StopBoardHold> holds;
    std::int64_t screws;  ///< in all
    std::vector<StopBoardFinding> findings;
};
template <>
struct FieldsOf<StopBoard> {
    static constexpr auto list = field_list(
        field("from", FieldUnit::length, "where sheets meet it, left end", &StopBoard::from),
        field("to", FieldUnit::length, "where sheets meet it, right end", &StopBoard::to),
        field("proud", FieldUnit::length, "above the surface the sheets lie on, square to it", &StopBoard::proud),
        field("least_proud", FieldUnit::length, "less stops no sheet", &StopBoard::least_proud),
        field("most_proud", FieldUnit::length, "more stands up past the sheet", &StopBoard::most_proud),
        field("above_fascia_top", FieldUnit::length, "above the fascia's outer top corner, along its face",
              &StopBoard::above_fascia_top),
        field("off_fascia", FieldUnit::length, "packing where the fascia is straight", &StopBoard::off_fascia),
        field("screws", FieldUnit::count, "screws in all, driven from the outside face", &StopBoard::screws),
        field(
            "comes_off", FieldUnit::none, "when it comes off", +[](const StopBoard&) { return stop_board_comes_off; }),
        field("pieces", FieldUnit::none, "boards, left to right", &StopBoard::pieces),
        field("holds", FieldUnit::none, "where it is packed out and screwed", &StopBoard::holds),
        field("findings", FieldUnit::none, "what is wrong where", &StopBoard::findings));
};

inline void find_faults(const StopBoardPlan& plan, const Path& path, Faults& faults) {
    const Length inch = one_inch;
    require_within(plan.stock_length, 12.0 * inch, Length::from_feet(80.0), Path{path, "stock_length"}, faults);
    require_within(plan.sheet_thickness, 0.125 * inch, 4.0 * inch, Path{path, "sheet_thickness"}, faults);
    require_within(plan.past_fascia, no_length, 12.0 * inch, Path{path, "past_fascia"}, faults);
    if (plan.proud) {
        require_within(*plan.proud, plan.sheet_thickness / 2.0, plan.sheet_thickness, Path{path, "proud"}, faults);
    }
    require_within(plan.board_width, inch, 24.0 * inch, Path{path, "board_width"}, faults);
    require_within(plan.least_on_fascia, no_length, 24.0 * inch, Path{path, "least_on_fascia"}, faults);
    require_within(plan.most_space, 6.0 * inch, Length::from_feet(40.0), Path{path, "most_space"}, faults);
    require_within(plan.least_bearing, no_length, 12.0 * inch, Path{path, "least_bearing"}, faults);
    if (plan.screws_a_hold < 1 || plan.screws_a_hold > 20) {
        faults.push_back(Fault{FaultCode::out_of_range, Path{path, "screws_a_hold"}.text(),
                               std::to_string(plan.screws_a_hold), "1 to 20 screws"});
    }
}

namespace detail {
/// The boards, each to the farthest inner frame that the stock reaches: over an end frame it would be held at one place.
[[nodiscard]] inline std::vector<StopBoardPiece> stop_board_pieces(Span eave, const FrameLines& frames, Length stock) {
    std::vector<StopBoardPiece> pieces;
    Length from = eave.low;
    while (from + stock + count_tolerance < eave.high) {
        std::optional<Length> joint;
        Length nearest = eave.high;
        for (std::size_t f = 1; f + 1 < frames.centres.size(); ++f) {
            const Length centre = frames.centres[f];
            if (centre > from + count_tolerance && centre < eave.high) {
                nearest = shorter(nearest, centre);
                joint = centre <= from + stock + count_tolerance ? std::optional<Length>{centre} : joint;
            }
        }
        if (!joint) {
            throw FaultError{Fault{FaultCode::does_not_fit, "stop_board.stock_length", describe_length(stock),
                                   "at least " + describe_length(nearest - from) + ", to reach from joint to joint"}};
        }
        pieces.push_back({from, *joint, 0});
        from = *joint;
    }
    pieces.push_back({from, eave.high, 0});
    return pieces;
}

/// Frames and barge rafters that lie behind the board, and between those further apart than `most_space` the fascia.
[[nodiscard]] inline std::vector<StopBoardHold> stop_board_holds(Span eave, const FrameLines& frames,
                                                                 Length most_space) {
    std::vector<StopBoardHold> firm;
    const auto add = [&](Length along, std::optional<std::size_t> frame) {
        if (along >= eave.low && along <= eave.high && (firm.empty() || along > firm.back().along + count_tolerance)) {
            firm.push_back({along, frame, no_length, false, 0});
        }
    };
    if (frames.barge_width > no_length) {
        add(eave.low + frames.barge_width / 2.0, std::nullopt);
    }
    for (std::size_t f = 0; f < frames.centres.size(); ++f) {
        add(frames.centres[f], f);
    }
    if (frames.barge_width > no_length) {
        add(eave.high - frames.barge_width / 2.0, std::nullopt);
    }
    std::vector<StopBoardHold> holds;
    for (std::size_t i = 0; i < firm.size(); ++i) {
        holds.push_back(firm[i]);
        const Length space = i + 1 < firm.size() ? firm[i + 1].along - firm[i].along : no_length;
        const std::int64_t spaces = steps_to_cover(space, most_space);
        for (std::int64_t k = 1; k < spaces; ++k) {
            const double share = static_cast<double>(k) / static_cast<double>(spaces);
            holds.push_back({firm[i].along + space * share, std::nullopt, no_length, false, 0});
        }
    }
    return holds;
}

/// The fascia's offset at `along`: read at a frame, straight between frames, that of the end frame past it.
[[nodiscard]] inline Length fascia_offset(const FrameLines& frames, const std::vector<Length>& offsets, Length along) {
    if (offsets.empty()) {
        return no_length;
    }
    std::size_t above = 0;
    while (above < frames.centres.size() && frames.centres[above] < along) {
        ++above;
    }
    if (above == 0 || above == frames.centres.size()) {
        return above == 0 ? offsets.front() : offsets.back();
    }
    const double share = (along - frames.centres[above - 1]) / (frames.centres[above] - frames.centres[above - 1]);
    return offsets[above - 1] + (offsets[above] - offsets[above - 1]) * share;
}

/// Gives every hold its packing, and every board its screws in each hold that it reaches.
inline void pack_and_screw(const FrameLines& frames, const std::vector<Length>& offsets, const StopBoardPlan& plan,
                           StopBoard& board) {
    for (StopBoardHold& hold : board.holds) {
        hold.packing = board.off_fascia - fascia_offset(frames, offsets, hold.along);
        hold.measured = hold.frame.has_value() && !offsets.empty();
        if (hold.packing < -count_tolerance) {
            board.findings.push_back({StopBoardFindingCode::fascia_past_line, hold.along, hold.packing, no_length});
        }
        for (StopBoardPiece& piece : board.pieces) {
            if (hold.along >= piece.from && hold.along <= piece.to) {
                piece.screws += plan.screws_a_hold;
                hold.screws += plan.screws_a_hold;
            }
        }
        board.screws += hold.screws;
    }
    for (std::size_t i = 1; i < board.pieces.size(); ++i) {
        const Length bearing = frames.chord_width / 2.0;
        if (bearing + count_tolerance < plan.least_bearing) {
            board.findings.push_back(
                {StopBoardFindingCode::narrow_joint, board.pieces[i].from, bearing, plan.least_bearing});
        }
    }
}

inline void find_offset_faults(const std::vector<Length>& offsets, const FrameLines& frames) {
    Faults faults;
    const Path path{"fascia_offsets"};
    if (!offsets.empty() && offsets.size() != frames.centres.size()) {
        faults.push_back(Fault{FaultCode::contradiction, path.text(), std::to_string(offsets.size()) + " offsets",
                               "none, or one a frame (" + std::to_string(frames.centres.size()) + ")"});
    }
    for (std::size_t i = 0; i < offsets.size(); ++i) {
        require_within(offsets[i], Length::from_inches(-12.0), Length::from_inches(12.0), Path{path, i}, faults);
    }
    if (!faults.empty()) {
        throw FaultError{std::move(faults.front())};
    }
}
}  // namespace detail

/// The stop board along the eave of a four-sided plane whose sheets lie on `surface`. `fascia_offsets`, one a frame or
/// none, are how far the fascia's outer face stands out past its straight line, square to the face, positive outwards.
/// Packing is exact: over a plumb fascia past_fascia x run / slope + proud x rise / slope - offset, over a square one
/// past_fascia - offset. Shown with `stop_board_caution`.
///
/// Throws `FaultError`: the first fault of an input; not_supported for a plane that is not four-sided; contradiction for
/// another number of offsets; does_not_fit where the stock does not reach from frame to frame, or where too little of the
/// board's width lies against the fascia.
template <Surface surface>
[[nodiscard]] StopBoard stop_board(const Plane<surface>& plane, const FrameLines& frames, const StopBoardPlan& plan,
                                   const std::vector<Length>& fascia_offsets = {}) {
    require_sound(plan, "stop_board");
    require_sound(frames, "frames");
    detail::require_four_sided(plane);
    detail::find_offset_faults(fascia_offsets, frames);
    const bool plumb = plan.tail == TailCut::plumb;
    const Length proud = plan.proud.value_or(plan.sheet_thickness);
    const double cosine = plumb ? plane.pitch.cosine() : 1.0;
    const double sine = plumb ? plane.pitch.sine() : 0.0;
    const Span eave{plane.outline[0].along, plane.outline[1].along};
    StopBoard board{.from = {eave.low, -plan.past_fascia},
                    .to = {eave.high, -plan.past_fascia},
                    .proud = proud,
                    .least_proud = plan.sheet_thickness / 2.0,
                    .most_proud = plan.sheet_thickness,
                    .above_fascia_top = proud * cosine - plan.past_fascia * sine,
                    .off_fascia = plan.past_fascia * cosine + proud * sine,
                    .pieces = detail::stop_board_pieces(eave, frames, plan.stock_length),
                    .holds = detail::stop_board_holds(eave, frames, plan.most_space),
                    .screws = 0,
                    .findings = {}};
    if (plan.board_width - board.above_fascia_top + count_tolerance < plan.least_on_fascia) {
        throw FaultError{Fault{FaultCode::does_not_fit, "stop_board.board_width", describe_length(plan.board_width),
                               "at least " + describe_length(plan.least_on_fascia + board.above_fascia_top)}};
    }
    detail::pack_and_screw(frames, fascia_offsets, plan, board);
    return board;
}

}  // namespace eavewright
