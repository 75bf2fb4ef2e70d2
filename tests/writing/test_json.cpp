// SPDX-License-Identifier: BSL-1.0

// Results as JSON, read back by another library, and the schema beside them.

#include <eavewright/fastening/nails.hpp>
#include <eavewright/roof/shape.hpp>
#include <eavewright/tiling/tile_sheets.hpp>
#include <eavewright/writing/json.hpp>

#include "support/printing.hpp"

#include <doctest/doctest.h>
#include <nlohmann/json.hpp>

#include <algorithm>
#include <array>
#include <cmath>
#include <limits>
#include <optional>
#include <set>
#include <string>
#include <string_view>
#include <tuple>
#include <vector>

using namespace eavewright;
using namespace eavewright::literals;
using nlohmann::json;

namespace writing_tests {
enum class Colour { red, dark_green };
struct Inner {
    std::string text;
    Length length;
};
struct Everything {
    std::string text;
    std::string_view view;
    bool flag;
    int number;
    std::size_t count;
    Length length;
    Area area;
    Angle angle;
    Pitch pitch;
    double ratio;
    Colour colour;
    std::optional<Length> perhaps;
    std::optional<Inner> perhaps_inner;
    Inner inner;
    std::vector<Length> lengths;
    std::vector<Inner> inners;
    std::vector<std::vector<int>> table;
};
std::string made_name(const Everything& e) { return e.text + "!"; }
Everything everything() {
    return Everything{.text = "wall \"A\"",
                      .view = "view",
                      .flag = true,
                      .number = -7,
                      .count = 12,
                      .length = 10_in,
                      .area = 12_in * 24_in,
                      .angle = angle_from_degrees(18.5),
                      .pitch = Pitch::in_12(4),
                      .ratio = 0.1,
                      .colour = Colour::dark_green,
                      .perhaps = std::nullopt,
                      .perhaps_inner = std::nullopt,
                      .inner = {"in", 1_in},
                      .lengths = {1_in, 2.5_in},
                      .inners = {{"x", 1_in}, {"y", 2_in}},
                      .table = {{1, 2}, {}}};
}
struct Alone {
    double number;
};
}  // namespace writing_tests

namespace eavewright {
template <>
struct NamesOf<writing_tests::Colour> {
    static constexpr std::array<std::string_view, 2> list{"red", "dark_green"};
};
template <>
struct FieldsOf<writing_tests::Alone> {
    static constexpr auto list =
        field_list(field("number", FieldUnit::ratio, "a number", &writing_tests::Alone::number));
};
template <>
struct FieldsOf<writing_tests::Inner> {
    static constexpr auto list =
        field_list(field("text", FieldUnit::none, "some text", &writing_tests::Inner::text),
                   field("length", FieldUnit::length, "a length", &writing_tests::Inner::length));
};
template <>
struct FieldsOf<writing_tests::Everything> {
    using E = writing_tests::Everything;
    static constexpr auto list = field_list(
        field("text", FieldUnit::none, "text", &E::text), field("view", FieldUnit::none, "view", &E::view),
        field("name", FieldUnit::none, "made on request", &writing_tests::made_name),
        field("flag", FieldUnit::none, "flag", &E::flag), field("number", FieldUnit::count, "number", &E::number),
        field("count", FieldUnit::count, "count", &E::count), field("length", FieldUnit::length, "length", &E::length),
        field("area", FieldUnit::area, "area", &E::area), field("angle", FieldUnit::angle, "angle", &E::angle),
        field("pitch", FieldUnit::ratio, "pitch", &E::pitch), field("ratio", FieldUnit::ratio, "ratio", &E::ratio),
        field("colour", FieldUnit::none, "colour", &E::colour),
        field("perhaps", FieldUnit::length, "perhaps", &E::perhaps),
        field("perhaps_inner", FieldUnit::none, "perhaps inner", &E::perhaps_inner),
        field("inner", FieldUnit::none, "inner", &E::inner),
        field("lengths", FieldUnit::length, "lengths", &E::lengths),
        field("inners", FieldUnit::none, "inners", &E::inners), field("table", FieldUnit::count, "table", &E::table));
};
}  // namespace eavewright

