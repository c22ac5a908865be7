// Facts by chance, of a machine whose true use is known.
#include <algorithm>
#include <set>

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

Span year_of(Day day) {
  const Civil c = civil_of(day);
  return {day_of(c.year, 1, 1), day_of(c.year, 12, 31)};
}

Span month_of(Day day) {
  const Civil c = civil_of(day);
  return {day_of(c.year, c.month, 1), day_of(c.year, c.month, month_length(c.year, c.month))};
}

// Draws the facts of one machine, kind by kind. The order of the draws makes the world of a seed what it is.
class Drawing {
 public:
  Drawing(Luck& luck, const World& world, const RandomMachine& rm, const Schedule& schedule,
          const RandomOptions& options)
      : luck_(luck),
        world_(world),
        rm_(rm),
        machine_(*rm.machine),
        schedule_(schedule),
        options_(options),
        is_new_(machine_.in_service.has_value()),
        begin_(is_new_           ? machine_.in_service->on
               : machine_.bought ? machine_.bought->on
                                 : rm.truth_from + 700),
        end_(world.as_of + 30),
        oldest_service_(is_new_ ? begin_ : begin_ - 600) {}

  std::vector<Planned> draw() {
    draw_readings();
    draw_meter_change();
    for (int i = luck_.chance(10) ? 0 : luck_.between(1, 6); i > 0; --i) draw_service();
    draw_signs();
    draw_measurements();
    draw_put_offs();
    draw_states();
    if (machine_.left) std::erase_if(planned_, [&](const Planned& p) { return p.fact.on.last >= *machine_.left; });
    drop_looks_at_nothing();

    std::stable_sort(planned_.begin(), planned_.end(),
                     [](const Planned& a, const Planned& b) { return a.fact.on.first < b.fact.on.first; });
    for (std::size_t i = 0; i < planned_.size(); ++i) draw_value(i);
    return planned_;
  }

 private:
  static std::string kept_name(const Fact& service) {
    return service.task + (service.position.empty() ? "" : "@" + service.position) +
           (service.found_failed ? " found failed" : " found worn");
  }

  // Nobody looks at what is not there: a year in which something was found may reach beyond the machine's last day.
  void drop_looks_at_nothing() {
    std::set<std::string> found;
    for (const Planned& p : planned_)
      if (p.fact.found_failed || p.fact.found_worn) found.insert(kept_name(p.fact));
    std::erase_if(planned_, [&](const Planned& p) {
      return p.fact.kind == FactKind::looked_at && p.fact.name.find(" found ") != std::string::npos &&
             !found.contains(p.fact.name);
    });
  }

  void meter_for(Planned& p, const std::string& name) {
    // The first meter may be left out, and usually is.
    if (name != rm_.meters.front().name || luck_.chance(15)) p.fact.meter = name;
  }
  std::string any_meter() { return luck_.one_of(rm_.meters).name; }
  std::string meter_name(const Planned& p) const {
    return p.fact.meter.empty() ? rm_.meters.front().name : p.fact.meter;
  }

  void draw_readings() {
    const int readings = luck_.chance(8) ? 0 : luck_.between(1, 7);
    for (int i = 0; i < readings; ++i) {
      Planned p = plan(FactKind::reading, machine_.name, luck_.between(begin_, end_));
      p.valued = true;
      meter_for(p, luck_.chance(65) ? rm_.meters.front().name : any_meter());
      planned_.push_back(p);
      if (luck_.chance(12)) planned_.push_back(p);  // twice on a day
    }
  }

  void draw_meter_change() {
    if (!luck_.chance(25)) return;
    Planned p = plan(FactKind::meter_change, machine_.name, luck_.between(begin_, end_));
    p.valued = true;
    meter_for(p, luck_.chance(70) ? rm_.meters.front().name : any_meter());
    p.new_first = luck_.chance(50) ? 0 : luck_.between(1, 90000);
    const auto meter =
        std::find_if(rm_.meters.begin(), rm_.meters.end(), [&](const Meter& x) { return x.name == meter_name(p); });
    if (!meter->rolls_over_at) planned_.push_back(p);
  }

  void draw_service() {
    const Task& t = luck_.one_of(schedule_.tasks);
    const bool old = !is_new_ && luck_.chance(25);
    Planned p = plan(FactKind::service, machine_.name,
                     old ? luck_.between(oldest_service_, begin_ - 1) : luck_.between(begin_, end_));
    p.fact.task = t.name;
    if (!t.positions.empty() && luck_.chance(60)) p.fact.position = luck_.one_of(t.positions);
    if (t.competent_person || luck_.chance(20)) p.fact.by = "inspector";
    if (options_.partial_dates && luck_.chance(25)) {
      const Span span = luck_.chance(50) ? year_of(p.fact.on.first) : month_of(p.fact.on.first);
      if (span.first >= oldest_service_) p.fact.on = span;
    }
    if (luck_.chance(55)) {
      p.valued = true;
      meter_for(p, luck_.chance(80) ? rm_.meters.front().name : any_meter());
    }
    p.fact.history = luck_.chance(old ? 60 : 15);
    draw_found(p.fact, 25);
    planned_.push_back(p);
    if ((p.fact.found_failed || p.fact.found_worn) && !t.parts && (t.safety || t.competent_person)) draw_failed(p);
    draw_checks(p);
    draw_beside(p);
  }

