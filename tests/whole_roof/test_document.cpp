// SPDX-License-Identifier: BSL-1.0

// The result's JSON, held against its schema and against the result, through a general-purpose JSON library.

#include "../support/compiled.hpp"
#include "workshop.hpp"

#include <eavewright/whole_roof.hpp>

#include <doctest/doctest.h>
#include <nlohmann/json.hpp>

#include <cmath>
#include <string>

using namespace eavewright;
using namespace eavewright::literals;
using nlohmann::json;

namespace {
bool is_of_type(const json& value, const std::string& type) {
    return (type == "object" && value.is_object()) || (type == "array" && value.is_array()) ||
           (type == "string" && value.is_string()) || (type == "integer" && value.is_number_integer()) ||
           (type == "number" && value.is_number()) || (type == "boolean" && value.is_boolean()) ||
           (type == "null" && value.is_null());
}

/// The part of JSON Schema 2020-12 that the library writes. Returns the first place that does not fit, or nothing.
std::string misfit(const json& schema, const json& value, const std::string& at) {
    if (schema.contains("anyOf")) {
        for (const json& one : schema["anyOf"]) {
            if (misfit(one, value, at).empty()) {
                return {};
            }
        }
        return at + ": none of the alternatives";
    }
    if (schema.contains("enum")) {
        for (const json& one : schema["enum"]) {
            if (one == value) {
                return {};
            }
        }
        return at + ": not one of the names";
    }
    if (!is_of_type(value, schema.at("type"))) {
        return at + ": not " + schema.at("type").get<std::string>();
    }
    for (std::size_t i = 0; value.is_array() && i < value.size(); ++i) {
        if (const std::string inner = misfit(schema.at("items"), value[i], at + "[" + std::to_string(i) + "]");
            !inner.empty()) {
            return inner;
        }
    }
    if (!value.is_object()) {
        return {};
    }
    for (const json& name : schema.at("required")) {
        if (!value.contains(name.get<std::string>())) {
            return at + ": lacks " + name.get<std::string>();
        }
    }
    for (const auto& item : value.items()) {
        if (!schema.at("properties").contains(item.key())) {
            return at + ": has " + item.key();
        }
        if (const std::string inner = misfit(schema["properties"][item.key()], item.value(), at + "." + item.key());
            !inner.empty()) {
            return inner;
        }
    }
    return {};
}

RoofDescription measured_workshop() {
    RoofDescription roof = workshop();
    const FourSides sides{.eave = 62_ft,
                          .ridge = 62_ft,
                          .left = 246.625_in,
                          .right = 246.75_in,
                          .up_right = 784_in,
                          .up_left = 783.625_in};
    roof.as_built = {SlopeAsBuilt{.sides = sides}, SlopeAsBuilt{.sides = sides}};
    roof.deck->sheets.stagger_spaces = 2;  // so that there are findings, with and without blocks
    roof.deck->sheets.sheet.length = 2400_mm;
    return roof;
}
}  // namespace

TEST_CASE("document: fits its schema, in inches and in millimetres") {
    const json schema = json::parse(write_json_schema<ResultDocument>("Layout of a roof"));
    for (const LengthUnit unit : {LengthUnit::inches, LengthUnit::millimetres}) {
        for (const RoofDescription& roof : {workshop(), measured_workshop()}) {
            const json document = json::parse(write_json(ResultDocument{unit, compiled::whole_roof(roof)}, unit));
            CHECK(misfit(schema, document, "document") == "");
        }
    }
}

TEST_CASE("document: the schema check itself can fail") {
    const json schema = json::parse(write_json_schema<ResultDocument>("Layout of a roof"));
    json document = json::parse(
        write_json(ResultDocument{LengthUnit::inches, compiled::whole_roof(workshop())}, LengthUnit::inches));
    document["roof"].erase("nails");
    CHECK(misfit(schema, document, "document") == "document.roof: lacks nails");
    document["roof"]["nails"] = "many";
    CHECK(misfit(schema, document, "document") == "document.roof.nails: not integer");
}

TEST_CASE("document: holds the figures of the result in the unit it states") {
    const RoofResult roof = compiled::whole_roof(workshop());
    for (const LengthUnit unit : {LengthUnit::inches, LengthUnit::millimetres}) {
        const json document = json::parse(write_json(ResultDocument{unit, roof}, unit));
        const bool metric = unit == LengthUnit::millimetres;
        CHECK(document["length_unit"] == (metric ? "mm" : "in"));
        CHECK(document["format"] == "roof layout");
        const double slope = document["roof"]["slopes"][0]["slope_length"];
        CHECK(std::fabs(slope - (metric ? millimetres(roof.slopes[0].slope_length)
                                        : inches(roof.slopes[0].slope_length))) < 1e-7);
        const double area = document["roof"]["roof_area"];
        CHECK(std::fabs(area - (metric ? square_metres(roof.roof_area) : square_feet(roof.roof_area))) < 1e-8);
        CHECK(document["roof"]["nails"] == roof.nails);
        CHECK(document["roof"]["slopes"][0]["sheets"]["pieces"].size() == roof.slopes[0].sheets.pieces.size());
        CHECK(document["roof"]["slopes"][0]["sheets"]["pieces"][0]["name"] == "A1");
    }
}
