// SPDX-License-Identifier: BSL-1.0
#pragma once

// Pairs of panels judged on their own: outlines laid into the bought panel, and sums that add up.

#include <eavewright/fault.hpp>
#include <eavewright/roof/openings.hpp>
#include <eavewright/roof/plane.hpp>
#include <eavewright/tiling/cut_panels.hpp>
#include <eavewright/tiling/panel_pairs.hpp>
#include <eavewright/units/count.hpp>
#include <eavewright/units/length.hpp>

#include <cmath>
#include <cstddef>
#include <cstdint>
#include <string>
#include <vector>

namespace eavewright {

namespace detail {
/// Judges pairs by laying outlines side by side, where pairing compares lines.
class PairCheck {
public:
    PairCheck(const std::vector<CutPanels>& planes, const PairPlan& plan) : planes_{planes}, plan_{plan} {
        for (const CutPanels& plane : planes) {
            met_.emplace_back(plane.pieces.size(), 0);
        }
    }

    void check_pair(const PanelPair& pair, std::size_t index) {
        at_ = "pairs[" + std::to_string(index) + "]";
        if (!meet(pair.first.plane, pair.first.piece) || !meet(pair.second.plane, pair.second.piece)) {
            return;
        }
        const CutPanels& one = planes_[pair.first.plane];
        const CutPanels& two = planes_[pair.second.plane];
        require(one.panel.cover == two.panel.cover && one.panel.side_lap == two.panel.side_lap &&
                    one.panel.rib_spacing == two.panel.rib_spacing && one.increment == two.increment,
                "two profiles", "panels of one profile and increment");
        const bool flat = plan_.two_faced;
        require(flat || (!pair.first.over && !pair.second.over), "a panel turned over", "panels with their face up");
        require(flat || plan_.laps_either_way || over_left(one, pair.first) == over_left(two, pair.second),
                "a panel turned end for end", "laps on the sides where they belong");
        const double steps = pair.bought / one.increment;
        require(std::fabs(steps - std::round(steps)) < 1e-6 && pair.bought <= one.longest + count_tolerance &&
                    pair.bought <= two.longest + count_tolerance,
                describe_length(pair.bought), "a whole number of increments that is made");
        const std::vector<PlanePoint> below = outline_in_bought(one, pair.first);
        const std::vector<PlanePoint> above = outline_in_bought(two, pair.second);
        check_within(below, one.panel, pair.bought);
        check_within(above, one.panel, pair.bought);
        const bool apart = !outlines_cross(below, above) && !is_inside(below.front(), above) &&
                           !is_inside(above.front(), below) &&
                           gap_between(below, above) >= plan_.clearance - count_tolerance;
        require(apart, "panels that meet", "panels apart by " + describe_length(plan_.clearance));
        const Length alone = one.pieces[pair.first.piece].order_length + two.pieces[pair.second.piece].order_length;
        require(magnitude(alone - pair.bought - pair.saved) <= count_tolerance && pair.saved > no_length &&
                    pair.saved + count_tolerance >= plan_.least_saved,
                describe_length(pair.saved) + " saved",
                "the two order lengths less what is bought, no less than is asked");
        saved_ += alone - pair.bought;
    }

    void check_unpaired(const UnpairedPanel& panel, std::size_t index) {
        at_ = "unpaired[" + std::to_string(index) + "]";
        (void)meet(panel.plane, panel.piece);
    }

    void check_sums(const PanelPairs& pairs) {
        std::int64_t panels = 0;
        Length bought = no_length;
        for (std::size_t p = 0; p < planes_.size(); ++p) {
            for (std::size_t i = 0; i < planes_[p].pieces.size(); ++i) {
                const CutPanel& panel = planes_[p].pieces[i];
                ++panels;
                bought += panel.order_length;
                at_ = "planes[" + std::to_string(p) + "].pieces[" + std::to_string(i) + "]";
                const bool slanted =
                    (panel.lower.cut && panel.lower.slope != 0.0) || (panel.upper.cut && panel.upper.slope != 0.0);
                require(!slanted || met_[p][i] == 1, "a slanted panel left out", "every slanted panel once");
            }
        }
        const auto same = [](Length a, Length b) {
            return magnitude(a - b) <= Length::from_inches(1e-6) + count_tolerance;
        };
        at_ = "panels";
        require(
            pairs.panels_without == panels && pairs.panels == panels - static_cast<std::int64_t>(pairs.pairs.size()),
            std::to_string(pairs.panels), "one less for every pair");
        at_ = "bought";
        require(same(pairs.bought_without, bought) && same(pairs.saved, saved_) && same(pairs.bought, bought - saved_),
                describe_length(pairs.bought), describe_length(bought - saved_));
    }

    Faults faults;

private:
    void require(bool holds, const std::string& given, const std::string& required) {
        if (!holds) {
            faults.push_back(Fault{FaultCode::contradiction, at_, given, required});
        }
    }
    /// Marks a panel as met; false where there is none such.
    bool meet(std::size_t plane, std::size_t piece) {
        const bool there = plane < planes_.size() && piece < planes_[plane].pieces.size();
        require(there, "plane " + std::to_string(plane) + ", piece " + std::to_string(piece), "a panel of the planes");
        if (there) {
            require(++met_[plane][piece] == 1, "a panel met twice", "every panel once");
        }
        return there;
    }
    [[nodiscard]] static bool over_left(const CutPanels& plane, const PairedPanel& panel) {
        const bool over_left = (plane.start == StartCorner::eave_left) == (plane.panel.lap == SideLap::over_previous);
        return over_left != panel.turned;
    }
    void check_within(const std::vector<PlanePoint>& outline, const PanelStock& stock, Length bought) {
        const Extent extent = extent_of(outline);
        require(extent.low.along >= -count_tolerance &&
                    extent.high.along <= stock.cover + stock.side_lap + count_tolerance &&
                    extent.low.up >= -count_tolerance && extent.high.up <= bought + count_tolerance,
                "a panel past the end of the bought one", "both within " + describe_length(bought));
    }

    const std::vector<CutPanels>& planes_;
    const PairPlan& plan_;
    std::vector<std::vector<int>> met_;
    Length saved_ = no_length;
    std::string at_;
};
}  // namespace detail

/// Everything wrong with pairs, judged from the panels laid and the plan: a panel used twice or left out, two that meet or do
/// not fit, one turned as its laps or its face do not allow, sums that do not add up. Empty where the steel may be ordered so.
[[nodiscard]] inline Faults find_faults_of_pairs(const std::vector<CutPanels>& planes, const PairPlan& plan,
                                                 const PanelPairs& pairs) {
    detail::PairCheck judge{planes, plan};
    for (std::size_t i = 0; i < pairs.pairs.size(); ++i) {
        judge.check_pair(pairs.pairs[i], i);
    }
    for (std::size_t i = 0; i < pairs.unpaired.size(); ++i) {
        judge.check_unpaired(pairs.unpaired[i], i);
    }
    judge.check_sums(pairs);
    return judge.faults;
}

}  // namespace eavewright
