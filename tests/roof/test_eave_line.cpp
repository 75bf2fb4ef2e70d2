// SPDX-License-Identifier: BSL-1.0

// Every plane laid flat has its eave on up = 0, to the bit: rows and sheets count from there.

#include <eavewright/framing/purlin_rows.hpp>
#include <eavewright/roof/face_planes.hpp>
#include <eavewright/roof/winged_roofs.hpp>

#include "../support/printing.hpp"
#include "../support/seeded_numbers.hpp"

#include <doctest/doctest.h>

using namespace eavewright;
using namespace eavewright::literals;

TEST_CASE("eaves of an L lie on up = 0 exactly, and four-sided planes take purlin rows") {
    SeededNumbers random{91};
    for (int i = 0; i < sweep(2000); ++i) {
        const Length width = random.inches_between(200, 400);
        const Pitch pitch = Pitch::in_12(random.between(3, 10));
        const ComposedRoof roof = l_roof({.main = {.width = width,
                                                   .length = random.inches_between(700, 1200),
                                                   .pitch = pitch,
                                                   .eave_overhang = random.inches_between(4, 24),
                                                   .rake_overhang = 12_in,
                                                   .bearing_height = 10_ft,
                                                   .heel = 1_ft},
                                          .wing_width = width,
                                          .projection = random.inches_between(100, 300),
                                          .wing_pitch = pitch});
        std::size_t rows = 0;
        for (const FacePlanes& face : planes_of(roof, {.purlin = 1.5_in})) {
            REQUIRE(face.purlin.edges[0] == EdgeKind::eave);
            CHECK(face.purlin.outline[0].up == no_length);
            CHECK(face.purlin.outline[1].up == no_length);
            rows += face.purlin.outline.size() == 4 ? purlin_rows(face.purlin, AtMost{24_in}).rows.size() : 0U;
        }
        CHECK(rows > 20);
    }
}
