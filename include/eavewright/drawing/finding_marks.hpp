// SPDX-License-Identifier: BSL-1.0
#pragma once

// Findings as numbered marks: findings that read alike share a number, and each kind has a shape of its own.

#include <eavewright/drawing/page.hpp>

#include <algorithm>
#include <cstddef>
#include <initializer_list>
#include <map>
#include <optional>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

namespace eavewright::detail {

/// Shapes that are told apart without colour. Solid ones are the gravest.
enum class MarkShape {
    solid_disc,
    square,
    triangle,
    diamond,
    hexagon,
    disc,
    solid_square,
    solid_diamond,
    triangle_down,
    house,
    trapezoid,
};

/// A line over the drawing where something would mend a finding.
struct Mend {
    PlanePoint from;
    PlanePoint to;
};

/// A finding of any layer, in words.
struct FindingNote {
    int rank;  ///< of its kind, the gravest first
    MarkShape shape;
    std::string kind;
    std::string figures;  ///< measured, limit, what would mend it, as written
    std::size_t piece;    ///< orders the names
    std::string name;     ///< of the piece
    PlanePoint place;
    std::optional<Mend> mend{};
};

/// Findings of one kind whose figures read alike at the drawing's tick.
struct FindingGroup {
    MarkShape shape;
    std::string kind;
    std::string figures;
    std::vector<std::size_t> findings;  ///< indexes into the notes
};

/// The gravest kind first, then as met; shown numbers count from 1.
struct FindingGroups {
    std::vector<FindingGroup> groups;
};

[[nodiscard]] inline FindingGroups group_findings(const std::vector<FindingNote>& notes) {
    std::map<std::pair<int, std::string>, std::vector<std::size_t>> found;
    std::vector<const std::vector<std::size_t>*> order;
    for (std::size_t i = 0; i < notes.size(); ++i) {
        std::vector<std::size_t>& alike = found[{notes[i].rank, notes[i].figures}];
        if (alike.empty()) {
            order.push_back(&alike);
        }
        alike.push_back(i);
    }
    std::stable_sort(order.begin(), order.end(),
                     [&](const auto* a, const auto* b) { return notes[a->front()].rank < notes[b->front()].rank; });
    FindingGroups result{.groups = {}};
    for (const std::vector<std::size_t>* alike : order) {
        const FindingNote& first = notes[alike->front()];
        result.groups.push_back({first.shape, first.kind, first.figures, *alike});
    }
    return result;
}

/// A measure and its limit as written; a measure that rounds to its limit shows what it lacks, as it would else read as
/// a finding that found nothing.
[[nodiscard]] inline std::string measured_against(Length measured, Length limit, const Page& page) {
    return page.figure(measured) == page.figure(limit) ? write_length_with_remainder(measured, page.tick)
                                                       : page.figure(measured);
}

/// Half the size of a mark.
inline constexpr double mark_radius = 7.5;

[[nodiscard]] inline bool is_solid(MarkShape shape) {
    return shape == MarkShape::solid_disc || shape == MarkShape::solid_square || shape == MarkShape::solid_diamond;
}

/// The shape of a mark, without its number.
inline void draw_mark_shape(SvgText& svg, SvgPoint at, MarkShape shape) {
    constexpr std::string_view open_look = R"(fill="#fff" stroke="#000" stroke-width="1.3")";
    constexpr std::string_view solid_look = R"(fill="#000" stroke="#fff" stroke-width="0.8")";
    const std::string_view look = is_solid(shape) ? solid_look : open_look;
    const auto around = [&](std::initializer_list<SvgPoint> unit) {
        std::vector<SvgPoint> points;
        for (const SvgPoint& p : unit) {
            points.push_back({at.x + p.x * mark_radius, at.y + p.y * mark_radius});
        }
        svg.polygon(points, look);
    };
    switch (shape) {
        case MarkShape::solid_disc:
        case MarkShape::disc: svg.circle(at, mark_radius, look); break;
        case MarkShape::square:
        case MarkShape::solid_square: svg.rect({at.x - 6.6, at.y - 6.6}, 13.2, 13.2, look); break;
        case MarkShape::triangle: around({{0.0, -1.35}, {1.3, 0.85}, {-1.3, 0.85}}); break;
        case MarkShape::triangle_down: around({{0.0, 1.35}, {1.3, -0.85}, {-1.3, -0.85}}); break;
        case MarkShape::diamond:
        case MarkShape::solid_diamond: around({{0.0, -1.3}, {1.3, 0.0}, {0.0, 1.3}, {-1.3, 0.0}}); break;
        case MarkShape::hexagon:
            around({{-0.6, -1.0}, {0.6, -1.0}, {1.2, 0.0}, {0.6, 1.0}, {-0.6, 1.0}, {-1.2, 0.0}});
            break;
        case MarkShape::house: around({{0.0, -1.35}, {1.0, -0.35}, {1.0, 1.0}, {-1.0, 1.0}, {-1.0, -0.35}}); break;
        case MarkShape::trapezoid: around({{-1.45, -0.8}, {1.45, -0.8}, {0.75, 0.9}, {-0.75, 0.9}}); break;
    }
}

/// A numbered mark.
inline void draw_mark(SvgText& svg, SvgPoint at, MarkShape shape, std::size_t number) {
    draw_mark_shape(svg, at, shape);
    const std::string text = std::to_string(number);
    const double low = shape == MarkShape::triangle ? 4.6 : (shape == MarkShape::triangle_down ? 1.6 : 3.3);
    svg.text({at.x, at.y + low}, text,
             {.size = text.size() > 2 ? 7.0 : 9.5,
              .anchor = TextAnchor::middle,
              .bold = true,
              .fill = is_solid(shape) ? "#fff" : "#000"});
}

/// Names of the pieces of a group, each once, with a count where it is met more often.
[[nodiscard]] inline std::string piece_list(const FindingGroup& group, const std::vector<FindingNote>& notes) {
    std::map<std::size_t, std::pair<std::string, int>> times;
    for (const std::size_t i : group.findings) {
        std::pair<std::string, int>& met = times[notes[i].piece];
        met.first = notes[i].name;
        ++met.second;
    }
    std::string text;
    for (const auto& [piece, met] : times) {
        text += text.empty() ? "" : ", ";
        text += met.first;
        text += met.second > 1 ? " x" + std::to_string(met.second) : "";
    }
    return text;
}

/// Every finding, under the number its mark carries.
inline void draw_legend(Page& page, const std::vector<FindingNote>& notes, const FindingGroups& groups) {
    page.heading("Findings: " + (notes.empty() ? std::string{"none"} : std::to_string(notes.size())));
    for (std::size_t g = 0; g < groups.groups.size(); ++g) {
        const FindingGroup& group = groups.groups[g];
        page.y += 3.0;
        draw_mark(page.svg, {page_margin + 10.0, page.y + 9.5}, group.shape, g + 1);
        const double indent = 25.0;
        page.paragraph(group.kind + ": " + group.figures, 10.0, true, indent);
        page.paragraph(piece_list(group, notes), 10.0, false, indent);
        page.y += 2.0;
    }
}

}  // namespace eavewright::detail
