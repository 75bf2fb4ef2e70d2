// SPDX-License-Identifier: BSL-1.0
#pragma once

// The result of a whole roof as one JSON document: its format, version and units stated first.

#include <eavewright/field.hpp>
#include <eavewright/version.hpp>
#include <eavewright/whole_roof/result.hpp>
#include <eavewright/whole_roof/roof_order.hpp>
#include <eavewright/writing/json.hpp>

#include <optional>
#include <string>
#include <string_view>

namespace eavewright {

/// The document around a result.
struct ResultDocument {
    LengthUnit length_unit;
    RoofResult roof;
    std::optional<RoofOrder> order{};  ///< where it was asked for
};
template <>
struct FieldsOf<ResultDocument> {
    static constexpr auto list = field_list(
        field(
            "format", FieldUnit::none, "what this document is",
            +[](const ResultDocument&) { return std::string_view{"roof layout"}; }),
        field(
            "version", FieldUnit::count, "version of the fields; grows when fields are added",
            +[](const ResultDocument&) { return result_version; }),
        field(
            "made_by", FieldUnit::none, "library and its version",
            +[](const ResultDocument&) { return std::string{"eavewright "} + version_text; }),
        field("length_unit", FieldUnit::none, "unit of every length in this document", &ResultDocument::length_unit),
        field("roof", FieldUnit::none, "the roof", &ResultDocument::roof),
        field("order", FieldUnit::none, "what to buy, null where it was not asked for", &ResultDocument::order));
};

}  // namespace eavewright
