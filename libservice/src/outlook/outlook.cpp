// The services to come along a sample path of use, from event to event.
#include "service/outlook.h"

#include <algorithm>
#include <array>
#include <boost/random/uniform_real_distribution.hpp>
#include <random>

#include "service/minding.h"
#include "standing/chain.h"
#include "standing/gaps.h"
#include "standing/limbs.h"
#include "standing/points.h"
#include "standing/seen.h"
#include "standing/services.h"
#include "standing/view.h"

namespace service {
namespace {

constexpr Day never = Day::max();

// What the due days of a limb follow from, the same on every sample path.
struct LimbRule {
  LimbKind kind = LimbKind::sign;
  const LimbChoice* choice = nullptr;
  std::size_t meter = 0;           // usage limbs: index into the machine's meters
  Amount every;                    // usage limbs
  Amount grace;                    // usage limbs
  int changes = 0;                 // changes limbs
  const Season* season = nullptr;  // season limbs
  int lead_days = 0;
};

// How a limb stands on a day of one sample path.
struct LimbOnPath {
  const LimbRule* rule = nullptr;
  std::optional<Amount> start;               // of the usage interval
  std::optional<CalendarInterval> calendar;  // the interval under way
  std::optional<Day> season_due;
  bool counts = false;         // changes limbs: since a known day
  int count = 0;               // of changes
  std::optional<Day> changed;  // the newest of them
};

struct Slot {
  const MachineTask* task = nullptr;
  const FollowUp* follow_up = nullptr;
  std::string position;
  std::size_t parent = 0;  // of a check: the slot of its task
  const PutOff* put_off = nullptr;
  std::size_t put_off_meter = 0;
  int rank = 0;                                              // on a day, tasks that cover more come first
  std::vector<LimbRule> now;                                 // the interval under way
  std::vector<LimbRule> every;                               // those after it
  std::vector<std::size_t> serves;                           // slots renewed by a service of this one
  std::vector<std::size_t> touches;                          // slots whose day may change with it
  std::vector<std::pair<std::size_t, std::size_t>> counted;  // slot and limb (of `every`) that count it as a change
};

struct SlotState {
  bool open = true;        // a check is open from a service of its task until it is done
  std::optional<Day> now;  // due already: the day on which it would be done
  bool waits = true;       // where it is put off: no service has ended that yet
  Day fitted = Day::min();
  std::vector<LimbOnPath> limbs;
  int rounds = 0;
};

using Paths = std::vector<std::unique_ptr<const UsagePath>>;  // by meter; null where nothing is expected

// The future of one of the meters, and the number that its draws begin from.
struct MeterDraw {
  const UsageAhead* ahead = nullptr;
  std::uint64_t name = 0;
};

const UsagePath* path_of(const Paths& paths, std::size_t meter) {
  return meter < paths.size() ? paths[meter].get() : nullptr;
}

// FNV-1a, so that a machine's draws depend on nothing but its name.
std::uint64_t number_of(std::string_view name) {
  std::uint64_t hash = 14'695'981'039'346'656'037U;
  for (const char c : name) hash = (hash ^ static_cast<unsigned char>(c)) * 1'099'511'628'211U;
  return hash;
}

// The season of a sample path, for all machines alike: drawing it costs as much as a machine's use. So those that are
// asked for again and again are kept.
Probability season_of(std::uint64_t number) {
  const auto drawn = [](std::uint64_t of) {
    std::mt19937_64 seasons(of * 2'654'435'761U + 1);
    return Probability{boost::random::uniform_real_distribution<double>(0, 1)(seasons)};
  };
  static const auto kept = [&] {
    std::array<Probability, 256> first;
    for (std::size_t i = 0; i < first.size(); ++i) first[i] = drawn(i);
    return first;
  }();
  return number < kept.size() ? kept[number] : drawn(number);
}

}  // namespace

struct Outlook::Impl {
  Impl(const Snapshot& snapshot, const Machine& machine, const Forecaster& forecaster, Detail detail);

  void add_task(const MachineTask& task, const std::string& position);
  void add_check(std::size_t parent, const FollowUp& follow_up, const std::vector<ServiceDay>& services);
  void link();
  std::size_t meter_index(const std::string& name) const;
  LimbRule rule_of(const LimbChoice& choice, const Grace& grace) const;
  CalendarRule calendar_rule(const Slot& slot) const;
  CalendarInterval interval_from(const ChainDay& from, const LimbRule& rule, const Slot& slot) const;
  const Point* standing_of(const std::string& name, const std::string& position) const;
  void note_today(Slot& slot, SlotState& state, const Point& point) const;
  std::size_t checks_end(std::size_t index) const;
  bool expected(std::size_t meter) const;

