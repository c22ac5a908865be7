// The book of a machine. CSV has the columns in which facts travel, and then what the book knows of each.
#pragma once

#include <string>

#include "render/shared/formats.h"
#include "service/book.h"

namespace cli {

std::string history_as_text(const service::Book& book, const Look& look);
std::string history_as_json(const service::Book& book);
std::string history_as_csv(const service::Book& book);

inline constexpr Format<service::Book> history_formats[] = {
    {"text", history_as_text}, {"json", history_as_json}, {"csv", history_as_csv}};

}  // namespace cli
