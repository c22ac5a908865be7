// What is to come, added up: the season to prepare for, the hours of work and the money of the months ahead, and the
// parts that have to be there in time.
//
// Labour is minutes of work by hand: how long a task takes times the people it needs. A task that says no `takes` is
// counted as a service without time, and said. Costs are parts and fluids at their `price`, and labour at the fleet's
// `costs: hour`; what has no price is left out, and said. The program knows no time, price or quantity of its own.
#pragma once

#include <optional>
#include <string>
#include <utility>
#include <vector>

#include "service/base.h"
#include "service/fleet.h"
#include "service/outlook.h"
#include "service/snapshot.h"
#include "service/standing.h"
#include "service/usage.h"

namespace service {

// --- What one service takes --------------------------------------------------------------------------------

struct Resources {
  std::optional<std::chrono::minutes> time;  // for one person
  int people = 1;
  std::vector<std::pair<std::string, PartAmount>> parts;
  std::vector<std::pair<std::string, Quantity>> fluids;
  std::int64_t labour_minutes() const { return time ? time->count() * people : 0; }
};

// Of a task as it holds for a machine, or of a check that follows one.
Resources resources_of(const Machine& machine, const Task& task, const FollowUp* check = nullptr);

// --- Workload ----------------------------------------------------------------------------------------------

enum class Step { week, month };

// Over the ways in which use may go on. p10: the amount that is not exceeded in one way of ten.
struct Spread {
  double mean = 0;
  double p10 = 0;
  double p50 = 0;
  double p90 = 0;
};

struct WorkloadRow {
  Day from;  // a Monday or the first of a month, but as-of where that is later
  Day to;    // inclusive
  Spread labour_hours;
  Spread services;
  Spread cost;
};

// Means over all ways, in the order of names.
struct WorkloadPart {
  std::string key;
  std::string unit;  // empty where none is given
  double mean = 0;
};

struct WorkloadMachine {
  const Machine* machine = nullptr;
  Spread labour_hours;
  double services = 0;  // mean
};

struct Workload {
  std::shared_ptr<const Fleet> fleet;
  Day as_of;
  Day to;
  Step step = Step::month;
  int ways = 0;                   // that were drawn
  std::vector<WorkloadRow> rows;  // without a gap, from as-of to the end
  Spread labour_hours;            // of all rows together
  Spread services;
  Spread cost;
  std::vector<WorkloadPart> parts;
  std::vector<WorkloadPart> fluids;
  std::vector<WorkloadMachine> machines;

  // What is not in it.
  std::vector<std::pair<const Machine*, std::string>> unknown;  // machine and point of which nothing can be said
  std::vector<const Machine*> standing;                         // laid up or out of use, nobody said until when
  std::vector<std::pair<const Machine*, std::string>> no_time;  // points with services but no `takes`
  std::vector<std::string> no_price;                            // parts and fluids
  bool labour_priced = false;
};

// Every machine of the scope until `to`; recurrences included. Whole numbers are added up way by way, so that weeks and
// months agree.
Workload workload(const Snapshot& snapshot, Day to, Step step, const Forecaster& forecaster,
                  const Progress& progress = {});

// --- Parts -------------------------------------------------------------------------------------------------

struct PartUse {
  const Machine* machine = nullptr;
  std::string point;  // `engine-oil`, `tyre@front-left`
  int round = 1;
  PartAmount amount;
  DueSpan due;          // of that service
  bool likely = false;  // its middle day is within the horizon; else only its early end is
};

struct PartNeed {
  std::string key;
  const Part* part = nullptr;  // null: the fleet lists no such part
  bool fluid = false;
  std::string unit;
  std::optional<PartAmount> stock;  // of the newest count less what was used since, else as the fleet file has it
  std::optional<Day> counted_on;    // none: as the fleet file has it
  PartAmount need;                  // of services that are likely within the horizon
  PartAmount more;                  // of those that may be
  PartAmount short_by;              // need less stock
  std::optional<PartAmount> packs;  // to buy; none where it comes in no packs
  PartAmount buy;                   // in the part's unit, whole packs where it comes in packs
  std::optional<Day> short_on;      // the early end of the first likely service that stock does not cover
  std::optional<Day> order_by;      // that day less the lead time
  std::optional<Money> price;       // of what is to be bought
  std::vector<PartUse> uses;        // by day
};

struct PartsList {
  std::shared_ptr<const Fleet> fleet;
  Day as_of;
  Day to;
  std::vector<PartNeed> needs;  // what is short first, by the day to order
  std::vector<std::pair<const Machine*, std::string>> unknown;
  std::vector<const Machine*> standing;
};

// For all machines of the snapshot's scope. Stock is the whole fleet's, so the scope should be too.
PartsList parts_list(const Snapshot& snapshot, Day to, const Forecaster& forecaster, const Progress& progress = {});

// --- Season ------------------------------------------------------------------------------------------------

struct SeasonItem {
  Point point;
  double odds = 0;                      // of coming due before the season's end
  Day do_by;                            // its early end, or the day before the season where that is sooner
  std::optional<double> given_up;       // share of its life that is left when it is done today
  std::optional<double> again;          // odds that it comes due again in the season, done today
  std::vector<std::string> covered;     // points of the list that this one includes
  bool safety = false;                  // it, or one that it includes, is a safety task
  Standing standing = Standing::later;  // the worst of it and of those that it includes
  Resources resources;
};

struct SeasonPlan {
  std::shared_ptr<const Fleet> fleet;
  const Season* season = nullptr;
  Day as_of;
  Day from;
  Day to;
  double threshold = 0.2;
  std::vector<SeasonItem> beforehand;  // safety first, then by the day it should be done by, then by machine
  std::vector<SeasonItem> can_wait;    // 1 % or more, below the threshold; never a safety task
  int not_before = 0;                  // points that hardly come due before the season's end
  std::vector<Point> unknown;          // no record, or a limb that cannot be computed, or nothing expected
  std::vector<Gap> gaps;
  std::vector<MachineUse> not_in_use;
  std::int64_t labour_minutes = 0;  // of `beforehand`
  int without_time = 0;             // of them, tasks that say no `takes`
  std::vector<PartNeed> parts;      // that they take, held against stock
  bool under_way() const { return from <= as_of; }
};

// The season's year is that of its first day; without one, the season under way or the next. Fails with usage where
// that season is over on the snapshot's day.
SeasonDays season_days(const Season& season, std::optional<int> year, Day as_of);

// The list of that season.
SeasonPlan season_plan(const Snapshot& snapshot, const Season& season, std::optional<int> year, double threshold,
                       const Forecaster& forecaster);

}  // namespace service
