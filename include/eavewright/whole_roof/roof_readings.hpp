// SPDX-License-Identifier: BSL-1.0
#pragma once

// What was read on a roof that stands, to learn whether it is true: distances, heights and offsets between marks, strings,
// posts under a level, strings crossed over a slope. Every part is optional but what it says is used.
//
// Marks that every roof has are its corners on the surface the sheets lie on, seen from the front: of a gable front_left,
// front_right, ridge_right, ridge_left, back_left, back_right; of a single slope eave_left, eave_right, top_right,
// top_left. Others are added where they were made.

#include <eavewright/fault.hpp>
#include <eavewright/squaring/adjusted_network.hpp>
#include <eavewright/squaring/bay_marks.hpp>
#include <eavewright/squaring/flatness.hpp>
#include <eavewright/squaring/plumb.hpp>
#include <eavewright/squaring/pull_frames.hpp>
#include <eavewright/squaring/pulls.hpp>
#include <eavewright/squaring/purlin_line.hpp>
#include <eavewright/squaring/square_rules.hpp>
#include <eavewright/squaring/string_line.hpp>
#include <eavewright/squaring/tails.hpp>
#include <eavewright/squaring/tape_error.hpp>
#include <eavewright/tiling/trim_cover.hpp>
#include <eavewright/units/building_point.hpp>
#include <eavewright/units/length.hpp>

#include <cstddef>
#include <optional>
#include <string>
#include <vector>

namespace eavewright {

/// A mark beside the corners: on a post, a frame, a stake. `about` as in `MarkedPoint`, in the building's coordinates.
struct RoofMark {
    std::string name;
    BuildingPoint about;
    bool held = false;  ///< it stands where it is said to stand, and does not move when the roof is pulled
};

/// A distance between two marks, with one of the tapes.
struct RoofDistance {
    std::string from;
    std::string to;
    Length read;
    std::size_t tape = 0;
};

/// A mark off the plumb plane through two others, to the left of it seen from above.
struct RoofOffset {
    std::string mark;
    std::string from;
    std::string to;
    Length read;
    Length deviation = one_inch / 16.0;
};

/// A mark below the line of sight of a level, or the water of a hose, at one of its setups.
struct RoofLevel {
    std::string mark;
    Length below;
    std::size_t setup = 0;
    Length deviation = one_inch / 16.0;
};

/// A strap that can be put on, between two marks.
struct RoofStrap {
    std::string name;
    std::string from;
    std::string to;
    std::optional<Length> most_shortening{};
};

/// How the roof may be pulled.
struct PullingPlan {
    EaveHold eaves = EaveHold::held;
    PullChoice choice = PullChoice::fewest_straps;
    std::vector<RoofStrap> straps{};          ///< none: both diagonals of every slope
    std::optional<Length> most_movement{};    ///< of any mark
    Length pull_deviation = one_inch / 16.0;  ///< of one pull done by its amount
};

/// A string along eave or ridge, on one side of the roof.
struct RoofString {
    std::string name;
    StringRun run;
    LineRule line = LineRule::ends_held;
};
/// Tails read from a string.
struct RoofTails {
    std::string name;
    TailRun run;
};
/// A purlin, or a row of chords, read under a string.
struct RoofPurlin {
    std::string name;
    PurlinRun run;
};
/// A wall's posts read with a level.
struct RoofWall {
    std::string name;
    PlumbWall wall;
};
/// Strings crossed over one slope, 0 the front.
struct RoofCrossing {
    std::size_t slope;
    CrossedStrings strings;
};

/// Everything that was read.
struct RoofReadings {
    std::vector<TapeError> tapes{TapeError{}};
    std::vector<RoofMark> marks{};
    std::vector<RoofDistance> distances{};
    std::vector<RoofOffset> offsets{};
    std::vector<RoofLevel> levels{};
    NetworkLevels odds{};
    std::optional<SquareRule> rule{};  ///< none: the description's own tolerance
    PullingPlan pulling{};
    TrimCover trim{};  ///< what trims hide where the roof is laid as it stands
    std::vector<RoofString> strings{};
    std::vector<RoofTails> tails{};
    std::vector<RoofPurlin> purlins{};
    std::vector<RoofWall> walls{};
    std::optional<PostLines> posts{};  ///< against their bay marks, as found
    std::vector<RoofCrossing> crossings{};
};

}  // namespace eavewright
