// Which block of a season's list each point stands in.
#include <algorithm>
#include <array>
#include <iterator>
#include <map>
#include <tuple>

#include "service/minding.h"
#include "service/season.h"
#include "workload/as_if_back.h"
#include "workload/coming_uses.h"
#include "workload/done_on.h"
#include "workload/lacking.h"
#include "workload/needs.h"
#include "workload/season_covers.h"
#include "workload/season_machines.h"
#include "workload/whole_plan.h"

namespace service {
namespace {

constexpr Probability hardly{0.01};  // from these odds on a safety task is done beforehand
constexpr Probability early{0.1};    // of the day to do something by
constexpr Probability even{0.5};
constexpr Probability late{0.9};

Day day_before(Day day) { return day - std::chrono::days{1}; }

bool by_eye(const Point& point) {
  return std::all_of(point.limbs.begin(), point.limbs.end(),
                     [](const LimbStanding& limb) { return observed(limb.kind); });
}

bool stands_throughout(const SeasonPlan& plan, const UseState& state) {
  return state.kind == UseKind::out_of_use ||
         (state.kind == UseKind::laid_up && (!state.until || *state.until > plan.to));
}

// A use of parts by a likely service, but for its amounts.
PartUse use_of(const SeasonItem& item) {
  PartUse use;
  use.machine = item.point.machine;
  use.task = item.point.name;
  use.position = item.point.position;
  use.round = item.round;
  use.due = item.point.due_span;
  use.done = {item.do_by, item.do_by, item.do_by};
  use.likely = true;
  use.doubtful = item.point.doubtful;
  return use;
}

// Fills the blocks of a plan from the points of the whole fleet.
class Sorting {
 public:
  Sorting(SeasonPlan& plan, const DueList& list, load::UseAhead& use)
      : plan_(plan),
        list_(list),
        use_(use),
        eve_(std::max(plan.as_of, day_before(plan.from))),
        last_(plan.under_way() ? plan.to : day_before(plan.from)) {}

  void sort(const Point& point) {
    const UseState* state = list_.state_of(*point.machine);
    if (state != nullptr && stands_throughout(plan_, *state)) return;
    if (!works(*point.machine)) {
      count(point);
      return;
    }
    const bool known = point.odds.has_value() && point.standing != Standing::no_record;
    // A sign that nobody saw, a value that nobody measured, is no gap.
    const bool bad = !to_mend(list_.seen, point).empty();
    const bool quiet = !bad && !known && point.unknown.empty() && point.standing == Standing::later && by_eye(point);
    if (quiet) {
      plan_.not_before_end.push_back({point, std::nullopt});
      return;
    }
    const bool unsure = !known || !point.unknown.empty();
    if (unsure) plan_.find_out.push_back(point);
    if (known || bad) place(point, state, unsure);
  }

  void count(const SeenSign& seen) {
    const UseState* state = list_.state_of(*seen.machine);
    if (state != nullptr && stands_throughout(plan_, *state)) return;
    if (!works(*seen.machine)) ++other_of(*seen.machine).seen;
  }

  // What comes due in the season all the same, once more and once more again: after it was done beforehand, or when it
  // came due in the season. `folded`: what another one includes.
  void add_again(std::vector<SeasonItem>& folded) {
    const std::size_t first_times = plan_.have_ready.size();
    for (std::size_t i = 0; i < first_times; ++i) {
      SeasonItem item = plan_.have_ready[i];  // by value: the list grows
      if (item.point.due_span.p50) add_rounds(item, std::max(*item.point.due_span.p50, plan_.as_of));
    }
    for (std::vector<SeasonItem>* items : {&plan_.beforehand, &folded}) {
      for (SeasonItem& item : *items) add_rounds(item, item.do_by);
    }
  }

  // The machines that were sorted and do not work in the season.
  Scope elsewhere() const {
    Scope scope{std::vector<std::string>{}};
    for (const auto& [machine, at_work] : works_) {
      if (!at_work) scope.machines->push_back(machine->key);
    }
    return scope;
  }

  std::size_t at_work(const Scope& scope) const {
    return static_cast<std::size_t>(std::count_if(
        works_.begin(), works_.end(), [&](const auto& each) { return each.second && scope.holds(each.first->key); }));
  }

