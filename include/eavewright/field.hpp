// SPDX-License-Identifier: BSL-1.0
#pragma once

// One field list a result: name, unit, meaning. JSON, its schema and every other face of a result read this list,
// so nothing about a result is written twice.

#include <eavewright/fault.hpp>

#include <array>
#include <cstddef>
#include <string>
#include <string_view>
#include <utility>

namespace eavewright {

/// What the number of a field counts in. A writer chooses inches or millimetres; the field only says "length".
enum class FieldUnit {
    none,    ///< text, names, nested results
    count,   ///< whole number
    length,  ///< inches or millimetres, as the document states
    area,    ///< square feet or square metres, as the document states
    angle,   ///< degrees
    ratio,   ///< pure number
};

/// One field of a result: `get` is a pointer to member, or a function of the result for what is made on request.
template <class Getter>
struct Field {
    std::string_view name;
    FieldUnit unit;
    std::string_view meaning;
    Getter get;
};

template <class Getter>
[[nodiscard]] constexpr Field<Getter> field(std::string_view name, FieldUnit unit, std::string_view meaning,
                                            Getter get) {
    return Field<Getter>{name, unit, meaning, get};
}

namespace detail {
template <std::size_t place, class Each>
struct FieldLeaf {
    Each field;
};
template <class Places, class... Each>
struct FieldLeaves;
/// Flat, where a tuple would be as deep as it is long: results have dozens of fields, and every header has a few results.
template <std::size_t... place, class... Each>
struct FieldLeaves<std::index_sequence<place...>, Each...> : FieldLeaf<place, Each>... {
    constexpr explicit FieldLeaves(Each... each) : FieldLeaf<place, Each>{each}... {}
    template <class Visit>
    constexpr void for_each(Visit&& visit) const {
        (visit(static_cast<const FieldLeaf<place, Each>&>(*this).field), ...);
    }
};
}  // namespace detail

/// Fields in their order.
template <class... Each>
using FieldList = detail::FieldLeaves<std::index_sequence_for<Each...>, Each...>;
template <class... Each>
[[nodiscard]] constexpr FieldList<Each...> field_list(Each... each) {
    return FieldList<Each...>{each...};
}

/// Specialised beside each result: `static constexpr auto list = field_list(field(...), ...);`
template <class Result>
struct FieldsOf;

template <class Result>
concept HasFields = requires {
    FieldsOf<Result>::list;
};

/// Specialised beside each closed list of names: `static constexpr std::array<std::string_view, N> list{...};`
/// in the order of the enumerators, which count from zero.
template <class Enumeration>
struct NamesOf;

template <class Enumeration>
concept HasNames = requires {
    NamesOf<Enumeration>::list;
};

/// The name of an enumerator as files and people write it.
template <HasNames Enumeration>
[[nodiscard]] constexpr std::string_view name_of(Enumeration value) {
    return NamesOf<Enumeration>::list[static_cast<std::size_t>(value)];
}

namespace detail {
/// Adds a fault unless `value` is one of its names: a stray number would be read past the end of a table.
template <HasNames Enumeration>
void require_named(Enumeration value, const Path& path, Faults& faults) {
    if (static_cast<std::size_t>(value) >= NamesOf<Enumeration>::list.size()) {
        faults.push_back(
            Fault{FaultCode::unknown_name, path.text(), std::to_string(static_cast<int>(value)), "one of the names"});
    }
}
/// The same at the door of a function: throws the fault.
template <HasNames Enumeration>
void require_named(Enumeration value, std::string_view name) {
    Faults faults;
    require_named(value, Path{name}, faults);
    if (!faults.empty()) {
        throw FaultError{std::move(faults[0])};
    }
}
}  // namespace detail

/// Calls `visit(field)` for every field of `Result`, in order.
template <HasFields Result, class Visit>
constexpr void for_each_field(Visit&& visit) {
    FieldsOf<Result>::list.for_each(visit);
}

}  // namespace eavewright
