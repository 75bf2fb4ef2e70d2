// SPDX-License-Identifier: BSL-1.0
#pragma once

// What is wrong with fasteners where they stand: off the wood, too near an edge, too near each other.
//
// Nails no nearer than 3 in on 2x framing, lest the wood splits and withdrawal is lost (FEMA P-499 (2010) fact sheet 7.1): what
// that is measured between is not said there, and is taken as follows.
//   - Nails of one row of one piece, along the grain: 3 in. They sit in the same line of grain.
//   - Nails of two rows of pieces that meet end to end on one support, where the rows stand nearer than 1 1/2 in across the
//     grain: half of it, 1 1/2 in, measured along the support. Each belongs midway between two of the neighbour's, so that is
//     how near they come where both rows are at the limit.
//   - Nails at the corners of pieces side by side, each at its edge distance from the joint between them, are nearer than 3 in
//     in every deck. They are counted, and no finding.

#include <eavewright/fastening/nail_lines.hpp>
#include <eavewright/fastening/nail_places.hpp>
#include <eavewright/fastening/screw_places.hpp>
#include <eavewright/fault.hpp>
#include <eavewright/field.hpp>
#include <eavewright/framing/purlin_rows.hpp>
#include <eavewright/framing/supports.hpp>
#include <eavewright/roof/openings.hpp>
#include <eavewright/roof/plane.hpp>
#include <eavewright/tiling/bearing.hpp>
#include <eavewright/tiling/sheets.hpp>
#include <eavewright/units/count.hpp>
#include <eavewright/units/length.hpp>

#include <algorithm>
#include <array>
#include <cstddef>
#include <cstdint>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

