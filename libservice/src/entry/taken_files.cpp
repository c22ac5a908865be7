#include "entry/taken_files.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>

#include "service/csv.h"

namespace service::entry {
namespace {

// Text for YAML, in double quotes.
std::string in_yaml(std::string_view text) {
  std::string out = "\"";
  for (const char c : cleaned(text)) {
    if (c == '"' || c == '\\') out += '\\';
    out += c;
  }
  return out + '"';
}

std::string start_day(const TakenMachine& machine, StartKind kind) {
  return machine.start.kind == kind ? to_text(machine.start.on) : "";
}

std::string start_value(const TakenMachine& machine, StartKind kind) {
  return machine.start.kind == kind && machine.start.at ? to_text(*machine.start.at) : "";
}

struct RegisterColumn {
  std::string_view name;
  std::string (*cell)(const TakenMachine& machine);
};

constexpr std::array columns{
    RegisterColumn{"machine", [](const TakenMachine& m) { return m.key; }},
    RegisterColumn{"name", [](const TakenMachine& m) { return csv_text(m.name); }},
    RegisterColumn{"schedule", [](const TakenMachine& m) { return m.schedule; }},
    RegisterColumn{"site", [](const TakenMachine& m) { return m.site; }},
    RegisterColumn{"serial", [](const TakenMachine& m) { return csv_text(m.serial); }},
    RegisterColumn{"in-service", [](const TakenMachine& m) { return start_day(m, StartKind::in_service); }},
    RegisterColumn{"in-service-at", [](const TakenMachine& m) { return start_value(m, StartKind::in_service); }},
    RegisterColumn{"bought", [](const TakenMachine& m) { return start_day(m, StartKind::bought); }},
    RegisterColumn{"bought-at", [](const TakenMachine& m) { return start_value(m, StartKind::bought); }},
    RegisterColumn{"per-year", [](const TakenMachine& m) { return m.per_year ? to_text(*m.per_year) : ""; }},
    RegisterColumn{"notes", [](const TakenMachine& m) { return csv_text(m.notes); }},
};

}  // namespace

std::string with_name(std::string text, const std::string& name) {
  constexpr std::string_view place_holder = "NAME";
  for (auto at = text.find(place_holder); at != std::string::npos; at = text.find(place_holder, at + name.size())) {
    text.replace(at, place_holder.size(), name);
  }
  return text;
}

std::string fleet_text(const TakeOverAsk& ask, const std::map<std::string, std::string>& sites) {
  std::string text = fmt::format(
      "# yaml-language-server: $schema=.schemas/fleet.schema.json\n"
      "# Taken over from {} on {}. The machines are in register.csv, what their meters show is in the book.\n"
      "# Lines that begin with # are remarks.\n"
      "\n"
      "fleet: {}\n"
      "time-zone: UTC            # where the machines stand, such as Europe/Oslo; it decides which day \"today\" is\n"
      "grace: 5%                 # how far past a due point still counts as due; tasks marked `safety: true` have "
      "none\n"
      "stale-after: 60 days      # after so many days without a reading you are told\n",
      cleaned(std::string_view(ask.file).substr(ask.file.rfind('/') + 1)), to_text(ask.today), in_yaml(ask.fleet_name));
  if (!sites.empty()) text += "\nsites:\n";
  for (const auto& [key, name] : sites) text += fmt::format("  {}: {{name: {}}}\n", key, in_yaml(name));
  return text +
         "\n# Times of the year in which machines must not be down.\n"
         "# seasons:\n"
         "#   harvest: {from: 08-01, to: 09-20}\n";
}

std::string register_text(const std::vector<TakenMachine>& machines) {
  std::vector<const RegisterColumn*> used;
  for (const RegisterColumn& column : columns) {
    const bool always = column.name == "machine" || column.name == "name" || column.name == "schedule";
    if (always || std::any_of(machines.begin(), machines.end(),
                              [&](const TakenMachine& machine) { return !column.cell(machine).empty(); })) {
      used.push_back(&column);
    }
  }
  std::vector<std::string> cells;
  for (const RegisterColumn* column : used) cells.emplace_back(column->name);
  std::string text = csv_line(cells);
  for (const TakenMachine& machine : machines) {
    cells.clear();
    for (const RegisterColumn* column : used) cells.push_back(column->cell(machine));
    text += csv_line(cells);
  }
  return text;
}

}  // namespace service::entry
