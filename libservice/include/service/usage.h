// Meters: lifetime usage through replacements and roll-overs, known up to the last reading, expected beyond it.
//
//   usage = value shown + offset of the meter's current segment
//
// Between two known values usage is linear by day, rounded half away from zero to a hundredth. Before the first one
// nothing is known. After the last one the last known usage stands, until a forecast is asked.
//
// An Amount is in the unit of its meter throughout; where a figure is an estimate and a double, the field says its
// unit. What is known is held in values, which threads may share; of what is expected each says how long it lives.
#pragma once

#include <array>
#include <functional>
#include <map>
#include <memory>
#include <optional>
#include <string>
#include <vector>

#include "service/base.h"
#include "service/draws.h"
#include "service/fleet.h"
#include "service/record.h"
#include "service/snapshot.h"

#pragma GCC visibility push(default)

namespace service {

// --- What is known -----------------------------------------------------------------------------------------

// Where the usage at a fitting comes from.
enum class Basis { recorded, interpolated, last_known, in_service, unknown };

std::string_view to_text(Basis basis);  // `last-known`

// Usage at the end of a day.
struct Knot {
  Day day;
  Amount usage;
  friend bool operator==(const Knot&, const Knot&) = default;
};

// What is known last of a meter, and what says so. Where facts contradict each other that is the one that holds.
struct KnownUsage {
  Day day;  // of the fact
  Amount usage;
  std::optional<FactId> fact;  // none: the fleet file, at in-service or bought
  friend bool operator==(const KnownUsage&, const KnownUsage&) = default;
};

// Two facts that cannot both be true, as merging copies of a book can bring them together: usage that falls (the higher
// one holds), or an hour meter that ran more than 24 h a day. It lasts until one of them is struck.
struct Contradiction {
  Day day;      // of the later one
  Amount said;  // usage by the later one
  Amount held;  // usage that held before it
  std::optional<FactId> later;
  std::optional<FactId> earlier;  // none where it is the value at in-service or bought
  friend bool operator==(const Contradiction&, const Contradiction&) = default;
};

// What usage the value of a fact stands for.
struct UsageOfFact {
  FactId fact;
  Amount usage;
  friend bool operator==(const UsageOfFact&, const UsageOfFact&) = default;
};

// All that is known of one meter; of none of the arguments anything is kept.
class MeterHistory {
 public:
  // What it holds, for whoever keeps one.
  struct Parts {
    std::vector<Knot> knots;
    std::vector<Contradiction> contradictions;
    std::vector<UsageOfFact> by_fact;  // by id, each once
    std::optional<KnownUsage> last_known;
    Amount offset;  // of the current segment
    std::optional<Amount> rolls_over_at;
    bool read = false;
    bool from_start = false;
    friend bool operator==(const Parts&, const Parts&) = default;
  };

  MeterHistory() = default;

  // `facts`: of that machine, unstruck, in the one order (`Snapshot::facts_of`).
  MeterHistory(const Machine& machine, const Meter& meter, std::span<const Fact> facts);
  explicit MeterHistory(Parts parts) : parts_(std::move(parts)) {}

  const Parts& parts() const { return parts_; }
  const std::vector<Knot>& knots() const { return parts_.knots; }  // one a day, usage never falls
  const std::vector<Contradiction>& contradictions() const { return parts_.contradictions; }
  bool empty() const { return parts_.knots.empty(); }
  bool read() const { return parts_.read; }              // some value beyond the one at in-service or bought
  bool from_start() const { return parts_.from_start; }  // the first value is the one at in-service or bought
  const std::optional<KnownUsage>& last_known() const { return parts_.last_known; }

  // Known usage on a day: between readings by interpolation, after the last one the last known.
  std::optional<Amount> on(Day day) const;
  Basis basis_on(Day day) const;

  // The first day on which known usage had reached a level.
  std::optional<Day> first_day_at(Amount level) const;

  // What the meter now on the machine shows when usage has reached a level: after a change of the meter or a roll-over
  // that is another number than the usage.
  Amount shown_at(Amount usage) const;

  // What usage a fact's `at` stands for on this meter; also for services known by year or month only. Nothing where the
  // fact shows no value of it.
  std::optional<Amount> usage_of(const FactId& fact) const;

