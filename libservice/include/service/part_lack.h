// What stock does not cover of what some work takes, once it is shared out over the whole fleet by day of need.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "service/base.h"

#pragma GCC visibility push(default)

namespace service {

// A machine with work on a day that takes of it.
struct KeptFor {
  std::string machine;
  Day on;
};

struct PartNeed;

struct PartLack {
  std::string key;
  std::string unit;                  // of the amounts, as the fleet lists the part
  bool counted = false;              // else nobody said how many there are, and nothing of what follows is claimed
  PartAmount short_by;               // of what this work takes: not in stock
  std::optional<Day> short_on = {};  // the day of the work
  std::optional<Day> order_by = {};  // as the list of parts has it, for all that lacks it
  int late_days = 0;              // so many days ago it should have been ordered: likewise, of a stop of a plan for it
  std::optional<Day> there = {};  // if it is ordered on the day asked about, not before the work; none: nobody knows
  // Where some of it is in stock and work before this has its turn: so much there is, and for whom it is kept, but for
  // machines of which nothing is told.
  PartAmount in_stock = {};
  // Of a plan that keeps another one: so much of what is in stock, by count or by the fleet file, is gone with what
  // that did before. What is in stock above is without it.
  PartAmount taken_before = {};
  std::vector<KeptFor> kept_for = {};  // by their turn, each machine once
  // Of work on a machine that is laid up or out of use: the list of parts leaves it out, so that nothing is ordered for
  // it. Then there is no day to order by.
  bool not_listed = false;
  bool is_short() const { return counted && short_by.hundredths > 0; }
  bool is_kept() const { return in_stock.hundredths > 0; }
  bool comes_late() const { return there && short_on && *there > *short_on; }
};

// Adds it to those of the same part, or puts it behind them.
void add_lack(std::vector<PartLack>& lacks, const PartLack& lack);

// Of work on a day that lacks so much of what the list of parts says.
PartLack lack_of(const PartNeed& need, PartAmount short_by, Day on, Day as_of);

}  // namespace service

#pragma GCC visibility pop
