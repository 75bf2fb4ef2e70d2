// SPDX-License-Identifier: BSL-1.0
#pragma once

// Purlins cut into pieces: where they splice, and the blocks between them.

#include <eavewright/fault.hpp>
#include <eavewright/field.hpp>
#include <eavewright/framing/frames.hpp>
#include <eavewright/framing/purlin_rows.hpp>
#include <eavewright/units/length.hpp>
#include <eavewright/units/tick.hpp>

#include <cstddef>
#include <vector>

namespace eavewright {

/// How purlins are cut from stock.
struct PurlinCutPlan {
    Length stock_length;  ///< longest piece to be had
    Length lap = Length::from_inches(
        12.0);  ///< both pieces past the frame's centre line together, where lapped; common practice
    Tick tick = Tick::of_inch(16);  ///< cuts are rounded to it, down where a piece must fit a gap
};

/// One purlin between two places along its row.
struct PurlinPiece {
    std::size_t row;  ///< index into `PurlinRows::rows`
    Length from;      ///< along-coordinate of its left end
    Length to;
    Length length;  ///< as cut
};
template <>
struct FieldsOf<PurlinPiece> {
    static constexpr auto list =
        field_list(field("row", FieldUnit::count, "index of its row, from 0 at the eave", &PurlinPiece::row),
                   field("from", FieldUnit::length, "left end along the eave", &PurlinPiece::from),
                   field("to", FieldUnit::length, "right end along the eave", &PurlinPiece::to),
                   field("length", FieldUnit::length, "length as cut", &PurlinPiece::length));
};

inline void find_faults(const PurlinCutPlan& plan, const Path& path, Faults& faults) {
    require_within(plan.stock_length, Length::from_inches(12.0), Length::from_feet(80.0), Path{path, "stock_length"},
                   faults);
    require_within(plan.lap, no_length, Length::from_feet(10.0), Path{path, "lap"}, faults);
}

namespace detail {
[[nodiscard]] inline FaultError stock_too_short(Length stock, Length needed) {
    return FaultError{Fault{FaultCode::does_not_fit, "purlins.stock_length", describe_length(stock),
                            "at least " + describe_length(needed) + ", to reach from splice to splice"}};
}

/// A lap longer than a bay would put the start of a piece before that of its neighbour.
inline void require_lap_fits(const FrameLines& frames, Length lap) {
    for (std::size_t f = 1; f < frames.centres.size(); ++f) {
        const Length bay = frames.centres[f] - frames.centres[f - 1];
        if (lap > bay) {
            throw FaultError{Fault{FaultCode::does_not_fit, "purlins.lap", describe_length(lap),
                                   "at most the shortest bay, " + describe_length(bay) + " or less"}};
        }
    }
}

/// Hung purlins: one a bay, the clear gap between the chords rounded down, or what the row's end leaves of it.
inline void add_hung_pieces(std::size_t row, Span along, const FrameLines& frames, const PurlinCutPlan& plan,
                            std::vector<PurlinPiece>& pieces) {
    for (std::size_t f = 0; f + 1 < frames.centres.size(); ++f) {
        const Length from = longer(along.low, frames.centres[f] + frames.chord_width / 2.0);
        const Length to = shorter(along.high, frames.centres[f + 1] - frames.chord_width / 2.0);
        const Length length = round_down_to_tick(to - from, plan.tick);
        if (!(length > no_length)) {
            continue;
        }
        if (length > plan.stock_length) {
            throw stock_too_short(plan.stock_length, length);
        }
        pieces.push_back({row, from, to, length});
    }
}

/// The stretches of a row, or its whole centre line.
[[nodiscard]] inline std::vector<Span> runs_of(const PurlinRow& row) {
    return row.stretches.empty() ? std::vector<Span>{{row.centreline.front().along, row.centreline.back().along}}
                                 : row.stretches;
}

/// Cut length from place to place, each rounded on its own so that pieces in a row still add up.
[[nodiscard]] inline Length cut_between(Length from, Length to, Tick tick) {
    return tick.length(nearest_ticks(to, tick) - nearest_ticks(from, tick));
}

/// Continuous purlins: from rake edge to rake edge, each piece to the farthest inner frame that the stock reaches (a
/// splice on an end frame would leave the overhang held by one frame alone). Odd rows stop one frame short as soon as
/// they have the choice, so that splices of neighbours do not line up.
inline void add_continuous_pieces(std::size_t row, Span along, const FrameLines& frames, const PurlinCutPlan& plan,
                                  bool lapped, std::vector<PurlinPiece>& pieces) {
    const Length lap = lapped ? plan.lap / 2.0 : no_length;
    const std::size_t inner_end = frames.centres.empty() ? 0 : frames.centres.size() - 1;
    Length from = along.low;
    std::size_t next = 1;  // the first inner frame past the last splice
    while (next < inner_end && frames.centres[next] <= from + lap) {
        ++next;
    }
    bool hold_back = row % 2 == 1;
    while (from + plan.stock_length + count_tolerance < along.high) {
        std::size_t past = next;
        while (past < inner_end && frames.centres[past] + lap <= from + plan.stock_length + count_tolerance) {
            ++past;
        }
        if (past == next) {
            const Length reach = next < inner_end ? frames.centres[next] + lap : along.high;
            throw stock_too_short(plan.stock_length, reach - from);
        }
        const bool shorter_one = hold_back && past - next > 1;
        hold_back = hold_back && !shorter_one;
        next = shorter_one ? past - 1 : past;
        const Length splice = frames.centres[next - 1];
        pieces.push_back({row, from, splice + lap, cut_between(from, splice + lap, plan.tick)});
        from = splice - lap;
    }
    pieces.push_back({row, from, along.high, cut_between(from, along.high, plan.tick)});
}
}  // namespace detail

/// Cuts every purlin row of a plane (the fascia is not one) into pieces that splice on frames.
/// Throws `FaultError`: the first fault of `plan`, does_not_fit where the stock does not reach from frame to frame or a
/// lap is longer than a bay.
[[nodiscard]] inline std::vector<PurlinPiece> purlin_pieces(const PurlinRows& rows, const FrameLines& frames,
                                                            const PurlinCutPlan& plan) {
    require_sound(plan, "purlins");
    if (rows.stock.lie == PurlinLie::lapped) {
        detail::require_lap_fits(frames, plan.lap);
    }
    std::vector<PurlinPiece> pieces;
    for (std::size_t r = 0; r < rows.rows.size(); ++r) {
        if (rows.rows[r].kind == RowKind::eave) {
            continue;
        }
        for (const Span& along : detail::runs_of(rows.rows[r])) {
            if (rows.stock.lie == PurlinLie::hung) {
                detail::add_hung_pieces(r, along, frames, plan, pieces);
            } else {
                detail::add_continuous_pieces(r, along, frames, plan, rows.stock.lie == PurlinLie::lapped, pieces);
            }
        }
    }
    return pieces;
}

/// Blocks between neighbouring rows in one bay.
struct BlockingPlan {
    std::size_t bay;  ///< 0 is the bay between the first two frames
    int lines = 1;    ///< lines of blocks in the bay, equally spaced
    Tick tick = Tick::of_inch(16);
};

/// One block, standing between two rows.
struct BlockingPiece {
    std::size_t below;  ///< index of the row below it
    Length along;       ///< its centre along the eave
    Length clear_gap;   ///< between the two rows on the tighter side of the block, exact
    Length length;      ///< as cut: the gap rounded down to the tick
};
template <>
struct FieldsOf<BlockingPiece> {
    static constexpr auto list =
        field_list(field("below", FieldUnit::count, "index of the row below the block", &BlockingPiece::below),
                   field("along", FieldUnit::length, "centre of the block along the eave", &BlockingPiece::along),
                   field("clear_gap", FieldUnit::length, "clear gap between the rows", &BlockingPiece::clear_gap),
                   field("length", FieldUnit::length, "length as cut, the gap rounded down", &BlockingPiece::length));
};

namespace detail {
/// The next row above `row` that runs at `along`; as many as there are rows where none does.
[[nodiscard]] inline std::size_t next_row_at(const PurlinRows& rows, std::size_t row, Length along) {
    std::size_t above = row + 1;
    while (above < rows.rows.size() && !runs_at(rows.rows[above].stretches, along)) {
        ++above;
    }
    return above;
}
[[nodiscard]] inline Length clear_gap(const PurlinRow& low, const PurlinRow& high, Length along) {
    return up_at(high.centreline, along) - high.width / 2.0 - up_at(low.centreline, along) - low.width / 2.0;
}
}  // namespace detail

/// Blocks for a bay, of the purlins' own stock set on edge: for every line and every pair of neighbouring rows with a gap, the clear gap at that place rounded
/// down to the tick. Throws `FaultError` out_of_range for a bay the frames do not have, or lines outside 1 to 100.
[[nodiscard]] inline std::vector<BlockingPiece> blocking_pieces(const PurlinRows& rows, const FrameLines& frames,
                                                                const BlockingPlan& plan) {
    const std::size_t bays = frames.centres.empty() ? 0 : frames.centres.size() - 1;
    if (plan.bay >= bays) {
        throw FaultError{Fault{FaultCode::out_of_range, "blocking.bay", std::to_string(plan.bay),
                               "one of " + std::to_string(bays) + " bays, counted from 0"}};
    }
    if (plan.lines < 1 || plan.lines > 100) {
        throw FaultError{Fault{FaultCode::out_of_range, "blocking.lines", std::to_string(plan.lines), "1 to 100"}};
    }
    std::vector<BlockingPiece> blocks;
    const Length half_block = rows.stock.thickness / 2.0;
    const Length left = frames.centres[plan.bay];
    const Length bay = frames.centres[plan.bay + 1] - left;
    for (int line = 1; line <= plan.lines; ++line) {
        const Length along = left + bay * (static_cast<double>(line) / (plan.lines + 1));
        for (std::size_t r = 0; r + 1 < rows.rows.size(); ++r) {
            const PurlinRow& low = rows.rows[r];
            const std::size_t above = detail::next_row_at(rows, r, along);
            if (above == rows.rows.size() || !runs_at(low.stretches, along)) {
                continue;
            }
            const PurlinRow& high = rows.rows[above];
            // Rows that were found may diverge: the block must fit on its tighter side.
            const Length gap = shorter(detail::clear_gap(low, high, along - half_block),
                                       detail::clear_gap(low, high, along + half_block));
            const Length cut = round_down_to_tick(gap, plan.tick);
            if (cut > no_length) {
                blocks.push_back({r, along, gap, cut});
            }
        }
    }
    return blocks;
}

}  // namespace eavewright
