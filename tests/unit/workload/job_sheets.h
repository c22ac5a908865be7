// Job sheets of small worlds, and what stands on them as text.
#pragma once

#include <doctest/doctest.h>

#include <string>
#include <string_view>
#include <vector>

#include "service/job_sheet.h"
#include "support/world.h"

namespace sheet_test {

using namespace service;
using test::day;
using test::World;

inline JobSheet sheet_of(const World& world, std::string_view as_of, std::string_view within = "", bool named = false) {
  const auto snapshot = world.snapshot(as_of);
  return job_sheet(snapshot, {day(within.empty() ? as_of : within), named}, straight_line());
}

// The only page, with the list that it points into.
struct OnePage {
  JobSheet sheet;
  const MachineSheet* operator->() const { return &sheet.pages.front(); }
};

inline OnePage page_of(const World& world, std::string_view as_of, std::string_view within = "") {
  OnePage page{sheet_of(world, as_of, within, true)};
  REQUIRE(page.sheet.pages.size() == 1);
  return page;
}

inline std::string joined(const std::vector<std::string>& texts) {
  std::string all;
  for (const std::string& text : texts) all += (all.empty() ? "" : ", ") + text;
  return all;
}

inline std::string names(const std::vector<SheetTask>& tasks) {
  std::vector<std::string> all;
  for (const SheetTask& task : tasks) all.push_back(task.name);
  return joined(all);
}

inline std::string names(const std::vector<SheetLook>& looks) {
  std::vector<std::string> all;
  for (const SheetLook& look : looks) all.push_back(look.name);
  return joined(all);
}

inline std::string names(const std::vector<const Point*>& points) {
  std::vector<std::string> all;
  for (const Point* point : points) all.push_back(point_label(point->name, point->position));
  return joined(all);
}

// What each task says of running the machine.
inline std::string run_rules(const std::vector<SheetTask>& tasks) {
  std::vector<std::string> all;
  for (const SheetTask& task : tasks) all.push_back(task.name + ' ' + std::string(to_text(task.run_rule)));
  return joined(all);
}

inline std::string kinds(const std::vector<SheetAfter>& afterwards) {
  std::vector<std::string> all;
  for (const SheetAfter& after : afterwards) {
    const std::string check = after.kind == AfterKind::check ? ' ' + after.check.check->name : "";
    all.push_back(std::string(to_text(after.kind)) + check);
  }
  return joined(all);
}

inline const std::string put_in_service = "in-service: {on: 2025-01-01, at: 0}";
inline const std::string hours = "meters: {engine: {unit: h}}\n";

inline std::string task(const std::string& name, const std::string& more = "") {
  return "  " + name + ": {do: Do it, every: {months: 6}" + (more.empty() ? "" : ", " + more) + "}\n";
}

}  // namespace sheet_test
