// Limbs and graces by what they are.
#pragma once

#include <array>
#include <string>
#include <utility>
#include <vector>

#include "twin.h"

namespace twin {

constexpr Amount hundred = 100;

constexpr std::array<CountsFrom, 3> all_counts_from{CountsFrom::done, CountsFrom::due, CountsFrom::earlier};

inline Limb hours(Amount hundredths) {
  Limb l;
  l.kind = Kind::usage;
  l.amount = hundredths;
  return l;
}

inline Limb usage(const std::string& meter, Amount hundredths) {
  Limb l = hours(hundredths);
  l.meter = meter;
  return l;
}

inline Limb calendar(int count, Unit unit) {
  Limb l;
  l.kind = Kind::calendar;
  l.count = count;
  l.unit = unit;
  return l;
}

inline Limb changes(const std::string& task, int n) {
  Limb l;
  l.kind = Kind::changes;
  l.name = task;
  l.count = n;
  return l;
}

inline Limb measured(const std::string& name, bool above, Amount limit, const std::string& unit) {
  Limb l;
  l.kind = Kind::measured;
  l.name = name;
  l.above = above;
  l.amount = limit;
  l.measure_unit = unit;
  return l;
}

inline Limb signs(std::vector<std::string> names) {
  Limb l;
  l.kind = Kind::sign;
  l.signs = std::move(names);
  return l;
}

inline Limb season(const std::string& name, int lead) {
  Limb l;
  l.kind = Kind::season;
  l.name = name;
  l.count = lead;
  return l;
}

inline Grace percent(int p) {
  Grace g;
  g.percent = p;
  return g;
}

inline Grace grace_days(int d) {
  Grace g;
  g.days = d;
  return g;
}

}  // namespace twin