  // Of those of the scope that work in it.
  std::vector<OddUse> look_again(const Scope& scope) {
    std::vector<OddUse> all;
    for (const auto& [machine, at_work] : works_) {
      if (!at_work || !scope.holds(machine->key)) continue;
      const auto odd = odd_uses(*machine, use_.ahead_of(*machine));
      all.insert(all.end(), odd.begin(), odd.end());
    }
    return all;
  }

  // Of services that come in between, before the season.
  const std::vector<load::Use>& between() const { return between_; }

  // The last day to do something by: the day before the season; under way, its end.
  Day last() const { return last_; }

  // The share of its life that is left on a day: of the limb that has least.
  std::optional<double> life_left(const Point& point, Day day) {
    if (reached(point)) return 0;
    std::optional<double> least;
    for (const LimbStanding& limb : point.limbs) {
      std::optional<double> left;
      if (limb.kind == LimbKind::usage && limb.due_at && limb.every && limb.every->hundredths > 0) {
        const auto then = use_.usage_on(*point.machine, limb.name, day);
        if (then) {
          left = static_cast<double>((*limb.due_at - *then).hundredths) / static_cast<double>(limb.every->hundredths);
        }
      } else if (const auto used = share_used(limb, day)) {
        left = 1 - *used;
      }
      if (left && (!least || *left < *least)) least = left;
    }
    return least ? std::optional{std::clamp(*least, 0.0, 1.0)} : least;
  }

 private:
  bool works(const Machine& machine) {
    const auto [at, is_new] = works_.try_emplace(&machine, false);
    if (is_new) at->second = load::works_in(use_, machine, *plan_.season, {plan_.from, plan_.to});
    return at->second;
  }

  OtherMachine& other_of(const Machine& machine) {
    const auto found = std::find_if(plan_.others.begin(), plan_.others.end(),
                                    [&](const OtherMachine& other) { return other.machine == &machine; });
    return found != plan_.others.end() ? *found : plan_.others.emplace_back(OtherMachine{&machine});
  }

  void note_between(SeasonItem& item, int round, const DueSpan& span) {
    item.between.push_back({round, span});
    PartUse use = use_of(item);
    use.round = round;
    use.due = span;
    use.done = span;
    use.other_work = true;
    load::add_uses(between_, item.resources, use);
  }

  // One row of rounds, so that a round is the same service whoever asks. Those that come in between, before the season,
  // are the ordinary round, and only told. `done`: when the first one is.
  void add_rounds(SeasonItem& item, Day done) {
    constexpr int most_rounds = 60;
    int round = 1;
    for (int k = 0; k < most_rounds; ++k) {
      const auto odds = load::done_on(use_, item.point, done);
      if (!odds || odds->by(plan_.to) < plan_.threshold) return;
      const DueSpan span{first_day_with(*odds, early, done, plan_.to), first_day_with(*odds, even, done, plan_.to),
                         first_day_with(*odds, late, done, plan_.to)};
      ++round;
      if (span.p50 && *span.p50 < plan_.from) {
        note_between(item, round, span);
      } else {
        plan_.have_ready.push_back(once_more(item, round, *odds, span, done));
      }
      if (!span.p50 || *span.p50 <= done) return;
      done = *span.p50;
    }
  }

  SeasonItem once_more(const SeasonItem& item, int round, const ReachOdds& odds, const DueSpan& span, Day done) const {
    SeasonItem again = item;
    again.round = round;
    again.have_ready = true;
    again.between.clear();
    again.odds = odds.by(plan_.to);
    again.odds_before = odds.by(eve_);
    again.covered.clear();
    again.included_in.reset();
    again.gives_up.reset();
    again.to_mend.clear();
    Point& point = again.point;
    point.due_span = span;
    point.due_on = span.p50;
    point.standing = again.worst = Standing::later;
    point.by_estimate = point.past_grace_by_estimate = false;
    point.put_off.reset();
    point.measure_again.clear();
    again.do_by = std::clamp(before_back(span.p10.value_or(last_), item.back_on), std::min(done, last_), last_);
    again.safety = is_safety(point);
    again.competent_person = by_competent_person(point);
    return again;
  }

