// SPDX-License-Identifier: BSL-1.0

// One roof of every shape, each drawn as plan and planes laid flat: the buildings of a community tool library.
//
//   shapes --out FOLDER

#include "../house/house.hpp"

#include <eavewright/drawing/shape_drawing.hpp>
#include <eavewright/eavewright.hpp>

#include <filesystem>
#include <fstream>
#include <iomanip>
#include <iostream>
#include <string>
#include <vector>

using namespace eavewright;
using namespace eavewright::literals;

namespace {

struct Drawn {
    std::string name;
    std::size_t faces;
    Area plan;
    Length highest;
    std::string svg;
};

[[nodiscard]] Drawn drawn(const std::string& name, const std::string& title, const ComposedRoof& roof) {
    return {name, roof.faces.size(), roof.plan, roof.highest, draw_shape(roof, {.title = title})};
}
[[nodiscard]] Drawn drawn(const std::string& name, const std::string& title, const Footprint& plan) {
    const FootprintRoof roof = roof_over(plan);
    return {name, roof.faces.size(), roof.plan, roof.highest, draw_shape(roof, {.title = title})};
}

const MainGable hall{.width = 24_ft,
                     .length = 40_ft,
                     .pitch = Pitch::in_12(6),
                     .eave_overhang = 1_ft,
                     .rake_overhang = 1_ft,
                     .bearing_height = 10_ft,
                     .heel = 1_ft};

[[nodiscard]] GableWing wing(MainSide side, Length centre, Length width, Length projection) {
    return {.side = side,
            .centre = centre,
            .width = width,
            .projection = projection,
            .pitch = Pitch::in_12(6),
            .eave_overhang = 1_ft,
            .rake_overhang = 1_ft,
            .bearing_height = 10_ft,
            .heel = 1_ft};
}
[[nodiscard]] PorchRoof porch_with(PorchTie tie) {
    return {.main = hall,
            .start = 6_ft,
            .along = 20_ft,
            .depth = 8_ft,
            .pitch = Pitch::in_12(2),
            .tie = tie,
            .eave_overhang = 1_ft,
            .rake_overhang = 1_ft};
}

void add_plain(std::vector<Drawn>& all) {
    const UnequalGableRoof gable_roof{.width = 24_ft,
                                      .length = 36_ft,
                                      .front_pitch = Pitch::in_12(8),
                                      .back_pitch = Pitch::in_12(4),
                                      .ridge = EqualEaves{},
                                      .front_overhang = 1_ft,
                                      .back_overhang = 1_ft,
                                      .rake_overhang = 1_ft,
                                      .bearing_height = 10_ft,
                                      .heel = 1_ft};
    UnequalGableRoof equal = gable_roof;
    equal.back_pitch = equal.front_pitch = Pitch::in_12(5);
    all.push_back(drawn("gable", "Gable", unequal_gable(equal)));
    all.push_back(drawn("unequal_gable", "Gable of unequal pitches", unequal_gable(gable_roof)));
    all.push_back(drawn("gambrel", "Gambrel",
                        gambrel({.width = 24_ft,
                                 .length = 36_ft,
                                 .lower_pitch = Pitch::in_12(18),
                                 .upper_pitch = Pitch::in_12(6),
                                 .break_run = 5_ft,
                                 .eave_overhang = 1_ft,
                                 .rake_overhang = 1_ft,
                                 .bearing_height = 9_ft,
                                 .heel = 1_ft})));
    all.push_back(drawn("monitor", "Monitor",
                        monitor({.width = 36_ft,
                                 .length = 40_ft,
                                 .monitor_width = 12_ft,
                                 .lower_pitch = Pitch::in_12(4),
                                 .upper_pitch = Pitch::in_12(4),
                                 .raise = 4_ft,
                                 .eave_overhang = 1_ft,
                                 .monitor_overhang = 1_ft,
                                 .rake_overhang = 1_ft,
                                 .bearing_height = 9_ft,
                                 .heel = 1_ft})));
    const Footprint shed{.corners = {{0_ft, 0_ft}, {30_ft, 0_ft}, {30_ft, 16_ft}, {0_ft, 16_ft}},
                         .sides = {SlopedSide{Pitch::in_12(2)}, GableSide{}, GableSide{}, GableSide{}},
                         .eave_height = 9_ft};
    all.push_back(drawn("single_slope", "Single slope", shed));
}

void add_hipped(std::vector<Drawn>& all) {
    const HipRoof hip_roof{.width = 24_ft,
                           .length = 40_ft,
                           .pitch = Pitch::in_12(5),
                           .eave_overhang = 18_in,
                           .bearing_height = 10_ft,
                           .heel = 1_ft};
    HipRoof steep = hip_roof;
    steep.end_pitch = Pitch::in_12(8);
    all.push_back(drawn("hip", "Hip", hip(hip_roof)));
    all.push_back(drawn("irregular_hip", "Hip with steeper ends", hip(steep)));
    all.push_back(drawn("dutch_gable", "Dutch gable",
                        dutch_gable({.width = 24_ft,
                                     .length = 40_ft,
                                     .pitch = Pitch::in_12(6),
                                     .gablet_run = 6_ft,
                                     .gablet_overhang = 1_ft,
                                     .eave_overhang = 1_ft,
                                     .bearing_height = 10_ft,
                                     .heel = 1_ft})));
    all.push_back(drawn("jerkinhead", "Jerkinhead",
                        jerkinhead({.width = 24_ft,
                                    .length = 40_ft,
                                    .pitch = Pitch::in_12(8),
                                    .end_pitch = Pitch::in_12(8),
                                    .hip_run = 5_ft,
                                    .eave_overhang = 1_ft,
                                    .rake_overhang = 1_ft,
                                    .bearing_height = 10_ft,
                                    .heel = 1_ft})));
}

void add_porches(std::vector<Drawn>& all) {
    all.push_back(drawn("porch_on_wall", "Porch tied to the wall", porch(porch_with(TiedToWall{9_ft}))));
    all.push_back(drawn("porch_under_eave", "Porch tied under the eave", porch(porch_with(TiedUnderEave{6_in}))));
    all.push_back(drawn("porch_breaking_pitch", "Porch breaking pitch", porch(porch_with(BreaksPitch{3_ft}))));
    all.push_back(drawn("wrap_around_porch", "Wrap-around porch", wrap_around_porch(porch_shape())));
}

void add_winged(std::vector<Drawn>& all) {
    all.push_back(drawn("cross_gable", "Cross gable",
                        gable_with_wings({.main = hall, .wings = {wing(MainSide::front, 20_ft, 16_ft, 0_ft)}})));
    all.push_back(drawn("t_plan", "T plan, lower wing",
                        gable_with_wings({.main = hall, .wings = {wing(MainSide::front, 20_ft, 18_ft, 14_ft)}})));
    all.push_back(drawn("cross_plan", "Cross plan, equal ridges",
                        gable_with_wings({.main = hall,
                                          .wings = {wing(MainSide::front, 20_ft, 24_ft, 12_ft),
                                                    wing(MainSide::back, 20_ft, 24_ft, 12_ft)}})));
    all.push_back(drawn("l_plan", "L plan with a hipped corner", l_roof(house_shape())));
    all.push_back(drawn("house", "L-shaped house with a wrap-around porch", house_roof()));
    const Footprint yard{.corners = {{0_ft, 0_ft},
                                     {48_ft, 0_ft},
                                     {48_ft, 36_ft},
                                     {30_ft, 36_ft},
                                     {30_ft, 18_ft},
                                     {16_ft, 18_ft},
                                     {16_ft, 30_ft},
                                     {0_ft, 30_ft}},
                         .sides = std::vector<Side>(8, SlopedSide{Pitch::in_12(5)}),
                         .eave_height = 10_ft};
    all.push_back(drawn("footprint", "One pitch over a U", yard));
}

[[nodiscard]] bool write(const std::vector<Drawn>& all, const std::filesystem::path& folder) {
    std::filesystem::create_directories(folder);
    for (const Drawn& shape : all) {
        std::ofstream file{folder / (shape.name + ".svg"), std::ios::binary};
        file << shape.svg;
        if (!file.flush()) {
            return false;
        }
    }
    return true;
}
}  // namespace

int main(int argc, char** argv) {
    const std::vector<std::string> words(argv + 1, argv + argc);
    if (words.size() != 2 || words[0] != "--out") {
        std::cerr << "usage: shapes --out FOLDER\n";
        return 2;
    }
    std::vector<Drawn> all;
    add_plain(all);
    add_hipped(all);
    add_porches(all);
    add_winged(all);
    std::cout << std::left << std::setw(24) << "shape" << std::setw(8) << "planes" << std::setw(14) << "plan sq ft"
              << "highest\n";
    for (const Drawn& shape : all) {
        std::cout << std::setw(24) << shape.name << std::setw(8) << shape.faces << std::setw(14)
                  << write_decimal(square_feet(shape.plan), 1) << write_length(shape.highest, Tick::of_inch(16))
                  << "\n";
    }
    if (!write(all, words[1])) {
        std::cerr << "cannot write to " << words[1] << "\n";
        return 1;
    }
}
