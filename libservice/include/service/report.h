// All that there is to say of a fleet on one day: what must not wait, what is due, the season at hand, the months
// ahead, the parts, and each machine with its use and its book. Made from one snapshot in one go, so that its parts
// agree with each other, and with what each question says when it is asked alone.
#pragma once

#include <memory>
#include <optional>
#include <string>
#include <vector>

#include "service/book.h"
#include "service/due_list.h"
#include "service/forecast.h"
#include "service/not_to_run.h"
#include "service/season.h"
#include "service/workload.h"

#pragma GCC visibility push(default)

namespace service {

// The season under way, of several the one that began last; else the one that begins next. Null where the fleet has
// none. Points into the fleet.
const Season* season_at_hand(const Fleet& fleet, Day as_of);

struct ReportAsk {
  Day due_within;                  // the last day of the due list's horizon
  Day parts_to;                    // of the services whose parts are counted
  Day ahead_to;                    // of workload and use ahead; none of them before as-of
  const Season* season = nullptr;  // of the snapshot's fleet; null: the one at hand
};

// The months ahead take each service on the day it comes due, a season's plan before the season: two figures for the
// same work, so whoever shows the months says what the plan takes.
struct BesideMonths {
  std::int64_t labour_minutes = 0;  // of what is to be done before the season
  Day before;                       // its first day
};

// Points into the fleet, which it keeps, and its pages into it.
struct Report {
  std::shared_ptr<const Fleet> fleet;
  Day as_of;
  Scope scope;  // what was asked about
  // The day of the newest fact about its machines, up to as-of; none: nothing is recorded of them.
  std::optional<Day> known_until;
  DueList due;
  std::optional<SeasonPlan> season;           // none: the fleet has no seasons
  Workload workload;                          // by month
  std::optional<BesideMonths> beside_months;  // none: no season is ahead, or nothing is to be done before it
  // With a season: for the work before it and what to have ready, as `parts_before` lists them; else the services until
  // `parts_to`.
  PartsList parts;
  // With a season: of the services until `parts_to` those that are in `parts` in no way. What that buys is in stock by
  // then, so no part stands here for a need that is told there.
  std::optional<PartsList> parts_beyond;
  Forecast forecast;  // what it calls coming, the due list calls so too
  // What is not known of machines that were not asked about, and on which the fleet's stock and orders rest: a number
  // alone, for who reads of one site is not told of another customer's machines. Those of the same customer are told.
  // Where such a reading is hard to believe, `ReadingDoubts::elsewhere` counts its machine.
  std::size_t gaps_elsewhere = 0;
  std::vector<Book> books;  // of the machines that are kept on that day, in the order of the fleet file
};

// `facts`: all of the record, from which the snapshot was made, struck ones and strikes too. Like parts_list the
// snapshot must hold them all, and it fails as that and `season_plan` do.
Report report(const Snapshot& snapshot, const std::vector<Fact>& facts, const ReportAsk& ask,
              const Forecaster& forecaster, const Progress& progress = {});

// So many days ahead a safety or statutory task must not wait.
inline constexpr std::chrono::days soon{7};

// What must not wait and is not on the overdue list: safety and statutory tasks that are due, or come due soon, of
// machines that are in use. In the order of the due list; points into the report.
std::vector<const Point*> due_soon(const Report& report);

// What is to be bought, by supplier. Empty where the report is of some machines: the bill is the whole fleet's.
std::vector<SupplierOrder> shopping_of(const Report& report);

// One machine of a report, and what the report says of it.
struct MachinePage {
  const Machine* machine = nullptr;
  const UseState* state = nullptr;    // null: in use
  std::optional<RunBan> ban;          // none: it may be run, unless it is laid up
  std::optional<Day> known_until;     // the day of the newest fact about it
  std::vector<const Point*> points;   // all of them, in the order of the due list
  std::vector<const Point*> to_mend;  // of these: found worn or failed and not mended since, whenever they come due
  std::vector<const SeenSign*> seen;
  std::vector<const Gap*> gaps;
  std::vector<const MeterForecast*> meters;
  const Book* book = nullptr;
};

// In the order of the fleet file. They live as long as the report stays where it is and is not changed.
std::vector<MachinePage> pages_of(const Report& report);

// How many of the newest lines of a book a page shows before the others.
inline constexpr std::size_t newest_lines = 8;

}  // namespace service

#pragma GCC visibility pop
