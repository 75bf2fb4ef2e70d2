// SPDX-License-Identifier: BSL-1.0
#pragma once

// The two moves of the search: doing without a sheet, and laying few sheets anew for fewer cuts.

#include <eavewright/order/pack_sheets.hpp>
#include <eavewright/order/sheet_search.hpp>

#include <algorithm>
#include <cmath>
#include <cstddef>
#include <cstdint>
#include <utility>
#include <vector>

namespace eavewright::detail {

/// Tries to do without one sheet until `most` places are tried or `report` stops it. Where that fails, the sheets are
/// as they were.
template <class Report>
bool drop_sheet(SheetSearch& search, std::int64_t most, Report&& report) {
    const std::vector<PackSheet> kept = search.sheets;
    const auto least = std::min_element(search.sheets.begin(), search.sheets.end(),
                                        [](const PackSheet& a, const PackSheet& b) { return a.used < b.used; });
    search.start_round();
    const auto dropped = static_cast<std::size_t>(least - search.sheets.begin());
    search.clear(dropped);
    search.sheets.erase(search.sheets.begin() + static_cast<std::ptrdiff_t>(dropped));
    search.saved_at.assign(search.sheets.size(), -1);
    search.start_round();
    search.lay_waiting({}, 1, false, [](std::size_t) { return true; });
    std::vector<double> history(30, search.waiting_area);
    const std::vector<std::size_t> loose = search.loose_sheets();
    for (std::size_t step = 0; !search.is_done() && search.tried < most && !loose.empty() && report(); ++step) {
        search.start_round();
        const double area_before = search.waiting_area;
        for (std::size_t i = 1 + search.dice.below(3); i > 0; --i) {
            const std::size_t sheet = loose[search.dice.below(loose.size())];
            if (search.sheets[sheet].blocks > 0) {
                search.clear(sheet);
            }
        }
        ++search.tried;
        search.lay_waiting(search.any_rules(), search.dice.one_in(4) ? 2 : 8, false, [](std::size_t) { return true; });
        double& late = history[step % history.size()];
        if (search.waiting_area > area_before + 1e-9 && search.waiting_area > late + 1e-9) {
            search.go_back();
            search.waiting_area = area_before;
        }
        late = search.waiting_area;
    }
    if (search.is_done()) {
        return true;
    }
    search.sheets = kept;
    search.saved_at.assign(search.sheets.size(), -1);
    search.waiting.assign(search.kinds.size(), 0);
    search.waiting_area = 0.0;
    return false;
}

/// Lays few sheets anew for fewer cuts, and for larger offcuts among equals.
template <class Report>
void save_cuts(SheetSearch& search, std::int64_t most, Report&& report) {
    const std::vector<std::size_t> loose = search.loose_sheets();
    const auto worth = [&](const std::vector<std::size_t>& some) {
        std::pair<std::int64_t, double> sum{0, 0.0};
        for (const std::size_t s : some) {
            sum.first += search.sheets[s].cuts;
            for (const std::int32_t at : search.sheets[s].free) {
                const PackNode& node = search.sheets[s].nodes[static_cast<std::size_t>(at)];
                sum.second -= node.l * node.w * node.l * node.w;
            }
        }
        return sum;
    };
    std::size_t idle = 0;
    while (search.tried < most && idle < 40 * loose.size() + 200 && !loose.empty() && report()) {
        search.start_round();
        std::vector<std::size_t> some;
        for (std::size_t i = 1 + search.dice.below(2); i > 0; --i) {
            const std::size_t sheet = loose[search.dice.below(loose.size())];
            if (some.empty() || some[0] != sheet) {
                some.push_back(sheet);
            }
        }
        const auto old = worth(some);
        for (const std::size_t s : some) {
            search.clear(s);
        }
        ++search.tried;
        search.lay_waiting(search.any_rules(), 8, false,
                           [&](std::size_t s) { return std::find(some.begin(), some.end(), s) != some.end(); });
        const auto now = worth(some);
        const bool better = search.is_done() && now < old;
        idle = better ? 0 : idle + 1;
        if (!search.is_done() || old < now) {
            search.go_back();
        }
        search.waiting_area = 0.0;
    }
}

}  // namespace eavewright::detail
