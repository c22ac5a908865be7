// A week of service calls: who goes where when with which parts, what is not done this week, and how far the plan can
// be from the best one.
//
//   DueList list = due_list(snapshot, week_horizon(fleet, ask));
//   Week week = week_of_work(snapshot, list, ask);     what is wanted, and who could do it when: no decision yet
//   RoundsPlan plan = plan_rounds(week, effort);       decides, and proves a bound
//   PlanJudgement judged = judge_plan(week, given);        the same rules, said of a plan that somebody made
//
// Time is whole minutes since midnight of a day, distance tenths of a km, money whole hundredths of the currency. No
// floating point decides a plan, a cost or a bound. "Rounded" is exact rational arithmetic, then half up, once; sums
// add rounded figures.
//
// The objective is one ordered pair, smaller is better: (work for safety that is put off; money = travel + waiting +
// put off). A bound is proven: no feasible plan has a smaller pair.
//
// All are values. A Week keeps its fleet and its due list, and what pointers in it, in its plans and in judgements of
// them point to is in there.
#pragma once

#include <chrono>
#include <cstddef>
#include <cstdint>
#include <functional>
#include <memory>
#include <optional>
#include <string>
#include <utility>
#include <vector>

#include "service/base.h"
#include "service/due_list.h"
#include "service/fleet.h"
#include "service/snapshot.h"

#pragma GCC visibility push(default)

