// SPDX-License-Identifier: BSL-1.0

#include "cover.hpp"

#include <iomanip>
#include <ostream>
#include <utility>

using namespace eavewright;
using namespace eavewright::literals;

namespace {

const Tick tick = Tick::of_inch(16);
const SheetPlan sheet_plan{.sheet = {.width = 4_ft, .length = 8_ft}};
const SheetStock sheet_stock{.sheet = {.width = 4_ft, .length = 8_ft}};

[[nodiscard]] std::string of(Length length) { return write_length(length, tick); }
void line(std::ostream& out, const std::string& what, const std::string& figure) {
    out << "  " << std::left << std::setw(24) << what << figure << "\n";
}

/// The porch is flatter than 4 in 12, which asks for two layers.
[[nodiscard]] Underlayment lay_underlayment_on(const DeckPlane& deck) {
    UnderlaymentPlan plan{.roll = {.length = 144_ft}, .rule = SingleCoverage{}};
    if (deck.pitch.rise_in_12() < 4.0) {
        plan.rule = HalfLap{};
    }
    return lay_underlayment(deck, plan);
}

[[nodiscard]] FoundLayout search_sheets(const std::vector<CoveredPlane>& covered) {
    std::vector<PurlinPlane> planes;
    std::vector<Supports<Surface::purlin_top>> supports;
    for (const CoveredPlane& each : covered) {
        planes.push_back(each.plane);
        supports.push_back(each.supports);
    }
    return search_layouts(planes, supports, {.plain = sheet_plan, .stock = sheet_stock});
}

/// Every stretch of every purlin as one run, cut from lengths of 16 ft: longer ones splice on the rafters, 24 in apart.
[[nodiscard]] std::vector<Length> purlins_of(const std::vector<CoveredPlane>& covered) {
    std::vector<Length> pieces;
    const Length stock = 16_ft;
    for (const CoveredPlane& each : covered) {
        for (const PurlinRow& row : each.rows.rows) {
            for (const Span& run : detail::runs_of(row)) {
                Length left = run.high - run.low;
                for (; row.kind != RowKind::eave && left > stock; left -= stock) {
                    pieces.push_back(stock);
                }
                if (row.kind != RowKind::eave && left > 1_in) {
                    pieces.push_back(round_up_to_tick(left, tick));
                }
            }
        }
    }
    return pieces;
}

void print_plane(std::ostream& out, const CoveredPlane& plane, const Sheets& sheets, const CutSteel& steel) {
    const NailCount nails = count_nails(sheets, plane.supports, {.edge = 6_in, .field = 12_in});
    const EdgeSupport edges = edge_support(sheets, plane.plane, plane.supports, sheet_plan,
                                           {.spans = widest_spans(SpanRating::r24_0), .steel_on_deck = true});
    out << " " << plane.name << "\n";
    line(out, "purlins", std::to_string(plane.rows.rows.size()) + " rows, widest space " + of(plane.rows.widest_space));
    line(out, "sheets",
         std::to_string(sheets.pieces.size()) + " pieces, " + std::to_string(sheets.whole_sheets) + " whole, " +
             std::to_string(sheets.findings.size()) + " findings, " + std::to_string(nails.total) + " nails");
    line(out, "long edges",
         edges.needed ? std::to_string(edges.blocks.size()) + " blocks: clips would show through the steel"
                      : std::string{"need nothing at this span"});
    line(out, "underlayment", std::to_string(plane.underlayment.rolls) + " rolls");
    line(out, "steel",
         std::to_string(steel.panels.pieces.size()) + " panels, " + std::to_string(steel.panels.findings.size()) +
             " findings");
}
}  // namespace

