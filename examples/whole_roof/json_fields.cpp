// SPDX-License-Identifier: BSL-1.0
#include "json_fields.hpp"

#include <eavewright/units/read_pitch.hpp>
#include <eavewright/units/read_tape.hpp>

#include <cmath>
#include <memory>
#include <utility>

using namespace eavewright;
using nlohmann::json;

namespace {
constexpr const char* length_text = "a length with its unit as text, such as \"12' 6-1/2\\\"\" or \"3810 mm\"";

/// No description nests deeper; a document that does would overflow the stack of whoever prints it.
constexpr int deepest_nesting = 16;

/// What the parser alone lets pass: names that stand twice in one object, of which it would keep the last in silence,
/// and nesting without end.
class DocumentGuard {
public:
    explicit DocumentGuard(Faults& faults) : faults_{&faults} {}

    bool operator()(int depth, json::parse_event_t event, json& parsed) {
        if (depth > deepest_nesting) {
            if (!too_deep_) {
                faults_->push_back({FaultCode::broken_document, "file",
                                    "nesting deeper than " + std::to_string(deepest_nesting),
                                    "objects and lists nested at most " + std::to_string(deepest_nesting) + " deep"});
            }
            too_deep_ = true;
            return false;
        }
        if (event == json::parse_event_t::object_start) {
            open_.emplace_back();
        } else if (event == json::parse_event_t::object_end) {
            open_.pop_back();
        } else if (event == json::parse_event_t::key && !open_.back().insert(parsed.get<std::string>()).second) {
            faults_->push_back({FaultCode::contradiction, parsed.get<std::string>(), "the field twice in one object",
                                "each field once"});
        }
        return true;
    }
    [[nodiscard]] bool too_deep() const { return too_deep_; }

private:
    Faults* faults_;
    std::vector<std::set<std::string>> open_;
    bool too_deep_ = false;
};

[[nodiscard]] std::string place_of(const std::string& text, std::size_t byte) {
    std::size_t line = 1;
    std::size_t column = 1;
    for (std::size_t i = 0; i + 1 < byte && i < text.size(); ++i) {
        column = text[i] == '\n' ? 1U : column + 1U;
        line += text[i] == '\n' ? 1U : 0U;
    }
    return "line " + std::to_string(line) + ", column " + std::to_string(column);
}

[[nodiscard]] std::string shown(const json& value) {
    const std::string text = value.dump(-1, ' ', false, json::error_handler_t::replace);
    return text.size() > 60 ? text.substr(0, 57) + "..." : text;
}
}  // namespace

std::optional<json> parse_json(const std::string& text, Faults& faults) {
    try {
        const auto guard = std::make_shared<DocumentGuard>(faults);
        json document = json::parse(text, [guard](int depth, json::parse_event_t event, json& parsed) {
            return (*guard)(depth, event, parsed);
        });
        if (guard->too_deep()) {
            return std::nullopt;
        }
        if (document.is_object()) {
            return document;
        }
        faults.push_back({FaultCode::wrong_type, "file", shown(document), "one JSON object"});
    } catch (const json::out_of_range&) {
        faults.push_back({FaultCode::out_of_range, "file", "a number past the range of a double",
                          "numbers within the range of a double"});
    } catch (const json::parse_error& error) {
        faults.push_back({FaultCode::broken_document, "file",
                          "JSON broken at " + place_of(text, static_cast<std::size_t>(error.byte)),
                          "a whole JSON document"});
    }
    return std::nullopt;
}

JsonFields::JsonFields(const json& value, const Path& path, Faults& faults) : JsonFields{value, path.text(), faults} {}

JsonFields::JsonFields(const json& value, std::string path, Faults& faults)
    : value_{&value}, path_{std::move(path)}, faults_{&faults} {
    static const json nothing = json::object();
    if (!value.is_object()) {
        fault(FaultCode::wrong_type, path_, shown(value), "an object of fields");
        value_ = &nothing;
        missing_ = true;
    }
}

std::string JsonFields::path_of(const std::string& key) const { return path_.empty() ? key : path_ + "." + key; }

void JsonFields::fault(FaultCode code, const std::string& path, const std::string& given, const std::string& required) {
    faults_->push_back({code, path, given, required});
}
/// A fault of text that was read, its text shown in quotes.
void JsonFields::text_fault(Fault refused, const std::string& path) {
    refused.path = path;
    refused.given = "\"" + refused.given + "\"";
    if (refused.place) {
        refused.place->begin += 1;  // for the quote that now stands before it
        refused.place->end += 1;
    }
    faults_->push_back(std::move(refused));
}
void JsonFields::refuse(const std::string& key, const std::string& given, const std::string& required) {
    fault(FaultCode::out_of_range, path_of(key), given, required);
}