namespace service {

// --- What is given -----------------------------------------------------------------------------------------

// A plan as somebody has it: an earlier answer of this program, or one made by hand. Of a round only crew, day and the
// visits in their order are needed; what else is given is judged.
// What of it keeps people away from a machine.
struct GivenMarks {
  std::optional<bool> safety = {};
  std::optional<bool> do_not_run = {};
  std::optional<bool> keep_out_of_use = {};
  friend bool operator==(const GivenMarks&, const GivenMarks&) = default;
};

struct GivenTask {
  std::string task;
  std::string position;  // empty: none
  GivenMarks marks = {};
  friend bool operator==(const GivenTask&, const GivenTask&) = default;
};

struct GivenStop {
  std::string visit;  // `loader`, `pump+pressure`, `call c-01`
  std::optional<std::string> site;
  std::optional<std::string> machine;  // empty: null was given
  std::optional<std::string> call;     // likewise
  std::optional<int> arrives;          // minutes since midnight; so the next two
  std::optional<int> starts;
  std::optional<int> ends;
  std::optional<int> drive_min;
  std::optional<int> set_up_min;
  std::optional<int> work_min;
  std::optional<int> tenths_of_km;
  std::optional<Money> waiting;
  std::optional<std::vector<GivenTask>> tasks;
  bool promised = false;                // keeps its day and crew in a plan that is made anew
  bool says_not_promised = false;       // it says that it is not, which is more than saying nothing
  std::optional<std::string> uid = {};  // of its event in that plan's calendar
  GivenMarks marks = {};
};

struct GivenRound {
  std::string crew;
  Day on;
  std::optional<int> leaves;  // minutes since midnight; so the next
  std::optional<int> back;
  std::optional<int> drive_min;
  std::optional<int> set_up_min;
  std::optional<int> work_min;
  std::optional<int> tenths_of_km;
  std::optional<Money> cost;
  std::optional<std::vector<std::pair<std::string, PartAmount>>> parts;  // to load
  std::optional<std::vector<std::pair<std::string, Quantity>>> fluids;   // likewise; in no unit: in that of its work
  std::vector<GivenStop> stops;
};

struct GivenPutOff {
  std::string visit;
  std::optional<bool> safety;
  std::optional<std::string> reason;
  std::optional<Day> until;
  std::optional<Money> cost;
  GivenMarks marks = {};  // but for `safety`, which stands above
};

// A round of a plan that could not be read, for whoever goes or when is no crew or day: what it was to make.
struct UnreadRound {
  std::string where;  // `rounds[2]`
  std::string says;   // `on: needs a day such as 2026-05-04, but it is "4.5."`
  std::vector<std::string> visits;
};

struct GivenPlan {
  std::optional<std::string> fleet = {};     // its name
  std::optional<std::string> currency = {};  // of its money; empty: none
  std::optional<Day> as_of;
  std::optional<Day> from;
  std::optional<Day> to;
  std::vector<GivenRound> rounds;
  std::vector<GivenPutOff> put_off;
  std::optional<Money> total;  // of `cost`; so the next three
  std::optional<Money> travel;
  std::optional<Money> waiting;
  std::optional<Money> put_off_cost;
  std::optional<int> safety_put_off;
  std::optional<std::pair<int, Money>> bound;
  std::optional<std::int64_t> gap_millionths;
  std::optional<bool> proven;
  std::optional<std::int64_t> sequence = {};  // of its calendar
  std::vector<UnreadRound> unread = {};
  bool replanned = false;  // it says that it was made of a plan that was kept
};

// Of a plan that says it is of another fleet, that it is: `is of the fleet `Other`; this one is `Skarvey``. Else empty.
// Such a plan is judged to be wrong, and is not kept.
std::string of_other_fleet(const Fleet& fleet, const GivenPlan& given);

// --- The week ----------------------------------------------------------------------------------------------

struct WeekAsk {
  Day from;
  int days = 7;
  // Points that come due up to so many days after the last crew-day join a machine that has a visit anyway.
  std::optional<int> join_days = {};
  std::vector<std::string> without = {};  // crews that do not go, by key
  // Replan: its rounds of days before `from` are done, its promised stops keep their day and crew.
  std::optional<GivenPlan> keep = {};
};

// One crew on one day of the week.
struct CrewDay {
  const Crew* crew = nullptr;
  Day on;
  ClockSpan hours;                           // not away from its start before, back at its end by its end
  std::optional<std::chrono::minutes> duty;  // the longest from leaving to being back
};

// From one place to another, as it is planned and printed.
struct Leg {
  int minutes = 0;
  int tenths_of_km = 0;
  friend bool operator==(const Leg&, const Leg&) = default;
};

// What it costs, and where it is possible, to make a visit on one crew-day.
struct VisitOption {
  bool possible = false;         // qualified, promised to nobody else, and some span is open; not that a round fits
  Money waiting;                 // for being late, for life that is given up, for letting a customer wait
  std::vector<ClockSpan> spans;  // in one of which the stay (set-up and work) has to lie; in order
};

// Why a point of the due list, or a call, is in no visit of the week.
enum class NotPlannedReason {
  put_off,  // somebody decided to wait, beyond this week
  laid_up,
  out_of_use,
  left,
  no_site,  // its machine stands at no site
  no_way,   // nothing tells how far its site is: no `at`, and no row of the travel table
};

std::string_view to_text(NotPlannedReason reason);  // `put-off`

struct NotPlanned {
  PointName point;
  const Call* call = nullptr;  // then `point` says the machine alone, if any
  NotPlannedReason reason = NotPlannedReason::put_off;
  const PutOff* put_off = nullptr;  // of what is put off: by whom, until when and why
  const UseState* use = nullptr;    // of a machine that is laid up or out of use: since when, until when and why
};

// Why a visit is not made this week: the first of these that holds.
enum class PutOffReason {
  not_qualified,   // no crew that works this week is qualified, or is enough people
  no_crew,         // none of those crews works on a day on which it may be done
  closed,          // on none of those crews' days is there an opening span, promised windows counted in
  unreachable,     // it fits into none of those crew-days, even alone
  promise_broken,  // it was promised to a crew and day on which it is no longer possible: this before all others
  dearer,          // all the rest: making it would cost more than leaving it out
};

std::string_view to_text(PutOffReason reason);  // `not-qualified`

// The stop of a plan that was kept, from the first day of the week on, that a visit comes from.
struct CameFrom {
  std::string stop;  // its name
  std::string crew;
  Day on;
  bool promised = false;
};

// A trip that may be made to a machine, or for a call: done whole, in one stay inside one opening span, or not at all.
struct Visit {
  std::string name;  // `loader`, `pump+pressure` (a machine that takes several crews), `call c-01`
  const Site* site = nullptr;
  const Machine* machine = nullptr;  // null: a call to the site alone
  const Call* call = nullptr;        // null: work that is due
  std::vector<const Point*> points;  // in the order of the due list; empty for a call
  // Of `points`: done by the service of another one that covers them; they take no time and no parts of their own.
  std::vector<const Point*> included;
  std::vector<const Point*> joined;  // of `points`: not due this week, and done along with it (`WeekAsk::join_days`)
  std::vector<std::string> needs;    // what whoever goes must be qualified for, in the order of the alphabet
  int people = 1;
  int work_minutes = 0;
  bool safety = false;  // one of its points, or the call, is work for safety