using namespace writing_tests;

namespace {
/// Every object of `value` has exactly the properties that `schema` lists, of the type it says, all the way down.
void check_against(const json& value, const json& schema) {
    if (schema.contains("anyOf")) {
        check_against(value, value.is_null() ? schema["anyOf"][1] : schema["anyOf"][0]);
        return;
    }
    if (schema.contains("enum")) {
        CHECK(std::find(schema["enum"].begin(), schema["enum"].end(), value) != schema["enum"].end());
        return;
    }
    const std::string type = schema.at("type");
    CAPTURE(type);
    CAPTURE(value.dump().substr(0, 80));
    if (type == "object") {
        REQUIRE(value.is_object());
        std::set<std::string> required = schema.at("required");
        CHECK(schema.at("additionalProperties") == false);
        for (const auto& [name, part] : value.items()) {
            CHECK(required.erase(name) == 1);
            REQUIRE(schema.at("properties").contains(name));
            check_against(part, schema["properties"][name]);
        }
        CHECK(required.empty());
        CHECK(schema.at("properties").size() == value.size());
    } else if (type == "array") {
        REQUIRE(value.is_array());
        for (const json& item : value) {
            check_against(item, schema.at("items"));
        }
    } else if (type == "number") {
        CHECK(value.is_number());
    } else if (type == "integer") {
        CHECK(value.is_number_integer());
    } else if (type == "string") {
        CHECK(value.is_string());
    } else if (type == "boolean") {
        CHECK(value.is_boolean());
    } else {
        CHECK(type == "null");
        CHECK(value.is_null());
    }
}
std::string text_back(const std::string& text) {
    return json::parse(write_json(Inner{text, 1_in}, LengthUnit::inches)).at("text");
}
}  // namespace

TEST_CASE("every kind of field, read back") {
    const json read = json::parse(write_json(everything(), LengthUnit::inches));
    CHECK(read["text"] == "wall \"A\"");
    CHECK(read["view"] == "view");
    CHECK(read["name"] == "wall \"A\"!");
    CHECK(read["flag"] == true);
    CHECK(read["number"] == -7);
    CHECK(read["count"] == 12);
    CHECK(read["length"] == 10.0);
    CHECK(read["area"] == 2.0);
    CHECK(std::fabs(read["angle"].get<double>() - 18.5) < 1e-9);
    CHECK(read["pitch"] == 4.0);
    CHECK(read["ratio"] == 0.1);
    CHECK(read["colour"] == "dark_green");
    CHECK(read["perhaps"].is_null());
    CHECK(read["perhaps_inner"].is_null());
    CHECK(read["inner"]["text"] == "in");
    CHECK(read["lengths"] == json::parse("[1, 2.5]"));
    CHECK(read["inners"][1]["length"] == 2.0);
    CHECK(read["table"] == json::parse("[[1, 2], []]"));
    CHECK(read.size() == 18);
}

TEST_CASE("millimetres and square metres") {
    Everything e = everything();
    e.perhaps = 2400_mm;
    e.perhaps_inner = Inner{"there", 3_mm};
    const json read = json::parse(write_json(e, LengthUnit::millimetres));
    CHECK(read["length"] == 254.0);
    CHECK(std::fabs(read["area"].get<double>() - 0.18580608) < 0.51e-9);  // 2 sq ft, 0.09290304 each by definition
    CHECK(read["perhaps"] == 2400.0);
    CHECK(read["perhaps_inner"]["length"] == 3.0);
    CHECK(read["lengths"] == json::parse("[25.4, 63.5]"));
    CHECK(std::fabs(read["angle"].get<double>() - 18.5) < 1e-9);  // unit of length leaves it alone
}

