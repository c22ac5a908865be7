// Small worlds for tests: fleet files and facts in, the due list out.
#pragma once

#include <doctest/doctest.h>

#include <map>
#include <memory>
#include <string>
#include <string_view>
#include <vector>

#include "service/due_list.h"
#include "service/fleet.h"
#include "service/record.h"
#include "service/snapshot.h"
#include "support/print.h"

namespace test {

using service::Amount;
using service::Day;

inline Day day(std::string_view text) {
  const auto read = service::parse_day(text);
  REQUIRE_MESSAGE(read.value.has_value(), std::string(text));
  return *read;
}

inline service::DaySpan span(std::string_view text) {
  const auto read = service::parse_day_span(text);
  REQUIRE_MESSAGE(read.value.has_value(), std::string(text));
  return *read;
}

inline Amount amount(std::string_view text) {
  const auto read = service::parse_amount(text);
  REQUIRE_MESSAGE(read.value.has_value(), std::string(text));
  return *read;
}

// One machine `m` of one schedule `kind` unless the texts say otherwise.
class World {
 public:
  // `tasks`: the YAML below `tasks:`, indented by two. `machine`: the YAML of the machine, in flow style, without its
  // schedule. `more`: further keys of fleet.yaml.
  World(const std::string& tasks, const std::string& machine = "", const std::string& more = "",
        const std::string& meters = "") {
    files_.texts["fleet.yaml"] =
        "fleet: Test\n" + more + "machines:\n  m: {schedule: kind" + (machine.empty() ? "" : ", " + machine) + "}\n";
    files_.texts["schedules/kind.yaml"] = "schedule: kind\n" + meters + "tasks:\n" + tasks;
    fleet_ = std::make_shared<const service::Fleet>(service::read_fleet(files_));
  }
  explicit World(const service::FleetFiles& files)
      : files_(files), fleet_(std::make_shared<const service::Fleet>(service::read_fleet(files))) {}

  const service::Fleet& fleet() const { return *fleet_; }

  // Facts enter in the order of these calls.
  service::Fact& add(service::Fact fact) {
    fact.id = {service::make_command_id(++entered_, {}), 1};
    fact.entered = entered_;
    if (fact.machine.empty() && fact.kind != service::FactKind::strike && fact.kind != service::FactKind::count) {
      fact.machine = "m";
    }
    facts_.push_back(fact);
    return facts_.back();
  }
  service::Fact& reading(std::string_view on, std::string_view at, std::string_view meter = "") {
    service::Fact fact;
    fact.kind = service::FactKind::reading;
    fact.on = day(on);
    fact.at = amount(at);
    fact.meter = meter;
    return add(fact);
  }
  service::Fact& done(std::string_view task, std::string_view on, std::string_view at = "",
                      std::string_view position = "", std::string_view meter = "") {
    service::Fact fact;
    fact.kind = service::FactKind::service;
    fact.task = task;
    fact.on = span(on);
    if (!at.empty()) fact.at = amount(at);
    fact.position = position;
    fact.meter = meter;
    return add(fact);
  }
  service::Fact& sign(std::string_view name, std::string_view on) {
    service::Fact fact;
    fact.kind = service::FactKind::sign;
    fact.name = name;
    fact.on = span(on);
    return add(fact);
  }
  service::Fact& measured(std::string_view name, std::string_view value, std::string_view on, std::string_view unit,
                          std::string_view position = "") {
    service::Fact fact;
    fact.kind = service::FactKind::measurement;
    fact.name = name;
    fact.value = *service::parse_measure(value);
    fact.on = day(on);
    fact.unit = unit;
    fact.position = position;
    return add(fact);
  }
  service::Fact& meter_change(std::string_view on, std::string_view last, std::string_view first,
                              std::string_view meter = "") {
    service::Fact fact;
    fact.kind = service::FactKind::meter_change;
    fact.on = day(on);
    fact.last = amount(last);
    fact.first = amount(first);
    fact.meter = meter;
    return add(fact);
  }
  service::Fact& state(service::FactKind kind, std::string_view on, std::string_view until = "") {
    service::Fact fact;
    fact.kind = kind;
    fact.on = day(on);
    if (!until.empty()) fact.until = day(until);
    return add(fact);
  }
  service::Fact& put_off(std::string_view task, std::string_view on, std::string_view until, std::string_view at = "") {
    service::Fact fact;
    fact.kind = service::FactKind::put_off;
    fact.task = task;
    fact.on = day(on);
    if (!until.empty()) fact.until = day(until);
    if (!at.empty()) fact.at = amount(at);
    fact.by = "office";
    return add(fact);
  }
  service::Fact& strike(service::FactId id) {
    service::Fact fact;
    fact.kind = service::FactKind::strike;
    fact.on = day("2020-01-01");
    fact.strikes = id;
    return add(fact);
  }

  const std::vector<service::Fact>& facts() const { return facts_; }

  service::Snapshot snapshot(std::string_view as_of, service::Scope scope = {}) const {
    return {fleet_, service::whole_book(facts_), day(as_of), true, std::move(scope)};
  }
  service::DueList due(std::string_view as_of) const {
    return service::due_list(snapshot(as_of), {day(as_of) + std::chrono::days{30}, {}}, service::straight_line());
  }
  // The point of machine `m`, copied out of the list; the fleet outlives it with this world.
  service::Point point(std::string_view as_of, std::string_view name, std::string_view position = "") const {
    const auto list = due(as_of);
    for (const service::Point& point : list.points) {
      if (point.machine->key == "m" && point.name == name && point.position == position) return point;
    }
    FAIL("no point " << std::string(name) << " on " << std::string(as_of));
    return {};
  }
  bool has_point(std::string_view as_of, std::string_view name) const {
    const auto list = due(as_of);
    for (const service::Point& point : list.points) {
      if (point.name == name) return true;
    }
    return false;
  }

 private:
  service::FleetFiles files_;
  std::shared_ptr<const service::Fleet> fleet_;
  std::vector<service::Fact> facts_;
  std::int64_t entered_ = 1'000;
};

// "overdue usage 2026-02-14": standing, ruling limb, day; for one-line checks.
inline std::string told(const service::Point& point) {
  std::string text{service::to_text(point.standing)};
  if (point.by_estimate) text += " by-estimate";
  if (point.ruled_by) text += ' ' + std::string(service::to_text(point.limbs[*point.ruled_by].kind));
  if (point.due_on) text += ' ' + service::to_text(*point.due_on);
  return text;
}

inline const service::LimbStanding& limb(const service::Point& point, service::LimbKind kind) {
  for (const service::LimbStanding& limb : point.limbs) {
    if (limb.kind == kind) return limb;
  }
  FAIL("no such limb");
  return point.limbs.front();
}

template <class Kind>
std::string text_or_none(const std::optional<service::Exact<Kind>>& amount) {
  return amount ? service::to_text(*amount) : "none";
}
inline std::string text_or_none(const std::optional<Day>& day) { return day ? service::to_text(*day) : "none"; }

inline std::string unknown_of(const service::Point& point) {
  std::string text;
  for (const service::LimbKind kind : point.unknown) {
    text += (text.empty() ? "" : " ") + std::string(service::to_text(kind));
  }
  return text;
}

}  // namespace test
