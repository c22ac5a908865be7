// Are the facts of a world such that entering them is accepted?
#include <algorithm>
#include <map>
#include <optional>
#include <set>

#include "limbs.h"
#include "planned.h"
#include "worlds.h"

namespace twin {

namespace {

std::string complain(const Fact& f, const std::string& what) {
  return "entry " + std::to_string(f.entry) + " on " + iso(f.on.first) + ": " + what;
}

const Task* task_named(const Schedule& schedule, const std::string& name) {
  for (const Task& t : schedule.tasks)
    if (t.name == name) return &t;
  return nullptr;
}

bool ring(const Schedule& schedule, const Task& from, const std::string& wanted, int depth) {
  if (depth > 20) return true;
  for (const std::string& c : from.covers) {
    if (c == wanted) return true;
    const Task* t = task_named(schedule, c);
    if (t != nullptr && ring(schedule, *t, wanted, depth + 1)) return true;
  }
  return false;
}

}  // namespace

std::string problem(const World& world) {
  for (const Schedule& s : world.schedules)
    for (const Task& t : s.tasks) {
      if (t.every.empty()) return t.name + " has no limbs";
      if (ring(s, t, t.name, 0)) return t.name + " covers itself in a ring";
      for (const std::string& c : t.covers)
        if (task_named(s, c) == nullptr) return t.name + " covers what is not there";
      for (const Limb& l : t.every)
        if (l.kind == Kind::changes && (l.name == t.name || task_named(s, l.name) == nullptr))
          return t.name + " counts changes of itself or of nothing";
    }

  std::set<int> entries;
  for (const Fact& f : world.facts) {
    if (!entries.insert(f.entry).second) return complain(f, "entry number used twice");
    if (f.kind == FactKind::strike) {
      bool found = false;
      for (const Fact& g : world.facts) found = found || (g.entry == *f.strikes && g.entry < f.entry);
      if (!found) return complain(f, "strikes nothing that was entered before");
    }
    for (const Fact& g : world.facts)
      if (g.entry < f.entry && f.kind != FactKind::strike && same_row(f, g)) return complain(f, "repeats a row");
  }

  std::vector<const Fact*> sorted;
  for (const Fact& f : world.facts)
    if (f.kind != FactKind::strike) sorted.push_back(&f);
  std::sort(sorted.begin(), sorted.end(), [](const Fact* a, const Fact* b) {
    return a->on.first != b->on.first ? a->on.first < b->on.first : a->entry < b->entry;
  });

  for (const Machine& m : world.machines) {
    const Schedule& schedule = *schedule_of(world, m);
    const std::vector<Meter> meters = meters_of(world, m);
    struct Seen {
      Day read_on;
      Amount shown;
      Amount since_read;
    };
    std::map<std::string, Seen> seen;
    std::optional<Day> start;
    if (m.in_service) start = m.in_service->on;
    if (m.bought) start = m.bought->on;
    std::set<std::string> done;
    bool started = false;

    // The hours are counted from the last value that was read: a meter change that stands for a roll-over lies on
    // the day of the reading after it, but the meter rolled over some day before.
    const auto value = [&](const Fact& f, const Meter& meter, Amount shown) -> std::string {
      const auto it = seen.find(meter.name);
      Seen now{f.on.first, shown, 0};
      if (it != seen.end()) {
        const bool tenths_left_out = shown % hundred == 0 && it->second.shown - shown < hundred;
        if (shown < it->second.shown && !tenths_left_out) return complain(f, "the meter went back");
        shown = std::max(shown, it->second.shown);
        now.shown = shown;
        now.since_read = it->second.since_read + shown - it->second.shown;
        const Amount most = 24 * hundred * (f.on.first - it->second.read_on + 1);
        if (meter.unit == "h" && now.since_read > most) return complain(f, "more hours than a day has");
      }
      if (f.kind == FactKind::meter_change && it != seen.end()) {
        now.read_on = it->second.read_on;
        now.shown = *f.first;
      } else {
        if (f.kind == FactKind::meter_change) now.shown = *f.first;
        now.since_read = 0;
      }
      seen[meter.name] = now;
      return {};
    };
    for (const Fact* p : sorted) {
      const Fact& f = *p;
      if (f.machine != m.name) continue;
      if (start && !started && f.on.first >= *start) {
        // What was known before the start must fit it too.
        Fact at_start;
        at_start.on = {*start, *start};
        at_start.entry = -1;
        const Amount at = m.in_service ? m.in_service->at : m.bought->at;
        const std::string wrong = value(at_start, meters.front(), at);
        if (!wrong.empty()) return wrong;
        if (m.in_service)
          for (const Meter& meter : meters)
            if (meter.name != meters.front().name) seen[meter.name] = {*start, 0, 0};
        started = true;
      }
      if (m.in_service && f.on.first < m.in_service->on) return complain(f, "before the in-service day");
      if (m.bought && f.on.first < m.bought->on && f.kind != FactKind::service)
        return complain(f, "before it was bought");
      if (m.left && f.on.last >= *m.left) return complain(f, "after it left");
      if (!f.on.whole() && f.kind != FactKind::service) return complain(f, "needs a whole date");

      if (!f.note.empty() &&
          (f.kind == FactKind::reading || f.kind == FactKind::measurement || f.kind == FactKind::meter_change))
        return complain(f, "has no place for a note");

      const std::string name = f.meter.empty() ? meters.front().name : f.meter;
      const Meter* meter = nullptr;
      for (const Meter& x : meters)
        if (x.name == name) meter = &x;
      if (meter == nullptr) return complain(f, "no such meter");

      if ((f.kind == FactKind::reading || (f.kind == FactKind::service && f.at)) && f.on.whole()) {
        if (!f.at) return complain(f, "a reading without a value");
        if (meter->rolls_over_at && *f.at >= *meter->rolls_over_at) return complain(f, "beyond its last number");
        const std::string wrong = value(f, *meter, *f.at);
        if (!wrong.empty()) return wrong;
      }
      if (f.kind == FactKind::meter_change) {
        const std::string wrong = value(f, *meter, *f.last);
        if (!wrong.empty()) return wrong;
      }
      if (f.kind == FactKind::service || f.kind == FactKind::put_off) {
        const std::string parent = f.task.substr(0, f.task.find('/'));
        const Task* t = task_named(schedule, parent);
        if (t == nullptr) return complain(f, "no such task");
        if (parent != f.task) {
          const std::string check = f.task.substr(parent.size() + 1);
          bool found = false;
          for (const FollowUp& u : t->follow_ups) found = found || u.name == check;
          if (!found) return complain(f, "no such check");
          if (done.count(parent) == 0) return complain(f, "a check of what was not done");
        }
        if (!f.position.empty() &&
            std::find(t->positions.begin(), t->positions.end(), f.position) == t->positions.end())
          return complain(f, "no such position");
        if (f.kind == FactKind::service) {
          if (t->competent_person && f.by.empty()) return complain(f, "needs to say by whom");
          for (const std::string& d : done_with(schedule, f.task)) done.insert(d);
        } else {
          if (t->safety) return complain(f, "safety work is not put off");
          if (t->competent_person && parent == f.task) return complain(f, "an examination is not put off");
          if (!f.until && !f.at) return complain(f, "put off until when?");
          if (f.until && *f.until <= f.on.first) return complain(f, "put off until a day that is past");
        }
      }
    }
  }
  return {};
}

}  // namespace twin
