// SPDX-License-Identifier: BSL-1.0
#include "read_readings.hpp"

#include <array>
#include <optional>
#include <string>
#include <utility>
#include <vector>

using namespace eavewright;
using namespace eavewright::literals;

namespace {

TapeError read_tape_error(JsonFields& tape) {
    TapeError error{};
    error.reading = tape.length_or("reading", error.reading);
    error.scale = tape.number_or("scale", error.scale);
    tape.finish();
    return error;
}

/// A place in a list, counted from 0; below that is refused.
std::size_t read_place(JsonFields& fields, const std::string& key) {
    const int place = fields.whole_or(key, 0);
    if (place < 0) {
        fields.refuse(key, std::to_string(place), "0 or more");
        return 0;
    }
    return static_cast<std::size_t>(place);
}

RoofMark read_mark(JsonFields& mark) {
    RoofMark read{mark.text("name"), {no_length, no_length, no_length}, mark.flag_or("held", false)};
    JsonFields at = mark.object("at");
    read.about = {at.length("x", no_length), at.length("y", no_length), at.length("z", no_length)};
    at.finish();
    mark.finish();
    return read;
}

RoofDistance read_distance(JsonFields& d) {
    RoofDistance read{d.text("from"), d.text("to"), d.length("read", 10_ft)};
    read.tape = read_place(d, "tape");
    d.finish();
    return read;
}

RoofOffset read_offset(JsonFields& o) {
    RoofOffset read{o.text("mark"), o.text("from"), o.text("to"), o.length("read", no_length)};
    read.deviation = o.length_or("deviation", read.deviation);
    o.finish();
    return read;
}

RoofLevel read_level(JsonFields& l) {
    RoofLevel read{l.text("mark"), l.length("below", no_length)};
    read.setup = read_place(l, "setup");
    read.deviation = l.length_or("deviation", read.deviation);
    l.finish();
    return read;
}

PullingPlan read_pulling(JsonFields pulling) {
    PullingPlan plan{};
    plan.eaves = pulling.name_or("eaves", plan.eaves);
    plan.choice = pulling.name_or("choice", plan.choice);
    plan.pull_deviation = pulling.length_or("deviation", plan.pull_deviation);
    if (pulling.has("most_movement")) {
        plan.most_movement = pulling.length("most_movement", 1_in);
    }
    for (JsonFields& strap : pulling.objects_or_none("straps")) {
        RoofStrap read{strap.text("name"), strap.text("from"), strap.text("to")};
        if (strap.has("most_shortening")) {
            read.most_shortening = strap.length("most_shortening", 1_in);
        }
        strap.finish();
        plan.straps.push_back(std::move(read));
    }
    pulling.finish();
    return plan;
}

/// Rows of the same number of lengths; another row is a fault, and left out.
template <std::size_t count>
std::vector<std::array<Length, count>> read_rows(JsonFields& fields, const std::string& key, const std::string& what) {
    std::vector<std::array<Length, count>> rows;
    for (const std::vector<Length>& row : fields.rows_of_lengths(key)) {
        if (row.size() != count) {
            fields.refuse(key, std::to_string(row.size()) + " lengths in a row", what);
            continue;
        }
        if constexpr (count == 2) {
            rows.push_back({row[0], row[1]});
        } else {
            rows.push_back({row[0], row[1], row[2], row[3]});
        }
    }
    return rows;
}
std::vector<StringReading> read_offsets(JsonFields& fields, const std::string& key, const std::string& what) {
    std::vector<StringReading> readings;
    for (const auto& [station, offset] : read_rows<2>(fields, key, what)) {
        readings.push_back({station, offset});
    }
    return readings;
}

template <class Run>
void read_tolerances(JsonFields& fields, Run& run) {
    if (fields.has("tolerance")) {
        run.tolerance = fields.length("tolerance", 0.25_in);
    }
    run.reading_deviation = fields.length_or("deviation", run.reading_deviation);
}

RoofString read_string(JsonFields& s) {
    RoofString read{s.text("name"), {}, s.name_or("line", LineRule::ends_held)};
    read.run.readings = read_offsets(s, "readings", "a station and an offset");
    read_tolerances(s, read.run);
    s.finish();
    return read;
}

RoofTails read_tails(JsonFields& t) {
    RoofTails read{t.text("name"),
                   {.tails = read_offsets(t, "reaches", "a station and how far the tail reaches past the string"),
                    .rule = t.name("line", TailRule::parallel_to_string),
                    .most_cut = t.length("most_cut", 1_in)}};
    read.run.least_cut = t.length_or("least_cut", read.run.least_cut);
    t.finish();
    return read;
}

RoofPurlin read_purlin(JsonFields& p, Tick tick) {
    RoofPurlin read{p.text("name"), {}};
    read.run.supports = read_offsets(p, "tops", "a station and how far the top stands over the string");
    read.run.tick = tick;
    read_tolerances(p, read.run);
    read.run.most_shim = p.length_or("most_shim", read.run.most_shim);
    p.finish();
    return read;
}

RoofWall read_wall(JsonFields& w) {
    const std::string name = w.text("name");
    constexpr std::array<PlumbRule, 5> rules{post_frame_plumb, wall_plumb_guidelines, wall_plumb_light_commercial,
                                             stud_plumb_facilities, wall_plumb_handbook};
    const int rule = w.choice("rule", {"1_percent", "3/8_in_32_in", "1/4_in_32_in", "1/4_in_8_ft", "1/4_in_10_ft"});
    RoofWall read{name,
                  {.posts = {},
                   .level_length = w.length("level", 4_ft),
                   .rule = rules[static_cast<std::size_t>(rule < 0 ? 0 : rule)]}};
    for (const auto& [station, height, along, across] :
         read_rows<4>(w, "posts", "station, height, and what the level shows along and across the wall")) {
        read.wall.posts.push_back({station, height, along, across});
    }
    w.finish();
    return read;
}

PostLines read_posts(JsonFields p) {
    PostLines posts{.marks = p.lengths("marks"),
                    .left = p.lengths("left"),
                    .right = p.lengths("right"),
                    .width = p.length("width", 24_ft),
                    .height = p.length("height", 12_ft)};
    p.finish();
    return posts;
}

RoofCrossing read_crossing(JsonFields& c) {
    RoofCrossing read{read_place(c, "slope"),
                      {.upper = c.name("upper", UpperString::up_right),
                       .clear_gap = c.length("gap", no_length),
                       .thickness = c.length("thickness", no_length)}};
    if (c.has("tolerance")) {
        read.strings.tolerance = c.length("tolerance", 0.5_in);
    }
    c.finish();
    return read;
}

SquareRule read_rule(JsonFields rule) {
    const SquareRule read = rule.has("limit") ? given_rule(rule.length("limit", 0.125_in)) : eighth_inch_rule();
    rule.finish();
    return read;
}

}  // namespace