TEST_CASE("fields stand in their listed order, flat objects on one line") {
    CHECK(write_json(Inner{"a", 1.5_in}, LengthUnit::inches) == R"({"text": "a", "length": 1.5})");
    const std::string all = write_json(everything(), LengthUnit::inches);
    CHECK(all.find("\"text\"") < all.find("\"view\""));
    CHECK(all.find("\"inners\"") < all.find("\"table\""));
    CHECK(all.find(R"({"text": "x", "length": 1})") != std::string::npos);
}

TEST_CASE("every length comes back within half of the last place") {
    for (const double inch : {0.0, 1.0 / 64.0, 100.0 / 3.0, 246.65765749, -12.125, 9999999.987654321}) {
        const Length length = one_inch * inch;
        const auto back = [&](LengthUnit unit) {
            return json::parse(write_json(Inner{"", length}, unit))["length"].get<double>();
        };
        CHECK(std::fabs(back(LengthUnit::inches) - inch) <= 0.51e-9);
        const double mm = millimetres(length);
        CHECK(std::fabs(back(LengthUnit::millimetres) - mm) <=
              0.51e-7 + std::fabs(mm) * 4e-16);  // and the double's own last place
    }
    // Every 64th is exact in 9 places of an inch.
    for (int n = 0; n < 640; ++n) {
        const json read = json::parse(write_json(Inner{"", one_inch * n / 64.0}, LengthUnit::inches));
        CHECK(read["length"].get<double>() == n / 64.0);
    }
}

TEST_CASE("text of any bytes stays JSON") {
    for (int code = 1; code < 128; ++code) {
        const std::string text = std::string{"a"} + static_cast<char>(code) + "b";
        CHECK(text_back(text) == text);
    }
    CHECK(text_back(std::string("nul\0inside", 10)) == std::string("nul\0inside", 10));
    CHECK(text_back("C:\\roof\\\"new\"\n\t") == "C:\\roof\\\"new\"\n\t");
    CHECK(text_back("20\xc3\x97"
                    "8 \xe2\x80\xb3 \xf0\x9f\x8f\xa0") ==
          "20\xc3\x97"
          "8 \xe2\x80\xb3 \xf0\x9f\x8f\xa0");
    // Not UTF-8: lone continuation, cut-off character, overlong slash, surrogate, past the last character.
    const std::string replacement = "\xef\xbf\xbd";
    CHECK(text_back("a\x80z") == "a" + replacement + "z");
    CHECK(text_back("a\xe2\x80") == "a" + replacement + replacement);
    CHECK(text_back("\xc0\xaf") == replacement + replacement);
    CHECK(text_back("\xed\xa0\x80") == replacement + replacement + replacement);
    CHECK(text_back("\xf5z") == replacement + "z");
    for (int first = 128; first < 256; ++first) {
        for (const char* rest : {"", "\x80", "\x90\x80", "\xbf\xbf\xbf", "zzz", "\xa0z"}) {
            const std::string text = std::string{static_cast<char>(first)} + rest;
            CHECK(json::accept(write_json(Inner{text, 1_in}, LengthUnit::inches)));
        }
    }
}

TEST_CASE("what is no number is null, never a wrong one") {
    const auto back = [](double number) {
        return json::parse(write_json(Alone{number}, LengthUnit::inches))["number"];
    };
    CHECK(back(std::numeric_limits<double>::quiet_NaN()).is_null());
    CHECK(back(std::numeric_limits<double>::infinity()).is_null());
    CHECK(back(1e300).is_null());
    CHECK(back(-9007199254740992.0).is_null());
    CHECK(back(9007199254740991.0) == 9007199254740991.0);
    CHECK(back(-0.0).dump() == "0");
    CHECK(back(1e-13) == 0);
}

