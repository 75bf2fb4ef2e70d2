// SPDX-License-Identifier: BSL-1.0
#pragma once

// How a function refuses. Everything else in the library stands on this header.

// NaN and infinity are refused at every door, and a compiler that assumes they do not exist removes that check.
#if defined(__FAST_MATH__) || (defined(__FINITE_MATH_ONLY__) && __FINITE_MATH_ONLY__ > 0)
#error "eavewright refuses -ffast-math and -ffinite-math-only: they remove its checks for NaN and infinity"
#endif

#include <cstddef>
#include <exception>
#include <optional>
#include <string>
#include <string_view>
#include <utility>
#include <variant>
#include <vector>

namespace eavewright {

/// Closed, numbered list of reasons for refusing an input. Numbers never change and are never reused;
/// bindings in other languages show the same ones.
enum class FaultCode : int {
    // Text that does not read.
    empty_text = 101,       ///< nothing was written
    not_a_number = 102,     ///< digits were expected at this place
    missing_unit = 103,     ///< a number stands without its unit
    unknown_unit = 104,     ///< the letters are no unit of this quantity
    bad_fraction = 105,     ///< a fraction that no tape carries
    trailing_text = 106,    ///< something follows a complete value
    too_many_digits = 107,  ///< more digits than a double holds exactly
    ambiguous_text = 108,   ///< could be read in two ways
    // Single values.
    not_finite = 201,     ///< NaN or infinity
    out_of_range = 202,   ///< outside the range that is allowed
    too_much_work = 203,  ///< would make more pieces than the documented limit
    // The form of a description.
    missing_field = 301,    ///< a required field is absent
    unknown_field = 302,    ///< a field that the description does not have
    wrong_type = 303,       ///< text where a number belongs, and the like
    unknown_name = 304,     ///< not one of the listed names
    broken_document = 305,  ///< the document cannot be parsed
    // Values that contradict one another.
    out_of_order = 401,   ///< a list that must ascend does not
    does_not_fit = 402,   ///< one part is larger than the room for it
    contradiction = 403,  ///< two inputs cannot both hold
    not_supported = 404,  ///< well formed, but outside what this function lays out
};

/// The number of a fault code as it is shown to people and other languages.
[[nodiscard]] constexpr int number_of(FaultCode code) noexcept { return static_cast<int>(code); }

/// A half-open range of bytes in a text that was read: [begin, end).
struct TextSpan {
    std::size_t begin;
    std::size_t end;
};

/// One refused input: which, what was given, what is allowed.
struct Fault {
    FaultCode code;
    std::string path;                 ///< the input, e.g. "roof.pitch"; empty where a lone value was read
    std::string given;                ///< the value or the text as it was given
    std::string required;             ///< what would have been accepted
    std::optional<TextSpan> place{};  ///< where in `given` the fault sits, for text
};

/// One line for a person: input, value, what is allowed, number of the code.
[[nodiscard]] inline std::string describe(const Fault& fault) {
    std::string line = fault.path.empty() ? std::string{"input"} : fault.path;
    line += ": " + (fault.given.empty() ? std::string{"nothing"} : fault.given);
    if (fault.place) {
        line += " (at character " + std::to_string(fault.place->begin + 1) + ")";
    }
    line += "; required: " + fault.required;
    line += " [fault " + std::to_string(number_of(fault.code)) + "]";
    return line;
}

/// The one exception of the library. Carries the first fault found.
class [[gnu::visibility("default")]] FaultError : public std::exception {
public:
    explicit FaultError(Fault fault) : fault_{std::move(fault)}, text_{describe(fault_)} {}

    [[nodiscard]] const char* what() const noexcept override { return text_.c_str(); }
    [[nodiscard]] const Fault& fault() const noexcept { return fault_; }

private:
    Fault fault_;
    std::string text_;
};

/// A value that was read, or the fault that stopped the reading.
template <class T>
class Outcome {
public:
    Outcome(T value) : held_{std::move(value)} {}      // NOLINT(google-explicit-constructor): a value is an outcome
    Outcome(Fault fault) : held_{std::move(fault)} {}  // NOLINT(google-explicit-constructor): so is a fault

    [[nodiscard]] bool has_value() const noexcept { return held_.index() == 0; }
    [[nodiscard]] explicit operator bool() const noexcept { return has_value(); }

    /// The value; throws `FaultError` where there is none.
    [[nodiscard]] const T& value() const {
        if (const T* held = std::get_if<T>(&held_)) {
            return *held;
        }
        throw FaultError{fault()};
    }
    /// The fault; only where `has_value()` is false.
    [[nodiscard]] const Fault& fault() const { return std::get<Fault>(held_); }

private:
    std::variant<T, Fault> held_;
};

/// Where an input stands inside a description, spelled out only if a fault needs it: `Path{roof, "pitch"}`.
class Path {
public:
    constexpr explicit Path(std::string_view name) noexcept : name_{name} {}
    constexpr Path(const Path& parent, std::string_view name) noexcept : parent_{&parent}, name_{name} {}
    constexpr Path(const Path& parent, std::size_t index) noexcept : parent_{&parent}, index_{index}, is_index_{true} {}

    [[nodiscard]] std::string text() const {
        std::string before = parent_ != nullptr ? parent_->text() : std::string{};
        if (is_index_) {
            return before + "[" + std::to_string(index_) + "]";
        }
        if (before.empty() || name_.empty()) {
            return before + std::string{name_};
        }
        return before + "." + std::string{name_};
    }

private:
    const Path* parent_ = nullptr;
    std::string_view name_{};
    std::size_t index_ = 0;
    bool is_index_ = false;
};

/// Collects every fault of an input; functions that refuse throw the first one.
using Faults = std::vector<Fault>;

/// Every fault of `input` at once; empty where it is sound. Never throws a fault.
/// Each room gives its inputs a `find_faults(input, path, faults)`, found by argument-dependent look-up.
template <class Input>
[[nodiscard]] Faults check(const Input& input, std::string_view name = {}) {
    Faults faults;
    find_faults(input, Path{name}, faults);
    return faults;
}

/// The door of a public function: throws `FaultError` with the first fault of `input`, if it has one.
template <class Input>
void require_sound(const Input& input, std::string_view name) {
    Faults faults = check(input, name);
    if (!faults.empty()) {
        throw FaultError{std::move(faults.front())};
    }
}

}  // namespace eavewright