namespace eavewright {

/// How near fasteners may come.
struct FastenerLimits {
    Length sheet_edge = Length::from_inches(0.375);   ///< to any edge of the piece; 3/8 in, common practice
    Length support_side = Length::from_inches(0.25);  ///< to the support's side, across it; common practice
    Length support_end = Length::from_inches(0.375);  ///< to the end of a stretch's centre line; common practice
    Length row_spacing = Length::from_inches(3.0);    ///< within a row; FEMA P-499 fact sheet 7.1
    Length joint_spacing = Length::from_inches(1.5);  ///< along the support, between rows at a joint; common practice
    Length rows_together = Length::from_inches(1.5);  ///< rows at a joint further apart than this do not matter to each
                                                      ///< other; common practice: a 2x is one line of grain wide
};

inline void find_faults(const FastenerLimits& limits, const Path& path, Faults& faults) {
    const Length foot = 12.0 * one_inch;
    require_within(limits.sheet_edge, no_length, foot, Path{path, "sheet_edge"}, faults);
    require_within(limits.support_side, no_length, foot, Path{path, "support_side"}, faults);
    require_within(limits.support_end, no_length, foot, Path{path, "support_end"}, faults);
    require_within(limits.row_spacing, no_length, 4.0 * foot, Path{path, "row_spacing"}, faults);
    require_within(limits.joint_spacing, no_length, 4.0 * foot, Path{path, "joint_spacing"}, faults);
    require_within(limits.rows_together, no_length, foot, Path{path, "rows_together"}, faults);
}

/// Closed, numbered list of what can be wrong with a fastener where it stands.
enum class FastenerFindingCode : int {
    off_support = 0,        ///< beside the support, or past the end of its wood
    near_edge = 1,          ///< too near an edge of its piece, an opening's too
    near_support_side = 2,  ///< too near the support's side
    near_support_end = 3,   ///< too near the end of its centre line; below 0 past it, where only a slanted end has wood
    too_close = 4,          ///< to the one before it in its row
    too_close_at_joint = 5,  ///< to one of the piece that shares the support
};
template <>
struct NamesOf<FastenerFindingCode> {
    static constexpr std::array<std::string_view, 6> list{"off_support",      "near_edge", "near_support_side",
                                                          "near_support_end", "too_close", "too_close_at_joint"};
};

/// One thing found: what, on which fastener, where, how much, and what the limit is.
struct FastenerFinding {
    FastenerFindingCode code;
    std::size_t fastener;  ///< index among the places
    std::int32_t piece;
    std::int32_t support;
    PlanePoint place;
    Length measured;  ///< below 0 by how far it is off
    Length limit;
};
template <>
struct FieldsOf<FastenerFinding> {
    static constexpr auto list =
        field_list(field("code", FieldUnit::none, "what was found", &FastenerFinding::code),
                   field("fastener", FieldUnit::count, "index among the places", &FastenerFinding::fastener),
                   field("piece", FieldUnit::count, "index of the piece", &FastenerFinding::piece),
                   field("support", FieldUnit::count, "index of the support", &FastenerFinding::support),
                   field("place", FieldUnit::length, "where", &FastenerFinding::place),
                   field("measured", FieldUnit::length, "how much", &FastenerFinding::measured),
                   field("limit", FieldUnit::length, "the limit it passes", &FastenerFinding::limit));
};

/// What is wrong with the nails of a plane.
struct NailJudgement {
    std::vector<FastenerFinding> findings;
    std::int64_t side_pairs;                  ///< pairs over the joint of pieces side by side nearer than a row's limit
    std::optional<Length> nearest_side_pair;  ///< how near the nearest of them stand
};
template <>
struct FieldsOf<NailJudgement> {
    static constexpr auto list = field_list(
        field("findings", FieldUnit::none, "what is wrong where", &NailJudgement::findings),
        field("side_pairs", FieldUnit::count, "pairs over the joint of pieces side by side nearer than a row's limit",
              &NailJudgement::side_pairs),
        field("nearest_side_pair", FieldUnit::length, "how near the nearest of them stand, null for none",
              &NailJudgement::nearest_side_pair));
};

namespace detail {
/// How a fastener stands on its support; lane frame. Both below 0 where it is off.
struct OnSupport {
    Length side;
    std::optional<Length> end;  ///< none where the support runs on past its line
    bool on;
};
[[nodiscard]] inline OnSupport on_support(const SupportLine& line, PlanePoint place) {
    OnSupport at{line.width / 2.0 - magnitude(place.up - up_at(line.centreline, place.along)), std::nullopt, true};
    for (const Span& stretch : line.stretches) {
        const Length end = shorter(place.along - stretch.low, stretch.high - place.along);
        at.end = at.end ? longer(*at.end, end) : end;
    }
    at.on = at.side >= -count_tolerance && has_wood_at(line, place.along);
    return at;
}

/// Distance from a place to the nearest edge of a piece.
[[nodiscard]] inline Length edge_distance_of(const SheetPiece& piece, PlanePoint place) {
    Length nearest = Length::from_inches(length_limit_in);
    const auto take = [&](const std::vector<PlanePoint>& ring) {
        for (std::size_t i = 0; i < ring.size(); ++i) {
            nearest = shorter(nearest, distance_to(place, ring[i], ring[i + 1 == ring.size() ? 0 : i + 1]));
        }
    };
    take(piece.outline);
    for (const std::vector<PlanePoint>& cutout : piece.cutouts) {
        take(cutout);
    }
    return nearest;
}

/// Judges fasteners on their supports. `Place` has place, piece and support.
template <class Place>
void judge_on_support(const Place& fastener, std::size_t index, const LaneFrame& frame, const SupportLine& line,
                      const FastenerLimits& limits, std::vector<FastenerFinding>& findings) {
    const OnSupport at = on_support(line, frame.to_lane(fastener.place));
    const auto find = [&](FastenerFindingCode code, Length measured, Length limit) {
        findings.push_back({code, index, fastener.piece, fastener.support, fastener.place, measured, limit});
    };
    if (!at.on) {
        find(FastenerFindingCode::off_support, at.end ? shorter(at.side, *at.end) : at.side, no_length);
        return;
    }
    if (at.side + count_tolerance < limits.support_side) {
        find(FastenerFindingCode::near_support_side, at.side, limits.support_side);
    }
    if (at.end && *at.end + count_tolerance < limits.support_end) {
        find(FastenerFindingCode::near_support_end, *at.end, limits.support_end);
    }
}

/// The nails [first, end) of one piece on one support.
struct NailRow {
    std::size_t first;
    std::size_t end;
};

[[nodiscard]] inline std::vector<NailRow> rows_of(const std::vector<NailPlace>& nails) {
    std::vector<NailRow> rows;
    for (std::size_t i = 0; i < nails.size(); ++i) {
        const bool goes_on = i > 0 && nails[i].piece == nails[i - 1].piece && nails[i].support == nails[i - 1].support;
        if (!goes_on) {
            rows.push_back({i, i});
        }
        rows[rows.size() - 1].end = i + 1;
    }
    return rows;
}

/// The row of a piece on a support among rows in order of pieces, then supports; none where it has no nails there.
[[nodiscard]] inline std::optional<NailRow> row_of(const std::vector<NailPlace>& nails,
                                                   const std::vector<NailRow>& rows, std::size_t piece,
                                                   std::size_t support) {
    const auto wanted = static_cast<std::int32_t>(piece);
    const auto under = static_cast<std::int32_t>(support);
    const auto found = std::partition_point(rows.begin(), rows.end(), [&](const NailRow& row) {
        const NailPlace& nail = nails[row.first];
        return nail.piece < wanted || (nail.piece == wanted && nail.support < under);
    });
    const bool is_there =
        found != rows.end() && nails[found->first].piece == wanted && nails[found->first].support == under;
    return is_there ? std::optional<NailRow>{*found} : std::nullopt;
}

/// Nails in the lane frame beside the places they are found at.
struct JudgedNails {
    const std::vector<NailPlace>& nails;
    const LaneFrame& frame;
    const FastenerLimits& limits;
    std::vector<FastenerFinding>& findings;