TEST_CASE("the schema names every field, its type, its meaning and its unit") {
    const json schema = json::parse(write_json_schema<Everything>("every \"kind\""));
    CHECK(schema["$schema"] == "https://json-schema.org/draft/2020-12/schema");
    CHECK(schema["title"] == "every \"kind\"");
    for_each_field<Everything>([&](const auto& each) {
        const std::string name{each.name};
        CAPTURE(name);
        REQUIRE(schema["properties"].contains(name));
        const std::string description = schema["properties"][name]["description"];
        CHECK(description.rfind(std::string{each.meaning}, 0) == 0);
        if (each.unit == FieldUnit::length) {
            CHECK(description.find("length_unit") != std::string::npos);
        }
    });
    CHECK(schema["properties"].size() == 18);
    CHECK(schema["required"].size() == 18);
    CHECK(schema["properties"]["colour"]["enum"] == json::parse(R"(["red", "dark_green"])"));
    CHECK(schema["properties"]["perhaps"]["anyOf"][1]["type"] == "null");
    CHECK(schema["properties"]["angle"]["description"] == "angle (degrees)");
    CHECK(schema["properties"]["inners"]["items"]["properties"].contains("length"));
    Everything e = everything();
    check_against(json::parse(write_json(e, LengthUnit::inches)), schema);
    e.perhaps = 1_in;
    e.perhaps_inner = Inner{"there", 3_mm};
    e.inners.clear();
    check_against(json::parse(write_json(e, LengthUnit::millimetres)), schema);
}

TEST_CASE("heights, sheets and nails fit their schemas and carry their figures") {
    const RoofShape shape = gable({.width = 36_ft,
                                   .length = 60_ft,
                                   .pitch = Pitch::in_12(4),
                                   .eave_overhang = 18_in,
                                   .rake_overhang = 12_in,
                                   .build_up = {3.5_in},
                                   .bearing_height = 120_in,
                                   .heel = 6_in});
    const PurlinPlane& plane = shape.slopes[0].purlin;
    const PurlinRows rows = purlin_rows(plane, AtMost{24_in}, {.stock = {.lie = PurlinLie::on_edge}});
    const Sheets sheets = tile_sheets(plane, rows, {.sheet = {48_in, 96_in}, .stagger_spaces = 2});
    const NailCount nails = count_nails(sheets, rows, {.edge = 6_in, .field = 8_in});
    for (const LengthUnit unit : {LengthUnit::inches, LengthUnit::millimetres}) {
        check_against(json::parse(write_json(shape.heights, unit)),
                      json::parse(write_json_schema<RoofHeights>("heights")));
        check_against(json::parse(write_json(rows, unit)), json::parse(write_json_schema<PurlinRows>("rows")));
        check_against(json::parse(write_json(sheets, unit)), json::parse(write_json_schema<Sheets>("sheets")));
        check_against(json::parse(write_json(nails, unit)), json::parse(write_json_schema<NailCount>("nails")));
    }
    const json read = json::parse(write_json(sheets, LengthUnit::millimetres));
    REQUIRE(read["pieces"].size() == sheets.pieces.size());
    REQUIRE(read["joints"].size() == sheets.joints.size());
    REQUIRE(read["findings"].size() == sheets.findings.size());
    REQUIRE_FALSE(sheets.findings.empty());
    CHECK(read["run"] == "along_eave");
    CHECK(std::fabs(read["laid"].get<double>() - square_metres(sheets.laid)) < 0.51e-9);
    for (std::size_t i = 0; i < sheets.pieces.size(); ++i) {
        CHECK(read["pieces"][i]["name"] == piece_name(sheets.pieces[i]));
        CHECK(std::fabs(read["pieces"][i]["length"].get<double>() - millimetres(sheets.pieces[i].length)) < 0.51e-7);
        CHECK(read["pieces"][i]["outline"].size() == sheets.pieces[i].outline.size());
    }
    for (std::size_t i = 0; i < sheets.joints.size(); ++i) {
        CHECK(read["joints"][i]["support"].is_null() == !sheets.joints[i].support.has_value());
    }
    for (std::size_t i = 0; i < sheets.findings.size(); ++i) {
        CHECK(read["findings"][i]["code"] == name_of(sheets.findings[i].code));
        CHECK(read["findings"][i]["block"].is_null() == !sheets.findings[i].block.has_value());
    }
    CHECK(json::parse(write_json(nails, LengthUnit::inches))["total"] == nails.total);
}
