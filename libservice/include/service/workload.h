// What is to come, added up: the hours of work and the money of the months ahead, and the parts that have to be there
// in time. (What a season takes: season.h.)
//
// Labour is minutes of work by hand: how long a task takes times the people it needs. A task that says no `takes` is
// counted as a service without time, and said. Costs are parts and fluids at their `price`, and labour at the fleet's
// `costs: hour`, in the fleet's currency; what has no price is left out, and said. The program knows no time, price or
// quantity of its own.
//
// Answers are values: each keeps its fleet, and what its pointers point to is in there, unless they say otherwise. They
// fail where they say so, and pass on what `progress` throws. A forecaster is asked by the thread that asks.
#pragma once

#include <optional>
#include <string>
#include <utility>
#include <vector>

#include "service/base.h"
#include "service/due_list.h"
#include "service/fleet.h"
#include "service/not_to_run.h"
#include "service/outlook.h"
#include "service/reading_doubts.h"
#include "service/snapshot.h"
#include "service/usage.h"

#pragma GCC visibility push(default)

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

// Over the sample paths of use. p10: the amount that is not exceeded on one path of ten.
struct Spread {
  double mean = 0;
  double p10 = 0;
  double p50 = 0;
  double p90 = 0;
};

// A part or fluid that services use.
struct WorkloadPart {
  std::string key;
  std::string unit;  // of the amount; empty where none is given
  Spread amount;
  std::optional<Money> price;  // of one unit
};

struct WorkloadRow {
  Day from;  // a Monday or the first of a month, but as-of where that is later
  Day to;    // inclusive
  Spread labour_hours;
  Spread services;                  // how many
  Spread cost;                      // in the fleet's currency
  Spread pieces;                    // of all parts together
  std::vector<WorkloadPart> parts;  // that are used in it on some path, in the order of names
  std::vector<WorkloadPart> fluids;
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
  Scope scope;  // what was asked about
  Step step = Step::month;
  int sample_paths = 0;           // sample paths that were drawn of each machine
  std::vector<WorkloadRow> rows;  // without a gap, from as-of to the end
  Spread labour_hours;            // of all rows together
  Spread services;
  Spread cost;
  Spread pieces;
  std::vector<WorkloadPart> parts;
  std::vector<WorkloadPart> fluids;
  std::vector<WorkloadMachine> machines;

  // What is not in it.
  std::vector<PointName> unknown;      // points of which nothing can be said
  std::vector<MachineUse> not_in_use;  // in the sums from the day on which they are back, where somebody said when
  NotToRun not_to_run;                 // whatever work of them is in the sums
  std::vector<Gap> gaps;               // what the figures rest on and is not known, as the due list says it
  bool doubtful = false;               // some of them rest on readings that are hard to believe
  std::vector<PointName> no_time;      // points with services but no `takes`
  std::vector<std::string> no_price;   // parts and fluids
  bool labour_priced = false;
  // What `keep_first` left off; the sums hold them.
  std::size_t rows_left_off = 0;
  std::size_t parts_left_off = 0;
  std::size_t fluids_left_off = 0;
  std::size_t machines_left_off = 0;
  std::size_t left_off() const { return rows_left_off + parts_left_off + fluids_left_off + machines_left_off; }
};

// Every machine of the scope until `to`, inclusive and not before as-of; recurrences included. Whole numbers are added
// up path by path, so that weeks and months agree.
Workload workload(const Snapshot& snapshot, Day to, Step step, const Forecaster& forecaster,
                  const Progress& progress = {});

// Only the first rows, parts, fluids and machines.
void keep_first(Workload& workload, std::size_t first);

// --- Parts -------------------------------------------------------------------------------------------------

struct PartUse {
  const Machine* machine = nullptr;
  std::string task;  // `engine-oil`
  std::string position;
  int round = 1;
  PartAmount amount;
  DueSpan due;  // of that service, as the due list and a season say it
  // When it is done, and takes them. Of work before a season the day to do it by; of what is put off, or stands on a
  // machine that is laid up, not before that ends.
  DueSpan done;
  bool likely = false;  // its middle day is within the horizon; else only its early end is
  bool ready = false;   // to be had ready for a season: it may come due in it all the same
  // Of the parts for a season: not on its list, and yet it takes from the same stock before the season begins.
  bool other_work = false;
  bool doubtful = false;  // as its point
};

// One part or fluid. What is needed, stock and order are the whole fleet's: stock is shared out by day of need.
struct PartNeed {
  std::string key;
  const Part* part = nullptr;  // null: the fleet lists no such part
  bool fluid = false;
  std::string unit;
  std::optional<PartAmount> stock;  // of the newest count less what was used since, else as the fleet file has it
  std::optional<Day> counted_on;    // none: as the fleet file has it
  PartAmount need;                  // of services that are likely within the horizon
  PartAmount ready;                 // of `need`: to be had ready for a season
  PartAmount more;                  // of those that may be
  PartAmount short_by;              // need less stock
  std::optional<PartAmount> packs;  // to buy; none where it comes in no packs
  PartAmount buy;                   // in the part's unit, whole packs where it comes in packs
  std::optional<Day> short_on;      // the early end of the first likely service that stock does not cover
  std::optional<Day> order_by;      // that day less the lead time, not before as-of; where short
  int late_days = 0;                // so many days before as-of it should have been ordered
  std::optional<Money> price;       // of one unit
  std::optional<Money> cost;        // of what is to be bought
  std::vector<PartUse> uses;        // by day; those of the scope
  bool doubtful = false;            // one of its likely uses is, of whatever machine
  bool is_short() const { return short_by.hundredths > 0; }
};

struct PartsList {
  std::shared_ptr<const Fleet> fleet;
  Day as_of;
  Day to;
  const Season* before = nullptr;  // null: the services of a span; else the work before that season, and what to have
                                   // ready for it
  Scope scope;                     // what was asked about; only what it uses is listed
  std::vector<PartNeed> needs;     // what is short first, by the day to order
  std::vector<PointName> unknown;
  std::vector<MachineUse> not_in_use;
  NotToRun not_to_run;       // of the scope, whether they take parts or not
  std::vector<Gap> gaps;     // of the scope, and of every machine that takes one of these parts
  ReadingDoubts doubts;      // where a need rests on some
  std::size_t left_off = 0;  // needs that `keep_first` left off
};

// Only the first of what is short, and of what is not.
void keep_first(PartsList& list, std::size_t first);

// The services from as-of to a day, inclusive. The snapshot's scope chooses what is listed; it must hold all facts of
// the record (take_fleet_snapshot), for the figures are the fleet's: else it fails with internal.
PartsList parts_list(const Snapshot& snapshot, Day to, const Forecaster& forecaster, const Progress& progress = {});

// What is short, to be bought in one place. Points into the parts list.
struct SupplierOrder {
  std::string supplier;  // empty: none is given
  std::vector<const PartNeed*> needs;
  std::optional<Money> cost;  // of all; none where one of them has no price
};

std::vector<SupplierOrder> orders_of(const PartsList& list);  // by supplier, in the order of names

}  // namespace service

#pragma GCC visibility pop
