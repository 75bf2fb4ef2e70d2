// SPDX-License-Identifier: BSL-1.0
#pragma once

// Judges sawn sheets on its own: saws every cut again, and asks of every piece whether it lies on what comes of that.

#include <eavewright/fault.hpp>
#include <eavewright/order/cut_sheets.hpp>
#include <eavewright/order/sheet_bound.hpp>
#include <eavewright/order/sheet_cut_tree.hpp>
#include <eavewright/order/sheet_shapes.hpp>
#include <eavewright/order/sheet_spots.hpp>
#include <eavewright/units/length.hpp>
#include <eavewright/units/quantities.hpp>

#include <cmath>
#include <cstddef>
#include <cstdint>
#include <optional>
#include <string>
#include <vector>

namespace eavewright {

/// The corners of a piece on its sheet, as it is placed.
[[nodiscard]] inline std::vector<CutPoint> placed_outline(const SheetShape& shape, const PlacedShape& place) {
    const int quarters = (place.quarter_turns % 4 + 4) % 4;
    return detail::points_of(
        detail::shifted(detail::turned_outline(detail::sawn_outline(shape), inches(shape.box.length),
                                               inches(shape.box.width), quarters, place.mirrored),
                        inches(place.at_length), inches(place.at_width)));
}

namespace detail {
/// The judge's notes while it goes through a plan.
struct SawJudge {
    const std::vector<SheetShape>& shapes;
    const SheetSearchPlan& plan;
    const SheetSawPlan& sawn;
    Faults faults{};