  Day due_of(std::size_t index, const Paths& paths) const;
  Day put_off_until(std::size_t index, Day due, const Paths& paths) const;
  void renew(std::size_t index, Day day, const Paths& paths) const;
  void serve(std::size_t index, Day day, const Paths& paths) const;
  std::vector<ComingService> along(const Paths& paths, Day to) const;

  MachineView view;
  std::vector<Point> today;
  std::vector<Gap> gaps;
  std::vector<SeenSign> seen;
  std::vector<OutlookPoint> points;
  std::vector<Slot> slots;
  std::vector<SlotState> start;
  std::vector<std::size_t> unknown;
  Day first_day;
  bool stands = false;
  Grace no_grace;
  std::vector<std::vector<LimbChoice>> check_limbs;
  std::vector<MeterDraw> meters;

  // What goes along a path, kept from one to the next.
  mutable std::vector<SlotState> states;
  mutable std::vector<Day> due;
  mutable std::vector<LimbOnPath> next_limbs;
};

Outlook::Impl::Impl(const Snapshot& snapshot, const Machine& machine, const Forecaster& forecaster, Detail detail)
    : view(snapshot, machine, forecaster),
      today(points_of(view, {snapshot.as_of(), {}, detail})),
      gaps(gaps_of(view, today)),
      seen(seen_of(view)),
      first_day(view.as_of) {
  if (view.state.kind != UseKind::in_use) {
    stands = !view.state.until.has_value();
    if (view.state.until) first_day = std::max(first_day, *view.state.until);
  }
  std::size_t checks = 0;
  for (const MachineTask& task : view.tasks) {
    checks += task.task->follow_ups.size() * std::max<std::size_t>(1, task.positions.size());
  }
  check_limbs.reserve(checks);  // rules point into it
  for (const MachineTask& task : view.tasks) {
    if (task.positions.empty()) add_task(task, "");
    for (const std::string& position : task.positions) add_task(task, position);
  }
  link();
  for (const Meter& meter : machine.meters) {
    meters.push_back({view.ahead.find(meter.name)->second.get(), number_of(machine.key) * 31 + number_of(meter.name)});
  }
}

std::size_t Outlook::Impl::meter_index(const std::string& name) const {
  const auto& meters = view.machine.meters;
  const auto found = std::find_if(meters.begin(), meters.end(), [&](const Meter& meter) { return meter.name == name; });
  return static_cast<std::size_t>(found - meters.begin());
}

bool Outlook::Impl::expected(std::size_t meter) const {
  return meter < view.machine.meters.size() &&
         view.ahead.find(view.machine.meters[meter].name)->second->on(view.as_of, Quantile::p50).has_value();
}

LimbRule Outlook::Impl::rule_of(const LimbChoice& choice, const Grace& grace) const {
  LimbRule rule;
  const Limb& limb = choice.candidates.front();
  rule.kind = kind_of(limb);
  rule.choice = &choice;
  if (const auto* usage = std::get_if<UsageLimb>(&limb)) {
    const std::string meter = usage->meter.value_or("");
    rule.meter = meter_index(meter);
    rule.every = usage->every;
    rule.grace = usage_grace(view, grace, meter, usage->every);
  } else if (const auto* changes = std::get_if<ChangesLimb>(&limb)) {
    rule.changes = changes->count;
  } else if (const auto* season = std::get_if<SeasonLimb>(&limb)) {
    rule.season = view.fleet.season(season->season);
    rule.lead_days = season->lead_days;
  }
  return rule;
}

CalendarRule Outlook::Impl::calendar_rule(const Slot& slot) const {
  if (slot.follow_up != nullptr) return {false, no_grace};
  return {slot.task->task->until_month_end, slot.task->grace};
}

CalendarInterval Outlook::Impl::interval_from(const ChainDay& from, const LimbRule& rule, const Slot& slot) const {
  return calendar_interval(from, *rule.choice, calendar_rule(slot));
}

const Point* Outlook::Impl::standing_of(const std::string& name, const std::string& position) const {
  const auto found = std::find_if(today.begin(), today.end(),
                                  [&](const Point& point) { return point.name == name && point.position == position; });
  return found == today.end() ? nullptr : &*found;
}

void Outlook::Impl::note_today(Slot& slot, SlotState& state, const Point& point) const {
  if (is_due(point) || !to_mend(seen, point).empty()) state.now = first_day;
  if (!point.put_off) return;
  slot.put_off = &*point.put_off;
  slot.put_off_meter = meter_index(point.put_off->meter);
}

// The checks that follow a task stand behind it.
std::size_t Outlook::Impl::checks_end(std::size_t index) const {
  std::size_t end = index + 1;
  while (end < slots.size() && slots[end].follow_up != nullptr) ++end;
  return end;
}

void Outlook::Impl::add_task(const MachineTask& task, const std::string& position) {
  const Point* point = standing_of(task.task->name, position);
  if (point == nullptr) return;
  const auto services = services_of(view, task, position);
  Slot slot;
  slot.task = &task;
  slot.position = position;
  for (const LimbChoice& choice : limbs_now(view, task, services)) slot.now.push_back(rule_of(choice, task.grace));
  for (const LimbChoice& choice : task.every) slot.every.push_back(rule_of(choice, task.grace));
  SlotState state;
  note_today(slot, state, *point);
  if (!services.empty()) {
    state.fitted = services.back().day();
  } else if (view.machine.start.kind == StartKind::in_service) {
    state.fitted = view.machine.start.on.first;
  }
  bool any = state.now.has_value();
  bool by_eye = true;  // comes due by what somebody sees or measures alone: quiet, not unknown
  for (std::size_t i = 0; i < slot.now.size(); ++i) {
    const LimbStanding& standing = point->limbs[i];
    LimbOnPath limb;
    switch (slot.now[i].kind) {
      case LimbKind::usage:
        limb.start = usage_start(view, task, services, standing.name);
        any = any || (limb.start && expected(slot.now[i].meter));
        break;
      case LimbKind::calendar:
        if (const auto from = calendar_start(view, task, services))
          limb.calendar = interval_from(*from, slot.now[i], slot);
        any = any || limb.calendar;
        break;
      case LimbKind::changes:
        limb.counts = standing.count.has_value();
        limb.count = standing.count.value_or(0);
        any = any || limb.counts;
        break;
      case LimbKind::season:
        limb.season_due = standing.due_on;
        any = any || limb.season_due;
        break;
      default:
        break;
    }
    by_eye = by_eye && observed(slot.now[i].kind);
    state.limbs.push_back(limb);
  }
  if (!any && !by_eye) unknown.push_back(static_cast<std::size_t>(point - today.data()));
  state.open = any;
  const std::size_t index = slots.size();
  points.push_back({task.task, nullptr, task.task->name, position});
  slots.push_back(std::move(slot));
  start.push_back(std::move(state));
  for (const FollowUp& follow_up : task.task->follow_ups) add_check(index, follow_up, services);
}

void Outlook::Impl::add_check(std::size_t parent, const FollowUp& follow_up, const std::vector<ServiceDay>& services) {
  Slot slot;
  slot.task = slots[parent].task;
  slot.follow_up = &follow_up;
  slot.position = slots[parent].position;
  slot.parent = parent;
  const std::string name = slot.task->task->name + '/' + follow_up.name;
  std::vector<LimbChoice>& limbs = check_limbs.emplace_back();
  for (Limb limb : follow_up.within) {
    auto* usage = std::get_if<UsageLimb>(&limb);
    const Meter* hours = view.machine.first_hour_meter();
    if (usage != nullptr && !usage->meter && hours != nullptr) usage->meter = hours->name;
    limbs.push_back({{limb}});
  }
  for (const LimbChoice& choice : limbs) slot.now.push_back(rule_of(choice, no_grace));
  SlotState state;
  const Point* point = standing_of(name, slot.position);
  state.open = point != nullptr;
  for (const LimbRule& rule : slot.now) {
    LimbOnPath limb;
    if (point != nullptr && rule.kind == LimbKind::usage && rule.meter < view.machine.meters.size()) {
      limb.start = usage_then(view, services.back(), view.machine.meters[rule.meter].name).usage;
    } else if (point != nullptr && rule.kind == LimbKind::calendar) {
      limb.calendar = interval_from({services.back().day(), 0}, rule, slot);
    }
    state.limbs.push_back(limb);
  }
  if (point != nullptr) note_today(slot, state, *point);
  points.push_back({slot.task->task, &follow_up, name, slot.position});
  slots.push_back(std::move(slot));
  start.push_back(std::move(state));
}

// Which services serve which points, and which limbs count them as changes. All slots are in place by now, so that the
// first limbs can point at their rules.
void Outlook::Impl::link() {
  for (std::size_t i = 0; i < slots.size(); ++i) {
    for (std::size_t k = 0; k < slots[i].now.size(); ++k) start[i].limbs[k].rule = &slots[i].now[k];
  }
  for (std::size_t i = 0; i < slots.size(); ++i) {
    Slot& slot = slots[i];
    if (slot.follow_up != nullptr) continue;
    std::vector<std::string> changed;
    for (std::size_t other = 0; other < slots.size(); ++other) {
      const Slot& served = slots[other];
      if (served.follow_up != nullptr) continue;
      const auto names = counted_as(view.schedule, served.task->task->name);
      if (std::find(names.begin(), names.end(), slot.task->task->name) == names.end()) continue;
      changed.push_back(served.task->task->name);
      if (served.task != slot.task) ++slot.rank;
      const bool elsewhere = !served.position.empty() && !slot.position.empty() && served.position != slot.position;
      if (!elsewhere) slot.serves.push_back(other);
    }
    for (std::size_t other = 0; other < slots.size(); ++other) {
      const auto& every = slots[other].every;  // empty for checks
      for (std::size_t k = 0; k < every.size(); ++k) {
        if (every[k].kind != LimbKind::changes) continue;
        const std::string& task = std::get<ChangesLimb>(every[k].choice->candidates.front()).task;
        if (std::find(changed.begin(), changed.end(), task) != changed.end()) slot.counted.emplace_back(other, k);
      }
    }
  }
  for (std::size_t i = 0; i < slots.size(); ++i) {
    std::vector<std::size_t> touched{i};
    for (const std::size_t served : slots[i].serves) {
      for (std::size_t each = served; each < checks_end(served); ++each) touched.push_back(each);
    }
    for (const auto& [other, k] : slots[i].counted) touched.push_back(other);
    std::sort(touched.begin(), touched.end());
    touched.erase(std::unique(touched.begin(), touched.end()), touched.end());
    slots[i].touches = std::move(touched);
  }
}

Day Outlook::Impl::due_of(std::size_t index, const Paths& paths) const {
  const SlotState& state = states[index];
  if (!state.open) return never;
  Day due = state.now.value_or(never);
  for (const LimbOnPath& limb : state.limbs) {
    if (state.now) break;  // it is due, whatever else may come
    const LimbRule& rule = *limb.rule;
    const UsagePath* path = limb.start ? path_of(paths, rule.meter) : nullptr;
    if (path != nullptr) due = std::min(due, path->first_day_at(*limb.start + rule.every).value_or(never));
    if (limb.calendar) due = std::min(due, limb.calendar->due);
    if (limb.counts && limb.count >= rule.changes) due = std::min(due, limb.changed.value_or(first_day));
    if (limb.season_due) due = std::min(due, *limb.season_due);
  }
  if (due == never) return never;
  due = std::max(due, first_day);
  return state.waits ? put_off_until(index, due, paths) : due;
}

// What is put off is done when that ends, and not before it comes due.
Day Outlook::Impl::put_off_until(std::size_t index, Day due, const Paths& paths) const {
  const PutOff* wait = slots[index].put_off;
  if (wait == nullptr) return due;
  Day end = wait->until.value_or(never);
  const UsagePath* path = path_of(paths, slots[index].put_off_meter);
  if (wait->at && path != nullptr) end = std::min(end, path->first_day_at(*wait->at).value_or(never));
  return end == never ? never : std::max(due, end);
}

void Outlook::Impl::renew(std::size_t index, Day day, const Paths& paths) const {
  const Slot& slot = slots[index];
  SlotState& state = states[index];
  const CountsFrom from = slot.task->task->counts_from;
  const CalendarRule calendar = calendar_rule(slot);
  next_limbs.clear();
  for (const LimbRule& rule : slot.every) {
    LimbOnPath limb;
    limb.rule = &rule;
    const auto ended = std::find_if(state.limbs.begin(), state.limbs.end(), [&](const LimbOnPath& other) {
      return other.rule->kind == rule.kind && other.rule->meter == rule.meter;
    });
    const LimbOnPath* before = ended == state.limbs.end() ? nullptr : &*ended;
    switch (rule.kind) {
      case LimbKind::usage:
        if (path_of(paths, rule.meter) == nullptr) break;
        limb.start = path_of(paths, rule.meter)->on(day);
        if (before != nullptr && before->start) {
          limb.start = next_usage_start(*before->start + before->rule->every, before->rule->grace, *limb.start,
                                        rule.every, from);
        }
        break;
      case LimbKind::calendar:
        limb.calendar = interval_from(before != nullptr && before->calendar
                                          ? next_start(*before->calendar, day, *rule.choice, calendar, from)
                                          : ChainDay{day, 0},
                                      rule, slot);
        break;
      case LimbKind::changes:
        limb.counts = true;
        break;
      case LimbKind::season:
        if (rule.season != nullptr) limb.season_due = season_due(*rule.season, rule.lead_days, day);
        break;
      default:
        break;
    }
    next_limbs.push_back(limb);
  }
  state.limbs.swap(next_limbs);
  state.fitted = day;
  state.now.reset();
  state.waits = false;
  state.open = true;
}

// A service of one point on a day, with all that counts as done with it.
void Outlook::Impl::serve(std::size_t index, Day day, const Paths& paths) const {
  if (slots[index].follow_up != nullptr) {
    states[index].open = false;
    return;
  }
  for (const std::size_t served : slots[index].serves) {
    renew(served, day, paths);
    for (std::size_t check = served + 1; check < checks_end(served); ++check) {
      SlotState& state = states[check];
      state.open = true;
      state.now.reset();
      state.waits = false;
      for (LimbOnPath& limb : state.limbs) {
        if (limb.rule->kind == LimbKind::calendar) limb.calendar = interval_from({day, 0}, *limb.rule, slots[check]);
        if (limb.rule->kind != LimbKind::usage) continue;
        const UsagePath* path = path_of(paths, limb.rule->meter);
        limb.start = path != nullptr ? std::optional{path->on(day)} : std::nullopt;
      }
    }
  }
  for (const auto& [other, k] : slots[index].counted) {
    SlotState& state = states[other];
    // In the first interval its limbs may be others; those that count the same task stand in the same place.
    if (k >= state.limbs.size() || day <= state.fitted) continue;
    LimbOnPath& limb = state.limbs[k];
    if (!limb.counts || limb.changed == day) continue;
    ++limb.count;
    limb.changed = day;
  }
}

std::vector<ComingService> Outlook::Impl::along(const Paths& paths, Day to) const {
  std::vector<ComingService> services;
  if (stands) return services;
  if (view.machine.left) to = std::min(to, *view.machine.left - std::chrono::days{1});
  states = start;
  due.resize(slots.size());
  for (std::size_t i = 0; i < slots.size(); ++i) due[i] = due_of(i, paths);
  constexpr std::size_t most = 100'000;  // an interval of hundredths of an hour must not run for ever
  while (services.size() < most) {
    std::size_t next = slots.size();
    for (std::size_t i = 0; i < slots.size(); ++i) {
      if (due[i] > to) continue;
      const bool first =
          next == slots.size() || due[i] < due[next] || (due[i] == due[next] && slots[i].rank > slots[next].rank);
      if (first) next = i;
    }
    if (next == slots.size()) break;
    const Day day = due[next];
    services.push_back({next, day, ++states[next].rounds});
    serve(next, day, paths);
    for (const std::size_t touched : slots[next].touches) {
      due[touched] = due_of(touched, paths);
      // What a service renews comes due on a later day, however small its interval is.
      const std::size_t parent = slots[touched].follow_up == nullptr ? touched : slots[touched].parent;
      if (states[parent].fitted == day && due[touched] <= day) due[touched] = day + std::chrono::days{1};
    }
  }
  return services;
}

Outlook::Outlook(const Snapshot& snapshot, const Machine& machine, const Forecaster& forecaster, Detail detail)
    : impl_(std::make_unique<Impl>(snapshot, machine, forecaster, detail)) {}
Outlook::~Outlook() = default;
Outlook::Outlook(Outlook&&) noexcept = default;
Outlook& Outlook::operator=(Outlook&&) noexcept = default;

const std::vector<OutlookPoint>& Outlook::points() const { return impl_->points; }
const std::vector<Point>& Outlook::today() const { return impl_->today; }
const std::vector<std::size_t>& Outlook::unknown() const { return impl_->unknown; }
const std::vector<Gap>& Outlook::gaps() const { return impl_->gaps; }
const std::vector<SeenSign>& Outlook::seen() const { return impl_->seen; }
bool Outlook::stands() const { return impl_->stands; }

std::vector<ComingService> Outlook::draw(std::uint64_t number, Day to) const {
  const Probability season = season_of(number);
  const int days = std::max(1, days_between(impl_->view.as_of, to));
  Paths paths;
  paths.reserve(impl_->meters.size());
  for (const MeterDraw& meter : impl_->meters) {
    // A stream for each meter, so that how far one is drawn does not change another.
    Draws random(meter.name ^ (number * 0x9E3779B97F4A7C15U));
    paths.push_back(meter.ahead->draw(random, season, days));
  }
  return impl_->along(paths, to);
}

}  // namespace service