  void draw_found(Fact& fact, int percent) {
    if (!luck_.chance(percent)) return;
    (luck_.chance(60) ? fact.found_failed : fact.found_worn) = true;
  }

  // What was found worn or failed is done again, or looked at.
  void draw_failed(const Planned& p) {
    const Day from = std::max(p.fact.on.first, begin_);
    if (luck_.chance(40)) draw_look(kept_name(p.fact), from);
    if (!luck_.chance(50)) return;
    Planned again = plan(FactKind::service, machine_.name, luck_.between(from, end_));
    again.fact.task = p.fact.task;
    again.fact.by = "inspector";
    draw_found(again.fact, 40);
    if (luck_.chance(70)) again.fact.position = p.fact.position;
    planned_.push_back(again);
  }

  void draw_look(const std::string& name, Day from) {
    Planned look = plan(FactKind::looked_at, machine_.name, luck_.between(from, end_));
    look.fact.name = name;
    look.fact.found_good = luck_.chance(60);
    look.fact.by = "inspector";
    look.fact.note = "looked";
    planned_.push_back(look);
    if (luck_.chance(30)) draw_look(name, look.fact.on.first);  // and again
  }

  // The checks that a service owes.
  void draw_checks(const Planned& p) {
    for (const Task* parent : parents_in(schedule_, p.fact.task)) {
      for (const FollowUp& f : parent->follow_ups) {
        if (!luck_.chance(45)) continue;
        const Day day = p.fact.on.last + luck_.between(0, 20);
        if (day > end_) continue;
        Planned check = plan(FactKind::service, machine_.name, day);
        check.fact.task = parent->name + "/" + f.name;
        // Checked where it was done: at one position, or at all.
        if (!parent->positions.empty() && !p.fact.position.empty()) check.fact.position = p.fact.position;
        if (parent->competent_person) check.fact.by = "inspector";
        draw_found(check.fact, 20);
        planned_.push_back(check);
      }
    }
  }

  // On the same day again, or a sign that is older or newer than it on that day.
  void draw_beside(const Planned& p) {
    if (p.fact.on.whole() && luck_.chance(10)) {
      Planned again = p;
      again.valued = !p.valued;
      if (luck_.chance(50)) again.fact.history = !p.fact.history;
      if (!again.valued) again.fact.meter.clear();
      planned_.push_back(again);
    }
    if (p.fact.on.first >= begin_ && luck_.chance(15)) {
      Planned sign = plan(FactKind::sign, machine_.name, p.fact.on.first);
      sign.fact.name = "leak";
      planned_.insert(luck_.chance(50) ? planned_.end() - 1 : planned_.end(), sign);
    }
  }

  void draw_signs() {
    for (int i = luck_.below(3); i > 0; --i) {
      Planned p = plan(FactKind::sign, machine_.name, luck_.between(begin_, end_));
      p.fact.name = luck_.one_of(std::vector<std::string>{"leak", "hard-start", "squeal"});
      planned_.push_back(p);
      if (luck_.chance(40)) draw_look(p.fact.name, p.fact.on.first);
    }
    for (const Task& t : schedule_.tasks)  // looked at though nobody saw it
      for (const Limb& l : t.every)
        if (l.kind == Kind::sign && luck_.chance(20)) draw_look(luck_.one_of(l.signs), begin_);
  }

  // The positions of the tasks that have a limb of that name, where they are the same; nothing where no task has.
  std::optional<std::vector<std::string>> positions_measured(const std::string& name) const {
    std::optional<std::vector<std::string>> common;
    for (const Task& t : schedule_.tasks)
      for (const Limb& l : t.every) {
        if (l.kind != Kind::measured || l.name != name) continue;
        if (!common)
          common = t.positions;
        else if (*common != t.positions)
          common = std::vector<std::string>{};
      }
    return common;
  }

  void draw_measurements() {
    // A measurement names a position only where every task that has such a limit has that position.
    for (int i = luck_.below(4); i > 0; --i) {
      Planned p = plan(FactKind::measurement, machine_.name, luck_.between(begin_, end_));
      p.fact.name = luck_.chance(60) ? "restriction" : "tread";
      p.fact.unit = p.fact.name == "restriction" ? "inH2O" : "mm";
      const Amount limit = p.fact.name == "restriction" ? 25 * hundred : 3 * hundred;
      p.fact.value = std::max<Amount>(0, limit + luck_.one_of(std::vector<int>{-200, -10, 0, 0, 10, 150}));
      const auto positions = positions_measured(p.fact.name);
      if (!positions) {  // kept as seen
        planned_.push_back(p);
        if (luck_.chance(40))
          draw_look(p.fact.name + " " + decimal(*p.fact.value) + " " + p.fact.unit, p.fact.on.first);
        continue;
      }
      if (!positions->empty() && luck_.chance(70)) p.fact.position = luck_.one_of(*positions);
      planned_.push_back(p);
    }
  }

