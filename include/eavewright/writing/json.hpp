// SPDX-License-Identifier: BSL-1.0
#pragma once

// Results as JSON, and the schema of that JSON, both read off the field lists.

#include <eavewright/field.hpp>
#include <eavewright/units/decimal.hpp>
#include <eavewright/units/length.hpp>
#include <eavewright/units/pitch.hpp>
#include <eavewright/units/quantities.hpp>

#include <array>
#include <cmath>
#include <concepts>
#include <cstddef>
#include <functional>
#include <optional>
#include <string>
#include <string_view>
#include <type_traits>
#include <utility>
#include <vector>

namespace eavewright {

/// The unit that lengths are written in; areas follow (square feet or square metres).
enum class LengthUnit { inches, millimetres };
template <>
struct NamesOf<LengthUnit> {
    static constexpr std::array<std::string_view, 2> list{"in", "mm"};
};

namespace detail {

template <class T>
struct IsVector : std::false_type {};
template <class T>
struct IsVector<std::vector<T>> : std::true_type {
    using Element = T;
};
template <class T>
struct IsOptional : std::false_type {};
template <class T>
struct IsOptional<std::optional<T>> : std::true_type {
    using Element = T;
};
template <class T>
inline constexpr bool is_text = std::is_same_v<T, std::string> || std::is_same_v<T, std::string_view>;

/// What a field of a result holds.
template <class Result, class Getter>
using FieldValue = std::remove_cvref_t<std::invoke_result_t<const Getter&, const Result&>>;

/// Bytes of the well-formed UTF-8 character that `text` starts with (Unicode Standard, table 3-7); 0 where there is none.
[[nodiscard]] inline std::size_t utf8_length(std::string_view text) {
    const auto byte = [&](std::size_t i) { return i < text.size() ? static_cast<unsigned char>(text[i]) : 0U; };
    const unsigned first = byte(0);
    if (first < 0x80U) {
        return 1;
    }
    const std::size_t length = first >= 0xf0U ? 4 : first >= 0xe0U ? 3 : 2;
    if (first < 0xc2U || first > 0xf4U) {
        return 0;
    }
    const unsigned lowest = first == 0xe0U ? 0xa0U : first == 0xf0U ? 0x90U : 0x80U;  // no longer form than needed
    const unsigned highest = first == 0xedU   ? 0x9fU
                             : first == 0xf4U ? 0x8fU
                                              : 0xbfU;  // no surrogates, none past U+10FFFF
    if (byte(1) < lowest || byte(1) > highest) {
        return 0;
    }
    for (std::size_t i = 2; i < length; ++i) {
        if ((byte(i) & 0xc0U) != 0x80U) {
            return 0;
        }
    }
    return length;
}

/// `text` quoted. A byte that is no UTF-8 is written as U+FFFD, since a document with it would be no JSON.
[[nodiscard]] inline std::string json_text(std::string_view text) {
    std::string out = "\"";
    for (std::size_t i = 0; i < text.size();) {
        const std::size_t length = utf8_length(text.substr(i));
        if (length != 1) {
            out += length == 0 ? std::string_view{"\xef\xbf\xbd"} : text.substr(i, length);
            i += length == 0 ? 1 : length;
            continue;
        }
        const char c = text[i];
        ++i;
        const auto code = static_cast<unsigned char>(c);
        if (c == '"' || c == '\\') {
            out += '\\';
            out += c;
        } else if (code < 0x20U) {
            constexpr std::string_view digits = "0123456789abcdef";
            out += "\\u00";
            out += digits[code / 16U];
            out += digits[code % 16U];
        } else {
            out += c;
        }
    }
    return out + "\"";
}

/// JSON has no NaN or infinity; sound results hold none, and a broken one shows null instead of a wrong number. So does
/// one past 2^53, where `write_decimal` has no digits.
[[nodiscard]] inline std::string json_number(double value, int places) {
    return std::fabs(value) < 9007199254740992.0 ? write_decimal(value, places) : std::string{"null"};
}

class JsonWriter {
public:
    explicit JsonWriter(LengthUnit unit) : unit_{unit} {}

