// All of a fleet on one day: as a page of HTML, which is its form, as a digest, and as JSON.
#pragma once

#include <string>

#include "render/shared/formats.h"
#include "service/report.h"

namespace cli {

std::string report_as_html(const service::Report& report, const std::string& command);
std::string report_as_text(const service::Report& report, const Look& look);  // what the page holds, and how much
// An object of the answers that the commands give: each as it is there.
std::string report_as_json(const service::Report& report, const std::string& command);

inline constexpr Format<service::Report> report_formats[] = {
    {"html", report_as_html}, {"text", report_as_text}, {"json", report_as_json}};

}  // namespace cli
