// The parts of a report's page, in the order in which they stand.
#pragma once

#include "render/report/pieces.h"

namespace cli {

void add_overdue_list(const Element& parent, const ReportPage& page);
void add_due_list(const Element& parent, const ReportPage& page);
void add_season(const Element& parent, const ReportPage& page);
void add_workload(const Element& parent, const ReportPage& page);
void add_parts_list(const Element& parent, const ReportPage& page);

// One machine, on paper of its own: what is due on it, how it is used, its book.
void add_machine_page(Page& html, const Element& parent, const ReportPage& page, const service::MachinePage& machine);

// The rules of this page, behind those that all pages share.
std::string_view report_rules();

}  // namespace cli
