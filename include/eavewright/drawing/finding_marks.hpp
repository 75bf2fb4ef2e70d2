// SPDX-License-Identifier: BSL-1.0
#pragma once

// Findings as numbered marks: findings that read alike share a number, and each kind has a shape of its own.

#include <eavewright/drawing/page.hpp>
#include <eavewright/tiling/sheets.hpp>

#include <algorithm>
#include <cstddef>
#include <initializer_list>
#include <map>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

namespace eavewright::detail {

/// Findings of one code whose figures read alike at the drawing's tick.
struct FindingGroup {
    FindingCode code;
    std::string figures;                ///< measured, limit, block, as written
    std::vector<std::size_t> findings;  ///< indexes into `Sheets::findings`
};

/// The gravest code first, then as met; shown numbers count from 1.
struct FindingGroups {
    std::vector<FindingGroup> groups;
};

/// What was measured, in the words of its code.
[[nodiscard]] inline std::string finding_figures(const Finding& finding, const Page& page) {
    const std::string limit = page.figure(finding.limit);
    std::string measured = page.figure(finding.measured);
    if (measured == limit) {  // a mark apart would read as a finding that found nothing
        measured = write_length_with_remainder(finding.measured, page.tick);
    }
    std::string text;
    switch (finding.code) {
        case FindingCode::joint_on_nothing: text = "bears on " + measured + ", needs " + limit; break;
        case FindingCode::narrow_bearing: text = "bears on " + measured + ", needs " + limit; break;
        case FindingCode::sliver_length: text = measured + " long, limit " + limit; break;
        case FindingCode::sliver_width: text = measured + " wide, limit " + limit; break;
        case FindingCode::edge_past_support: text = measured + " past its support, limit " + limit; break;
    }
    return finding.block ? text + "; block " + page.figure(finding.block->length) : text;
}

[[nodiscard]] inline FindingGroups group_findings(const std::vector<Finding>& findings, const Page& page) {
    std::map<std::pair<int, std::string>, std::vector<std::size_t>> found;
    std::vector<const std::vector<std::size_t>*> order;
    for (std::size_t i = 0; i < findings.size(); ++i) {
        std::vector<std::size_t>& alike =
            found[{static_cast<int>(findings[i].code), finding_figures(findings[i], page)}];
        if (alike.empty()) {
            order.push_back(&alike);
        }
        alike.push_back(i);
    }
    std::stable_sort(order.begin(), order.end(), [&](const auto* a, const auto* b) {
        return findings[a->front()].code < findings[b->front()].code;
    });
    FindingGroups result{.groups = {}};
    for (const std::vector<std::size_t>* alike : order) {
        const Finding& first = findings[alike->front()];
        result.groups.push_back({first.code, finding_figures(first, page), *alike});
    }
    return result;
}

/// Half the size of a mark.
inline constexpr double mark_radius = 7.5;

/// A numbered mark: disc, square, triangle, diamond or hexagon. Solid where a joint lies on nothing.
inline void draw_finding_mark(SvgText& svg, SvgPoint at, FindingCode code, std::size_t number) {
    constexpr std::string_view look = R"(fill="#fff" stroke="#000" stroke-width="1.3")";
    const auto around = [&](std::initializer_list<SvgPoint> unit) {
        std::vector<SvgPoint> points;
        for (const SvgPoint& p : unit) {
            points.push_back({at.x + p.x * mark_radius, at.y + p.y * mark_radius});
        }
        svg.polygon(points, look);
    };
    switch (code) {
        case FindingCode::joint_on_nothing:
            svg.circle(at, mark_radius, R"(fill="#000" stroke="#fff" stroke-width="0.8")");
            break;
        case FindingCode::narrow_bearing: svg.rect({at.x - 6.6, at.y - 6.6}, 13.2, 13.2, look); break;
        case FindingCode::sliver_length: around({{0.0, -1.35}, {1.3, 0.85}, {-1.3, 0.85}}); break;
        case FindingCode::sliver_width: around({{0.0, -1.3}, {1.3, 0.0}, {0.0, 1.3}, {-1.3, 0.0}}); break;
        case FindingCode::edge_past_support:
            around({{-0.6, -1.0}, {0.6, -1.0}, {1.2, 0.0}, {0.6, 1.0}, {-0.6, 1.0}, {-1.2, 0.0}});
            break;
    }
    const std::string text = std::to_string(number);
    const double low = code == FindingCode::sliver_length ? 4.6 : 3.3;
    svg.text({at.x, at.y + low}, text,
             {.size = text.size() > 2 ? 7.0 : 9.5,
              .anchor = TextAnchor::middle,
              .bold = true,
              .fill = code == FindingCode::joint_on_nothing ? "#fff" : "#000"});
}

/// Names of the pieces of a group, each once, with a count where it is met more often.
[[nodiscard]] inline std::string piece_list(const FindingGroup& group, const Sheets& sheets) {
    std::map<std::size_t, int> times;
    for (const std::size_t i : group.findings) {
        ++times[sheets.findings[i].piece];
    }
    std::string text;
    for (const auto& [piece, count] : times) {
        text += text.empty() ? "" : ", ";
        text += piece_name(sheets.pieces[piece]);
        text += count > 1 ? " x" + std::to_string(count) : "";
    }
    return text;
}

/// Every finding, under the number its mark carries.
inline void draw_legend(Page& page, const Sheets& sheets, const FindingGroups& groups) {
    const std::size_t count = sheets.findings.size();
    page.heading("Findings: " + (count == 0 ? std::string{"none"} : std::to_string(count)));
    for (std::size_t g = 0; g < groups.groups.size(); ++g) {
        const FindingGroup& group = groups.groups[g];
        page.y += 3.0;
        draw_finding_mark(page.svg, {page_margin + 10.0, page.y + 9.5}, group.code, g + 1);
        const double indent = 25.0;
        page.paragraph(in_words(name_of(group.code)) + ": " + group.figures, 10.0, true, indent);
        page.paragraph(piece_list(group, sheets), 10.0, false, indent);
        page.y += 2.0;
    }
}

}  // namespace eavewright::detail