    template <class T>
    void write(const T& value) {
        if constexpr (std::is_same_v<T, bool>) {
            out_ += value ? "true" : "false";
        } else if constexpr (std::is_same_v<T, Length>) {
            out_ += unit_ == LengthUnit::inches ? json_number(inches(value), 9) : json_number(millimetres(value), 7);
        } else if constexpr (std::is_same_v<T, Area>) {
            out_ += json_number(unit_ == LengthUnit::inches ? square_feet(value) : square_metres(value), 9);
        } else if constexpr (std::is_same_v<T, Angle>) {
            out_ += json_number(degrees(value), 9);
        } else if constexpr (std::is_same_v<T, Pitch>) {
            out_ += json_number(value.rise_in_12(), 9);
        } else if constexpr (std::integral<T>) {
            out_ += std::to_string(value);
        } else if constexpr (std::floating_point<T>) {
            out_ += json_number(value, 12);
        } else if constexpr (is_text<T>) {
            out_ += json_text(value);
        } else if constexpr (HasNames<T>) {
            out_ += json_text(name_of(value));
        } else if constexpr (IsOptional<T>::value) {
            if (value) {
                write(*value);
            } else {
                out_ += "null";
            }
        } else if constexpr (IsVector<T>::value) {
            write_list(value);
        } else {
            write_object(value);
        }
    }
    [[nodiscard]] std::string take() { return std::move(out_); }

private:
    template <class T>
    void write_list(const std::vector<T>& list) {
        constexpr bool deep = !is_flat<T>();
        out_ += '[';
        indent_ += deep ? 2 : 0;
        for (std::size_t i = 0; i < list.size(); ++i) {
            out_ += i > 0 ? (deep ? "," : ", ") : "";
            if (deep) {
                new_line();
            }
            write(list[i]);
        }
        indent_ -= deep ? 2 : 0;
        if (deep && !list.empty()) {
            new_line();
        }
        out_ += ']';
    }
    /// An object of plain numbers and names stands on one line; others open up.
    template <HasFields T>
    void write_object(const T& result) {
        constexpr bool deep = !is_flat<T>();
        out_ += '{';
        indent_ += deep ? 2 : 0;
        bool first = true;
        for_each_field<T>([&](const auto& each) {
            out_ += first ? "" : (deep ? "," : ", ");
            if (deep) {
                new_line();
            }
            first = false;
            out_ += json_text(each.name) + ": ";
            write(std::invoke(each.get, result));
        });
        indent_ -= deep ? 2 : 0;
        if (deep) {
            new_line();
        }
        out_ += '}';
    }
    template <class T>
    [[nodiscard]] static constexpr bool is_flat() {
        bool flat = true;
        if constexpr (HasFields<T>) {
            for_each_field<T>([&](const auto& each) {
                using Value = FieldValue<T, decltype(each.get)>;
                flat = flat && !HasFields<Value> && !IsVector<Value>::value && !IsOptional<Value>::value;
            });
        }
        return flat;
    }
    void new_line() {
        out_ += '\n';
        out_.append(indent_, ' ');
    }

    LengthUnit unit_;
    std::string out_;
    std::size_t indent_ = 0;
};

class SchemaWriter {
public:
    template <class T>
    [[nodiscard]] static std::string type_of(FieldUnit unit, std::string_view meaning) {
        std::string text = "{";
        if constexpr (std::is_same_v<T, bool>) {
            text += R"("type": "boolean")";
        } else if constexpr (std::integral<T>) {
            text += R"("type": "integer")";
        } else if constexpr (std::floating_point<T> || std::is_same_v<T, Length> || std::is_same_v<T, Area> ||
                             std::is_same_v<T, Angle> || std::is_same_v<T, Pitch>) {
            text += R"("type": "number")";
        } else if constexpr (is_text<T>) {
            text += R"("type": "string")";
        } else if constexpr (HasNames<T>) {
            text += R"("enum": [)";
            for (std::size_t i = 0; i < NamesOf<T>::list.size(); ++i) {
                text += i > 0 ? ", " : "";
                text += json_text(NamesOf<T>::list[i]);
            }
            text += "]";
        } else if constexpr (IsOptional<T>::value) {
            using Element = typename IsOptional<T>::Element;
            text += R"("anyOf": [)" + type_of<Element>(unit, {}) + R"(, {"type": "null"}])";
        } else if constexpr (IsVector<T>::value) {
            using Element = typename IsVector<T>::Element;
            text += R"("type": "array", "items": )" + type_of<Element>(unit, {});
        } else {
            text += object_of<T>();
        }
        text += describe(unit, meaning);
        return text + "}";
    }
    /// The inside of an object's schema.
    template <HasFields T>
    [[nodiscard]] static std::string object_of() {
        std::string properties;
        std::string required;
        for_each_field<T>([&](const auto& each) {
            using Value = FieldValue<T, decltype(each.get)>;
            const std::string comma = properties.empty() ? "" : ", ";
            properties += comma + json_text(each.name) + ": " + type_of<Value>(each.unit, each.meaning);
            required += comma + json_text(each.name);
        });
        return R"("type": "object", "additionalProperties": false, "properties": {)" + properties +
               R"(}, "required": [)" + required + "]";
    }

private:
    [[nodiscard]] static std::string describe(FieldUnit unit, std::string_view meaning) {
        if (meaning.empty()) {
            return {};
        }
        std::string text{meaning};
        switch (unit) {
            case FieldUnit::length: text += " (in the document's length_unit)"; break;
            case FieldUnit::area: text += " (square feet where length_unit is in, square metres where it is mm)"; break;
            case FieldUnit::angle: text += " (degrees)"; break;
            default: break;
        }
        return R"(, "description": )" + json_text(text);
    }
};
}  // namespace detail

/// `result` as a JSON object, fields in their listed order, lengths in `unit`. Lengths carry 9 decimals of an inch
/// or 7 of a millimetre.
template <HasFields Result>
[[nodiscard]] std::string write_json(const Result& result, LengthUnit unit) {
    detail::JsonWriter writer{unit};
    writer.write(result);
    return writer.take();
}

/// The JSON Schema (2020-12) of `write_json<Result>`, on one line.
template <HasFields Result>
[[nodiscard]] std::string write_json_schema(std::string_view title) {
    return R"({"$schema": "https://json-schema.org/draft/2020-12/schema", "title": )" + detail::json_text(title) +
           ", " + detail::SchemaWriter::object_of<Result>() + "}";
}

}  // namespace eavewright
