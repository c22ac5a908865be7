#include "twin.h"

#include <algorithm>
#include <climits>
#include <cstdlib>
#include <functional>
#include <map>
#include <stdexcept>

namespace twin {

// ---- days -------------------------------------------------------------------------------------------------------
// Counted year by year and month by month from 1970, as one would with a wall calendar.

namespace {

bool leap(int year) {
  if (year % 400 == 0) return true;
  if (year % 100 == 0) return false;
  return year % 4 == 0;
}

int year_length(int year) { return leap(year) ? 366 : 365; }

}  // namespace

int month_length(int year, int month) {
  switch (month) {
    case 2:
      return leap(year) ? 29 : 28;
    case 4:
    case 6:
    case 9:
    case 11:
      return 30;
    default:
      return 31;
  }
}

Day day_of(int year, int month, int day) {
  Day count = 0;
  for (int y = 1970; y < year; ++y) count += year_length(y);
  for (int y = year; y < 1970; ++y) count -= year_length(y);
  for (int m = 1; m < month; ++m) count += month_length(year, m);
  return count + day - 1;
}

Civil civil_of(Day day) {
  int year = 1970;
  while (day < 0) {
    --year;
    day += year_length(year);
  }
  while (day >= year_length(year)) {
    day -= year_length(year);
    ++year;
  }
  int month = 1;
  while (day >= month_length(year, month)) {
    day -= month_length(year, month);
    ++month;
  }
  return {year, month, day + 1};
}

Day add_months(Day anchor, int months) {
  const Civil c = civil_of(anchor);
  int year = c.year;
  int month = c.month;
  for (int i = 0; i < months; ++i) {
    ++month;
    if (month == 13) {
      month = 1;
      ++year;
    }
  }
  return day_of(year, month, std::min(c.day, month_length(year, month)));
}

Day month_end(Day day) {
  const Civil c = civil_of(day);
  return day_of(c.year, c.month, month_length(c.year, c.month));
}

std::string iso(Day day) {
  const Civil c = civil_of(day);
  std::string text = std::to_string(c.year);
  while (text.size() < 4) text.insert(0, "0");
  text += c.month < 10 ? "-0" : "-";
  text += std::to_string(c.month);
  text += c.day < 10 ? "-0" : "-";
  text += std::to_string(c.day);
  return text;
}

// ---- small helpers ----------------------------------------------------------------------------------------------

const Schedule* schedule_of(const World& world, const Machine& machine) {
  for (const Schedule& s : world.schedules)
    if (s.name == machine.schedule) return &s;
  throw std::logic_error("no such schedule: " + machine.schedule);
}

std::vector<Meter> meters_of(const World& world, const Machine& machine) {
  if (!machine.meters.empty()) return machine.meters;
  const Schedule* schedule = schedule_of(world, machine);
  if (!schedule->meters.empty()) return schedule->meters;
  return {Meter{"engine", "h", std::nullopt}};
}

namespace {

const Task* find_task(const Schedule& schedule, const std::string& name) {
  for (const Task& t : schedule.tasks)
    if (t.name == name) return &t;
  return nullptr;
}

void collect_covered(const Schedule& schedule, const Task& task, std::vector<std::string>& found) {
  if (std::find(found.begin(), found.end(), task.name) != found.end()) return;
  found.push_back(task.name);
  for (const std::string& name : task.covers) {
    const Task* covered = find_task(schedule, name);
    if (covered == nullptr) continue;
    if (covered->competent_person && !task.competent_person) continue;
    collect_covered(schedule, *covered, found);
  }
}

bool contains(const std::vector<std::string>& list, const std::string& what) {
  return std::find(list.begin(), list.end(), what) != list.end();
}

// Facts lie in the order of their day, and on a day in the order of entry.
bool earlier_fact(const Fact* a, const Fact* b) {
  if (a->on.first != b->on.first) return a->on.first < b->on.first;
  return a->entry < b->entry;
}

// The facts that are there on the as-of day: not struck, not dated after it, in order.
std::vector<const Fact*> facts_there(const World& world) {
  std::vector<const Fact*> by_entry;
  for (const Fact& f : world.facts) by_entry.push_back(&f);
  std::sort(by_entry.begin(), by_entry.end(), [](const Fact* a, const Fact* b) { return a->entry > b->entry; });

  // From the newest to the oldest: a strike can be struck only by a newer one, so it is settled when we reach it.
  std::vector<int> struck;
  for (const Fact* f : by_entry) {
    if (f->kind != FactKind::strike) continue;
    if (std::find(struck.begin(), struck.end(), f->entry) != struck.end()) continue;
    struck.push_back(f->strikes.value());
  }

  std::vector<const Fact*> there;
  for (const Fact* f : by_entry) {
    if (f->kind == FactKind::strike) continue;
    if (std::find(struck.begin(), struck.end(), f->entry) != struck.end()) continue;
    if (f->on.first > world.as_of) continue;
    there.push_back(f);
  }
  std::sort(there.begin(), there.end(), earlier_fact);
  return there;
}

// ---- one meter of one machine -----------------------------------------------------------------------------------

struct History {
  bool known = false;
  Day first = 0, last = 0;
  std::vector<Amount> by_day;              // from `first` to `last`, every day of it
  std::map<int, Amount> usage_of_service;  // by entry number: services that carry a value of this meter

