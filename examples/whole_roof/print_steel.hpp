// SPDX-License-Identifier: BSL-1.0
#pragma once

// The report's lines about underlayment, steel, air, foam and carrying.

#include "report_text.hpp"

#include <eavewright/whole_roof/result.hpp>

void print_underlayment(const ReportText& text, const eavewright::Underlayment& underlayment);
void print_deck_extras(const ReportText& text, const eavewright::SlopeResult& slope);
void print_steel(const ReportText& text, const eavewright::SteelResult& steel);
void print_over_all(const ReportText& text, const eavewright::RoofResult& roof);
