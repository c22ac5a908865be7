// Facts by chance, of a machine whose true use is known.
#include <algorithm>

#include "limbs.h"
#include "planned.h"
#include "random_worlds.h"

namespace twin {

namespace {

// The tasks whose follow-ups a service of `task` starts.
std::vector<const Task*> parents_in(const Schedule& schedule, const std::string& task) {
  std::vector<const Task*> list;
  const std::vector<std::string> names = done_with(schedule, task);
  for (const Task& t : schedule.tasks)
    if (!t.follow_ups.empty() && std::find(names.begin(), names.end(), t.name) != names.end()) list.push_back(&t);
  return list;
}

}  // namespace

std::vector<Fact> random_facts(Luck& luck, const World& w, const RandomMachine& rm, const Schedule& schedule,
                               const RandomOptions& options) {
  const Machine& m = *rm.machine;
  const bool is_new = m.in_service.has_value();
  const Day begin = is_new ? m.in_service->on : m.bought ? m.bought->on : rm.truth_from + 700;
  const Day end = w.as_of + 30;
  const Day oldest_service = is_new ? begin : begin - 600;
  std::vector<Planned> planned;

  const auto meter_for = [&](Planned& p, const std::string& name) {
    // The first meter may be left out, and usually is.
    if (name != rm.meters.front().name || luck.chance(15)) p.fact.meter = name;
  };
  const auto any_meter = [&] { return luck.one_of(rm.meters).name; };

  const int readings = luck.chance(8) ? 0 : luck.between(1, 7);
  for (int i = 0; i < readings; ++i) {
    Planned p = plan(FactKind::reading, m.name, luck.between(begin, end));
    p.valued = true;
    meter_for(p, luck.chance(65) ? rm.meters.front().name : any_meter());
    planned.push_back(p);
    if (luck.chance(12)) planned.push_back(p);  // twice on a day
  }
  if (luck.chance(25)) {
    Planned p = plan(FactKind::meter_change, m.name, luck.between(begin, end));
    p.valued = true;
    meter_for(p, luck.chance(70) ? rm.meters.front().name : any_meter());
    p.new_first = luck.chance(50) ? 0 : luck.between(1, 90000);
    const auto meter = std::find_if(rm.meters.begin(), rm.meters.end(), [&](const Meter& x) {
      return x.name == (p.fact.meter.empty() ? rm.meters.front().name : p.fact.meter);
    });
    if (!meter->rolls_over_at) planned.push_back(p);
  }

  const int services = luck.chance(10) ? 0 : luck.between(1, 6);
  for (int i = 0; i < services; ++i) {
    const Task& t = luck.one_of(schedule.tasks);
    const bool old = !is_new && luck.chance(25);
    Planned p =
        plan(FactKind::service, m.name, old ? luck.between(oldest_service, begin - 1) : luck.between(begin, end));
    p.fact.task = t.name;
    if (!t.positions.empty() && luck.chance(60)) p.fact.position = luck.one_of(t.positions);
    if (t.competent_person || luck.chance(20)) p.fact.by = "inspector";
    if (options.partial_dates && luck.chance(25)) {
      const Civil c = civil_of(p.fact.on.first);
      Span span;
      if (luck.chance(50))
        span = {day_of(c.year, 1, 1), day_of(c.year, 12, 31)};
      else
        span = {day_of(c.year, c.month, 1), day_of(c.year, c.month, month_length(c.year, c.month))};
      if (span.first >= oldest_service) p.fact.on = span;
    }
    if (luck.chance(55)) {
      p.valued = true;
      meter_for(p, luck.chance(80) ? rm.meters.front().name : any_meter());
    }
    planned.push_back(p);

    for (const Task* parent : parents_in(schedule, t.name)) {
      for (const FollowUp& f : parent->follow_ups) {
        if (!luck.chance(45)) continue;
        const Day day = p.fact.on.last + luck.between(0, 20);
        if (day > end) continue;
        Planned check = plan(FactKind::service, m.name, day);
        check.fact.task = parent->name + "/" + f.name;
        // Checked where it was done: at one position, or at all.
        if (!parent->positions.empty() && !p.fact.position.empty()) check.fact.position = p.fact.position;
        if (parent->competent_person) check.fact.by = "inspector";
        planned.push_back(check);
      }
    }
    // On the same day again, or a sign that is older or newer than it on that day.
    if (p.fact.on.whole() && luck.chance(10)) {
      Planned again = p;
      again.valued = !p.valued;
      if (!again.valued) again.fact.meter.clear();
      planned.push_back(again);
    }
    if (p.fact.on.first >= begin && luck.chance(15)) {
      Planned sign = plan(FactKind::sign, m.name, p.fact.on.first);
      sign.fact.name = "leak";
      planned.insert(luck.chance(50) ? planned.end() - 1 : planned.end(), sign);
    }
  }

  for (int i = luck.below(3); i > 0; --i) {
    Planned p = plan(FactKind::sign, m.name, luck.between(begin, end));
    p.fact.name = luck.one_of(std::vector<std::string>{"leak", "hard-start", "squeal"});
    planned.push_back(p);
  }
  // A measurement names a position only where every task that has such a limit has that position.
  for (int i = luck.below(4); i > 0; --i) {
    Planned p = plan(FactKind::measurement, m.name, luck.between(begin, end));
    p.fact.name = luck.chance(60) ? "restriction" : "tread";
    p.fact.unit = p.fact.name == "restriction" ? "inH2O" : "mm";
    const Amount limit = p.fact.name == "restriction" ? 25 * hundred : 3 * hundred;
    p.fact.value = std::max<Amount>(0, limit + luck.one_of(std::vector<int>{-200, -10, 0, 0, 10, 150}));
    std::optional<std::vector<std::string>> common;
    bool used = false;
    for (const Task& t : schedule.tasks)
      for (const Limb& l : t.every)
        if (l.kind == Kind::measured && l.name == p.fact.name) {
          used = true;
          if (!common)
            common = t.positions;
          else if (*common != t.positions)
            common = std::vector<std::string>{};
        }
    if (used && common && !common->empty() && luck.chance(70)) p.fact.position = luck.one_of(*common);
    if (used) planned.push_back(p);
  }
  for (int i = luck.below(3); i > 0; --i) {
    const Task& t = luck.one_of(schedule.tasks);
    if (t.safety) continue;
    Planned p = plan(FactKind::put_off, m.name, luck.between(begin, end));
    p.fact.task = t.name;
    if (!t.positions.empty() && luck.chance(50)) p.fact.position = luck.one_of(t.positions);
    p.fact.by = "owner";
    p.fact.note = "wait";
    const int form = luck.below(3);
    if (form != 0) p.fact.until = p.fact.on.first + luck.between(1, 150);
    // `at` is a usage, not a value of the meter that may have been changed since.
    if (form != 1) {
      std::string meter = rm.meters.front().name;
      for (const Limb& l : t.every)
        if (l.kind == Kind::usage) {
          meter = l.meter;
          if (meter.empty())
            for (const Meter& x : rm.meters)
              if (x.unit == "h") {
                meter = x.name;
                break;
              }
          break;
        }
      p.fact.at = rm.at_end_of(meter, p.fact.on.first) + luck.between(0, 20000);
    }
    planned.push_back(p);
  }
  for (int i = luck.chance(25) ? luck.between(1, 3) : 0; i > 0; --i) {
    const FactKind kind = luck.one_of(std::vector<FactKind>{FactKind::laid_up, FactKind::out_of_use, FactKind::back});
    Planned p = plan(kind, m.name, luck.between(begin, end));
    if (kind == FactKind::laid_up && luck.chance(50)) p.fact.until = p.fact.on.first + luck.between(1, 120);
    planned.push_back(p);
  }

  if (m.left) std::erase_if(planned, [&](const Planned& p) { return p.fact.on.last >= *m.left; });

  std::stable_sort(planned.begin(), planned.end(),
                   [](const Planned& a, const Planned& b) { return a.fact.on.first < b.fact.on.first; });

  // Values: those of a day share out the use of that day in their order.
  const auto meter_name = [&](const Planned& p) {
    return p.fact.meter.empty() ? rm.meters.front().name : p.fact.meter;
  };
  for (std::size_t i = 0; i < planned.size(); ++i) {
    Planned& p = planned[i];
    if (!p.valued) continue;
    const std::string name = meter_name(p);
    const Day day = p.fact.on.first;
    const Amount before = rm.at_end_of(name, day - 1);
    const Amount after = rm.at_end_of(name, day);
    if (p.fact.on.whole()) {
      int place = 0, of = 0;
      for (std::size_t j = 0; j < planned.size(); ++j) {
        if (planned[j].fact.on.first != day || !planned[j].valued || !planned[j].fact.on.whole()) continue;
        ++of;
        if (j <= i) ++place;
      }
      p.usage = before + (after - before) * place / of;
    } else {
      // Somewhere in the span, but before the next value of that meter, so that it contradicts none; and only
      // where a later value says what the meter shows on the as-of day.
      Day limit = p.fact.on.last;
      bool shown_later = false;
      for (std::size_t j = 0; j < planned.size(); ++j) {
        const Planned& q = planned[j];
        if (!q.valued || !q.fact.on.whole() || meter_name(q) != name) continue;
        if (q.fact.on.first > day) limit = std::min(limit, q.fact.on.first - 1);
        if (q.fact.on.first >= p.fact.on.last && q.fact.on.first <= w.as_of) shown_later = true;
      }
      if (m.bought && name == rm.meters.front().name && m.bought->on > day) limit = std::min(limit, m.bought->on - 1);
      p.usage = rm.at_end_of(name, luck.between(day, std::max(day, limit)));
      if (!shown_later) p.valued = false;
    }
    if (!p.valued) p.fact.meter.clear();
  }
  std::vector<Fact> facts = with_values(m, rm.meters, planned);
  drop_repeats(facts);
  return facts;
}

}  // namespace twin