    [[nodiscard]] PlanePoint at(std::size_t i) const { return frame.to_lane(nails[i].place); }
    void find(FastenerFindingCode code, std::size_t i, Length measured, Length limit) const {
        findings.push_back({code, i, nails[i].piece, nails[i].support, nails[i].place, measured, limit});
    }
};

/// Each nail of the one row against the nearest, along the support, of the other.
inline void judge_joint(const JudgedNails& judged, NailRow one, NailRow other) {
    std::size_t nearest = other.first;
    for (std::size_t i = one.first; i < one.end; ++i) {
        const PlanePoint nail = judged.at(i);
        while (nearest + 1 < other.end && magnitude(judged.at(nearest + 1).along - nail.along) <=
                                              magnitude(judged.at(nearest).along - nail.along)) {
            ++nearest;
        }
        const PlanePoint neighbour = judged.at(nearest);
        const Length apart = magnitude(neighbour.along - nail.along);
        if (magnitude(neighbour.up - nail.up) + count_tolerance < judged.limits.rows_together &&
            apart + count_tolerance < judged.limits.joint_spacing) {
            judged.find(FastenerFindingCode::too_close_at_joint, i, apart, judged.limits.joint_spacing);
        }
    }
}

/// The last nail of a row against the first of the next piece's row on the same support.
inline void judge_side_pairs(const JudgedNails& judged, std::vector<NailRow> rows, NailJudgement& judgement) {
    std::sort(rows.begin(), rows.end(), [&](const NailRow& a, const NailRow& b) {
        const NailPlace& one = judged.nails[a.first];
        const NailPlace& two = judged.nails[b.first];
        return one.support != two.support ? one.support < two.support
                                          : judged.at(a.first).along < judged.at(b.first).along;
    });
    for (std::size_t i = 0; i < rows.size(); ++i) {
        const PlanePoint last = judged.at(rows[i].end - 1);
        const std::int32_t support = judged.nails[rows[i].first].support;
        for (std::size_t k = i + 1; k < rows.size() && judged.nails[rows[k].first].support == support; ++k) {
            const PlanePoint first = judged.at(rows[k].first);
            if (first.along - last.along >= judged.limits.row_spacing) {
                break;
            }
            const Length apart = hypotenuse(first.along - last.along, first.up - last.up);
            if (first.along > last.along && apart + count_tolerance < judged.limits.row_spacing) {
                judgement.side_pairs += 1;
                judgement.nearest_side_pair =
                    judgement.nearest_side_pair ? shorter(*judgement.nearest_side_pair, apart) : apart;
            }
        }
    }
}
}  // namespace detail

/// What is wrong with nails that `nail_places` put on these sheets and supports. Distances to the support's side are measured
/// straight across the support's run, those to edges of sheets square to the edge. A nail off its support is not judged
/// against the support's sides and ends.
/// Throws `FaultError` with the first fault of `limits` or `supports`; contradiction where the sheets were laid on supports that
/// run the other way, out_of_range where a nail names a piece or support that is not there.
template <Surface surface>
[[nodiscard]] NailJudgement judge_nails(const Sheets& sheets, const Supports<surface>& supports,
                                        const std::vector<NailPlace>& nails, const FastenerLimits& limits = {}) {
    require_sound(limits, "limits");
    const detail::NailGround ground = detail::nail_ground(sheets, supports, NailPattern{one_inch, one_inch});
    NailJudgement judgement{{}, 0, std::nullopt};
    for (std::size_t i = 0; i < nails.size(); ++i) {
        const auto piece = static_cast<std::size_t>(nails[i].piece);
        const auto support = static_cast<std::size_t>(nails[i].support);
        if (piece >= sheets.pieces.size() || support >= ground.supports.size()) {
            throw FaultError{Fault{FaultCode::out_of_range, Path{Path{"nails"}, i}.text(),
                                   "a piece or support that is not there", "nails of these sheets and supports"}};
        }
        detail::judge_on_support(nails[i], i, ground.frame, ground.supports[support].line, limits, judgement.findings);
        const Length edge = detail::edge_distance_of(sheets.pieces[piece], nails[i].place);
        if (edge + count_tolerance < limits.sheet_edge) {
            judgement.findings.push_back({FastenerFindingCode::near_edge, i, nails[i].piece, nails[i].support,
                                          nails[i].place, edge, limits.sheet_edge});
        }
    }
    const detail::JudgedNails judged{nails, ground.frame, limits, judgement.findings};
    const std::vector<detail::NailRow> rows = detail::rows_of(nails);
    for (const detail::NailRow& row : rows) {
        for (std::size_t i = row.first + 1; i < row.end; ++i) {
            const Length apart = judged.at(i).along - judged.at(i - 1).along;
            if (apart + count_tolerance < limits.row_spacing) {
                judged.find(FastenerFindingCode::too_close, i, apart, limits.row_spacing);
            }
        }
    }
    for (const EndJoint& joint : sheets.joints) {
        if (joint.support) {
            const std::optional<detail::NailRow> one = detail::row_of(nails, rows, joint.first, *joint.support);
            const std::optional<detail::NailRow> other = detail::row_of(nails, rows, joint.second, *joint.support);
            if (one.has_value() && other.has_value()) {
                detail::judge_joint(judged, *one, *other);
            }
        }
    }
    detail::judge_side_pairs(judged, rows, judgement);
    return judgement;
}

/// The same on purlin rows.
[[nodiscard]] inline NailJudgement judge_nails(const Sheets& sheets, const PurlinRows& rows,
                                               const std::vector<NailPlace>& nails, const FastenerLimits& limits = {}) {
    return judge_nails(sheets, supports_of(rows), nails, limits);
}

/// What is wrong with screws that `screw_places` put on these supports: off the wood, or too near its side or end. Stitch
/// screws go into no support and are not judged.
/// Throws `FaultError` with the first fault of `limits` or `supports`; contradiction where the supports run up the slope,
/// out_of_range where a screw names a support that is not there.
template <Surface surface>
[[nodiscard]] std::vector<FastenerFinding> judge_screws(const std::vector<ScrewPlace>& screws,
                                                        const Supports<surface>& supports,
                                                        const FastenerLimits& limits = {}) {
    require_sound(limits, "limits");
    require_sound(supports, "supports");
    if (supports.run != SupportRun::along_eave) {
        throw FaultError{Fault{FaultCode::contradiction, "supports.run", std::string{name_of(supports.run)},
                               "supports that run along the eave, across the ribs"}};
    }
    const detail::LaneFrame frame{false, false, no_length};
    std::vector<FastenerFinding> findings;
    for (std::size_t i = 0; i < screws.size(); ++i) {
        if (screws[i].use == ScrewUse::stitch) {
            continue;
        }
        const auto support = static_cast<std::size_t>(screws[i].support);
        if (support >= supports.lines.size()) {
            throw FaultError{Fault{FaultCode::out_of_range, Path{Path{"screws"}, i}.text(),
                                   "a support that is not there", "screws of these supports"}};
        }
        detail::judge_on_support(screws[i], i, frame, supports.lines[support], limits, findings);
    }
    return findings;
}

/// The same on purlin rows.
[[nodiscard]] inline std::vector<FastenerFinding> judge_screws(const std::vector<ScrewPlace>& screws,
                                                               const PurlinRows& rows,
                                                               const FastenerLimits& limits = {}) {
    return judge_screws(screws, supports_of(rows), limits);
}

}  // namespace eavewright
