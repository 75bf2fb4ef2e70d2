// SPDX-License-Identifier: BSL-1.0

// Reads the description of a roof, lays it out, prints the report, and writes the result as JSON, and for each slope its
// drawings and its site sheet.
//
//   whole_roof ROOF.json --out FOLDER
//   whole_roof --schema               prints the schema of the result
//
// Exit code 0, 2 where the description or the command line is refused (nothing is written then), 1 where a file cannot be
// read or written.

#include "lay_out.hpp"
#include "print_holding.hpp"
#include "print_order.hpp"
#include "print_report.hpp"
#include "print_search.hpp"
#include "print_truing.hpp"
#include "read_roof.hpp"
#include "write_files.hpp"

#include <eavewright/drawing/cut_sheets_drawing.hpp>
#include <eavewright/drawing/cut_sticks_drawing.hpp>
#include <eavewright/drawing/plane_drawing.hpp>
#include <eavewright/drawing/site_sheet.hpp>
#include <eavewright/drawing/site_sheet_text.hpp>
#include <eavewright/drawing/steel_drawing.hpp>
#include <eavewright/drawing/strings_drawing.hpp>
#include <eavewright/drawing/truing_drawing.hpp>
#include <eavewright/drawing/underlayment_drawing.hpp>
#include <eavewright/drawing/zones_drawing.hpp>
#include <eavewright/whole_roof.hpp>

#include <nlohmann/json.hpp>

#include <exception>
#include <filesystem>
#include <fstream>
#include <iostream>
#include <optional>
#include <sstream>
#include <string>
#include <vector>

using namespace eavewright;