    void refuse(const std::string& path, const std::string& given, const std::string& required) {
        faults.push_back(Fault{FaultCode::contradiction, path, given, required});
    }
    void refuse(const char* list, std::size_t index, const std::string& given, const std::string& required) {
        refuse(std::string{list} + "[" + std::to_string(index) + "]", given, required);
    }
    /// Whether two outlines are the same up to the rounding of a cut.
    [[nodiscard]] static bool same(const Spots& a, const Spots& b) {
        return a.size() > 2 && b.size() > 2 && reach_out_of(a, b) <= spot_tolerance &&
               reach_out_of(b, a) <= spot_tolerance;
    }
    /// Whether a piece fills its part: up to the rounding of a cut, and up to a tick over a slanted side.
    [[nodiscard]] bool fills(const Spots& part, const Spots& piece) const {
        if (reach_out_of(part, piece) > spot_tolerance) {
            return false;
        }
        for (std::size_t i = 0; i < piece.size(); ++i) {
            const SawLine side{piece[i], piece[(i + 1) % piece.size()]};
            const bool slanted =
                std::fabs(side.a.l - side.b.l) > spot_tolerance && std::fabs(side.a.w - side.b.w) > spot_tolerance;
            if (reach_past(side, part) > spot_tolerance + (slanted ? inches(plan.tick.step()) + spot_tolerance : 0.0)) {
                return false;
            }
        }
        return true;
    }
    [[nodiscard]] Spots part(std::size_t index) const { return spots_of(sawn.parts[index].outline); }
};

/// Every index is one of its list, every number is one, and sheets come first.
inline bool judge_form(SawJudge& judge) {
    const SheetSawPlan& sawn = judge.sawn;
    const std::size_t parts = sawn.parts.size();
    if (sawn.sheets < 0 || static_cast<std::size_t>(sawn.sheets) > parts || sawn.pieces.size() != judge.shapes.size()) {
        judge.refuse("sheets", std::to_string(sawn.sheets), "a part for each sheet, a place for each piece");
        return false;
    }
    const auto usable = [](CutPoint p) { return is_usable(p.length) && is_usable(p.width); };
    for (std::size_t i = 0; i < parts; ++i) {
        const SawnPart& part = sawn.parts[i];
        bool sound = part.outline.size() > 2 && part.outline.size() < 1000 &&
                     part.sheet < static_cast<std::size_t>(sawn.sheets) &&
                     (!part.cut || *part.cut < sawn.cuts.size()) && (!part.piece || *part.piece < judge.shapes.size());
        for (const CutPoint& p : part.outline) {
            sound = sound && usable(p);
        }
        if (!sound || (i < static_cast<std::size_t>(sawn.sheets) && part.sheet != i)) {
            judge.refuse("parts", i, "a part of nothing", "a part of a sheet");
        }
    }
    for (std::size_t i = 0; i < sawn.cuts.size(); ++i) {
        const SawCut& cut = sawn.cuts[i];
        if (cut.part >= parts || cut.kept >= parts || (cut.beyond && *cut.beyond >= parts) || !usable(cut.from) ||
            !usable(cut.to) || !is_usable(cut.at) || cut.from == cut.to) {
            judge.refuse("cuts", i, "a cut through nothing", "a cut through a part");
        }
    }
    for (std::size_t i = 0; i < sawn.pieces.size(); ++i) {
        const PlacedShape& place = sawn.pieces[i];
        if (place.part >= parts || !usable({place.at_length, place.at_width})) {
            judge.refuse("pieces", i, "no place", "a place on a sheet");
        }
    }
    return judge.faults.empty();
}

/// Saws one cut again: what it keeps and what lies beyond the blade are what the plan says, and new.
inline void judge_cut(SawJudge& judge, std::size_t index, std::vector<bool>& made) {
    const SawCut& cut = judge.sawn.cuts[index];
    const SawnPart& part = judge.sawn.parts[cut.part];
    const Spots whole = judge.part(cut.part);
    const SawLine line{spots_of({cut.from})[0], spots_of({cut.to})[0]};
    if (!made[cut.part] || part.cut != index) {
        judge.refuse("cuts", index, "part " + std::to_string(cut.part), "a part that is there and divided by this cut");
        return;
    }
    const Spots kept = part_beside(whole, line, 0.0, true);
    const Spots beyond = part_beside(whole, line, -inches(judge.plan.stock.kerf), false);
    const bool cuts_something = !part_beside(whole, line, 0.0, false).empty();
    if (!cuts_something || made[cut.kept] || judge.sawn.parts[cut.kept].sheet != part.sheet ||
        !SawJudge::same(kept, judge.part(cut.kept))) {
        judge.refuse("cuts", index, "part " + std::to_string(cut.kept), "what lies left of the cut");
    }
    made[cut.kept] = true;
    if (cut.beyond.has_value() == beyond.empty() ||
        (cut.beyond && (made[*cut.beyond] || judge.sawn.parts[*cut.beyond].sheet != part.sheet ||
                        !SawJudge::same(beyond, judge.part(*cut.beyond))))) {
        judge.refuse("cuts", index, "the part beyond", "what lies right of the cut, a kerf away");
    }
    if (cut.beyond) {
        made[*cut.beyond] = true;
    }
    double depth = 0.0;
    for (const Spot& spot : whole) {
        depth = std::fmax(depth, line.offset(spot));
    }
    const bool level = std::fabs(line.a.w - line.b.w) <= spot_tolerance;
    const bool plumb = std::fabs(line.a.l - line.b.l) <= spot_tolerance;
    const SawWay way = level ? SawWay::rip : (plumb ? SawWay::crosscut : SawWay::slant);
    if (way != cut.way || std::fabs(inches(cut.at) - depth) > 2.0 * spot_tolerance) {
        judge.refuse("cuts", index, describe_length(cut.at), "the width of what is measured off, and its way");
    }
}

inline void judge_cuts(SawJudge& judge) {
    const SheetSawPlan& sawn = judge.sawn;
    const Spots sheet = box_of(inches(judge.plan.stock.sheet.length), inches(judge.plan.stock.sheet.width));
    std::vector<bool> made(sawn.parts.size(), false);
    for (std::size_t i = 0; i < static_cast<std::size_t>(sawn.sheets); ++i) {
        made[i] = true;
        if (!SawJudge::same(sheet, judge.part(i))) {
            judge.refuse("parts", i, "another size", "a whole sheet");
        }
    }
    std::size_t sheet_before = 0;
    for (std::size_t i = 0; i < sawn.cuts.size(); ++i) {
        judge_cut(judge, i, made);
        const std::size_t on = sawn.parts[sawn.cuts[i].part].sheet;
        if (on < sheet_before) {
            judge.refuse("cuts", i, "sheet " + std::to_string(on), "sheet after sheet");
        }
        sheet_before = on;
    }
    for (std::size_t i = 0; i < sawn.parts.size(); ++i) {
        const std::optional<std::size_t> cut = sawn.parts[i].cut;
        if (!made[i] || (cut && (sawn.cuts[*cut].part != i || sawn.parts[i].piece))) {
            judge.refuse("parts", i, "a part that no cut makes, or one that is cut and kept",
                         "a sheet, a piece or an offcut");
        }
    }
}

/// Every piece lies on its own part, which is no larger than it, turned only as it may be.
inline void judge_places(SawJudge& judge) {
    std::vector<bool> with_piece(static_cast<std::size_t>(judge.sawn.sheets), false);
    for (std::size_t i = 0; i < judge.shapes.size(); ++i) {
        const PlacedShape& place = judge.sawn.pieces[i];
        const SawnPart& part = judge.sawn.parts[place.part];
        if (part.piece != i || part.sheet != place.sheet || part.cut) {
            judge.refuse("pieces", i, "part " + std::to_string(place.part), "a part that is this piece");
            continue;
        }
        with_piece[place.sheet] = true;
        const bool turned = place.quarter_turns != 0 && place.quarter_turns != 2;
        if (place.quarter_turns < 0 || place.quarter_turns > 3 || (turned && !judge.shapes[i].turnable) ||
            (place.mirrored && !judge.plan.two_faced)) {
            judge.refuse("pieces", i, "turned", "its strength axis and its face kept");
        }
        if (!judge.fills(judge.part(place.part), spots_of(placed_outline(judge.shapes[i], place)))) {
            judge.refuse("pieces", i, "another outline", "the outline of its part");
        }
    }
    for (std::size_t i = 0; i < judge.sawn.parts.size(); ++i) {
        const std::optional<std::size_t> piece = judge.sawn.parts[i].piece;
        if (piece && judge.sawn.pieces[*piece].part != i) {
            judge.refuse("parts", i, "piece " + std::to_string(*piece) + " again", "every piece cut once");
        }
    }
    for (std::size_t s = 0; s < with_piece.size(); ++s) {
        if (!with_piece[s]) {
            judge.refuse("parts", s, "a sheet without a piece", "sheets that are needed");
        }
    }
}

/// Once more without the cuts: no two pieces of a sheet are closer than the kerf, none is off its sheet.
inline void judge_gaps(SawJudge& judge) {
    const Spots sheet = box_of(inches(judge.plan.stock.sheet.length), inches(judge.plan.stock.sheet.width));
    std::vector<std::vector<std::size_t>> on_sheet(static_cast<std::size_t>(judge.sawn.sheets));
    std::vector<Spots> outlines;
    for (std::size_t i = 0; i < judge.shapes.size(); ++i) {
        outlines.push_back(spots_of(placed_outline(judge.shapes[i], judge.sawn.pieces[i])));
        if (reach_out_of(sheet, outlines[i]) > spot_tolerance) {
            judge.refuse("pieces", i, "a piece off its sheet", "a piece within its sheet");
        }
        if (judge.sawn.pieces[i].sheet < on_sheet.size()) {
            on_sheet[judge.sawn.pieces[i].sheet].push_back(i);
        }
    }
    for (const std::vector<std::size_t>& pieces : on_sheet) {
        for (std::size_t i = 0; i < pieces.size(); ++i) {
            for (std::size_t k = i + 1; k < pieces.size(); ++k) {
                if (gap_between(outlines[pieces[i]], outlines[pieces[k]]) <
                    inches(judge.plan.stock.kerf) - spot_tolerance) {
                    judge.refuse("pieces", pieces[k], "a piece on another", "a kerf between them");
                }
            }
        }
    }
}

/// Offcuts are the parts that are neither cut nor kept, largest first, each as large as it is said to be.
inline void judge_offcuts(SawJudge& judge) {
    const SheetSawPlan& sawn = judge.sawn;
    std::vector<bool> listed(sawn.parts.size(), false);
    for (std::size_t i = 0; i < sawn.offcuts.size(); ++i) {
        const SheetOffcut& offcut = sawn.offcuts[i];
        if (offcut.part >= sawn.parts.size() || listed[offcut.part] || sawn.parts[offcut.part].cut ||
            sawn.parts[offcut.part].piece) {
            judge.refuse("offcuts", i, "part " + std::to_string(offcut.part), "a part that is left over, once");
            continue;
        }
        listed[offcut.part] = true;
        const Spots outline = judge.part(offcut.part);
        const SpotExtent extent = extent_of(outline);
        const bool sized = std::fabs(inches(offcut.box.length) - (extent.high.l - extent.low.l)) <= spot_tolerance &&
                           std::fabs(inches(offcut.box.width) - (extent.high.w - extent.low.w)) <= spot_tolerance &&
                           std::fabs(square_inches(offcut.area) - area_of(outline)) <= 1e-6;
        const bool ordered = i == 0 || square_inches(offcut.area) <= square_inches(sawn.offcuts[i - 1].area) + 1e-6;
        if (!sized || !ordered) {
            judge.refuse("offcuts", i, "another size or place in the list", "its size, largest first");
        }
    }
    for (std::size_t i = 0; i < sawn.parts.size(); ++i) {
        if (!sawn.parts[i].cut && !sawn.parts[i].piece && !listed[i]) {
            judge.refuse("parts", i, "an offcut that is not listed", "every offcut listed");
        }
    }
}

inline void judge_counts(SawJudge& judge) {
    const SheetSawPlan& sawn = judge.sawn;
    const SheetStock& stock = judge.plan.stock;
    const std::int64_t beyond_hand = sawn.sheets - stock.on_hand;
    if (sawn.to_buy != (beyond_hand > 0 ? beyond_hand : 0)) {
        judge.refuse("to_buy", std::to_string(sawn.to_buy), "the sheets that are not on hand");
    }
    double area = 0.0;
    for (const SheetShape& shape : judge.shapes) {
        area += square_inches(sawn_area(shape));
    }
    const double sheets = square_inches(stock.sheet.length * stock.sheet.width) * static_cast<double>(sawn.sheets);
    const double slack = 1e-9 * (1.0 + sheets);
    if (!(std::fabs(square_inches(sawn.sawn) - area) <= slack) ||
        !(std::fabs(square_inches(sawn.waste) - (sheets - area)) <= slack)) {
        judge.refuse("waste", std::to_string(square_inches(sawn.waste)) + " sq in", "sheets less pieces");
    }
    const SheetBound& bound = sawn.bound;
    const std::int64_t by_area = sheets_by_area(judge.shapes, stock);
    const std::int64_t by_scales = sheets_by_scales(judge.shapes, stock, bound.lengths, bound.widths);
    if (bound.by_area != by_area || bound.sheets != (by_scales > by_area ? by_scales : by_area) ||
        bound.sheets > sawn.sheets) {
        judge.refuse("bound", std::to_string(bound.sheets), "what area and scales give, no more than the sheets");
    }
    if (sawn.proven != (sawn.sheets == bound.sheets)) {
        judge.refuse("proven", sawn.proven ? "proven" : "not proven", "proven where the sheets are the bound");
    }
}
}  // namespace detail

/// Everything wrong with sawn sheets, judged from the pieces and the plan: a cut that does not run straight through its
/// part or makes another part than is said, a piece that does not fill its part (a slanted side up to a tick), turned
/// where it may not be, closer than the kerf to another, cut twice or not at all, an offcut or a count that is not
/// right, a bound that its scales do not give. Empty where it may be sawn from. `plain` and `nodes` say how it was
/// found and are not judged.
[[nodiscard]] inline Faults find_faults_of_cuts(const std::vector<SheetShape>& shapes, const SheetSearchPlan& plan,
                                                const SheetSawPlan& sawn) {
    detail::SawJudge judge{shapes, plan, sawn};
    if (detail::judge_form(judge)) {
        detail::judge_cuts(judge);
        detail::judge_places(judge);
        detail::judge_gaps(judge);
        detail::judge_offcuts(judge);
        detail::judge_counts(judge);
    }
    return judge.faults;
}

}  // namespace eavewright