  void count(const Point& point) {
    OtherMachine& other = other_of(*point.machine);
    if (point.standing == Standing::overdue) {
      ++other.overdue;
    } else if (point.standing == Standing::due) {
      ++other.due;
    } else if (point.standing == Standing::no_record) {
      ++other.no_record;
    } else if (!point.unknown.empty()) {
      ++other.unknown;
    }
  }

  // `unsure`: odds that leave out a limb of which nothing is known say little where they are low.
  void place(const Point& point, const UseState* state, bool unsure) {
    const Probability odds = point.odds.value_or(Probability{});
    const Probability before = point.earlier_odds.value_or(Probability{});
    std::optional<Probability> done;
    std::optional<SeasonReason> reason;
    const bool likely = odds >= plan_.threshold;
    if (likely) {
      if (const auto again = load::done_on(use_, point, eve_)) done = again->by(plan_.to);
    }
    const bool mend = !to_mend(list_.seen, point).empty();
    if (mend) {
      reason = SeasonReason::mend;
    } else if (is_due(point)) {
      reason = SeasonReason::due;
    } else if (!plan_.under_way() && before >= plan_.threshold) {
      reason = SeasonReason::before;
    } else if (point.follow_up != nullptr) {
      // A check looks at what the work since then has done: it is of no use before that work.
    } else if (likely && done.value_or(Probability{}).value <= odds.value / 2) {
      reason = SeasonReason::helped;
    } else if (never_waits(point) && odds >= hardly) {
      reason = SeasonReason::safety;
    }
    const bool check_to_come = point.follow_up != nullptr && never_waits(point) && odds >= hardly;
    if (!reason && !likely && !check_to_come) {
      if (!unsure) plan_.not_before_end.push_back({point, odds});
      return;
    }
    SeasonItem item = item_of(point, state);
    item.odds = mend ? Probability{1} : odds;
    item.odds_before = mend ? Probability{1} : before;
    item.odds_done = done;
    if (reason) item.reason = *reason;
    if (const auto end = put_off_beyond(point)) {
      item.do_by = *end;
      item.gives_up = life_left(point, *end);
      plan_.put_off.push_back(std::move(item));
      return;
    }
    item.have_ready = !reason;
    (reason ? plan_.beforehand : plan_.have_ready).push_back(std::move(item));
  }

  SeasonItem item_of(const Point& point, const UseState* state) {
    SeasonItem item;
    item.point = point;
    for (const SeenSign* seen : to_mend(list_.seen, point)) item.to_mend.push_back(*seen);
    item.do_by = do_by(point, state, is_due(point) || !item.to_mend.empty());
    // What was found worn or failed has no life left to give up.
    item.gives_up = item.to_mend.empty() ? life_left(point, item.do_by) : 0;
    item.resources = resources_of(*point.machine, *point.task, point.follow_up);
    item.safety = is_safety(point);
    item.competent_person = by_competent_person(point);
    item.worst = point.standing;
    for (const FollowUp& check : point.task->follow_ups) {
      if (point.follow_up == nullptr) item.checks.push_back(&check);
    }
    if (state != nullptr) item.back_on = state->until;
    return item;
  }

  // What falls on a day on which its machine stands is done before that goes back to work, and need not be sooner: on
  // the day it is back it counts as in use.
  Day before_back(Day day, std::optional<Day> back_on) const {
    return back_on && day < *back_on ? std::max(plan_.as_of, day_before(*back_on)) : day;
  }

  Day do_by(const Point& point, const UseState* state, bool now) {
    // A point that is due, by facts or by estimate, or to be mended, never waits for odds.
    const Day wanted = now ? plan_.as_of : wanted_by(point, plan_.as_of).value_or(last_);
    Day day = before_back(wanted, state ? state->until : std::nullopt);
    // What somebody put off waits until then.
    if (point.put_off) day = std::max(day, end_of(*point.put_off, point).value_or(day));
    return std::clamp(day, plan_.as_of, last_);
  }

  // The end of a delay that lies behind the season's; nothing where nobody knows when it ends.
  std::optional<Day> put_off_beyond(const Point& point) {
    if (!point.put_off || never_waits(point)) return std::nullopt;
    const auto end = end_of(*point.put_off, point);
    return end && *end > plan_.to ? end : std::nullopt;
  }