namespace {

struct CommandLine {
    std::string roof;
    std::string out;
};

[[nodiscard]] std::optional<CommandLine> read_command_line(const std::vector<std::string>& words) {
    CommandLine line;
    for (std::size_t i = 0; i < words.size(); ++i) {
        if (words[i] == "--out" && i + 1 < words.size()) {
            line.out = words[++i];
        } else if (words[i].rfind("--", 0) != 0 && line.roof.empty()) {
            line.roof = words[i];
        } else {
            return std::nullopt;
        }
    }
    return line.roof.empty() || line.out.empty() ? std::nullopt : std::optional<CommandLine>{line};
}

[[nodiscard]] std::optional<std::string> read_file(const std::string& path) {
    std::ifstream file{path, std::ios::binary};
    if (!file || std::filesystem::is_directory(path)) {
        return std::nullopt;
    }
    std::ostringstream text;
    text << file.rdbuf();
    return text.str();
}

/// How sheets and lumber are cut from what is bought; where no supply is described, from one length and one sheet.
void add_cut_pictures(const RoofResult& result, const std::optional<RoofOrder>& ordered, const RoofFile& file,
                      const std::string& stem, std::vector<OutputFile>& files) {
    const Tick tick = file.roof->tick;
    const SupplyPlan supply = file.supply.value_or(SupplyPlan{});
    const RoofOrder order = ordered ? *ordered : order_roof(*file.roof, result, supply);
    if (order.sheets) {
        files.push_back(
            {stem + ".cut_sheets.svg",
             draw_cut_sheets(*order.sheets, order.sheet_pieces, sheet_search(*file.roof, supply),
                             sheet_piece_names(result), {.title = result.name + ", sheets", .tick = tick})});
    }
    if (order.lumber) {
        files.push_back(
            {stem + ".cut_lumber.svg",
             draw_cut_sticks(*order.lumber, order.lumber_pieces, lumber_stock(*file.roof, supply),
                             lumber_piece_names(result), {.title = result.name + ", lumber", .tick = tick})});
    }
}

/// The roof from above as it was read, and the strings along it.
void add_truing_pictures(const RoofResult& result, const RoofDescription& roof, const std::string& stem,
                         std::vector<OutputFile>& files) {
    const TruingResult& truing = *result.truing;
    if (truing.network) {
        files.push_back(
            {stem + ".true.svg",
             draw_truing(result, {.title = result.name + ", is it true", .tick = roof.tick}, *roof.readings)});
    }
    if (!truing.strings.empty() || !truing.tails.empty() || !truing.purlins.empty() || !truing.walls.empty()) {
        files.push_back({stem + ".strings.svg",
                         draw_strings(result, {.title = result.name + ", along the strings", .tick = roof.tick})});
    }
}

/// Everything is made before anything is written, so a refusal leaves no half-written file.
[[nodiscard]] std::vector<OutputFile> make_files(const RoofResult& result, const std::optional<RoofOrder>& order,
                                                 const RoofFile& file, const std::string& stem) {
    std::vector<OutputFile> files{
        {stem + ".layout.json", write_json(ResultDocument{file.unit, result, order}, file.unit) + "\n"}};
    if (result.truing) {
        add_truing_pictures(result, *file.roof, stem, files);
    }
    for (std::size_t i = 0; i < result.slopes.size(); ++i) {
        const SlopeResult& slope = result.slopes[i];
        const std::string name = stem + "." + slope.name;
        const std::string title = result.name + ", " + slope.name + " slope";
        const Tick tick = file.roof->tick;
        files.push_back({name + ".svg", draw_plane(slope, {.title = title, .tick = tick})});
        if (slope.underlayment) {
            files.push_back({name + ".underlayment.svg",
                             draw_underlayment(slope, {.title = title + ", underlayment", .tick = tick})});
        }
        if (slope.steel) {
            files.push_back({name + ".steel.svg", draw_steel(slope, {.title = title + ", steel", .tick = tick})});
        }
        if (slope.holding) {
            files.push_back({name + ".zones.svg", draw_zones(slope, {.title = title + ", wind zones", .tick = tick})});
        }
        const SiteSheet sheet = site_sheet(*file.roof, result, i);
        const SitePaper paper = tick.is_metric() ? SitePaper::a4 : SitePaper::letter;
        const std::vector<SiteSheet> sheets = sheets_of_work(sheet);
        for (std::size_t s = 0; s < sheets.size(); ++s) {
            files.push_back({name + (s + 1 < sheets.size() ? ".site_true.svg" : ".site.svg"),
                             draw_site_sheet(sheets[s], slope, {.paper = paper, .tick = tick})});
        }
        files.push_back({name + ".site.txt", write_site_sheet(sheet, tick)});
    }
    add_cut_pictures(result, order, file, stem, files);
    return files;
}

[[nodiscard]] int run(const CommandLine& line) {
    const std::optional<std::string> text = read_file(line.roof);
    if (!text) {
        std::cerr << "cannot read " << line.roof << "\n";
        return 1;
    }
    const RoofFile file = read_roof(*text);
    if (!file.roof) {
        for (const Fault& fault : file.faults) {
            std::cerr << line.roof << ": " << describe(fault) << "\n";
        }
        return 2;
    }
    const RoofResult result = lay_out(*file.roof);
    const std::optional<RoofOrder> order =
        file.supply ? std::optional<RoofOrder>{order_roof(*file.roof, result, *file.supply)} : std::nullopt;
    const std::string stem = std::filesystem::path{line.roof}.stem().string();
    const std::vector<OutputFile> files = make_files(result, order, file, stem);
    print_report(std::cout, result, file.roof->tick);
    if (const std::optional<FoundLayout> found = result.search ? result.search : search_deck(*file.roof)) {
        print_search(std::cout, *found, result.search.has_value(), file.roof->tick);
    }
    print_truing(std::cout, result, file.roof->tick);
    print_holding(std::cout, result, file.roof->tick);
    if (order) {
        print_order(std::cout, *order, file.roof->tick);
    }
    if (!write_files(files, line.out, std::cerr)) {
        return 1;
    }
    std::cout << "\nWritten\n";
    for (const OutputFile& each : files) {
        std::cout << (std::filesystem::path{line.out} / each.name).string() << "\n";
    }
    return 0;
}
}  // namespace

int main(int argc, char** argv) {
    const std::vector<std::string> words(argv + 1, argv + argc);
    if (words.size() == 1 && words[0] == "--schema") {
        std::cout << nlohmann::ordered_json::parse(write_json_schema<ResultDocument>("Layout of a roof")).dump(2)
                  << "\n";
        return 0;
    }
    const std::optional<CommandLine> line = read_command_line(words);
    if (!line) {
        std::cerr << "usage: whole_roof ROOF.json --out FOLDER\n       whole_roof --schema\n";
        return 2;
    }
    try {
        return run(*line);
    } catch (const std::exception& error) {
        std::cerr << line->roof << ": " << error.what() << "\n";
        return dynamic_cast<const FaultError*>(&error) != nullptr ? 2 : 1;
    }
}
