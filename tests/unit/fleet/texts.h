// Small fleets as texts, for tests of the fleet room.
#pragma once

#include <string>
#include <string_view>
#include <variant>
#include <vector>

#include "service/fleet.h"

namespace fleet_texts {

inline const std::string one_machine = "fleet: Test farm\nmachines:\n  pump: {schedule: pump}\n";
inline const std::string one_task =
    "schedule: pump\ntasks:\n  gland:\n    do: Repack the gland\n    every: {months: 6}\n";

inline std::string machine_with(std::string_view lines) {
  return "fleet: Test farm\nmachines:\n  pump:\n    schedule: pump\n    " + std::string(lines) + '\n';
}

inline service::FleetFiles files_of(std::string_view fleet, std::string_view schedule) {
  return {{}, {{"fleet.yaml", std::string(fleet)}, {"schedules/pump.yaml", std::string(schedule)}}};
}

inline service::Fleet fleet_of(std::string_view fleet, std::string_view schedule) {
  return service::read_fleet(files_of(fleet, schedule));
}

inline service::Fleet fleet_of(std::string_view fleet, std::string_view schedule, std::string_view rows) {
  service::FleetFiles files = files_of(fleet, schedule);
  files.texts.emplace("register.csv", rows);
  return service::read_fleet(files);
}

// The codes of all mistakes, in order, with a blank between; "" where there are none. A mistake without a place is
// marked by an asterisk, which no test expects.
inline std::string codes_of(const service::FleetFiles& files) {
  std::string codes;
  try {
    service::read_fleet(files);
  } catch (const service::Failure& failure) {
    for (const service::Diagnostic& one : failure.diagnostics()) {
      if (!codes.empty()) codes += ' ';
      codes += one.code;
      if (!one.place || one.place->file.empty()) codes += '*';
    }
    if (codes.empty()) codes = "a failure that says nothing";
  }
  return codes;
}

inline std::string codes_of(std::string_view fleet, std::string_view schedule) {
  return codes_of(files_of(fleet, schedule));
}

inline std::string codes_of(std::string_view fleet, std::string_view schedule, std::string_view rows) {
  service::FleetFiles files = files_of(fleet, schedule);
  files.texts.emplace("register.csv", rows);
  return codes_of(files);
}

// The limbs as words, to compare whole intervals at once.
inline std::string words(const std::vector<service::Limb>& limbs) {
  struct Words {
    std::string operator()(const service::UsageLimb& l) const {
      return l.meter.value_or("hours") + ' ' + service::to_text(l.every);
    }
    std::string operator()(const service::CalendarLimb& l) const { return service::to_text(l.every); }
    std::string operator()(const service::ChangesLimb& l) const { return std::to_string(l.count) + " of " + l.task; }
    std::string operator()(const service::MeasuredLimb& l) const {
      return l.name + (l.above ? " above " : " below ") + service::to_text(l.limit) + ' ' + l.unit;
    }
    std::string operator()(const service::SignLimb& l) const {
      std::string text = "signs";
      for (const std::string& sign : l.signs) text += ' ' + sign;
      return text;
    }
    std::string operator()(const service::SeasonLimb& l) const {
      return std::to_string(l.lead_days) + " before " + l.season;
    }
  };
  std::string text;
  for (const service::Limb& limb : limbs) {
    if (!text.empty()) text += ", ";
    text += std::visit(Words{}, limb);
  }
  return text;
}

}  // namespace fleet_texts