 private:
  Parts parts_;
};

// The histories of all meters of a machine, by meter name, an empty one for a meter that nobody ever read.
using Histories = std::map<std::string, MeterHistory, std::less<>>;

// Of a machine of which only the derived state was read, as that holds them.
Histories meter_histories(const Snapshot& snapshot, const Machine& machine);

// Use while a machine stood, by meter, in the machine's order; of a machine in use what was run before the planned end
// of its last lay-up, while nobody has said since how it stands. What it ran since the value before it stood is one
// sum. A value of the very day on which somebody said last that it stands was shown before: saying so anew answers what
// was run until then.
std::vector<RanSince> ran_since(const Machine& machine, const UseState& state, const Histories& histories);

// Whether a machine is in use, with what it ran while it was not: for whoever tells people that it stands.
UseState state_told(const Snapshot& snapshot, const Machine& machine);

// A step between two values of a meter that is possible and yet unlike it: an hour meter that would have run over 16 h
// a day, unless a third of its earlier steps did; or more use than the 99.95 % point of what was to be expected from
// this machine's own facts before it, once they span 120 days. Little use is never doubtful: machines stand. Of the
// step, the later value may be too high, or the earlier too low. Common practice, no source: the figures are ours.
struct Doubt {
  FactId fact;                    // of the later value
  std::optional<FactId> earlier;  // of the value before; none: what the fleet file says of the start
  Day from;
  Day to;
  Amount shown_before;  // by the meter that then stood on the machine
  Amount shown;
  Amount used;
  // What the meter was expected to show on `to`, with its 80 % span; none where nothing could be expected.
  std::optional<Amount> p10;
  std::optional<Amount> p50;
  std::optional<Amount> p90;
  // What it showed most likely, where one slip of the pen (a digit swapped, doubled or misread, a point missed) leads
  // to something that was to be expected.
  std::optional<Amount> likely;
  friend bool operator==(const Doubt&, const Doubt&) = default;
};

// The doubts about one meter that still stand, oldest first. One ends where it is confirmed (`sure`, on the fact, on
// another of the same value and day, or on a later one of the same value) or by a later value above it that is not
// doubtful itself; who strikes a fact ends it too. Until then the value counts, and every answer that rests on it says
// so. `facts` as for a MeterHistory.
std::vector<Doubt> standing_doubts(const Fleet& fleet, const Machine& machine, const Meter& meter,
                                   std::span<const Fact> facts);

// --- What is expected --------------------------------------------------------------------------------------

enum class Quantile { p10, p50, p90 };

// The odds that usage has reached a level by the end of a day: never falling from day to day. Lives no longer than the
// UsageAhead that made it; may remember what it was asked, so one thread at a time.
class ReachOdds {
 public:
  virtual ~ReachOdds() = default;
  virtual Probability by(Day day) const = 0;

  // About where the odds come to a level, so that whoever searches looks there; any day will do. Odds that remember
  // what they were asked know better the second time.
  virtual std::optional<Day> likely(Probability /*level*/) const { return std::nullopt; }

  // False where it can be told without working them out that the odds by a day are below even ones.
  virtual bool may_be_even(Day /*day*/) const { return true; }
};

// The first day by which the odds have come to `level`, from one day to another, both inclusive; nothing where they
// stay below.
std::optional<Day> first_day_with(const ReachOdds& odds, Probability level, Day from, Day to);

// A sample path of a meter, one drawn future: usage at the end of the days from as-of on, never falling. A value of its
// own, which threads may share.
class UsagePath {
 public:
  // Usage at the end of every `step`th day from `from` on, the first value on `from` itself; at least one value.
  UsagePath(Day from, int step, std::vector<Amount> usage) : from_(from), step_(step), usage_(std::move(usage)) {}

  Amount on(Day day) const;                       // linear between the steps; the last value stays
  std::optional<Day> first_day_at(Amount) const;  // the first day in the path on which usage has come to it

 private:
  Day from_;
  int step_;
  std::vector<Amount> usage_;
};

// What an expectation was learnt from, for whoever asks why.
struct Grounds {
  int gaps = 0;           // spans between one reading of this meter and the next
  int readings = 0;       // days on which this meter was read
  double years = 0;       // from the first of them to the last
  bool start = false;     // learnt from its value when it came as well
  int others = 0;         // machines of the kind that were learnt from
  bool expected = false;  // the owner says how much a year
  bool expected_seasons = false;
  double per_year = 0;              // use of a mean year from now, in the meter's unit
  double so_far = 0;                // of a mean year so far; 0 where nothing was read
  std::array<double, 12> months{};  // its shares by month; they add up to 1
  double dispersion = 0;  // variance over mean of a month's use, in the meter's unit: about the size of a lump
  Probability idle;       // that the machine stands idle now
};

// Usage of one meter from the last known value on. Lives no longer than the MeterHistory that it was made from. One
// thread at a time, unless whoever made it says more.
class UsageAhead {
 public:
  virtual ~UsageAhead() = default;

  // Usage at the end of a day at or after the last known one, p10 the low end; nothing where nothing is known, whatever
  // the day. A straight line answers all three alike.
  virtual std::optional<Amount> on(Day day, Quantile quantile) const = 0;

  // False where it can be told without working it out that `on` that day, at even odds, is below a level.
  virtual bool may_have_come_to(Amount /*level*/, Day /*day*/) const { return true; }

