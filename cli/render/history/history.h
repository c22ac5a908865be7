// The book of a machine. CSV has the columns in which facts travel, and then what the book knows of each.
#pragma once

#include <memory>
#include <optional>
#include <string>
#include <vector>

#include "render/shared/formats.h"
#include "service/fleet.h"
#include "service/record.h"
#include "service/snapshot.h"

namespace cli {

struct BookLine {
  service::Fact fact;
  std::string meter_unit;                // of `at`, `last`, `first` and usage; empty: it shows no value of a meter
  std::optional<service::Amount> usage;  // lifetime usage, where it differs from what the meter showed
  std::optional<service::Amount> shown;  // of a delay until a use: what the meter now on the machine shows then
  bool struck = false;
  std::string struck_because;
};

struct Book {
  std::shared_ptr<const service::Fleet> fleet;
  std::string machine;  // one that the fleet no longer lists has its book too
  service::Day as_of;
  service::UseState state;
  std::vector<BookLine> lines;
  std::size_t left_off = 0;
};

std::string history_as_text(const Book& book, const Look& look);
std::string history_as_json(const Book& book);
std::string history_as_csv(const Book& book);

inline constexpr Format<Book> history_formats[] = {
    {"text", history_as_text}, {"json", history_as_json}, {"csv", history_as_csv}};

}  // namespace cli
