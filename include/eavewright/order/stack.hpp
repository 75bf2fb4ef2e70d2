// SPDX-License-Identifier: BSL-1.0
#pragma once

// Where a stack of sheets or panels may stand on a slope until it is laid, how many pieces it may hold, what it weighs: what
// is asked, and the answer. The placing itself is in stack_pieces.hpp.
//
// How much the roof may carry meanwhile is never worked out here: it is what the builder's licensed professional allows.
//
//      |        |        |        |      frames; one stack over each, from the middle one outward
//   ---|--------|--------|--------|---   rows
//      |     +-----+  +-----+     |
//   ---|-----|--|--|--|--|--|-----|---
//      |     |  |  |  |  |  |     |
//   ---|-----+==|==+--+==|==+-----|---   the row whose cleat holds the stack's lower edge

#include <eavewright/fault.hpp>
#include <eavewright/field.hpp>
#include <eavewright/roof/plane.hpp>
#include <eavewright/units/decimal.hpp>
#include <eavewright/units/length.hpp>
#include <eavewright/units/quantities.hpp>

#include <array>
#include <cmath>
#include <cstddef>
#include <cstdint>
#include <string>
#include <string_view>
#include <vector>

namespace eavewright {

/// Which way the length of stacked pieces lies.
enum class StackLie { along_eave, up_slope };
template <>
struct NamesOf<StackLie> {
    static constexpr std::array<std::string_view, 2> list{"along_eave", "up_slope"};
};

/// How stacks are to stand. The load is an input without a default: the builder's licensed professional names it, for this
/// frame with the bracing that it has that day.
struct StackPlan {
    Pressure load_limit;  ///< the roof may carry it meanwhile, per area in plan; more than 0
    StackLie lie;
    std::size_t least_rows = 2;                       ///< that a stack bears on; common practice
    Length clearance = Length::from_inches(24.0);     ///< to every edge of the plane; common practice
    Length cleat = Length::from_inches(0.75);         ///< of the lowest row, from its lower side, for the cleat and its
                                                      ///< screws; the stack bears on the rest; common practice
    Length least_bearing = Length::from_inches(0.5);  ///< up the slope, on a row that counts; common practice
};

/// One stack where it stands.
struct StackPlace {
    std::size_t frame;                  ///< it stands centred over this frame line
    std::size_t row;                    ///< whose cleat holds its lower edge
    std::vector<std::size_t> rows;      ///< that it bears on, the lowest of them `row`
    std::vector<PlanePoint> footprint;  ///< counter-clockwise, from its lower left corner
    std::int64_t pieces;
    Mass mass;
    Pressure load;          ///< on its own footprint
    Pressure load_in_plan;  ///< on the same footprint seen in plan, which the limit is held against
};
template <>
struct FieldsOf<StackPlace> {
    static constexpr auto list = field_list(
        field("frame", FieldUnit::count, "index of the frame line it is centred over", &StackPlace::frame),
        field("row", FieldUnit::count, "index of the row whose cleat holds its lower edge", &StackPlace::row),
        field("rows", FieldUnit::count, "indexes of the rows it bears on", &StackPlace::rows),
        field("pieces", FieldUnit::count, "pieces in it", &StackPlace::pieces),
        field(
            "pounds", FieldUnit::ratio, "its mass in pounds", +[](const StackPlace& s) { return pounds(s.mass); }),
        field(
            "load_psf", FieldUnit::ratio, "load on its own footprint in pounds per square foot",
            +[](const StackPlace& s) { return psf(s.load); }),
        field(
            "load_in_plan_psf", FieldUnit::ratio, "the same per square foot in plan",
            +[](const StackPlace& s) { return psf(s.load_in_plan); }),
        field("footprint", FieldUnit::length, "corners, from the lower left", &StackPlace::footprint));
};

/// Closed, numbered list of why pieces do not stand on the roof.
enum class StackFindingCode : int {
    piece_too_heavy = 0,   ///< a single piece loads its footprint above the limit; psf
    longer_than_room = 1,  ///< along the eave, or up the slope, between the clearances; inches
    too_few_rows = 2,      ///< there is room, but nowhere enough rows under it; rows
    no_place = 3,          ///< no frame line with room and a row to hold the stack; places
    left_on_ground = 4,    ///< more pieces than the places take; pieces
};
template <>
struct NamesOf<StackFindingCode> {
    static constexpr std::array<std::string_view, 5> list{"piece_too_heavy", "longer_than_room", "too_few_rows",
                                                          "no_place", "left_on_ground"};
};
/// One thing found, in the unit that its code names.
struct StackFinding {
    StackFindingCode code;
    double measured;
    double limit;
};
template <>
struct FieldsOf<StackFinding> {
    static constexpr auto list =
        field_list(field("code", FieldUnit::none, "what was found", &StackFinding::code),
                   field("measured", FieldUnit::ratio, "how much: psf, inches, rows, places or pieces by the code",
                         &StackFinding::measured),
                   field("limit", FieldUnit::ratio, "the limit it passes", &StackFinding::limit));
};

/// Pieces of one size stacked on one slope.
struct Stacks {
    Mass each;  ///< one piece
    std::int64_t
        pieces_a_stack;  ///< most that the limit lets stand on one footprint, all of them at most; 0 where not one
    std::int64_t stacks_needed;  ///< of that many, for all pieces; 0 where none may stand
    std::vector<StackPlace> places;
    std::int64_t on_ground;  ///< pieces that stay on the ground
    std::vector<StackFinding> findings;
};
template <>
struct FieldsOf<Stacks> {
    static constexpr auto list =
        field_list(field(
                       "each_pounds", FieldUnit::ratio, "mass of one piece in pounds",
                       +[](const Stacks& s) { return pounds(s.each); }),
                   field("pieces_a_stack", FieldUnit::count, "most pieces in one stack", &Stacks::pieces_a_stack),
                   field("stacks_needed", FieldUnit::count, "stacks for all pieces", &Stacks::stacks_needed),
                   field("on_ground", FieldUnit::count, "pieces that stay on the ground", &Stacks::on_ground),
                   field("places", FieldUnit::none, "stacks, from the middle frame outward", &Stacks::places),
                   field("findings", FieldUnit::none, "why pieces do not stand on the roof", &Stacks::findings));
};

inline void find_faults(const StackPlan& plan, const Path& path, Faults& faults) {
    const double limit = psf(plan.load_limit);
    if (!(limit > 0.0 && limit <= 1000.0)) {
        faults.push_back(Fault{std::isfinite(limit) ? FaultCode::out_of_range : FaultCode::not_finite,
                               Path{path, "load_limit"}.text(), write_decimal(limit, 3) + " psf",
                               "more than 0, at most 1000 psf, from the builder's licensed professional"});
    }
    require_within(plan.clearance, no_length, Length::from_feet(40.0), Path{path, "clearance"}, faults);
    require_within(plan.cleat, no_length, Length::from_inches(12.0), Path{path, "cleat"}, faults);
    require_within(plan.least_bearing, no_length, Length::from_inches(12.0), Path{path, "least_bearing"}, faults);
    if (plan.least_rows < 1 || plan.least_rows > 100) {
        faults.push_back(Fault{FaultCode::out_of_range, Path{path, "least_rows"}.text(),
                               std::to_string(plan.least_rows), "1 to 100 rows"});
    }
}

}  // namespace eavewright