  // The day by which usage has reached the level: p10 is the early end. Nothing where that is more than five years
  // after as-of, or where nothing is known. May lie before as-of.
  virtual std::optional<Day> reaches(Amount level, Quantile quantile) const = 0;

  // The odds that the level has been reached, day by day; null where nothing is known. `every`: the interval that ends
  // there. That no service of it was written down up to as-of is then evidence that it had not come yet: it shapes the
  // span of a due day, and may touch no standing. Without it, they agree with `on`: even odds of a level are reached on
  // the day on which the p50 has come to it.
  virtual std::unique_ptr<const ReachOdds> odds(Amount level, std::optional<Amount> every) const = 0;

  // Mean usage at the end of a day at or after the last known one; what says no mean says its middle. Sums of means are
  // means, as sums of middles are not.
  virtual std::optional<Amount> mean(Day day) const { return on(day, Quantile::p50); }

  // The odds that as much has been used since the end of a day, day by day from there on: what starts afresh on that
  // day. Null where nothing is known.
  virtual std::unique_ptr<const ReachOdds> odds_since(Day from, Amount use) const;

  // A sample path, `days` from as-of on. `season`: the odds of a season as early as this draw's or earlier, itself
  // drawn evenly, so that the machines of one fleet can share the weather. The same seed draws the same path whatever
  // standard library the program is built with. Null where nothing is known.
  virtual std::unique_ptr<const UsagePath> draw(Draws& random, Probability season, int days) const = 0;

  // Lives as long as this; null where there is nothing to say.
  virtual const Grounds* grounds() const { return nullptr; }
};

class BookSource;  // machine_book.h

// Use of one meter, asked for. What it refers to need not outlive the call, but for `history`, which outlives the
// answer.
struct AheadQuestion {
  const Fleet& fleet;
  const Machine& machine;
  const Meter& meter;
  const MeterHistory& history;
  UseState state;
  Day as_of;
};

// How use goes on. Answers every question, with a UsageAhead that says nothing where nothing can be expected; never
// null.
using Forecaster = std::function<std::unique_ptr<const UsageAhead>(const AheadQuestion&)>;

// What is expected of all meters of a machine, by meter name, none of them null. The histories outlive it.
using Aheads = std::map<std::string, std::unique_ptr<const UsageAhead>, std::less<>>;

Aheads aheads_of(const Snapshot& snapshot, const Machine& machine, const Histories& histories,
                 const Forecaster& forecaster);

// Likewise of a machine in this state.
Aheads aheads_of(const Fleet& fleet, const Machine& machine, const Histories& histories, const UseState& state,
                 Day as_of, const Forecaster& forecaster);

// One meter's use, now and ahead, in the meter's own unit.
struct UsageSpan {
  struct Shown {
    Amount p10;
    Amount p50;
    Amount p90;
  };

  Day day;
  Amount p10;
  Amount p50;
  Amount p90;
  Shown shown = {};  // by the meter now on the machine: other numbers after a change of the meter or a roll-over
};

// Points into the fleet of the snapshot.
struct MeterAhead {
  const Machine* machine = nullptr;
  const Meter* meter = nullptr;
  std::optional<Knot> last;          // the last known value; none: it was never read
  std::optional<Amount> last_shown;  // by the meter
  std::optional<UsageSpan> now;      // none: nothing is expected, and `ahead` is empty
  std::vector<UsageSpan> ahead;      // on the days asked about
  std::optional<Grounds> grounds;
};

// Of every meter of the machines of the scope that are kept on that day, in the order of the fleet file. `days`: at or
// after as-of, rising.
std::vector<MeterAhead> meters_ahead(const Snapshot& snapshot, const std::vector<Day>& days,
                                     const Forecaster& forecaster);

// How many months ahead anything is said.
inline constexpr int horizon_months = 60;

// The mean rate of the 365 days before the last reading, else what `expect:` says, else nothing is expected.
// A machine laid up uses nothing until the day it is back. Holds nothing, and threads may share it and its answers; so
// they may the next one's.
Forecaster straight_line();

// The same days of the year before again, and the straight line where there is no such year.
Forecaster same_days_again();

// A distribution: the machine's own season profile and rate of use, leaning on its kind's and on `expect:` where its
// own history is short, with a spread measured on past errors. `kin` holds the facts of every machine of the kinds that
// will be asked about, whatever its scope is; it must outlive the forecaster. What a kind teaches is worked out once,
// when it is first needed. One thread at a time.
Forecaster learnt_from(const Snapshot& kin);

// The same from books, of every machine of the kinds that will be asked about, as of the day that will be. The source
// must outlive the forecaster, which keeps no book.
Forecaster learnt_from(const BookSource& kin);

}  // namespace service

#pragma GCC visibility pop