  // The first and the last day of the week on which its work may be done at all: from when it was put off or laid up
  // until, as long as the machine is there, when the call is wanted. None: there is no such day.
  std::optional<std::pair<Day, Day>> days;
  std::vector<VisitOption> options;  // [crew-day]
  Money put_off;                     // what leaving it out costs
  // It cannot be made at all, whatever is planned (the first four reasons, and promises that cannot be kept).
  std::optional<PutOffReason> impossible;
  std::optional<std::size_t> promised;  // to that crew-day
  // Of a promise that cannot be kept the first crew-day on which it would fit in alone without it.
  std::optional<std::size_t> but_for_promise;
  // The stop of its name, else one at which some of its points were to be done, for what a machine needs is split into
  // other visits, of other names, when other crews go. Of several the one that is promised, else the first. None: the
  // visit is new.
  std::optional<CameFrom> came_from;
};

// A round of a plan that was kept, of a day before the week: taken as made, though the book does not say so.
struct DoneRound {
  const Crew* crew = nullptr;  // null: the fleet has none of that name any more
  Day on;
  std::vector<const Point*> points;   // its work that the book does not have, each done by itself
  std::vector<const Point*> entered;  // likewise, that the book has since: what it took is no more in stock
  std::vector<const Point*> all() const;
};

// What such a round was to do, and the book does not have: it is in no visit of the week, and yet nobody has said that
// it is done.
struct NotInBook {
  const Point* point = nullptr;
  std::string visit;           // of that plan
  const Crew* crew = nullptr;  // null: the fleet has none of that name any more
  Day on;
};

// Of what is for safety and due by that day: nobody uses its machine until it is written down or done.
inline bool keep_out_of_use(const NotInBook& one, Day by) {
  return is_safety(*one.point) && one.point->due_on && *one.point->due_on <= by;
}

// A call that such a round was to make, and that the fleet still lists: nobody has said that it is done.
struct CallStillListed {
  const Call* call = nullptr;
  const Site* site = nullptr;
  const Machine* machine = nullptr;  // null: it is about the site alone
  const Crew* crew = nullptr;        // null: the fleet has none of that name any more
  Day on;
};

// Nobody uses what it is about until it is done, and out of the calls.
inline bool keep_out_of_use(const CallStillListed& one) { return one.call->safety; }

// The question of a week, with every figure that a plan is made of: what plans and judges alike take from.
struct Week {
  std::shared_ptr<const Fleet> fleet;
  std::shared_ptr<const DueList> list;
  Day as_of;
  Day from;
  Day to;                          // inclusive
  Day later;                       // the last crew-day + 7: until then is put off what is not done this week
  std::vector<CrewDay> crew_days;  // by day, then in the order of the fleet file
  std::vector<Visit> visits;       // in the order of the due list, calls last