  // The day or the use until which something is put off, whichever comes first: of use its early end.
  std::optional<Day> end_of(const PutOff& put_off, const Point& point) {
    std::optional<Day> end = put_off.until;
    const Aheads& ahead = use_.ahead_of(*point.machine);
    const auto meter = put_off.at ? ahead.find(put_off.meter) : ahead.end();
    const auto reached = meter != ahead.end() ? meter->second->reaches(*put_off.at, Quantile::p10) : std::nullopt;
    if (reached) end = end ? std::min(*end, *reached) : reached;
    return end;
  }

  SeasonPlan& plan_;
  const DueList& list_;
  load::UseAhead& use_;
  Day eve_;   // the last day before the season; under way, the day asked about
  Day last_;  // to do something by: the last day before the season; under way, its end
  std::map<const Machine*, bool> works_;
  std::vector<load::Use> between_;
};

bool goes_before(const SeasonItem& a, const SeasonItem& b) {
  const auto rank = [](const SeasonItem& item) {
    return std::tuple{item.group(),
                      !item.never_waits(),
                      item.point.put_off.has_value(),
                      item.do_by,
                      std::string_view(item.point.machine->key),
                      !item.included_in};
  };
  return rank(a) < rank(b);
}

void put_in_order(SeasonPlan& plan) {
  for (auto* items : {&plan.beforehand, &plan.have_ready, &plan.put_off})
    std::stable_sort(items->begin(), items->end(), goes_before);
  const auto place = [&](const Machine* machine) { return machine - plan.fleet->machines.data(); };
  std::stable_sort(plan.not_before_end.begin(), plan.not_before_end.end(),
                   [&](const SeasonRest& a, const SeasonRest& b) {
                     const auto rank = [&](const SeasonRest& rest) {
                       const bool tells = rest.odds && *rest.odds >= hardly;
                       return std::tuple{!rest.odds, tells ? -rest.odds->value : 0.0, place(rest.point.machine)};
                     };
                     return rank(a) < rank(b);
                   });
  std::stable_sort(plan.others.begin(), plan.others.end(),
                   [&](const OtherMachine& a, const OtherMachine& b) { return place(a.machine) < place(b.machine); });
}

void add_uses(std::vector<load::Use>& uses, const std::vector<SeasonItem>& items, bool ready, const NotToRun& stopped) {
  for (const SeasonItem& item : items) {
    if (item.included_in) continue;  // the one that includes it takes them
    PartUse use = use_of(item);
    use.ready = ready;
    const bool may_run = !stopped.holds(*item.point.machine);
    const auto rank =
        item.again() ? load::UseRank{!may_run} : load::rank_of(item.point, may_run, !item.to_mend.empty());
    load::add_uses(uses, item.resources, use, rank);
  }
}

// What the work takes, of the whole fleet. `uses`: of other work, which takes from the same stock.
std::vector<PartNeed> parts_of(const Snapshot& snapshot, const SeasonPlan& plan, std::vector<load::Use> uses) {
  for (load::Use& use : uses) use.use.other_work = true;
  const NotToRun stopped = load::not_to_run_of(snapshot.within({}));
  add_uses(uses, plan.beforehand, false, stopped);
  add_uses(uses, plan.have_ready, true, stopped);
  return load::needs_of(snapshot, std::move(uses));
}

// Which services take a part that stock does not cover by their day, and that cannot come by then either.
void find_awaited(SeasonPlan& plan) {
  for (const PartNeed& need : plan.parts) {
    const auto there = load::late_until(need);
    if (!there) continue;
    for (const load::Lacking& lacking : load::lacking_of(need)) {
      const PartUse* const use = lacking.use;
      if (use->other_work || *use->done.p10 >= *there) continue;
      for (auto* items : {&plan.beforehand, &plan.have_ready}) {
        for (SeasonItem& item : *items) {
          if (item.point.machine == use->machine && item.point.name == use->task &&
              item.point.position == use->position && item.round == use->round) {
            item.waits_for.push_back({need.key, *there, need.stock.has_value()});
          }
        }
      }
    }
  }
}

void keep_of(const Snapshot& snapshot, SeasonPlan& plan) {
  const Scope& scope = snapshot.scope();
  const auto beyond = [&](const auto& each) { return !scope.holds(each.point.machine->key); };
  std::erase_if(plan.beforehand, beyond);
  std::erase_if(plan.have_ready, beyond);
  std::erase_if(plan.put_off, beyond);
  std::erase_if(plan.not_before_end, beyond);
  std::erase_if(plan.find_out, [&](const Point& point) { return !scope.holds(point.machine->key); });
  std::erase_if(plan.others, [&](const OtherMachine& other) { return !scope.holds(other.machine->key); });
  load::keep_uses_of(snapshot, plan.parts, plan.gaps);
}

SeasonSums sums_of(const std::vector<SeasonItem>& items) {
  SeasonSums sums;
  std::map<std::tuple<bool, std::string, std::string>, PartAmount> amounts;  // fluid, key, unit
  PartAmount pieces;
  for (const SeasonItem& item : items) {
    if (item.included_in) {
      sums.counted_with.push_back({name_of(item.point), *item.included_in});
      continue;
    }
    ++sums.points;
    sums.labour_minutes += item.resources.labour_minutes();
    if (item.resources.people > 1) sums.several_people = true;
    if (item.never_waits()) ++sums.never_wait;
    if (!item.resources.time) sums.no_time.push_back(name_of(item.point));
    for (const auto& [key, amount] : item.resources.parts) {
      PartAmount& sum = amounts[{false, key, ""}];
      sum = sum + amount;
      pieces = pieces + amount;
    }
    for (const auto& [key, quantity] : item.resources.fluids) {
      PartAmount& sum = amounts[{true, key, quantity.unit}];
      sum = sum + quantity.amount;
    }
  }
  sums.pieces = (pieces.hundredths + 99) / 100;
  for (const auto& [which, amount] : amounts) {
    const auto& [fluid, key, unit] = which;
    sums.parts.push_back({key, fluid, unit, amount});
  }
  return sums;
}

DueAsk due_ask(const SeasonPlan& plan) {
  DueAsk ask{plan.to, plan.to, Detail::coming, std::min(hardly, plan.threshold)};
  ask.earlier_by = std::max(plan.as_of, day_before(plan.from));
  return ask;
}

// The points of a snapshot that a plan sorts. What is to be mended stands in it whenever it comes due, so its days are
// reckoned too.
DueList points_for(const SeasonPlan& plan, const Snapshot& snapshot, const Forecaster& forecaster) {
  DueList list = due_list(snapshot, due_ask(plan), forecaster);
  const auto undated = [&](const Point& point) { return !point.due_on && !to_mend(list.seen, point).empty(); };
  Scope scope{std::vector<std::string>{}};
  for (const Point& point : list.points) {
    if (undated(point)) scope.machines->push_back(point.machine->key);
  }
  if (scope.machines->empty()) return list;
  DueAsk ask = due_ask(plan);
  ask.detail = Detail::everything;
  const DueList dated = due_list(snapshot.within(std::move(scope)), ask, forecaster);
  for (Point& point : list.points) {
    if (!undated(point)) continue;
    const auto same = std::find_if(dated.points.begin(), dated.points.end(),
                                   [&](const Point& each) { return name_of(each) == name_of(point); });
    if (same != dated.points.end()) point = *same;
  }
  return list;
}

// Fills the blocks of a plan, in order.
void sort_all(Sorting& sorting, const DueList& list, SeasonPlan& plan) {
  for (const Point& point : list.points) sorting.sort(point);
  for (const SeenSign& seen : list.seen) sorting.count(seen);
  const auto life_left = [&](const Point& point, Day day) { return sorting.life_left(point, day); };
  auto folded = load::fold_covered(*plan.fleet, life_left, plan.beforehand);
  sorting.add_again(folded);
  load::fold_covered(*plan.fleet, life_left, plan.have_ready);
  load::fold_covered(*plan.fleet, life_left, plan.put_off);
  put_in_order(plan);
}

// What one machine would take, of a plan of those that stand as if they were back.
SeasonAbsent absent_of(const Snapshot& snapshot, const SeasonPlan& plan, const SeasonPlan& if_back,
                       const MachineUse& use) {
  SeasonAbsent absent;
  absent.machine = use.machine;
  absent.state = use.state;
  std::vector<load::Use> uses;
  for (const auto* items : {&if_back.beforehand, &if_back.have_ready}) {
    std::vector<SeasonItem> own;
    std::copy_if(items->begin(), items->end(), std::back_inserter(own),
                 [&](const SeasonItem& item) { return item.point.machine == use.machine; });
    add_uses(uses, own, items == &if_back.have_ready, {});
    absent.items.insert(absent.items.end(), own.begin(), own.end());
  }
  absent.sums = sums_of(absent.items);
  absent.find_out =
      static_cast<std::size_t>(std::count_if(if_back.find_out.begin(), if_back.find_out.end(),
                                             [&](const Point& point) { return point.machine == use.machine; }));
  absent.orders = load::needs_of(snapshot, std::move(uses), plan.parts);
  std::erase_if(absent.orders, [](const PartNeed& need) { return !need.is_short(); });
  return absent;
}

// `plan`: with the needs of the whole fleet.
void add_absent(const Snapshot& snapshot, SeasonPlan& plan, const DueList& list, const Forecaster& forecaster) {
  std::vector<const MachineUse*> standing;
  Scope scope{std::vector<std::string>{}};
  for (const MachineUse& use : list.not_in_use) {
    if (!stands_throughout(plan, use.state) || !snapshot.scope().holds(use.machine->key)) continue;
    standing.push_back(&use);
    scope.machines->push_back(use.machine->key);
  }
  if (standing.empty()) return;
  std::sort(standing.begin(), standing.end(),
            [](const MachineUse* a, const MachineUse* b) { return a->machine < b->machine; });
  const Snapshot back = load::as_if_back(snapshot, scope);
  SeasonPlan if_back;
  if_back.fleet = plan.fleet;
  if_back.season = plan.season;
  if_back.as_of = plan.as_of;
  if_back.from = plan.from;
  if_back.to = plan.to;
  if_back.threshold = plan.threshold;
  const DueList own = points_for(if_back, back, forecaster);
  load::UseAhead use(back, forecaster);
  Sorting sorting(if_back, own, use);
  sort_all(sorting, own, if_back);
  for (const MachineUse* each : standing) {
    if (sorting.at_work(Scope{std::vector{each->machine->key}}) == 0) continue;
    plan.absent.push_back(absent_of(snapshot, plan, if_back, *each));
  }
}

// What never waits and nobody can tell of, beside what is on the list all the same.
std::size_t never_wait_not_known(const SeasonPlan& plan) {
  const auto listed = [&](const PointName& name) {
    for (const auto* items : {&plan.beforehand, &plan.have_ready}) {
      for (const SeasonItem& item : *items) {
        if (name_of(item.point) == name) return true;
        const auto includes = [&](const SeasonIncluded& included) { return included.name == name; };
        if (std::any_of(item.covered.begin(), item.covered.end(), includes)) return true;
      }
    }
    return false;
  };
  return static_cast<std::size_t>(std::count_if(plan.find_out.begin(), plan.find_out.end(), [&](const Point& point) {
    return never_waits(point) && !listed(name_of(point));
  }));
}

}  // namespace

std::string_view to_text(SeasonReason reason) {
  constexpr std::array<std::string_view, 5> names{"mend", "due", "before", "helped", "safety"};  // in their order
  return names[static_cast<std::size_t>(reason)];
}

std::string_view to_text(SeasonGroup group) {
  // In the order of the groups.
  constexpr std::array<std::string_view, 6> names{"mend", "overdue", "due", "never-waits", "rest", "put-off"};
  return names.at(static_cast<std::size_t>(group));
}

SeasonGroup SeasonItem::group() const {
  if (!to_mend.empty()) return SeasonGroup::mend;
  if (worst == Standing::overdue) return SeasonGroup::overdue;
  if (worst == Standing::due) return SeasonGroup::due;
  if (never_waits()) return SeasonGroup::never_waits;
  return point.put_off ? SeasonGroup::put_off : SeasonGroup::rest;
}

namespace {

// Parts that no work of the season's own takes on these machines.
void drop_other_parts(std::vector<PartNeed>& needs, const Scope& scope) {
  std::erase_if(needs, [&](const PartNeed& need) {
    return std::none_of(need.uses.begin(), need.uses.end(),
                        [&](const PartUse& use) { return !use.other_work && scope.holds(use.machine->key); });
  });
}

}  // namespace

load::WholePlan load::whole_plan(const Snapshot& snapshot, const SeasonAsk& ask, const Forecaster& forecaster) {
  load::insist_on_whole(snapshot);
  const SeasonDays days = season_days(*ask.season, ask.year, snapshot.as_of());
  WholePlan answer;
  SeasonPlan& plan = answer.plan;
  plan.fleet = snapshot.fleet_ptr();
  plan.season = ask.season;
  plan.as_of = snapshot.as_of();
  plan.from = days.from;
  plan.to = days.to;
  plan.scope = snapshot.scope();
  plan.threshold = ask.threshold;
  const Snapshot whole = snapshot.within({});  // stock is shared out over the whole fleet
  DueList list = points_for(plan, whole, forecaster);
  load::UseAhead use(whole, forecaster);
  Sorting sorting(plan, list, use);
  sort_all(sorting, list, plan);
  std::vector<MachineUse> standing;
  std::vector<Gap> gaps;  // those of the list are the whole fleet's
  auto uses = load::coming_uses(snapshot.within(sorting.elsewhere()), sorting.last(), forecaster, {},
                                {answer.unknown, standing, gaps});
  uses.insert(uses.end(), sorting.between().begin(), sorting.between().end());
  plan.parts = parts_of(snapshot, plan, std::move(uses));
  find_awaited(plan);
  add_absent(snapshot, plan, list, forecaster);
  plan.gaps = std::move(list.gaps);
  if (snapshot.scope().machines) list = due_list(snapshot, {plan.as_of, {}, Detail::standings}, forecaster);
  plan.not_to_run = NotToRun(list);
  plan.seen = std::move(list.seen);
  plan.not_in_use = std::move(list.not_in_use);
  answer.needs = plan.parts;
  answer.gaps = plan.gaps;
  drop_other_parts(plan.parts, snapshot.scope());
  keep_of(snapshot, plan);
  plan.doubts = reading_doubts(plan.gaps);
  plan.look_again = sorting.look_again(snapshot.scope());
  plan.before_sums = sums_of(plan.beforehand);
  plan.ready_sums = sums_of(plan.have_ready);
  plan.find_out_never_wait = never_wait_not_known(plan);
  plan.at_work = sorting.at_work(snapshot.scope());
  std::erase_if(answer.unknown, [&](const PointName& point) { return !snapshot.scope().holds(point.machine->key); });
  return answer;
}

SeasonPlan season_plan(const Snapshot& snapshot, const SeasonAsk& ask, const Forecaster& forecaster) {
  return load::whole_plan(snapshot, ask, forecaster).plan;
}

PartsList parts_before(const Snapshot& snapshot, const SeasonAsk& ask, const Forecaster& forecaster) {
  return load::parts_for(snapshot, load::whole_plan(snapshot, ask, forecaster));
}

PartsList load::parts_for(const Snapshot& snapshot, const WholePlan& whole) {
  const SeasonPlan& plan = whole.plan;
  PartsList list;
  list.fleet = plan.fleet;
  list.as_of = plan.as_of;
  list.to = std::max(plan.as_of, day_before(plan.from));
  list.before = plan.season;
  list.scope = snapshot.scope();
  list.needs = whole.needs;
  list.gaps = whole.gaps;
  load::keep_uses_of(snapshot, list.needs, list.gaps);
  for (const Point& point : plan.find_out) list.unknown.push_back(name_of(point));
  list.unknown.insert(list.unknown.end(), whole.unknown.begin(), whole.unknown.end());
  list.not_in_use = plan.not_in_use;
  list.not_to_run = plan.not_to_run;
  list.doubts = load::doubts_of(list.needs, list.gaps);
  return list;
}

int days_missed(const SeasonPlan& plan, const UseState& state) {
  if (state.kind == UseKind::in_use) return 0;
  const Day first = std::max(plan.from, plan.as_of);
  const Day back = stands_throughout(plan, state) ? plan.to + std::chrono::days{1} : *state.until;
  return std::max(0, days_between(first, back));
}

void keep_first(SeasonPlan& plan, std::size_t first) {
  const std::optional most(first);
  const std::size_t before = keep_first(plan.beforehand, most);
  const std::size_t ready = keep_first(plan.have_ready, most);
  plan.before_sums.left_off += before;
  plan.ready_sums.left_off += ready;
  plan.left_off += before + ready + keep_first(plan.put_off, most) + keep_first(plan.not_before_end, most);
}

}  // namespace service