bool JsonFields::has(const std::string& key) {
    known_.insert(key);
    return value_->contains(key);
}

const json* JsonFields::take(const std::string& key, const char* required) {
    if (has(key)) {
        return &(*value_)[key];
    }
    if (!missing_) {
        fault(FaultCode::missing_field, path_of(key), "", required);
    }
    return nullptr;
}

Length JsonFields::read_one(const json& value, const std::string& path, Length stand_in) {
    if (!value.is_string()) {
        fault(FaultCode::wrong_type, path, shown(value), length_text);
        return stand_in;
    }
    const Outcome<Length> read = read_length(value.get<std::string>());
    if (read) {
        return read.value();
    }
    text_fault(read.fault(), path);
    return stand_in;
}

Length JsonFields::length(const std::string& key, Length stand_in) {
    const json* value = take(key, length_text);
    return value == nullptr ? stand_in : read_one(*value, path_of(key), stand_in);
}
Length JsonFields::length_or(const std::string& key, Length value) { return has(key) ? length(key, value) : value; }

std::vector<Length> JsonFields::lengths(const std::string& key) {
    std::vector<Length> list;
    for (std::vector<Length>& row : rows_of_lengths(key)) {
        if (row.size() == 1) {
            list.push_back(row.front());
        } else {
            fault(FaultCode::wrong_type, path_of(key), "a list within the list", "a list of lengths");
        }
    }
    return list;
}

std::vector<std::vector<Length>> JsonFields::rows_of_lengths(const std::string& key) {
    std::vector<std::vector<Length>> rows;
    const json* value = take(key, "a list of lengths");
    if (value != nullptr && !value->is_array()) {
        fault(FaultCode::wrong_type, path_of(key), shown(*value), "a list of lengths");
        return rows;
    }
    for (std::size_t i = 0; value != nullptr && i < value->size(); ++i) {
        const json& item = (*value)[i];
        const std::string path = path_of(key) + "[" + std::to_string(i) + "]";
        const Length stand_in = one_inch * static_cast<double>(i + 1);
        std::vector<Length> row;
        if (item.is_array()) {
            for (std::size_t k = 0; k < item.size(); ++k) {
                row.push_back(read_one(item[k], path + "[" + std::to_string(k) + "]", stand_in));
            }
        } else {
            row.push_back(read_one(item, path, stand_in));
        }
        rows.push_back(row);
    }
    return rows;
}

Pitch JsonFields::pitch(const std::string& key, Pitch stand_in) {
    const json* value = take(key, "a pitch as text, such as \"4:12\" or \"18.43 deg\"");
    if (value == nullptr) {
        return stand_in;
    }
    if (!value->is_string()) {
        fault(FaultCode::wrong_type, path_of(key), shown(*value), "a pitch as text, such as \"4:12\" or \"18.43 deg\"");
        return stand_in;
    }
    const Outcome<Pitch> read = read_pitch(value->get<std::string>());
    if (read) {
        return read.value();
    }
    text_fault(read.fault(), path_of(key));
    return stand_in;
}

Tick JsonFields::tick(const std::string& key) {
    const Tick usual = Tick::of_inch(16);
    if (!has(key)) {
        return usual;
    }
    const Length step = length(key, usual.step());
    for (const int denominator : {1, 2, 4, 8, 16, 32, 64}) {
        if (step == Tick::of_inch(denominator).step()) {
            return Tick::of_inch(denominator);
        }
    }
    for (const int mm : {1, 2, 5, 10}) {
        if (step == Tick::of_millimetres(mm).step()) {
            return Tick::of_millimetres(mm);
        }
    }
    refuse(key, shown((*value_)[key]), "1 in, 1/2 in to 1/64 in, or 1, 2, 5 or 10 mm");
    return usual;
}

std::string JsonFields::text(const std::string& key) {
    const json* value = take(key, "text");
    if (value != nullptr && !value->is_string()) {
        fault(FaultCode::wrong_type, path_of(key), shown(*value), "text");
        return {};
    }
    return value == nullptr ? std::string{} : value->get<std::string>();
}

int JsonFields::whole(const std::string& key, int stand_in) {
    const json* value = take(key, "a whole number");
    if (value == nullptr) {
        return stand_in;
    }
    if (!value->is_number_integer() || value->get<double>() < -1e6 || value->get<double>() > 1e6) {
        fault(FaultCode::wrong_type, path_of(key), shown(*value), "a whole number");
        return stand_in;
    }
    return value->get<int>();
}
int JsonFields::whole_or(const std::string& key, int value) { return has(key) ? whole(key, value) : value; }

