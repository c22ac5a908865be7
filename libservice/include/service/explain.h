// One standing taken apart: everything that it takes to say why. Whoever shows it words it and reckons nothing.
//
// Answers are values: they keep their fleet, and what their points point to is in there.
#pragma once

#include <memory>
#include <optional>
#include <string>
#include <vector>

#include "service/base.h"
#include "service/due_list.h"
#include "service/forecast.h"
#include "service/not_to_run.h"
#include "service/record.h"
#include "service/snapshot.h"
#include "service/workload.h"

#pragma GCC visibility push(default)

namespace service {

// A fact that the standing rests on.
struct ExplainedFact {
  Fact fact;
  std::optional<Amount> usage;  // lifetime usage of its meter, where the meter showed another value
};

// Why one limb rules.
enum class Ruling {
  nothing_reckoned,  // no limb can be reckoned
  alone,             // there is no other
  ends_first,        // none is reached, and this one ends first
  reached_first,     // others are as far
  furthest,          // no other limb is as far
};

// What is expected of a meter that the point counts.
struct ExplainedUse {
  std::string meter;
  std::string unit;
  std::optional<Grounds> grounds;  // none: there is nothing to go by
  BusyMonths busy;
};

// How much a meter ran in a season that is over: between the reading before it and the one after it.
struct PastSeason {
  int year = 0;  // of its first day
  Amount use;
};

// What the odds of a season rest on: where a meter that the point counts is expected to be when it ends.
struct SeasonUse {
  std::string meter;
  std::string unit;
  Amount due_at;
  UsageSpan at_end;
  std::vector<PastSeason> past;  // those whose readings are near enough, the oldest first
};

// Odds of coming due by the end of a season, the one under way or the next.
struct SeasonOdds {
  const Season* season = nullptr;
  SeasonDays days;
  Probability odds;
  std::vector<SeasonUse> use = {};
};

struct Explanation {
  Point point;
  bool running_in = false;           // the interval is the first one
  bool grace_known = true;           // no limb has a percentage of an interval that cannot be reckoned
  std::vector<ExplainedFact> facts;  // that of the fitting first, where there is one; each once
  bool by_covering = false;          // fitted by a service of a task that covers this one
  Ruling ruling = Ruling::alone;
  std::vector<ExplainedUse> use;    // once for each meter; of limbs that are not reached
  bool ends_certainly = false;      // the late end of the span is a day that a calendar limb names
  std::vector<SeasonOdds> seasons;  // of a point that is not reached
  Resources resources;
  std::string source;  // where its limits come from, as the schedule notes it, or the machine's own change
};

struct Explanations {
  std::shared_ptr<const Fleet> fleet;
  Day as_of;
  std::vector<Explanation> points;
  std::vector<Gap> gaps;       // of the machine and of the fleet
  std::vector<SeenSign> seen;  // of the machine, whatever is explained of it
  std::vector<MachineUse> not_in_use;
  NotToRun not_to_run;       // whatever is explained of it
  std::size_t left_off = 0;  // points that `explain_worst` did not take
};

// Of a task (or `task/check`) of the machine in the snapshot's scope, or of each where there are more; at all positions
// where none is named. No points where the task has no standing on that day; names are not looked up, so nothing fails.
Explanations explain(const Snapshot& snapshot, std::string_view task, std::string_view position,
                     const Forecaster& forecaster);

// Of the first point in the order of the due list. No points where the scope has none on that day.
Explanations explain_worst(const Snapshot& snapshot, const Forecaster& forecaster);

}  // namespace service

#pragma GCC visibility pop