  // The meter by which a task comes due, else the first.
  std::string meter_of(const Task& t) const {
    for (const Limb& l : t.every) {
      if (l.kind != Kind::usage) continue;
      if (!l.meter.empty()) return l.meter;
      for (const Meter& x : rm_.meters)
        if (x.unit == "h") return x.name;
      return l.meter;
    }
    return rm_.meters.front().name;
  }

  void draw_put_offs() {
    for (int i = luck_.below(3); i > 0; --i) {
      const Task& t = luck_.one_of(schedule_.tasks);
      if (t.safety || t.competent_person) continue;
      Planned p = plan(FactKind::put_off, machine_.name, luck_.between(begin_, end_));
      p.fact.task = t.name;
      if (!t.positions.empty() && luck_.chance(50)) p.fact.position = luck_.one_of(t.positions);
      p.fact.by = "owner";
      p.fact.note = "wait";
      const int form = luck_.below(3);
      if (form != 0) p.fact.until = p.fact.on.first + luck_.between(1, 150);
      // `at` is a usage, not a value of the meter that may have been changed since.
      if (form != 1) {
        p.fact.at = rm_.at_end_of(meter_of(t), p.fact.on.first) + luck_.between(0, 20000);
      }
      planned_.push_back(p);
    }
  }

  void draw_states() {
    for (int i = luck_.chance(25) ? luck_.between(1, 3) : 0; i > 0; --i) {
      const FactKind kind =
          luck_.one_of(std::vector<FactKind>{FactKind::laid_up, FactKind::out_of_use, FactKind::back});
      Planned p = plan(kind, machine_.name, luck_.between(begin_, end_));
      if (kind == FactKind::laid_up && luck_.chance(50)) p.fact.until = p.fact.on.first + luck_.between(1, 120);
      planned_.push_back(p);
    }
  }

  // Values: those of a day share out the use of that day in their order.
  void draw_value(std::size_t i) {
    Planned& p = planned_[i];
    if (!p.valued) return;
    if (p.fact.on.whole())
      share_out(i);
    else
      draw_value_of_span(p);
    if (!p.valued) p.fact.meter.clear();
  }

  void share_out(std::size_t i) {
    Planned& p = planned_[i];
    const std::string name = meter_name(p);
    const Day day = p.fact.on.first;
    const Amount before = rm_.at_end_of(name, day - 1);
    const Amount after = rm_.at_end_of(name, day);
    int place = 0, of = 0;
    for (std::size_t j = 0; j < planned_.size(); ++j) {
      if (planned_[j].fact.on.first != day || !planned_[j].valued || !planned_[j].fact.on.whole()) continue;
      ++of;
      if (j <= i) ++place;
    }
    p.usage = before + (after - before) * place / of;
  }

  void draw_value_of_span(Planned& p) {
    const std::string name = meter_name(p);
    const Day day = p.fact.on.first;
    // Somewhere in the span, but before the next value of that meter, so that it contradicts none; and only
    // where a later value says what the meter shows on the as-of day.
    Day limit = p.fact.on.last;
    bool shown_later = false;
    for (std::size_t j = 0; j < planned_.size(); ++j) {
      const Planned& q = planned_[j];
      if (!q.valued || !q.fact.on.whole() || meter_name(q) != name) continue;
      if (q.fact.on.first > day) limit = std::min(limit, q.fact.on.first - 1);
      if (q.fact.on.first >= p.fact.on.last && q.fact.on.first <= world_.as_of) shown_later = true;
    }
    if (machine_.bought && name == rm_.meters.front().name && machine_.bought->on > day)
      limit = std::min(limit, machine_.bought->on - 1);
    p.usage = rm_.at_end_of(name, luck_.between(day, std::max(day, limit)));
    if (!shown_later) p.valued = false;
  }

  Luck& luck_;
  const World& world_;
  const RandomMachine& rm_;
  const Machine& machine_;
  const Schedule& schedule_;
  const RandomOptions& options_;
  const bool is_new_;
  const Day begin_;
  const Day end_;
  const Day oldest_service_;
  std::vector<Planned> planned_;
};

// As people write values down: now and then without the tenth.
void leave_tenths_out(Luck& luck, std::vector<Fact>& facts) {
  for (Fact& fact : facts) {
    const bool shows = fact.kind == FactKind::reading || fact.kind == FactKind::service;
    if (shows && fact.at && fact.on.whole() && luck.chance(20)) *fact.at -= *fact.at % 100;
  }
}

}  // namespace

std::vector<Fact> random_facts(Luck& luck, const World& w, const RandomMachine& rm, const Schedule& schedule,
                               const RandomOptions& options) {
  const std::vector<Planned> planned = Drawing(luck, w, rm, schedule, options).draw();
  std::vector<Fact> facts = with_values(*rm.machine, rm.meters, planned);
  leave_tenths_out(luck, facts);
  drop_repeats(facts);
  return facts;
}

}  // namespace twin