  std::vector<PointName> no_record;  // somebody must look: nobody knows whether it is due
  std::vector<PointName> unknown;    // not due by what is known, but one of their limbs cannot be computed
  std::vector<NotPlanned> not_planned;
  std::vector<PointName> no_time;      // planned with no minutes, for their tasks say no `takes`
  std::vector<std::string> no_price;   // parts and fluids without a price, which count as nothing
  std::optional<GivenPlan> kept;       // what is replanned
  std::vector<std::string> done;       // of it: visits of days before `from`, taken as made, though no fact says so
  std::vector<DoneRound> done_rounds;  // by day, then in the order of that plan
  std::vector<NotInBook> not_in_book;  // likewise; also what others of its visit include
  std::vector<CallStillListed> calls_still_listed;  // likewise
};

// The last day up to which points are wanted, for the due list that a week is made of. Fails with bad_data where no
// crew works in it, with bad_fleet where `costs` lacks `hour` or `km`, or the fleet has no crews.
Day week_horizon(const Fleet& fleet, const WeekAsk& ask);

// `list` reckons at least `Detail::coming` to `week_horizon`, of the snapshot. Fails as `week_horizon`.
Week week_of_work(const Snapshot& snapshot, std::shared_ptr<const DueList> list, const WeekAsk& ask);

// How a crew gets from one site to another. The one function of legs. None where nothing tells how far it is.
std::optional<Leg> leg_of(const Fleet& fleet, const Crew& crew, const Site& from, const Site& to);
Money cost_of(const Fleet& fleet, const Crew& crew, const Leg& leg);
Money set_up_cost(const Fleet& fleet, const Crew& crew, const Site& site);

// --- The plan ----------------------------------------------------------------------------------------------

struct RoundStop {
  std::size_t visit = 0;  // of the week
  Leg leg;                // that leads to it
  int arrives = 0;        // minutes since midnight; so the next two
  int starts = 0;         // of the stay: set-up, then work
  int ends = 0;
  int set_up_minutes = 0;  // none where the place before is the same site
  int work_minutes = 0;
  Money waiting;
  bool promised = false;
};

// Some of the meal of a round: so many minutes before the stay of that visit.
struct MealPiece {
  std::size_t before = 0;  // visit of the week
  int minutes = 0;
};

struct Round {
  std::size_t crew_day = 0;  // of the week
  int leaves = 0;
  int back = 0;
  Leg home;  // the leg back to the crew's end
  int drive_minutes = 0;
  int set_up_minutes = 0;
  int work_minutes = 0;
  int tenths_of_km = 0;
  Money cost;                                             // of travel: legs and set-ups
  std::vector<std::pair<std::string, PartAmount>> parts;  // to load, in the order of names
  std::vector<std::pair<std::string, Quantity>> fluids;   // likewise
  // Of `parts`: to fill up what the crew's round before used of what it always carries.
  std::vector<std::pair<std::string, PartAmount>> fills_up;
  std::vector<std::string> cautions;  // of all its work, each once
  std::vector<RoundStop> stops;
  // What could not be helped, or would cost something: the meal, or some of it, comes before the first stay; and it
  // stops at these machines, then elsewhere, and at them again, in the order in which it comes to them.
  bool meal_before_work = false;
  std::vector<const Machine*> in_two_goes;
  // Its meal, in the order of its stops: in several pieces only where no wait but before the first stay is long enough.
  std::vector<MealPiece> meal;
};

// The cheapest place into which a visit that is not made would still go, and by how much that would be dearer. Where it
// goes in nowhere beside all others, the one where it pushes out the fewest.
struct NextBest {
  std::size_t crew_day = 0;
  Money dearer;                         // the whole plan would cost so much more
  std::vector<std::size_t> instead_of;  // visits that it would push out; none: it goes in beside all others
};

struct NotThisWeek {
  std::size_t visit = 0;
  PutOffReason reason = PutOffReason::dearer;
  Day until;
  Money cost;
  std::optional<NextBest> next_best;  // of what is dearer, or a promise broken
  // Of what is not qualified, or promised and that too: what no crew has, `two-people` among it.
  std::vector<std::string> lacking;
  // To whom and for when it was promised, by the plan that was kept; whatever the reason.
  std::optional<std::pair<std::string, Day>> promised;
};

struct PlanValue {
  int safety_put_off = 0;
  Money total;
  friend auto operator<=>(const PlanValue&, const PlanValue&) = default;
};

// A visit whose crew or day is another one than in the plan that was kept; or that was promised, and begins at another
// hour there: by more than half an hour (common practice, no source).
struct PlanChange {
  std::string visit;
  std::optional<std::pair<std::string, Day>> was;  // crew and day; none: it was not made
  std::optional<std::pair<std::string, Day>> is;
  const Site* site = nullptr;  // whom to ring up; null: nobody knows where it was to be
  bool wanted = true;          // else it is in no visit of the week any more: done, or what follows
  bool promised = false;       // to where it was
  bool unheard_of = false;     // in that plan it was neither made nor put off
  // When the stay began and begins, minutes since midnight; none: that plan says no time, or it is not made.
  std::optional<int> was_starts = {};
  std::optional<int> is_starts = {};
  // Of what is not wanted, and not done either: why some of it is not planned; or that it does not come due by the last
  // day on which a crew works, which may be another day than when that plan was made.
  std::optional<NotPlannedReason> not_planned = {};
  bool not_due = false;
  bool unlisted = false;  // the fleet lists no machine and no call of its name
  // Something was promised, and nobody goes, though it is not done.
  bool is_promise_lost() const { return promised && !wanted && (not_planned || not_due || unlisted); }
  // It has its crew and day.
  bool moves_within_day() const { return was && is && *was == *is; }
};

// `effort`: all that is tried was tried, and the plan is not proven to be the best.
enum class StoppedBy { nothing, time, interrupt, effort };

struct RoundsPlan {
  Week week;
  std::vector<Round> rounds;  // by day, then crew in the order of the fleet file; empty ones are left out
  // Broken promises first, then for safety, then dearest first, then by name.
  std::vector<NotThisWeek> not_this_week;
  PlanValue value;
  Money travel;
  Money waiting;
  Money put_off;
  PlanValue bound;
  std::int64_t gap_millionths = 0;  // (total - bound) / total; means nothing where the two differ in safety_put_off
  bool gap_known = true;
  bool proven = false;  // nothing is better
  StoppedBy stopped = StoppedBy::nothing;
  // By whom to ring up, who is rung up once: those first to whom something was promised that does not hold.
  std::vector<PlanChange> changes;
  // By the plan that was kept; each as it was promised, whatever it is split into. The bound is that of plans which
  // keep as many; without its promises a week may cost less.
  int promises_kept = 0;
  int promises_broken = 0;
};

// Asked now and then. Steps done and to do, where that can be said; the value so far and its bound.
struct PlanProgress {
  std::size_t done = 0;
  std::size_t of = 0;
  PlanValue value;
  PlanValue bound;
};

struct Effort {
  // Steps, not seconds, so that equal input gives equal plans; 1 is the usual, which more of it begins with.
  int times = 1;
  // Asked often; anything but `nothing` ends it, with the best plan so far and what is proven so far.
  std::function<StoppedBy()> stop = {};
  std::function<void(const PlanProgress&)> progress = {};
};

// Every plan that is handed out was judged without fault; else it fails with internal.
RoundsPlan plan_rounds(Week week, const Effort& effort = {});

// --- A plan judged -----------------------------------------------------------------------------------------

// The list of hard rules, and what else may be wrong with a plan.
enum class PlanRule {
  unknown_visit,
  twice,
  left_out,  // a visit that is neither made nor put off
  off_day,   // the crew does not work that day, or twice
  hours,
  duty,
  meal,
  qualified,
  closed,
  drive,
  stay,
  tasks,
  figure,  // a sum or cost that does not follow from the rest
  safety,
  reason,
  bound,  // a bound above the plan, or a gap that does not follow from both
  promised,
  form,  // cannot be read as a plan at all, or two things that cannot both hold
};

std::string_view to_text(PlanRule rule);  // `unknown-visit`

struct PlanFault {
  PlanRule rule = PlanRule::form;
  std::string where;  // `van 2026-05-05 pump+pressure`
  std::string says;   // `van lacks pressure`
  // What is wrong because of it alone: figures that were right before a stop was moved, left out or put in; of a plan
  // of another fleet, week or day, or in other money, what differs for that. These have none.
  std::vector<PlanFault> follow_on = {};
};

// Promised stops from that day on that name neither a machine nor a call of the fleet as their visit, but for calls,
// for one that is done or called off is out of the fleet's: `unknown-visit`, with the name that may be meant.
std::vector<PlanFault> promised_to_nobody(const Fleet& fleet, const GivenPlan& kept, Day from);

struct PlanJudgement {
  // In the order of the plan; what is wrong of fleet, day, week and currency first.
  std::vector<PlanFault> faults;
  std::optional<PlanValue> value;  // none where a fault makes it meaningless
  // What it leaves out that is for safety, and could be made on some crew-day: names of visits.
  std::vector<std::string> safety_left_out;
  bool ok() const { return faults.empty(); }
};

PlanJudgement judge_plan(const Week& week, const GivenPlan& given);

// A plan as it is handed out.
GivenPlan as_given(const RoundsPlan& plan);

}  // namespace service

#pragma GCC visibility pop
