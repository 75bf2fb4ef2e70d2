// SPDX-License-Identifier: BSL-1.0
#pragma once

// One roof as its builder describes it: everything that `whole_roof` needs, and nothing that follows from the rest.

#include <eavewright/fastening/nails.hpp>
#include <eavewright/fault.hpp>
#include <eavewright/framing/frames.hpp>
#include <eavewright/framing/purlin_pieces.hpp>
#include <eavewright/framing/purlin_rows.hpp>
#include <eavewright/framing/row_spacing.hpp>
#include <eavewright/roof/shape.hpp>
#include <eavewright/squaring/true_up.hpp>
#include <eavewright/tiling/sheets.hpp>
#include <eavewright/units/length.hpp>
#include <eavewright/units/tick.hpp>

#include <cstddef>
#include <optional>
#include <string>
#include <type_traits>
#include <variant>
#include <vector>

namespace eavewright {

using ShapeInput = std::variant<GableRoof, SingleSlopeRoof>;

/// Purlins on every slope alike.
struct PurlinPlan {
    RowSpacing spacing;
    PurlinCutPlan cuts;
    PurlinStock stock{};
    Length ridge_setback = no_length;  ///< upper side of the ridge row below the ridge line
    std::vector<std::size_t>
        blocked_bays{};  ///< bays that get a line of blocks, counted from 1 at the left of each slope
};

/// What was measured on one slope, where it was.
struct SlopeAsBuilt {
    std::optional<AsFound> rows{};     ///< purlins as found; frames may be left empty: the slope's own frame centres
    std::optional<FourSides> sides{};  ///< four sides and two diagonals of the surface the sheets lie on
};

/// How square is square enough, and how well the tape reads.
struct SquaringPlan {
    TapeError tape{};
    SquareTolerance tolerance{};
    std::optional<FourSides>
        footprint{};  ///< the wall lines as measured: `eave` is the front wall, `left` the left end wall
};

/// The description of one roof. Without purlins the sheets lie on the chords.
struct RoofDescription {
    std::string name;
    ShapeInput shape;
    FramePlan frames;
    std::optional<PurlinPlan> purlins;
    SheetPlan sheets;
    NailPattern nails;
    SquaringPlan squaring{};
    std::vector<SlopeAsBuilt> as_built{};  ///< empty, or one a slope, front first
    Tick tick = Tick::of_inch(16);         ///< what marks and cuts are rounded to, in place of the ticks of the parts
};

/// Number of slopes that a shape has.
[[nodiscard]] inline std::size_t slope_count(const ShapeInput& shape) {
    return std::holds_alternative<GableRoof>(shape) ? 2 : 1;
}

namespace detail {
inline void find_layer_faults(const RoofDescription& roof, const Path& path, Faults& faults) {
    const Length expected = roof.purlins ? build_up_depth(roof.purlins->stock) : no_length;
    const Length given = std::visit([](const auto& shape) { return shape.build_up.purlin; }, roof.shape);
    if (magnitude(expected - given) > count_tolerance) {
        faults.push_back(Fault{FaultCode::contradiction, Path{Path{Path{path, "shape"}, "build_up"}, "purlin"}.text(),
                               describe_length(given),
                               describe_length(expected) + ", as purlins.stock lifts the sheets"});
    }
}

inline void find_purlin_faults(const PurlinPlan& purlins, const Path& path, Faults& faults) {
    const std::size_t before = faults.size();
    find_faults(RowPlan{.stock = purlins.stock, .ridge_setback = purlins.ridge_setback}, path, faults);
    find_faults(purlins.spacing, Path{path, "spacing"}, faults);
    find_faults(purlins.cuts, path, faults);
    if (const AsFound* found = std::get_if<AsFound>(&purlins.spacing); found != nullptr && faults.size() == before) {
        faults.push_back(Fault{FaultCode::contradiction, Path{path, "spacing"}.text(), "rows as found",
                               "a rule for every slope; rows as found stand in as_built, slope by slope"});
    }
}

inline void find_as_built_faults(const RoofDescription& roof, const Path& path, Faults& faults) {
    const Path list{path, "as_built"};
    if (!roof.as_built.empty() && roof.as_built.size() != slope_count(roof.shape)) {
        faults.push_back(Fault{FaultCode::contradiction, list.text(), std::to_string(roof.as_built.size()) + " slopes",
                               "none, or one for each of the " + std::to_string(slope_count(roof.shape)) + " slopes"});
    }
    for (std::size_t i = 0; i < roof.as_built.size(); ++i) {
        const Path slope{list, i};
        if (roof.as_built[i].rows && !roof.purlins) {
            faults.push_back(Fault{FaultCode::contradiction, Path{slope, "rows"}.text(), "rows as found",
                                   "purlins, which this roof has not"});
        }
        if (roof.as_built[i].sides) {
            find_faults(*roof.as_built[i].sides, Path{slope, "sides"}, faults);
        }
    }
}
/// Faults of the parts of a description, each judged by its own room, and of parts that contradict one another.
inline void find_description_faults(const RoofDescription& roof, const Path& path, Faults& faults) {
    std::visit([&](const auto& shape) { find_faults(shape, Path{path, "shape"}, faults); }, roof.shape);
    find_layer_faults(roof, path, faults);
    find_faults(roof.frames, Path{path, "frames"}, faults);
    if (roof.purlins) {
        find_purlin_faults(*roof.purlins, Path{path, "purlins"}, faults);
    }
    find_faults(roof.sheets, Path{path, "sheets"}, faults);
    find_faults(roof.nails, Path{path, "nails"}, faults);
    const Path squaring{path, "squaring"};
    find_faults(roof.squaring.tape, Path{squaring, "tape"}, faults);
    find_faults(roof.squaring.tolerance, Path{squaring, "tolerance"}, faults);
    if (roof.squaring.footprint) {
        find_faults(*roof.squaring.footprint, Path{squaring, "footprint"}, faults);
    }
    find_as_built_faults(roof, path, faults);
}
}  // namespace detail

}  // namespace eavewright