  Amount latest() const { return by_day.back(); }
};

struct UsageAt {
  std::optional<Amount> usage;
  Basis basis = Basis::unknown;
};

UsageAt usage_on(const History& history, Day day) {
  if (!history.known || day < history.first) return {};
  if (day > history.last) return {history.latest(), Basis::last_known};
  return {history.by_day[static_cast<std::size_t>(day - history.first)], Basis::interpolated};
}

// Neither number is negative here: a share of the way between two known values.
Amount rounded_share(Amount whole, Amount part, Amount parts) {
  const Amount twice = 2 * whole * part;
  return (twice + parts) / (2 * parts);
}

History history_of(const Machine& machine, const std::vector<Meter>& meters, const Meter& meter,
                   const std::vector<const Fact*>& facts) {
  const bool is_first = meters.front().name == meter.name;

  std::map<Day, Amount> known;  // the value of a day: the one entered last, and never a lower one
  Amount offset = 0;
  const auto note_value = [&known](Day day, Amount usage) {
    const auto it = known.find(day);
    if (it == known.end() || it->second < usage) known[day] = usage;
  };

  // C44: the highest value of the segment so far is what a value read to the whole unit stands for.
  std::optional<Amount> highest_shown;
  const auto held = [&highest_shown](Amount at) {
    constexpr Amount one = 100;
    const bool tenths_left_out = at % one == 0 && highest_shown && at < *highest_shown && *highest_shown - at < one;
    if (!highest_shown || at > *highest_shown) highest_shown = at;
    return tenths_left_out ? *highest_shown : at;
  };

  std::optional<Day> start_day;
  std::optional<Amount> start_value;
  if (machine.in_service) {
    start_day = machine.in_service->on;
    start_value = is_first ? machine.in_service->at : 0;
  } else if (machine.bought && is_first) {
    start_day = machine.bought->on;
    start_value = machine.bought->at;
  }

  History history;
  bool start_noted = false;
  for (const Fact* f : facts) {
    if (start_day && !start_noted && f->on.first >= *start_day) {
      note_value(*start_day, held(*start_value) + offset);
      start_noted = true;
    }
    if (f->machine != machine.name) continue;
    const std::string& of = f->meter.empty() ? meters.front().name : f->meter;
    if (of != meter.name) continue;
    if (f->kind == FactKind::reading) {
      note_value(f->on.first, held(*f->at) + offset);
    } else if (f->kind == FactKind::service && f->at && !f->on.whole()) {
      history.usage_of_service[f->entry] = *f->at + offset;
    } else if (f->kind == FactKind::service && f->at) {
      const Amount usage = held(*f->at) + offset;
      history.usage_of_service[f->entry] = usage;
      note_value(f->on.first, usage);
    } else if (f->kind == FactKind::meter_change) {
      const Amount usage = held(*f->last) + offset;
      note_value(f->on.first, usage);
      offset = usage - *f->first;
      highest_shown = *f->first;
    }
  }
  if (start_day && !start_noted) note_value(*start_day, *start_value + offset);
  if (known.empty()) return history;

  // Days go up, and so do the values.
  std::vector<std::pair<Day, Amount>> points;
  Amount highest = 0;
  for (const auto& [day, usage] : known) {
    highest = points.empty() ? usage : std::max(highest, usage);
    points.emplace_back(day, highest);
  }

  history.known = true;
  history.first = points.front().first;
  history.last = points.back().first;
  for (std::size_t i = 0; i + 1 < points.size(); ++i) {
    const auto [a, from] = points[i];
    const auto [b, to] = points[i + 1];
    for (Day d = a; d < b; ++d) history.by_day.push_back(from + rounded_share(to - from, d - a, b - a));
  }
  history.by_day.push_back(points.back().second);
  return history;
}

// ---- which limbs hold -------------------------------------------------------------------------------------------

Day calendar_after(Day start, const Limb& limb) {
  switch (limb.unit) {
    case Unit::days:
      return start + limb.count;
    case Unit::weeks:
      return start + 7 * limb.count;
    case Unit::months:
      return add_months(start, limb.count);
    case Unit::years:
      return add_months(start, 12 * limb.count);
  }
  throw std::logic_error("no such unit");
}

bool same_limb(const Limb& a, const Limb& b) {
  if (a.kind != b.kind) return false;
  switch (a.kind) {
    case Kind::usage:
      return a.meter == b.meter;
    case Kind::changes:
    case Kind::measured:
    case Kind::season:
      return a.name == b.name;
    case Kind::calendar:
    case Kind::sign:
      return true;
  }
  throw std::logic_error("no such kind");
}

void replace_limbs(std::vector<Limb>& limbs, const std::vector<Limb>& with) {
  for (const Limb& limb : with) {
    bool found = false;
    for (Limb& old : limbs)
      if (same_limb(old, limb)) {
        old = limb;
        found = true;
      }
    if (!found) limbs.push_back(limb);
  }
}

bool comes_sooner(const Limb& a, const Limb& b, Day start) {
  switch (a.kind) {
    case Kind::usage:
      return a.amount < b.amount;
    case Kind::calendar:
      return calendar_after(start, a) < calendar_after(start, b);
    case Kind::changes:
      return a.count < b.count;
    case Kind::measured:
      return a.above ? a.amount < b.amount : a.amount > b.amount;
    case Kind::season:
      return a.count > b.count;
    case Kind::sign:
      return false;
  }
  throw std::logic_error("no such kind");
}

std::vector<Limb> name_the_meters(std::vector<Limb> limbs, const std::vector<Meter>& meters) {
  for (Limb& limb : limbs) {
    if (limb.kind != Kind::usage || !limb.meter.empty()) continue;
    for (const Meter& m : meters)
      if (m.unit == "h") {
        limb.meter = m.name;
        break;
      }
    if (limb.meter.empty()) throw std::logic_error("`hours` on a machine without a meter in h");
  }
  return limbs;
}

std::vector<Limb> limbs_of_task(const Machine& machine, const std::vector<Meter>& meters, const Task& task,
                                bool running_in, Day start) {
  std::vector<Limb> limbs = name_the_meters(task.every, meters);

  std::vector<Limb> in;
  for (const auto& [condition, condition_limbs] : task.in) {
    if (!contains(machine.conditions, condition)) continue;
    for (const Limb& limb : name_the_meters(condition_limbs, meters)) {
      bool found = false;
      for (Limb& other : in) {
        if (!same_limb(other, limb)) continue;
        found = true;
        if (limb.kind == Kind::sign) {
          for (const std::string& s : limb.signs)
            if (!contains(other.signs, s)) other.signs.push_back(s);
        } else if (comes_sooner(limb, other, start)) {
          other = limb;
        }
      }
      if (!found) in.push_back(limb);
    }
  }
  replace_limbs(limbs, in);

  std::vector<Limb> first = name_the_meters(task.first, meters);
  for (const Change& change : machine.changes) {
    if (change.task != task.name) continue;
    replace_limbs(limbs, name_the_meters(change.every, meters));
    replace_limbs(first, name_the_meters(change.first, meters));
  }
  if (running_in) replace_limbs(limbs, first);
  return limbs;
}

// ---- grace ------------------------------------------------------------------------------------------------------

// `days_in_interval` matters to a calendar limb only. Nothing where this grace does not speak of such a limb.
std::optional<Amount> grace_said(const std::optional<Grace>& grace, const Limb& limb, int days_in_interval,
                                 const std::vector<Meter>& meters) {
  if (!grace) return std::nullopt;
  if (grace->percent) {
    const Amount percent = *grace->percent;
    switch (limb.kind) {
      case Kind::usage:
        return limb.amount * percent / 100;
      case Kind::calendar:
        return days_in_interval * percent / 100;
      case Kind::changes:
        return limb.count * percent / 100;
      case Kind::measured:
      case Kind::sign:
      case Kind::season:
        return 0;
    }
  }
  switch (limb.kind) {
    case Kind::usage: {
      for (const auto& [meter, amount] : grace->usage)
        if (meter == limb.meter) return amount;
      if (grace->hours) {
        for (const Meter& m : meters) {
          if (m.name == limb.meter && m.unit == "h") return grace->hours;
        }
      }
      return std::nullopt;
    }
    case Kind::calendar:
    case Kind::sign:
    case Kind::season:
      if (grace->days) return *grace->days;
      return std::nullopt;
    case Kind::changes:
      if (grace->changes) return *grace->changes;
      return std::nullopt;
    case Kind::measured:
      return 0;
  }
  throw std::logic_error("no such kind");
}

// ---- one point --------------------------------------------------------------------------------------------------

struct Rules {
  std::function<std::vector<Limb>(bool running_in, Day start)> limbs;
  std::optional<Grace> own_grace, fleet_grace;
  bool safety = false;
  bool waits_for_nobody = false;  // nobody can put it off
  CountsFrom counts_from = CountsFrom::done;
  bool until_month_end = false;
};

struct Surroundings {
  const World& world;
  const Machine& machine;
  const std::vector<Meter>& meters;
  const Schedule& schedule;
  const std::vector<const Fact*>& facts;  // those of this machine
  const std::map<std::string, History>& histories;
};

Amount grace_of(const Rules& rules, const Surroundings& s, const Limb& limb, int days_in_interval) {
  if (rules.safety) return 0;
  if (const auto said = grace_said(rules.own_grace, limb, days_in_interval, s.meters)) return *said;
  if (limb.kind == Kind::sign) return 0;  // C18a
  if (const auto said = grace_said(rules.fleet_grace, limb, days_in_interval, s.meters)) return *said;
  return 0;
}

const Limb* find_limb(const std::vector<Limb>& limbs, Kind kind, const std::string& meter) {
  for (const Limb& limb : limbs)
    if (limb.kind == kind && (kind != Kind::usage || limb.meter == meter)) return &limb;
  return nullptr;
}

UsageAt usage_at_service(const Surroundings& s, const Fact& service, const std::string& meter) {
  const History& history = s.histories.at(meter);
  const auto own = history.usage_of_service.find(service.entry);
  if (own != history.usage_of_service.end()) return {own->second, Basis::recorded};
  return usage_on(history, service.on.first);
}

// Services of a day count once; the one entered last stands for them.
std::vector<const Fact*> one_a_day(const std::vector<const Fact*>& services) {
  std::vector<const Fact*> result;
  for (const Fact* f : services) {
    if (!result.empty() && result.back()->on.first == f->on.first)
      result.back() = f;
    else
      result.push_back(f);
  }
  return result;
}

struct UsageDue {
  std::optional<Amount> due_at;
  Limb limb;
};

UsageDue usage_due(const Rules& rules, const Surroundings& s, const std::vector<const Fact*>& services, bool is_new,
                   const std::string& meter) {
  UsageDue now;
  bool running = false;
  if (is_new) {
    const Day start = s.machine.in_service->on;
    const std::vector<Limb> limbs = rules.limbs(true, start);
    const Limb* limb = find_limb(limbs, Kind::usage, meter);
    if (limb != nullptr) {
      now.limb = *limb;
      const bool is_first = s.meters.front().name == meter;
      now.due_at = (is_first ? s.machine.in_service->at : 0) + limb->amount;
      running = true;
    }
  }
  for (const Fact* service : services) {
    const std::vector<Limb> limbs = rules.limbs(false, service->on.first);
    const Limb* limb = find_limb(limbs, Kind::usage, meter);
    if (limb == nullptr) continue;
    const std::optional<Amount> done = usage_at_service(s, *service, meter).usage;
    std::optional<Amount> from = done;
    if (done && running && now.due_at) {
      const Amount due = *now.due_at;
      if (rules.counts_from == CountsFrom::due) {
        const Amount grace = grace_of(rules, s, now.limb, 0);
        if (std::abs(*done - due) <= grace) from = due;
      } else if (rules.counts_from == CountsFrom::earlier) {
        const bool whole_interval_over = *done - due >= limb->amount;
        if (due < *done && !whole_interval_over) from = due;
      }
    }
    now.limb = *limb;
    now.due_at.reset();
    if (from) now.due_at = *from + limb->amount;
    running = true;
  }
  return now;
}

// A chain of calendar due days, always counted from its anchor.
struct CalendarChain {
  Day anchor = 0;
  bool in_months = false;
  int count = 0;  // months, or days, from the anchor to the due day
  Day start = 0;  // where the interval that now runs starts
  Limb limb;

