// The services to come of a machine along a sample path of its meters; and the past, asked again.
#pragma once

#include <cstdint>
#include <functional>
#include <memory>
#include <string>
#include <vector>

#include "service/base.h"
#include "service/due_list.h"
#include "service/fleet.h"
#include "service/record.h"
#include "service/snapshot.h"
#include "service/standing.h"
#include "service/usage.h"

#pragma GCC visibility push(default)

namespace service {

// One service to come of a machine.
struct ComingService {
  std::size_t point = 0;  // index into Outlook::points
  Day day;
  int round = 1;  // the next one, the one after that, ...
};

// A point that comes due again and again, or a check that will follow a service. Points into the fleet.
struct OutlookPoint {
  const Task* task = nullptr;
  const FollowUp* follow_up = nullptr;
  std::string name;
  std::string position;
};

// The services of one machine from as-of on, along a sample path of its meters: each point is serviced on the day it
// comes due (a point that is due now, or was found worn or failed and not mended since, today; one put off, when that
// ends; on a machine that is laid up, the day it is back), a service of a task serves all that it covers, and starts
// the next interval as `counts-from` says. Signs and measurements to come are not known, so those limbs come due only
// where they are due now.
//
// The snapshot, the machine and what the forecaster refers to outlive it; what it hands out by reference lives as long
// as it does. One thread at a time.
class Outlook {
 public:
  // `detail`: how much is reckoned of the points as they stand today. What comes along a path is the same each time.
  Outlook(const Snapshot& snapshot, const Machine& machine, const Forecaster& forecaster,
          Detail detail = Detail::everything);
  ~Outlook();
  Outlook(Outlook&&) noexcept;
  Outlook& operator=(Outlook&&) noexcept;

  const std::vector<OutlookPoint>& points() const;

  // Points as they stand today, in the order of the schedule.
  const std::vector<Point>& today() const;

  // What was seen of the machine and nobody has found good, as the due list says it.
  const std::vector<SeenSign>& seen() const;

  // Points of which nothing can be said: no record, or nothing expected of the only meter that counts. Indexes of
  // `today`.
  const std::vector<std::size_t>& unknown() const;

  // What is not known of the machine, as the due list says it.
  const std::vector<Gap>& gaps() const;

  // It stands, and nobody said until when: then nothing is to come.
  bool stands() const;

  // From as-of to a day, both inclusive, by day, along the sample path of a number. The same number is the same season,
  // early or late, on all machines; the same machine and number give the same services, whatever else is asked.
  std::vector<ComingService> draw(std::uint64_t path, Day to) const;

 private:
  struct Impl;
  std::unique_ptr<Impl> impl_;
};

// --- Whether the forecast was right ------------------------------------------------------------------------

// The fleet's own past, asked again: on each day of old, with nothing but what was known by then, when each usage limb
// would come due; held against the day on which it did. Scored are days from that day on, 0 (there already) to 548.
// Loss: the pinball loss averaged over p10, p50 and p90, in days; a plain rule says one day for all three. Which are
// scored does not hang on what came, so that the slow ones count; one that has not come by the last reading counts as
// coming the day after.
struct ReplayScore {
  int answered = 0;      // forecasts whose p90 lies on or before the last reading
  int open = 0;          // the others: left out, whether they came or not
  int inside = 0;        // of those answered: the day lay within p10 and p90, both inclusive
  double loss = 0;       // mean days
  double straight = 0;   // of the mean rate of the 365 days before
  double same_days = 0;  // of the same days of the year before

  enum class Better { forecast, straight, same_days };
  Better better() const;  // whose loss is least
};

struct ReplayRow {
  const Machine* machine = nullptr;  // null: a whole kind
  std::string kind;                  // its schedule
  ReplayScore score;
};

// Points into the fleet, which it keeps.
struct Replay {
  std::shared_ptr<const Fleet> fleet;
  std::vector<Day> days;  // that were asked again
  std::vector<ReplayRow> machines;
  std::vector<ReplayRow> kinds;
  ReplayScore all;
};

// `facts`: the whole book, struck ones and strikes too. Days before as-of are asked again for the machines of the
// scope.
Replay replay(const std::shared_ptr<const Fleet>& fleet, const std::vector<Fact>& facts, Day as_of, const Scope& scope,
              const Progress& progress = {});

}  // namespace service

#pragma GCC visibility pop
