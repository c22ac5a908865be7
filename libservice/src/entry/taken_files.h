// The files of a fleet that was taken over, as texts.
#pragma once

#include <map>
#include <optional>
#include <string>
#include <vector>

#include "service/taking_over.h"

namespace service::entry {

struct TakenMachine {
  std::string key;
  std::string name;
  std::string schedule;
  std::string site;
  std::string serial;
  std::string notes;
  Start start;
  std::optional<Amount> per_year;
};

// `sites`: keys and names.
std::string fleet_text(const TakeOverAsk& ask, const std::map<std::string, std::string>& sites);

// With the columns that any of the machines needs.
std::string register_text(const std::vector<TakenMachine>& machines);

// The text of a schedule, its name in place of NAME.
std::string with_name(std::string text, const std::string& name);

}  // namespace service::entry
