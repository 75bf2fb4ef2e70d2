// SPDX-License-Identifier: BSL-1.0

// An L-shaped house with a wrap-around porch: its planes, its members with their cuts, and what lies on each plane.
//
//   house [--out FOLDER]    with a folder, pictures of the sheets, the underlayment, the steel and the cutting of each

#include "cover.hpp"
#include "house.hpp"

#include <eavewright/eavewright.hpp>

#include <filesystem>
#include <fstream>
#include <iomanip>
#include <iostream>
#include <string>

using namespace eavewright;
using namespace eavewright::literals;

namespace {

const Tick tick = Tick::of_inch(16);

[[nodiscard]] std::string of(Length length) { return write_length(length, tick); }
[[nodiscard]] std::string deg(CutAngle cut) { return write_decimal(degrees(cut.angle()), 2) + " deg"; }
[[nodiscard]] std::string saw(const SawSetting& setting) {
    return "mitre " + deg(setting.mitre) + ", bevel " + deg(setting.bevel);
}
void line(const std::string& what, const std::string& figure) {
    std::cout << "  " << std::left << std::setw(24) << what << figure << "\n";
}

void print_edges(const ChordPlane& plane) {
    for (std::size_t e = 0; e < plane.edges.size(); ++e) {
        std::cout << "    " << std::left << std::setw(12) << name_of(plane.edges[e])
                  << of(edge_length(plane.outline, e)) << "\n";
    }
}

void print_planes(const ComposedRoof& house) {
    const BuildUp layers{.purlin = 1.5_in, .deck = 0.4375_in};
    for (const FacePlanes& face : planes_of(house, layers)) {
        std::cout << face.name << ": " << write_decimal(square_feet(net_area(face.chord)), 1) << " sq ft, "
                  << write_decimal(face.chord.pitch.rise_in_12(), 3) << " in 12\n";
        print_edges(face.chord);
    }
}

void print_jacks(const std::string& what, const JackSet& set) {
    line(what, std::to_string(set.jacks.size()) + ", each " + of(set.common_difference) + " different");
    for (const Jack& jack : set.jacks) {
        std::cout << "    at " << std::left << std::setw(12) << of(jack.at) << "cut to " << of(jack.cut_length) << "\n";
    }
    line("  side cut", deg(set.side_cut) + "; side on the table: " + saw(set.saw));
}

void print_rafters(const MainGable& main) {
    const RafterFigures common = common_rafter({.pitch = main.pitch,
                                                .run = main.width / 2.0,
                                                .overhang = main.eave_overhang,
                                                .depth = 7.25_in,
                                                .plate_width = 3.5_in});
    std::cout << "\nMembers of the house, 2x8 rafters at 24 in\n";
    line("common rafter", "cut " + of(common.cut_length) + ", out of " + of(common.blank_length));
    line("  birdsmouth", "seat " + of(common.birdsmouth.seat) + ", heel cut " + of(common.birdsmouth.heel_cut));
    const HipPlanes planes{.pitch_a = main.pitch, .pitch_b = house_shape().wing_pitch};
    const auto slanted = [&](HipKind kind) {
        return hip_rafter({.planes = planes,
                           .run_a = main.width / 2.0,
                           .overhang_a = main.eave_overhang,
                           .depth = 9.25_in,
                           .height_above_plate = common.height_above_plate,
                           .kind = kind});
    };
    const HipRafterFigures hip = slanted(HipKind::hip);
    const HipRafterFigures valley = slanted(HipKind::valley);
    line("hip", "cut " + of(hip.cut_length) + ", drop " + of(hip.drop) + ", plumb cut " + deg(hip.plumb_cut));
    line("valley", "cut " + of(valley.cut_length) + ", cheeks " + deg(valley.head_cheek_a));
    print_jacks("hip jacks", hip_jacks({.planes = planes, .run = main.width / 2.0, .spacing = 24_in}));
    print_jacks("valley jacks", valley_jacks({.planes = planes, .run = main.width / 2.0, .spacing = 24_in}));
}

void print_porch(const WrapAroundPorch& porch) {
    std::cout << "\nMembers of the porch\n";
    const HipPlanes planes{.pitch_a = porch.pitch, .pitch_b = porch.pitch};
    print_jacks("hip jacks", hip_jacks({.planes = planes, .run = *porch.back, .spacing = 24_in}));
    const HipSawSettings settings = hip_saw_settings({.planes = planes});
    line("fascia at the corner", saw(settings.fascia));
    line("purlins, flat", saw(settings.purlin_flat));
    line("sheets", saw(settings.sheet));
    const EavePostFigures post =
        eave_post({.pitch = porch.pitch,
                   .height = KnownHeight{AtChordLine{porch.height - porch.pitch.rise_over(*porch.back)}},
                   .heel = 5.5_in,
                   .depth = 5.5_in,
                   .width = 5.5_in,
                   .let_in_thickness = 1.5_in,
                   .foot = -4_ft});
    line("posts cut off", "outer face " + of(post.cut_off_outer) + ", seat " + of(post.bearing) + ", notch " +
                              of(post.notch_depth) + " deep");
}
}  // namespace

int main(int argc, char** argv) {
    const ComposedRoof house = house_roof();
    std::cout << "An L-shaped house with a wrap-around porch\n\n";
    print_planes(house);
    line("highest", of(house.highest) + " above the benchmark");
    print_rafters(house_shape().main);
    print_porch(porch_shape());
    const HouseCover cover = cover_house(house);
    print_cover(std::cout, cover);
    std::cout << "\n" << layout_caution << "\n";
    if (argc == 3 && std::string{argv[1]} == "--out") {
        const std::filesystem::path folder{argv[2]};
        std::filesystem::create_directories(folder);
        std::cout << "\nWritten\n";
        for (const HouseFile& file : draw_cover(cover)) {
            std::ofstream out{folder / file.name};
            if (!(out << file.text)) {
                std::cerr << "cannot write " << (folder / file.name).string() << "\n";
                return 1;
            }
            std::cout << (folder / file.name).string() << "\n";
        }
    }
    return 0;
}
