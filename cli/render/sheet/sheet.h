// The job sheet, and the list of meters to read on a walk round. To be printed and taken along.
#pragma once

#include <string>

#include "render/shared/formats.h"
#include "service/job_sheet.h"

namespace cli {

std::string sheet_as_text(const service::JobSheet& sheet, const Look& look);
std::string sheet_as_html(const service::JobSheet& sheet, const std::string& command);
std::string sheet_as_json(const service::JobSheet& sheet);

inline constexpr Format<service::JobSheet> sheet_formats[] = {
    {"text", sheet_as_text}, {"html", sheet_as_html}, {"json", sheet_as_json}};

std::string readings_as_text(const service::ReadingRound& round, const Look& look);
std::string readings_as_html(const service::ReadingRound& round, const std::string& command);
std::string readings_as_json(const service::ReadingRound& round);

inline constexpr Format<service::ReadingRound> readings_formats[] = {
    {"text", readings_as_text}, {"html", readings_as_html}, {"json", readings_as_json}};

}  // namespace cli
