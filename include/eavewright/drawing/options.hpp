// SPDX-License-Identifier: BSL-1.0
#pragma once

// What a person may choose about a drawing.

#include <eavewright/fault.hpp>
#include <eavewright/units/tick.hpp>

#include <string>
#include <string_view>

namespace eavewright {

/// The caution that stands on every drawing.
inline constexpr std::string_view drawing_caution =
    "Preliminary. To be confirmed under the local code by a licensed professional before anyone builds from it.";

/// How a drawing is made. A drawing unit is a css pixel where the drawing is shown `page_width` pixels wide.
struct DrawingOptions {
    std::string title;
    Tick tick = Tick::of_inch(16);  ///< what figures are written to: feet and inches, or millimetres for a metric tick
    int page_width = 360;           ///< 240 to 4000 drawing units; 360 for a phone held upright, 720 for paper
    bool overview = true;           ///< the whole plane with its main figures
    bool marks = true;              ///< purlin marks at the left rake
    bool frames = true;             ///< frame lines at the eave and their spacing
    bool names = true;              ///< names of the sheets
    bool findings = true;           ///< findings, in the drawing and listed
    bool tables = true;             ///< pieces to cut, frame centres, marks at every frame
};

inline void find_faults(const DrawingOptions& options, const Path& path, Faults& faults) {
    if (options.page_width < 240 || options.page_width > 4000) {
        faults.push_back(Fault{FaultCode::out_of_range, Path{path, "page_width"}.text(),
                               std::to_string(options.page_width), "240 to 4000 drawing units"});
    }
}

}  // namespace eavewright