  Day plain_due() const { return in_months ? add_months(anchor, count) : anchor + count; }
};

bool in_months(const Limb& limb) { return limb.unit == Unit::months || limb.unit == Unit::years; }

int units_of(const Limb& limb) {
  switch (limb.unit) {
    case Unit::days:
    case Unit::months:
      return limb.count;
    case Unit::weeks:
      return 7 * limb.count;
    case Unit::years:
      return 12 * limb.count;
  }
  throw std::logic_error("no such unit");
}

CalendarChain new_chain(Day start, const Limb& limb) { return {start, in_months(limb), units_of(limb), start, limb}; }

CalendarChain continued_chain(const CalendarChain& old, const Limb& limb) {
  const Day start = old.plain_due();
  if (in_months(limb) != old.in_months) return new_chain(start, limb);
  return {old.anchor, old.in_months, old.count + units_of(limb), start, limb};
}

Day due_day(const Rules& rules, const CalendarChain& chain) {
  const Day plain = chain.plain_due();
  return rules.until_month_end ? month_end(plain) : plain;
}

std::optional<CalendarChain> calendar_due(const Rules& rules, const Surroundings& s,
                                          const std::vector<const Fact*>& services, bool is_new) {
  std::optional<CalendarChain> now;
  if (is_new) {
    const Day start = s.machine.in_service->on;
    const std::vector<Limb> limbs = rules.limbs(true, start);
    if (const Limb* limb = find_limb(limbs, Kind::calendar, "")) now = new_chain(start, *limb);
  }
  for (const Fact* service : services) {
    const Day done = service->on.first;
    const std::vector<Limb> from_done = rules.limbs(false, done);
    const Limb* limb = find_limb(from_done, Kind::calendar, "");
    if (limb == nullptr) {
      now.reset();
      continue;
    }
    CalendarChain next = new_chain(done, *limb);
    if (now && rules.counts_from != CountsFrom::done) {
      const Day due = due_day(rules, *now);
      const std::vector<Limb> from_due = rules.limbs(false, now->plain_due());
      const CalendarChain going_on = continued_chain(*now, *find_limb(from_due, Kind::calendar, ""));
      if (rules.counts_from == CountsFrom::due) {
        const Amount grace = grace_of(rules, s, now->limb, now->plain_due() - now->start);
        if (std::abs(done - due) <= grace) next = going_on;
      } else {
        if (done >= due && done < due_day(rules, going_on)) next = going_on;
      }
    }
    now = next;
  }
  return now;
}

Day season_day(int year, int month, int day) { return day_of(year, month, std::min(day, month_length(year, month))); }

// The due day of the season after the one that a service on `fitted` serves.
Day season_due(const Season& season, int lead, Day fitted) {
  const bool over_new_year =
      season.to_month < season.from_month || (season.to_month == season.from_month && season.to_day < season.from_day);
  for (int year = civil_of(fitted).year - 2;; ++year) {
    const Day end = season_day(over_new_year ? year + 1 : year, season.to_month, season.to_day);
    if (end < fitted) continue;
    return season_day(year + 1, season.from_month, season.from_day) - lead;
  }
}

bool position_fits(const std::string& of_fact, const std::string& of_point) {
  return of_fact.empty() || of_point.empty() || of_fact == of_point;
}

// Days, later than `after`, on which the task was done (or covered) at any position.
std::vector<Day> change_days(const Surroundings& s, const std::string& task, Day after) {
  std::vector<Day> days;
  for (const Fact* f : s.facts) {
    if (f->kind != FactKind::service || f->on.first <= after) continue;
    if (!contains(done_with(s.schedule, f->task), task)) continue;
    if (days.empty() || days.back() != f->on.first) days.push_back(f->on.first);
  }
  return days;
}

Reach reach_of_day(Day as_of, Day due, Amount grace) {
  if (as_of < due) return Reach::unreached;
  return as_of <= due + grace ? Reach::due : Reach::overdue;
}

// `services`: those of this point, in order. `is_new`: where there is none, the machine's in-service day counts.
// `judged_from`: with neither, signs and measurements count from this day.
PointAnswer answer_point(const Surroundings& s, const Rules& rules, const std::vector<const Fact*>& all_services,
                         bool is_new, const std::string& name, const std::string& position) {
  const Day as_of = s.world.as_of;
  PointAnswer point;
  point.machine = s.machine.name;
  point.task = name;
  point.position = position;
  point.exists = true;

  const std::vector<const Fact*> services = one_a_day(all_services);
  const Fact* last = services.empty() ? nullptr : services.back();
  const bool running_in = last == nullptr && is_new;
  const bool fitted_known = last != nullptr || is_new;

  std::optional<Day> fitted_day;
  if (last != nullptr)
    fitted_day = last->on.first;
  else if (is_new)
    fitted_day = s.machine.in_service->on;

  const std::optional<CalendarChain> chain = calendar_due(rules, s, services, is_new);
  const std::vector<Limb> limbs = rules.limbs(running_in, chain ? chain->start : fitted_day.value_or(as_of));

  std::string main_meter = s.meters.front().name;
  for (const Limb& limb : limbs)
    if (limb.kind == Kind::usage) {
      main_meter = limb.meter;
      break;
    }

  // Usage at fitting, on any meter.
  const auto fitted_usage = [&](const std::string& meter) -> UsageAt {
    if (last != nullptr) return usage_at_service(s, *last, meter);
    if (!is_new) return {};
    return {s.meters.front().name == meter ? s.machine.in_service->at : 0, Basis::in_service};
  };
  if (fitted_known) {
    const UsageAt at = fitted_usage(main_meter);
    Fitted fitted;
    fitted.first = *fitted_day;
    fitted.last = last != nullptr ? last->on.last : *fitted_day;
    fitted.at = at.usage;
    fitted.meter = main_meter;
    fitted.basis = at.basis;
    point.fitted = fitted;
  }

  // Was this sign or measurement noted since the fitting?
  const auto since_fitted = [&](const Fact* f) {
    if (last != nullptr) return earlier_fact(last, f);
    if (s.machine.in_service) return f->on.first >= s.machine.in_service->on;
    if (s.machine.bought) return f->on.first >= s.machine.bought->on;
    return true;
  };

  for (const Limb& limb : limbs) {
    LimbAnswer a;
    a.limb = limb;
    switch (limb.kind) {
      case Kind::usage: {
        if (!fitted_known) break;
        const UsageDue due = usage_due(rules, s, services, is_new, limb.meter);
        const History& history = s.histories.at(limb.meter);
        a.grace = grace_of(rules, s, limb, 0);
        a.due_at = due.due_at;
        if (!due.due_at || !history.known) break;
        const Amount today = history.latest();
        a.used = today - fitted_usage(limb.meter).usage.value();
        a.left = *due.due_at - today;
        if (*a.left > 0) {
          a.reach = Reach::unreached;
          break;
        }
        a.reach = -*a.left <= *a.grace ? Reach::due : Reach::overdue;
        for (std::size_t i = 0; i < history.by_day.size(); ++i)
          if (history.by_day[i] >= *due.due_at) {
            a.due_on = history.first + static_cast<Day>(i);
            break;
          }
        break;
      }
      case Kind::calendar: {
        if (!chain) break;
        a.due_on = due_day(rules, *chain);
        a.left_days = *a.due_on - as_of;
        a.grace = grace_of(rules, s, limb, chain->plain_due() - chain->start);
        a.reach = reach_of_day(as_of, *a.due_on, *a.grace);
        break;
      }
      case Kind::changes: {
        if (!fitted_known) break;
        const std::vector<Day> days = change_days(s, limb.name, *fitted_day);
        const int count = static_cast<int>(days.size());
        a.changes_used = count;
        a.grace = grace_of(rules, s, limb, 0);
        if (count < limb.count) {
          a.reach = Reach::unreached;
          break;
        }
        a.due_on = days[static_cast<std::size_t>(limb.count - 1)];
        a.reach = count <= limb.count + *a.grace ? Reach::due : Reach::overdue;
        break;
      }
      case Kind::measured: {
        const Fact* latest = nullptr;
        for (const Fact* f : s.facts)
          if (f->kind == FactKind::measurement && f->name == limb.name && position_fits(f->position, position) &&
              since_fitted(f))
            latest = f;
        if (latest == nullptr) break;
        a.used = latest->value;
        const Amount beyond = limb.above ? *latest->value - limb.amount : limb.amount - *latest->value;
        if (beyond < 0) {
          a.reach = Reach::unreached;
        } else {
          a.reach = beyond == 0 ? Reach::due : Reach::overdue;
          a.due_on = latest->on.first;
        }
        break;
      }
      case Kind::sign: {
        std::map<std::string, Day> seen;  // C45: and not found good since
        for (const Fact* f : s.facts) {
          if (!contains(limb.signs, f->name) || !since_fitted(f)) continue;
          if (f->kind == FactKind::sign) seen.emplace(f->name, f->on.first);
          if (f->kind == FactKind::looked_at && f->found_good) seen.erase(f->name);
          if (f->kind == FactKind::looked_at && !f->found_good) seen.emplace(f->name, f->on.first);
        }
        for (const auto& [sign, day] : seen)
          if (!a.due_on || day < *a.due_on) a.due_on = day;
        if (a.due_on) {
          a.grace = grace_of(rules, s, limb, 0);
          a.reach = reach_of_day(as_of, *a.due_on, *a.grace);
        }
        break;
      }
      case Kind::season: {
        if (!fitted_known) break;
        for (const Season& season : s.world.seasons) {
          if (season.name != limb.name) continue;
          a.due_on = season_due(season, limb.count, *fitted_day);
          a.left_days = *a.due_on - as_of;
          a.grace = grace_of(rules, s, limb, 0);
          a.reach = reach_of_day(as_of, *a.due_on, *a.grace);
        }
        break;
      }
    }
    point.limbs.push_back(a);
  }

  // The list of what is unknown.
  for (const LimbAnswer& a : point.limbs) {
    if (a.reach != Reach::unknown) continue;
    if (a.limb.kind == Kind::sign) continue;  // C30
    if (a.limb.kind == Kind::measured && point.limbs.size() > 1) continue;
    point.unknown.push_back(a.limb.kind);
  }

  // The worst limb rules; of equals the earliest due day, then usage, then the order written.
  const LimbAnswer* ruling = nullptr;
  for (const LimbAnswer& a : point.limbs) {
    if (a.reach != Reach::due && a.reach != Reach::overdue) continue;
    if (ruling == nullptr) {
      ruling = &a;
      continue;
    }
    if (a.reach != ruling->reach) {
      if (a.reach == Reach::overdue) ruling = &a;
      continue;
    }
    if (*a.due_on != *ruling->due_on) {
      if (*a.due_on < *ruling->due_on) ruling = &a;
      continue;
    }
    if (a.limb.kind == Kind::usage && ruling->limb.kind != Kind::usage) ruling = &a;
  }

  int racing = 0, racing_unknown = 0;
  for (const LimbAnswer& a : point.limbs) {
    if (a.limb.kind != Kind::usage && a.limb.kind != Kind::calendar) continue;
    ++racing;
    if (a.reach == Reach::unknown) ++racing_unknown;
  }

  if (ruling != nullptr) {
    point.standing = ruling->reach == Reach::overdue ? Standing::overdue : Standing::due;
    point.ruled_by = ruling->limb.kind;
    point.due_on = ruling->due_on;
  } else if (!fitted_known || (racing > 0 && racing == racing_unknown)) {
    point.standing = Standing::no_record;
  } else {
    point.standing = Standing::unreached;
  }

  // Put off?
  const Fact* decision = nullptr;
  for (const Fact* f : s.facts)
    if (f->kind == FactKind::put_off && f->task == name && position_fits(f->position, position)) decision = f;
  if (decision != nullptr && !rules.waits_for_nobody) {
    bool holds = last == nullptr || earlier_fact(last, decision);
    if (decision->until && as_of >= *decision->until) holds = false;
    if (decision->at) {
      const History& history = s.histories.at(main_meter);
      if (!history.known || history.latest() >= *decision->at) holds = false;
    }
    point.put_off = holds;
  }
  return point;
}

// Services by which this task, at this position, counts as done.
std::vector<const Fact*> services_of(const Surroundings& s, const std::string& task, const std::string& position) {
  std::vector<const Fact*> found;
  for (const Fact* f : s.facts) {
    if (f->kind != FactKind::service) continue;
    if (!contains(done_with(s.schedule, f->task), task)) continue;
    if (!position_fits(f->position, position)) continue;
    found.push_back(f);
  }
  return found;
}

// ---- what is kept as seen (C46) -----------------------------------------------------------------------------------

struct KeptUnder {
  std::string name;
  bool is_service = false;
};

bool comes_due_on(const Surroundings& s, const std::string& sign) {
  for (const Task& task : s.schedule.tasks)
    for (const bool running_in : {false, true})
      for (const Limb& limb : limbs_of_task(s.machine, s.meters, task, running_in, s.world.as_of))
        if (limb.kind == Kind::sign && contains(limb.signs, sign)) return true;
  return false;
}

KeptUnder kept_under(const Surroundings& s, const Fact& f) {
  const std::string place = f.position.empty() ? "" : "@" + f.position;
  if (f.kind == FactKind::service && (f.found_failed || f.found_worn)) {
    const std::string::size_type slash = f.task.find('/');
    const Task* task = find_task(s.schedule, f.task.substr(0, slash));
    const bool is_check = slash != std::string::npos;
    bool kept = is_check && (f.found_failed || task->safety);
    std::vector<std::string> names;
    if (!is_check) names = f.found_failed ? done_with(s.schedule, f.task) : std::vector<std::string>{f.task};
    for (const std::string& name : names) {
      const Task* each = find_task(s.schedule, name);
      kept = kept || ((each->safety || each->competent_person) && !each->parts);
    }
    if (!kept) return {};
    return {f.task + place + (f.found_failed ? " found failed" : " found worn"), true};
  }
  if (f.kind != FactKind::sign && f.kind != FactKind::measurement) return {};
  if (f.kind == FactKind::sign) return comes_due_on(s, f.name) ? KeptUnder{} : KeptUnder{f.name, false};
  for (const Task& task : s.schedule.tasks) {
    for (const bool running_in : {false, true}) {
      for (const Limb& limb : limbs_of_task(s.machine, s.meters, task, running_in, s.world.as_of)) {
        if (f.kind == FactKind::measurement && limb.kind == Kind::measured && limb.name == f.name) return {};
      }
    }
  }
  return {f.name + place + " " + decimal(*f.value) + (f.unit.empty() ? "" : " " + f.unit), false};
}

// Whether a service answers what another one of a task was found, worn or failed.
bool answers(const KeptUnder& kept, const Fact& service, const Schedule& schedule, bool was_failed,
             const std::string& task) {
  if (!service.found_failed && !service.found_worn) return contains(done_with(schedule, service.task), task);
  return kept.is_service && service.task == task && service.found_failed != was_failed;
}

// One thing that was seen, from the first fact about it to the as-of day.
void follow(const Surroundings& s, const KeptUnder& thing, const Fact* begins,
            std::vector<std::pair<const Fact*, SeenAnswer>>& open) {
  bool has_begun = false;
  const Fact* since = nullptr;
  SeenAnswer told;
  std::vector<std::string> bad_at;   // positions
  std::vector<std::string> told_at;  // those of the newest service of it
  std::string task;
  bool failed = false;    // else worn
  bool is_vague = false;  // told by a month or a year, and no day
  Day vague_until = 0;    // the last day on which it may have been
  int vague = 0;          // the entry of the newest that told so
  for (const Fact* f : s.facts) {
    has_begun = has_begun || f == begins;
    if (!has_begun) continue;
    const KeptUnder kept = kept_under(s, *f);
    if (kept.name == thing.name && kept.is_service == thing.is_service) {
      if (since == nullptr) {
        since = f;
        is_vague = false;
        vague = 0;
        told = {s.machine.name, thing.name, f->on.first, f->note, false};
      } else if (!f->note.empty()) {
        told.note = f->note;
      }
      task = f->task;
      failed = f->found_failed;
      if (f->on.first != f->on.last) {
        vague_until = is_vague ? std::max(vague_until, f->on.last) : f->on.last;
        is_vague = true;
        vague = std::max(vague, f->entry);
      }
      bad_at = {f->position};
      const Task* whole = find_task(s.schedule, f->task.substr(0, f->task.find('/')));
      if (f->position.empty() && whole != nullptr && !whole->positions.empty()) bad_at = whole->positions;
      told_at = bad_at;
    } else if (since == nullptr && f->kind == FactKind::looked_at && f->name == thing.name && !f->found_good) {
      since = f;
      is_vague = false;
      vague = 0;
      bad_at = told_at;
      told = {s.machine.name, thing.name, f->on.first, f->note, true};
    } else if (since != nullptr && f->kind == FactKind::looked_at && f->name == thing.name) {
      if (f->found_good) {
        if (!is_vague || f->on.first > vague_until || f->entry > vague) since = nullptr;
      } else {
        told.looked = true;
        told.note = f->note;
      }
    } else if (since != nullptr && thing.is_service && f->kind == FactKind::service &&
               (!is_vague || f->on.first > vague_until) && answers(kept, *f, s.schedule, failed, task)) {
      std::vector<std::string> still;
      for (const std::string& position : bad_at)
        if (!position_fits(f->position, position)) still.push_back(position);
      bad_at = still;
      if (bad_at.empty()) since = nullptr;
    }
  }
  if (since != nullptr) open.emplace_back(since, told);
}

std::vector<SeenAnswer> seen_of(const Surroundings& s) {
  std::vector<std::pair<const Fact*, SeenAnswer>> open;
  std::vector<KeptUnder> followed;
  for (const Fact* f : s.facts) {
    KeptUnder kept = kept_under(s, *f);
    const bool looked = f->kind == FactKind::looked_at && !f->found_good && !comes_due_on(s, f->name);
    if (looked) kept.name = f->name;
    if (kept.name.empty()) continue;
    const bool before = std::any_of(followed.begin(), followed.end(), [&](const KeptUnder& k) {
      return k.name == kept.name && (looked || k.is_service == kept.is_service);
    });
    if (before) continue;
    followed.push_back(kept);
    follow(s, kept, f, open);
  }
  std::sort(open.begin(), open.end(), [](const auto& a, const auto& b) { return earlier_fact(a.first, b.first); });
  std::vector<SeenAnswer> seen;
  for (const auto& [fact, told] : open) seen.push_back(told);
  return seen;
}

PointAnswer absent(const std::string& machine, const std::string& task, const std::string& position) {
  PointAnswer point;
  point.machine = machine;
  point.task = task;
  point.position = position;
  return point;
}

}  // namespace

std::vector<std::string> done_with(const Schedule& schedule, const std::string& task) {
  std::vector<std::string> found;
  if (const Task* t = find_task(schedule, task))
    collect_covered(schedule, *t, found);
  else
    found.push_back(task);  // a check is done with itself only
  return found;
}

namespace {

// C47
void judge_by_estimate(PointAnswer& point, const std::vector<Estimate>& today) {
  if (!point.exists || point.standing == Standing::overdue || point.standing == Standing::no_record) return;
  for (const LimbAnswer& a : point.limbs) {
    if (a.limb.kind != Kind::usage || a.reach == Reach::unknown) continue;
    for (const Estimate& estimate : today) {
      if (estimate.machine != point.machine || estimate.meter != a.limb.meter) continue;
      if (point.standing == Standing::unreached && estimate.usage >= *a.due_at) point.by_estimate = true;
      if (estimate.usage > *a.due_at + *a.grace) point.read_the_meter = true;
    }
  }
}

}  // namespace

Answer evaluate(const World& world, const std::vector<Estimate>& today) {
  Answer answer;
  const std::vector<const Fact*> there = facts_there(world);

  for (const Machine& machine : world.machines) {
    const Schedule& schedule = *schedule_of(world, machine);
    const std::vector<Meter> meters = meters_of(world, machine);

    std::vector<const Fact*> facts;
    for (const Fact* f : there)
      if (f->machine == machine.name) facts.push_back(f);

    MachineAnswer state;
    state.machine = machine.name;
    state.has_points = true;
    if (machine.in_service && world.as_of < machine.in_service->on) state.has_points = false;
    if (machine.bought && world.as_of < machine.bought->on) state.has_points = false;
    if (machine.left && world.as_of >= *machine.left) state.has_points = false;
    for (const Fact* f : facts) {
      if (f->kind == FactKind::out_of_use) state.out_of_use = true;
      if (f->kind == FactKind::laid_up) state.laid_up = !f->until || world.as_of < *f->until;
      if (f->kind == FactKind::back) state.out_of_use = state.laid_up = false;
    }
    answer.machines.push_back(state);

    std::map<std::string, History> histories;
    for (const Meter& meter : meters) histories[meter.name] = history_of(machine, meters, meter, facts);
    const Surroundings s{world, machine, meters, schedule, facts, histories};

    if (state.has_points)
      for (const SeenAnswer& one : seen_of(s)) answer.seen.push_back(one);

    for (const Task& task : schedule.tasks) {
      std::vector<std::string> positions = task.positions;
      if (positions.empty()) positions.emplace_back();

      for (const std::string& position : positions) {
        if (!state.has_points) {
          answer.points.push_back(absent(machine.name, task.name, position));
          continue;
        }
        Rules rules;
        rules.limbs = [&](bool running_in, Day start) {
          return limbs_of_task(machine, meters, task, running_in, start);
        };
        rules.own_grace = task.grace;
        if (!task.competent_person) rules.fleet_grace = world.grace;
        rules.safety = task.safety;
        rules.waits_for_nobody = task.safety || task.competent_person;
        rules.counts_from = task.counts_from;
        rules.until_month_end = task.until_month_end;
        answer.points.push_back(answer_point(s, rules, services_of(s, task.name, position),
                                             machine.in_service.has_value(), task.name, position));
      }

      for (const FollowUp& follow : task.follow_ups) {
        const std::string name = task.name + "/" + follow.name;
        for (const std::string& position : positions) {
          const std::vector<const Fact*> done = services_of(s, task.name, position);
          const std::vector<const Fact*> checked = services_of(s, name, position);
          bool asked_for = task.safety;
          for (const Fact* service : done) {
            if (service->on.first == done.back()->on.first && !service->history) asked_for = true;
          }
          const bool owed = state.has_points && !done.empty() && asked_for &&
                            (checked.empty() || earlier_fact(checked.back(), done.back()));
          if (!owed) {
            answer.points.push_back(absent(machine.name, name, position));
            continue;
          }
          Rules rules;
          rules.limbs = [&](bool, Day) { return name_the_meters(follow.within, meters); };
          if (world.grace && world.grace->percent) rules.fleet_grace = world.grace;
          rules.safety = rules.waits_for_nobody = task.safety;
          // Owed once, from the last time the task was done.
          answer.points.push_back(answer_point(s, rules, {done.back()}, false, name, position));
        }
      }
    }
  }
  for (PointAnswer& point : answer.points) judge_by_estimate(point, today);
  return answer;
}

// ---- words ------------------------------------------------------------------------------------------------------

const char* word(Kind kind) {
  switch (kind) {
    case Kind::usage:
      return "usage";
    case Kind::calendar:
      return "calendar";
    case Kind::changes:
      return "changes";
    case Kind::measured:
      return "measured";
    case Kind::sign:
      return "sign";
    case Kind::season:
      return "season";
  }
  return "?";
}

const char* word(Standing standing) {
  switch (standing) {
    case Standing::overdue:
      return "overdue";
    case Standing::due:
      return "due";
    case Standing::no_record:
      return "no-record";
    case Standing::unreached:
      return "unreached";
  }
  return "?";
}

const char* word(Basis basis) {
  switch (basis) {
    case Basis::recorded:
      return "recorded";
    case Basis::interpolated:
      return "interpolated";
    case Basis::last_known:
      return "last-known";
    case Basis::in_service:
      return "in-service";
    case Basis::unknown:
      return "unknown";
  }
  return "?";
}

std::string decimal(Amount hundredths) {
  std::string text;
  if (hundredths < 0) {
    text = "-";
    hundredths = -hundredths;
  }
  text += std::to_string(hundredths / 100);
  const Amount part = hundredths % 100;
  if (part == 0) return text;
  text += '.';
  text += static_cast<char>('0' + part / 10);
  if (part % 10 != 0) text += static_cast<char>('0' + part % 10);
  return text;
}

std::string describe(const PointAnswer& point) {
  std::string text = point.machine + " " + point.task;
  if (!point.position.empty()) text += "@" + point.position;
  if (!point.exists) return text + ": no such point";
  text += std::string(": ") + word(point.standing);
  if (point.ruled_by) text += std::string(" by ") + word(*point.ruled_by);
  if (point.due_on) text += " on " + iso(*point.due_on);
  if (point.put_off) text += ", put off";
  if (point.fitted) {
    text += "; fitted " + iso(point.fitted->first);
    if (point.fitted->last != point.fitted->first) text += ".." + iso(point.fitted->last);
    text += " at " + (point.fitted->at ? decimal(*point.fitted->at) : std::string("?")) + " " + point.fitted->meter +
            " (" + word(point.fitted->basis) + ")";
  }
  static const char* const reaches[] = {"unknown", "unreached", "due", "overdue"};
  for (const LimbAnswer& a : point.limbs) {
    text += std::string("\n    ") + word(a.limb.kind);
    if (!a.limb.meter.empty()) text += " " + a.limb.meter;
    if (!a.limb.name.empty()) text += " " + a.limb.name;
    text += std::string(" ") + reaches[static_cast<int>(a.reach)];
    if (a.used) text += ", used " + decimal(*a.used);
    if (a.changes_used) text += ", changes " + std::to_string(*a.changes_used);
    if (a.left) text += ", left " + decimal(*a.left);
    if (a.due_at) text += ", due at " + decimal(*a.due_at);
    if (a.due_on) text += ", due on " + iso(*a.due_on);
    if (a.left_days) text += ", left days " + std::to_string(*a.left_days);
    if (a.grace) text += ", grace " + (a.limb.kind == Kind::usage ? decimal(*a.grace) : std::to_string(*a.grace));
  }
  if (!point.unknown.empty()) {
    text += "\n    unknown:";
    for (const Kind kind : point.unknown) text += std::string(" ") + word(kind);
  }
  return text;
}

}  // namespace twin
