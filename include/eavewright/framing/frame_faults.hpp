// SPDX-License-Identifier: BSL-1.0
#pragma once

// What is asked of frame lines that come in from elsewhere.

#include <eavewright/fault.hpp>
#include <eavewright/framing/frames.hpp>
#include <eavewright/units/length.hpp>

#include <cstddef>

namespace eavewright {

/// At least one frame; centres finite and ascending; a chord of 1/2 in to 24 in, a barge rafter or none.
inline void find_faults(const FrameLines& frames, const Path& path, Faults& faults) {
    const Length most = Length::from_inches(length_limit_in);
    require_within(frames.chord_width, Length::from_inches(0.5), Length::from_inches(24.0), Path{path, "chord_width"},
                   faults);
    require_within(frames.barge_width, no_length, Length::from_inches(24.0), Path{path, "barge_width"}, faults);
    const Path centres{path, "centres"};
    if (frames.centres.empty()) {
        faults.push_back(Fault{FaultCode::out_of_range, centres.text(), "no frames", "at least one frame"});
    }
    for (std::size_t i = 0; i < frames.centres.size(); ++i) {
        require_within(frames.centres[i], -most, most, Path{centres, i}, faults);
        if (i > 0 && !(frames.centres[i] > frames.centres[i - 1] + count_tolerance)) {
            faults.push_back(Fault{FaultCode::out_of_order, Path{centres, i}.text(), describe_length(frames.centres[i]),
                                   "past the frame before it"});
        }
    }
}

}  // namespace eavewright