std::vector<int> JsonFields::wholes_or_none(const std::string& key) {
    std::vector<int> list;
    if (!has(key)) {
        return list;
    }
    const json& value = (*value_)[key];
    for (std::size_t i = 0; value.is_array() && i < value.size(); ++i) {
        if (value[i].is_number_integer() && std::fabs(value[i].get<double>()) < 1e6) {
            list.push_back(value[i].get<int>());
        } else {
            fault(FaultCode::wrong_type, path_of(key) + "[" + std::to_string(i) + "]", shown(value[i]),
                  "a whole number");
        }
    }
    if (!value.is_array()) {
        fault(FaultCode::wrong_type, path_of(key), shown(value), "a list of whole numbers");
    }
    return list;
}

double JsonFields::number(const std::string& key, double stand_in) {
    const json* given = take(key, "a number");
    if (given != nullptr && !given->is_number()) {
        fault(FaultCode::wrong_type, path_of(key), shown(*given), "a number");
        return stand_in;
    }
    return given == nullptr ? stand_in : given->get<double>();
}
double JsonFields::number_or(const std::string& key, double value) { return has(key) ? number(key, value) : value; }

bool JsonFields::flag_or(const std::string& key, bool value) {
    if (!has(key)) {
        return value;
    }
    const json& given = (*value_)[key];
    if (!given.is_boolean()) {
        fault(FaultCode::wrong_type, path_of(key), shown(given), "true or false");
        return value;
    }
    return given.get<bool>();
}

int JsonFields::find_name(const std::string& key, const std::vector<std::string_view>& names) {
    std::string required = "one of";
    for (const std::string_view each : names) {
        required += each == names.front() ? " " : ", ";
        required += std::string{each};
    }
    const json* value = take(key, required.c_str());
    if (value == nullptr) {
        return -1;
    }
    for (std::size_t i = 0; i < names.size(); ++i) {
        if (value->is_string() && value->get<std::string>() == names[i]) {
            return static_cast<int>(i);
        }
    }
    fault(value->is_string() ? FaultCode::unknown_name : FaultCode::wrong_type, path_of(key), shown(*value), required);
    return -1;
}
int JsonFields::choice(const std::string& key, std::initializer_list<std::string_view> names) {
    return find_name(key, names);
}

int JsonFields::one_of(std::initializer_list<std::string_view> keys) {
    int found = -1;
    int count = 0;
    int index = 0;
    std::string list;
    for (const std::string_view key : keys) {
        const std::string name{key};
        if (has(name)) {
            found = index;
            ++count;
        }
        list += index > 0 ? ", " : "";
        list += name;
        ++index;
    }
    if (count != 1 && !missing_) {
        fault(count == 0 ? FaultCode::missing_field : FaultCode::contradiction, path_,
              count == 0 ? "" : std::to_string(count) + " of them", "exactly one of " + list);
    }
    return count == 1 ? found : -1;
}

JsonFields JsonFields::object(const std::string& key) {
    static const json nothing = json::object();
    const json* value = take(key, "an object of fields");
    if (value == nullptr) {
        JsonFields missing{nothing, path_of(key), *faults_};
        missing.missing_ = true;
        return missing;
    }
    return JsonFields{*value, path_of(key), *faults_};
}

std::optional<JsonFields> JsonFields::object_or_none(const std::string& key) {
    return has(key) ? std::optional<JsonFields>{object(key)} : std::nullopt;
}

std::vector<JsonFields> JsonFields::objects_or_none(const std::string& key) {
    std::vector<JsonFields> list;
    if (!has(key)) {
        return list;
    }
    const json& value = (*value_)[key];
    if (!value.is_array()) {
        fault(FaultCode::wrong_type, path_of(key), shown(value), "a list of objects");
        return list;
    }
    for (std::size_t i = 0; i < value.size(); ++i) {
        list.push_back(JsonFields{value[i], path_of(key) + "[" + std::to_string(i) + "]", *faults_});
    }
    return list;
}

void JsonFields::expect(const std::string& key, const json& value) {
    const std::string required = shown(value);
    const json* given = take(key, required.c_str());
    if (given != nullptr && *given != value) {
        fault(FaultCode::unknown_name, path_of(key), shown(*given), required);
    }
}

void JsonFields::finish() {
    std::string known;
    for (const std::string& name : known_) {
        known += known.empty() ? "" : ", ";
        known += name;
    }
    for (const auto& item : value_->items()) {
        if (known_.count(item.key()) == 0) {
            fault(FaultCode::unknown_field, path_of(item.key()), shown(item.value()),
                  "a field that this object has: " + known);
        }
    }
}
