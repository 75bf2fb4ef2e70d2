// SPDX-License-Identifier: BSL-1.0
#pragma once

// What a call refuses, and lengths that no call may let in.

#include <eavewright/fault.hpp>
#include <eavewright/units/length.hpp>

#include <vector>

/// The fault that `action` throws, or one with the path "no fault".
template <class Action>
eavewright::Fault refusal_of(Action&& action) {
    try {
        action();
    } catch (const eavewright::FaultError& error) {
        return error.fault();
    }
    return eavewright::Fault{eavewright::FaultCode{}, "no fault", "", ""};
}

/// NaN and both infinities, as arithmetic on lengths can make them.
inline std::vector<eavewright::Length> lengths_that_are_none() {
    using eavewright::one_inch;
    return {(one_inch - one_inch) / 0.0, one_inch / 0.0, -one_inch / 0.0};
}