HouseCover cover_house(const ComposedRoof& house) {
    std::vector<CoveredPlane> covered;
    std::vector<CutSteel> steel;
    for (const FacePlanes& face : planes_of(house, {.purlin = 1.5_in, .deck = 0.4375_in})) {
        PurlinRows rows = purlin_rows(face.purlin, ToSheets{8_ft, 1_in / 8, 4});
        const Supports<Surface::purlin_top> supports = supports_of(rows);
        steel.push_back(cut_steel(face.name, face.purlin, supports, {.panels = {.ridge_hold_back = 1_in}}));
        covered.push_back(
            {face.name, face.purlin, face.deck, std::move(rows), supports, lay_underlayment_on(face.deck)});
    }
    FoundLayout layout = search_sheets(covered);
    PanelPairs pairs = pair_panels(panels_of(steel));
    std::vector<Length> valleys;
    for (const SharedEdge& edge : shared_edges(house.faces, EdgeKind::valley)) {
        valleys.push_back(edge.length);
    }
    EdgeStrips strips = lay_edge_strips(valleys, {.roll = {.length = 72_ft}});
    std::vector<Length> purlin_pieces = purlins_of(covered);
    StockPlan lumber{.stock = {{.length = 16_ft}}};
    FoundCuts purlins = search_cuts(purlin_pieces, {.stock = lumber, .nodes = 20'000});
    return {std::move(covered), std::move(layout),        std::move(steel),  std::move(pairs),
            std::move(strips),  std::move(purlin_pieces), std::move(lumber), std::move(purlins)};
}

void print_cover(std::ostream& out, const HouseCover& cover) {
    out << "\nWhat lies on its planes\n";
    for (std::size_t i = 0; i < cover.planes.size(); ++i) {
        print_plane(out, cover.planes[i], cover.layout.sheets[i], cover.steel[i]);
    }
    const FoundLayout& found = cover.layout;
    out << " All together\n";
    line(out, "sheets",
         std::to_string(found.score.sheets) + " as searched; " + std::to_string(found.plain_sheets) +
             " plainly laid and cut: " + std::to_string(found.plain_sheets - found.score.sheets) + " saved");
    line(out, "",
         "no fewer than " + std::to_string(found.fewest) + " for any layout, " +
             std::to_string(found.saw.bound.sheets) + " for these pieces");
    line(out, "panels bought",
         std::to_string(cover.pairs.panels) + " for " + std::to_string(cover.pairs.panels_without) + " laid, " +
             of(cover.pairs.saved) + " saved by pairs");
    line(out, "purlin lumber",
         std::to_string(cover.purlins.value) + " of 16 ft, no fewer than " + std::to_string(cover.purlins.bound.value) +
             "; first fit takes " + (cover.purlins.plain ? std::to_string(*cover.purlins.plain) : std::string{"-"}));
}

std::vector<HouseFile> draw_cover(const HouseCover& cover) {
    std::vector<HouseFile> files;
    std::vector<SheetShape> shapes;
    std::vector<std::string> names;
    for (std::size_t i = 0; i < cover.planes.size(); ++i) {
        const CoveredPlane& plane = cover.planes[i];
        const Sheets& sheets = cover.layout.sheets[i];
        std::string file = plane.name;
        for (char& c : file) {
            c = c == ' ' ? '_' : c;
        }
        const DrawingOptions options{.title = "House, " + plane.name, .tick = tick};
        const LaidPlane<Surface::purlin_top> laid{.name = plane.name,
                                                  .plane = plane.plane,
                                                  .supports = plane.supports,
                                                  .sheets = sheets,
                                                  .purlins = plane.rows,
                                                  .long_edges = std::nullopt};
        files.push_back({file + ".sheets.svg", draw_plane(laid, options)});
        files.push_back({file + ".steel.svg", draw_steel(cover.steel[i], options)});
        files.push_back(
            {file + ".underlayment.svg", draw_underlayment(plane.deck, plane.underlayment, plane.name, options)});
        for (SheetShape& shape : cut_shapes(sheets, tick)) {
            shapes.push_back(std::move(shape));
        }
        for (const SheetPiece& piece : sheets.pieces) {
            names.push_back(std::to_string(i + 1) + piece_name(piece));
        }
    }
    files.push_back(
        {"cut_sheets.svg",
         draw_cut_sheets(cover.layout.saw, shapes, {.stock = sheet_stock, .nodes = 10'000}, names,
                         {.title = "House, sheets; the first figure of a name is the plane", .tick = tick})});
    std::vector<std::string> purlin_names;
    for (std::size_t i = 0; i < cover.purlin_pieces.size(); ++i) {
        purlin_names.push_back(std::to_string(i + 1));
    }
    files.push_back({"cut_purlins.svg", draw_cut_sticks(cover.purlins.list, cover.purlin_pieces, cover.lumber,
                                                        purlin_names, {.title = "House, purlins", .tick = tick})});
    files.push_back(
        {"panel_pairs.svg", draw_pairs(cover.steel, cover.pairs, {.title = "House, panels", .tick = tick})});
    return files;
}
