// SPDX-License-Identifier: BSL-1.0
#pragma once

// Fields of a JSON object, taken one by one; what is wrong is collected, what is left over is named.

#include <eavewright/fault.hpp>
#include <eavewright/field.hpp>
#include <eavewright/units/length.hpp>
#include <eavewright/units/pitch.hpp>
#include <eavewright/units/tick.hpp>

#include <nlohmann/json.hpp>

#include <cstddef>
#include <initializer_list>
#include <optional>
#include <set>
#include <string>
#include <string_view>
#include <vector>

/// The document, or nothing and a fault: broken JSON with the line and column, a name that stands twice in an object.
[[nodiscard]] std::optional<nlohmann::json> parse_json(const std::string& text, eavewright::Faults& faults);

/// One object of the document. Each reader takes a field, or adds a fault and hands back the stand-in.
class JsonFields {
public:
    JsonFields(const nlohmann::json& value, const eavewright::Path& path, eavewright::Faults& faults);

    [[nodiscard]] bool has(const std::string& key);

    [[nodiscard]] eavewright::Length length(const std::string& key, eavewright::Length stand_in);
    [[nodiscard]] eavewright::Length length_or(const std::string& key, eavewright::Length value);
    [[nodiscard]] std::vector<eavewright::Length> lengths(const std::string& key);
    /// A list whose items are a length or a list of lengths.
    [[nodiscard]] std::vector<std::vector<eavewright::Length>> rows_of_lengths(const std::string& key);
    [[nodiscard]] eavewright::Pitch pitch(const std::string& key, eavewright::Pitch stand_in);
    /// "1/16 in" or "1 mm"; 1/16 in where the field is absent.
    [[nodiscard]] eavewright::Tick tick(const std::string& key);
    [[nodiscard]] std::string text(const std::string& key);
    [[nodiscard]] int whole(const std::string& key, int stand_in);
    [[nodiscard]] int whole_or(const std::string& key, int value);
    [[nodiscard]] std::vector<int> wholes_or_none(const std::string& key);
    [[nodiscard]] double number(const std::string& key, double stand_in);
    [[nodiscard]] double number_or(const std::string& key, double value);
    [[nodiscard]] bool flag_or(const std::string& key, bool value);
    /// Index of the text in `names`.
    [[nodiscard]] int choice(const std::string& key, std::initializer_list<std::string_view> names);
    /// Index of the one field of `keys` that is there; -1 and a fault where none is, or several are.
    [[nodiscard]] int one_of(std::initializer_list<std::string_view> keys);

    template <eavewright::HasNames Enumeration>
    [[nodiscard]] Enumeration name(const std::string& key, Enumeration stand_in) {
        const std::vector<std::string_view> names(eavewright::NamesOf<Enumeration>::list.begin(),
                                                  eavewright::NamesOf<Enumeration>::list.end());
        const int found = find_name(key, names);
        return found < 0 ? stand_in : static_cast<Enumeration>(found);
    }
    template <eavewright::HasNames Enumeration>
    [[nodiscard]] Enumeration name_or(const std::string& key, Enumeration value) {
        return has(key) ? name(key, value) : value;
    }

    /// The object under `key`; an empty one, and a fault, where it is missing.
    [[nodiscard]] JsonFields object(const std::string& key);
    [[nodiscard]] std::optional<JsonFields> object_or_none(const std::string& key);
    [[nodiscard]] std::vector<JsonFields> objects_or_none(const std::string& key);

    /// The field must hold exactly this.
    void expect(const std::string& key, const nlohmann::json& value);
    void refuse(const std::string& key, const std::string& given, const std::string& required);
    /// Adds a fault for every field that nobody asked for.
    void finish();

private:
    JsonFields(const nlohmann::json& value, std::string path, eavewright::Faults& faults);

    [[nodiscard]] const nlohmann::json* take(const std::string& key, const char* required);
    [[nodiscard]] std::string path_of(const std::string& key) const;
    [[nodiscard]] int find_name(const std::string& key, const std::vector<std::string_view>& names);
    [[nodiscard]] eavewright::Length read_one(const nlohmann::json& value, const std::string& path,
                                              eavewright::Length stand_in);
    void text_fault(eavewright::Fault refused, const std::string& path);
    void fault(eavewright::FaultCode code, const std::string& path, const std::string& given,
               const std::string& required);

    const nlohmann::json* value_;
    std::string path_;
    eavewright::Faults* faults_;
    std::set<std::string> known_;  ///< every name that was asked for
    bool missing_ = false;         ///< stands for an object that is not there: its fields are not missed one by one
};
