// SPDX-License-Identifier: BSL-1.0

#include "print_holding.hpp"

#include "report_text.hpp"

#include <iomanip>
#include <optional>
#include <string>

using namespace eavewright;

namespace {
[[nodiscard]] std::string pressure(const ReportText& text, Pressure p) {
    return text.tick.is_metric() ? write_decimal(pascals(p) / 1000.0, 3) + " kPa" : write_decimal(psf(p), 1) + " psf";
}
[[nodiscard]] std::string force(const ReportText& text, Force f) {
    return text.tick.is_metric() ? write_decimal(newtons(f), 0) + " N" : write_decimal(pounds_force(f), 1) + " lb";
}
/// A spacing cut to what a tape shows at a glance.
[[nodiscard]] std::string rough(const ReportText& text, Length length) {
    return text.tick.is_metric() ? write_decimal(millimetres(length), 0) + " mm"
                                 : write_decimal(inches(length), 1) + " in";
}
[[nodiscard]] std::string zone_name(RoofZone zone, bool overhang) {
    return std::string{name_of(zone)} + (overhang ? " overhang" : "");
}
[[nodiscard]] std::string nail_name(const ReportText& text, const NailShank& nail) {
    return ReportText::words(name_of(nail.shank)) + " " + text.of_decimal(nail.diameter) + " x " +
           text.of_decimal(nail.length);
}

void print_loaded(const ReportText& text, const ZoneFasteners& zone, const std::string& spacing) {
    text.out << "    " << column(zone_name(zone.zone, zone.overhang), 12)
             << column(zone.uplift ? pressure(text, *zone.uplift) : "-", 12) << column(spacing, 22)
             << column(std::to_string(zone.fasteners), 8) << column(zone.uplift ? force(text, zone.load) : "-", 10)
             << column(zone.uplift ? percent(zone.utilisation) : "-", 7)
             << column(zone.widest_spacing ? rough(text, *zone.widest_spacing) : "-", 10)
             << ReportText::words(name_of(zone.verdict)) << "\n";
}

void print_heads(const ReportText& text, const std::string& spacing, const std::string& count) {
    text.out << "    " << column("zone", 12) << column("uplift", 12) << column(spacing, 22) << column(count, 8)
             << column("load", 10) << column("used", 7) << column("widest", 10) << "verdict\n";
}

/// Each reason once.
void print_reasons(const ReportText& text, const std::vector<const ZoneFasteners*>& zones) {
    std::string said;
    for (const ZoneFasteners* zone : zones) {
        if (!zone->reason.empty() && said.find("|" + zone->reason + "|") == std::string::npos) {
            text.out << "    no verdict where " << zone->reason << "\n";
            said += "|" + zone->reason + "|";
        }
    }
}

/// Findings of one kind in one line.
void print_out_of_place(const ReportText& text, const NailJudgement& judged) {
    for (std::size_t code = 0; code < NamesOf<FastenerFindingCode>::list.size(); ++code) {
        std::size_t count = 0;
        const FastenerFinding* worst = nullptr;
        for (const FastenerFinding& finding : judged.findings) {
            if (static_cast<std::size_t>(finding.code) == code) {
                ++count;
                worst = worst == nullptr || finding.measured < worst->measured ? &finding : worst;
            }
        }
        if (worst != nullptr) {
            text.line("nails to look at",
                      std::to_string(count) + " " + ReportText::words(NamesOf<FastenerFindingCode>::list[code]) +
                          ", down to " + text.of_decimal(worst->measured) + ", limit " + text.of_decimal(worst->limit));
        }
    }
}

void print_nails(const ReportText& text, const SlopeHolding& holding) {
    text.line("nail", nail_name(text, holding.nail->nail) + ", " + force(text, holding.nail->allowed.amount()) +
                          " allowed, bite " + text.of_decimal(holding.nail->withdrawal.bite.length) + ", " +
                          ReportText::words(name_of(holding.nail->governs)) + " governs");
    print_heads(text, "ends / between", "nails");
    std::vector<const ZoneFasteners*> loaded;
    for (const ZoneNails& zone : holding.nails) {
        print_loaded(text, zone.loaded, text.of(zone.edge) + " / " + text.of(zone.field));
        loaded.push_back(&zone.loaded);
    }
    print_reasons(text, loaded);
    if (holding.nail_places) {
        print_out_of_place(text, *holding.nail_places);
    }
}

void print_shanks(const ReportText& text, const SlopeHolding& holding) {
    text.out << "   Shanks side by side in the same places: used, and widest spacing between\n";
    for (const ShankCompared& shank : holding.shanks) {
        text.out << "    " << column(nail_name(text, shank.holding.nail), 44)
                 << column(force(text, shank.holding.allowed.amount()), 10);
        for (const ShankInZone& zone : shank.zones) {
            if (!zone.overhang) {
                text.out << column("zone " + std::string{name_of(zone.zone)} + " " + percent(zone.utilisation) +
                                       (zone.widest_spacing ? ", " + rough(text, *zone.widest_spacing) : ""),
                                   24);
            }
        }
        text.out << (shank.holding.pull_through ? "\n" : "head not checked\n");
    }
    for (const ShankCompared& shank : holding.shanks) {
        if (shank.holding.nail.shank == Shank::smooth) {
            text.out << "    " << smooth_shank_caution << "\n";
            return;
        }
    }
}

void print_screws(const ReportText& text, const SlopeHolding& holding) {
    text.line("screw", text.of_decimal(holding.screw->screw.diameter) + " x " +
                           text.of_decimal(holding.screw->screw.length) + ", " +
                           force(text, holding.screw->pull_out.force.amount()) + " allowed out of the purlin, bite " +
                           text.of_decimal(holding.screw->withdrawal.bite.length));
    print_heads(text, "", "screws");
    std::vector<const ZoneFasteners*> loaded;
    for (const ZoneFasteners& zone : holding.screws) {
        print_loaded(text, zone, "");
        loaded.push_back(&zone);
    }
    print_reasons(text, loaded);
}

void print_purlins(const ReportText& text, const PurlinHolding& purlins) {
    text.line("purlins", "dead load " + pressure(text, purlins.dead.load.on_surface) + " of the slope" +
                             (purlins.snow ? ", snow " + pressure(text, purlins.snow->sloped.in_plan) + " in plan"
                                           : std::string{}) +
                             ", effective wind area " + text.area(purlins.area.area));
    text.out << "    " << column("zone", 8) << column("laid", 10) << column("weak axis", 18) << column("used", 8)
             << column("by", 12) << column("verdict", 13) << "uplift at one end, where two meet\n";
    for (const PurlinInZone& zone : purlins.zones) {
        text.out << "    " << column(std::string{name_of(zone.zone)}, 8)
                 << column(ReportText::words(name_of(zone.set)), 10)
                 << column(ReportText::words(name_of(zone.weak_axis)), 18) << column(percent(zone.utilisation), 8)
                 << column(ReportText::words(name_of(zone.governs)), 12)
                 << column(ReportText::words(name_of(zone.verdict)), 13) << force(text, zone.uplift_one_end) << ", "
                 << force(text, zone.uplift_both) << "\n";
    }
    text.out << "    held by roof: the published limit of 4 in 12 and bays of 2.4 m is kept; held by design: counts "
                "only where ties "
                "or a designed diaphragm carry what pulls down the slope\n";
    text.out << "    no capacity of the purlins' connections is known here: compare the uplift with the maker's\n";
}

}  // namespace

void print_holding(std::ostream& out, const RoofResult& result, Tick tick) {
    if (!result.wind) {
        return;
    }
    const ReportText text{out, tick};
    const VelocityPressure& wind = *result.wind;
    out << "\nFasteners against the wind\n";
    text.line("wind", std::string{name_of(wind.edition)} + ", Kz " + write_decimal(wind.Kz.Kz, 3) + " at " +
                          text.of(wind.mean_roof_height) + ", qh " + pressure(text, wind.qh));
    for (const SlopeResult& slope : result.slopes) {
        if (!slope.holding) {
            continue;
        }
        const SlopeHolding& holding = *slope.holding;
        out << "  " << slope.name << " slope, edge distance a " << text.of(holding.zones.edge.a) << "\n";
        out << "    " << holding.zones.placement << "\n";
        if (holding.nail) {
            print_nails(text, holding);
            print_shanks(text, holding);
        }
        if (holding.screw) {
            print_screws(text, holding);
        }
        if (holding.purlins) {
            print_purlins(text, *holding.purlins);
        }
    }
    out << "  " << holding_caution << "\n  " << loads_caution << "\n";
}