RoofReadings read_readings(JsonFields readings, Tick tick) {
    RoofReadings all{};
    const auto each = [&](const char* key, const auto& take) {
        for (JsonFields& item : readings.objects_or_none(key)) {
            take(item);
        }
    };
    if (readings.has("tapes")) {
        all.tapes.clear();
        each("tapes", [&](JsonFields& f) { all.tapes.push_back(read_tape_error(f)); });
    }
    each("marks", [&](JsonFields& f) { all.marks.push_back(read_mark(f)); });
    each("distances", [&](JsonFields& f) { all.distances.push_back(read_distance(f)); });
    each("offsets", [&](JsonFields& f) { all.offsets.push_back(read_offset(f)); });
    each("levels", [&](JsonFields& f) { all.levels.push_back(read_level(f)); });
    each("strings", [&](JsonFields& f) { all.strings.push_back(read_string(f)); });
    each("tails", [&](JsonFields& f) { all.tails.push_back(read_tails(f)); });
    each("purlins", [&](JsonFields& f) { all.purlins.push_back(read_purlin(f, tick)); });
    each("walls", [&](JsonFields& f) { all.walls.push_back(read_wall(f)); });
    each("crossings", [&](JsonFields& f) { all.crossings.push_back(read_crossing(f)); });
    if (auto rule = readings.object_or_none("rule")) {
        all.rule = read_rule(*rule);
    }
    if (auto pulling = readings.object_or_none("pulling")) {
        all.pulling = read_pulling(*pulling);
    }
    if (auto trim = readings.object_or_none("trim")) {
        all.trim.rake = trim->length_or("rake", all.trim.rake);
        all.trim.ridge = trim->has("ridge") ? std::optional<Length>{trim->length("ridge", 1_in)} : std::nullopt;
        all.trim.eave = trim->has("eave") ? std::optional<Length>{trim->length("eave", 1_in)} : std::nullopt;
        trim->finish();
    }
    if (auto posts = readings.object_or_none("posts")) {
        all.posts = read_posts(*posts);
    }
    readings.finish();
    return all;
}
