// What a world uses.
#include <algorithm>
#include <functional>
#include <utility>

#include "worlds.h"

namespace twin {

namespace {

using Uses = std::function<bool(const World&)>;

bool any_task(const World& w, const std::function<bool(const Task&)>& test) {
  for (const Schedule& s : w.schedules)
    for (const Task& t : s.tasks)
      if (test(t)) return true;
  return false;
}

bool any_limb(const World& w, const std::function<bool(const Limb&)>& test) {
  return any_task(w, [&](const Task& t) { return std::any_of(t.every.begin(), t.every.end(), test); });
}

bool any_fact(const World& w, const std::function<bool(const Fact&)>& test) {
  return std::any_of(w.facts.begin(), w.facts.end(), test);
}

bool any_machine(const World& w, const std::function<bool(const Machine&)>& test) {
  return std::any_of(w.machines.begin(), w.machines.end(), test);
}

const std::vector<std::pair<std::string, Uses>>& all_uses() {
  static const std::vector<std::pair<std::string, Uses>> list = [] {
    std::vector<std::pair<std::string, Uses>> l;
    const auto limb_kind = [](Kind k) {
      return [k](const World& w) { return any_limb(w, [k](const Limb& x) { return x.kind == k; }); };
    };
    const auto unit = [](Unit u) {
      return [u](const World& w) {
        return any_limb(w, [u](const Limb& x) { return x.kind == Kind::calendar && x.unit == u; });
      };
    };
    const auto fact = [](FactKind k) {
      return [k](const World& w) { return any_fact(w, [k](const Fact& f) { return f.kind == k; }); };
    };
    const auto counts = [](CountsFrom c) {
      return [c](const World& w) { return any_task(w, [c](const Task& t) { return t.counts_from == c; }); };
    };
    l.emplace_back("usage limb", limb_kind(Kind::usage));
    l.emplace_back("usage limb on a named meter", [](const World& w) {
      return any_limb(w, [](const Limb& x) { return x.kind == Kind::usage && !x.meter.empty(); });
    });
    l.emplace_back("changes limb", limb_kind(Kind::changes));
    l.emplace_back("measured limb", limb_kind(Kind::measured));
    l.emplace_back("sign limb", limb_kind(Kind::sign));
    l.emplace_back("season limb", limb_kind(Kind::season));
    l.emplace_back("days", unit(Unit::days));
    l.emplace_back("weeks", unit(Unit::weeks));
    l.emplace_back("months", unit(Unit::months));
    l.emplace_back("years", unit(Unit::years));
    l.emplace_back("season over New Year", [](const World& w) {
      return any_limb(w, [&](const Limb& x) {
        if (x.kind != Kind::season) return false;
        return std::any_of(w.seasons.begin(), w.seasons.end(),
                           [&](const Season& s) { return s.name == x.name && s.to_month < s.from_month; });
      });
    });
    l.emplace_back("counts from done", counts(CountsFrom::done));
    l.emplace_back("counts from due", counts(CountsFrom::due));
    l.emplace_back("counts from the earlier", counts(CountsFrom::earlier));
    l.emplace_back("first", [](const World& w) { return any_task(w, [](const Task& t) { return !t.first.empty(); }); });
    l.emplace_back("in a condition",
                   [](const World& w) { return any_task(w, [](const Task& t) { return !t.in.empty(); }); });
    l.emplace_back("two matching conditions", [](const World& w) {
      return any_machine(w, [](const Machine& m) { return m.conditions.size() > 1; }) &&
             any_task(w, [](const Task& t) { return t.in.size() > 1; });
    });
    l.emplace_back("change of a machine",
                   [](const World& w) { return any_machine(w, [](const Machine& m) { return !m.changes.empty(); }); });
    l.emplace_back("change with first", [](const World& w) {
      return any_machine(w, [](const Machine& m) {
        return std::any_of(m.changes.begin(), m.changes.end(), [](const Change& c) { return !c.first.empty(); });
      });
    });
    l.emplace_back("grace in percent", [](const World& w) {
      return any_task(w, [](const Task& t) { return t.grace && t.grace->percent; });
    });
    l.emplace_back("grace by unit", [](const World& w) {
      return any_task(w, [](const Task& t) { return t.grace && !t.grace->percent; });
    });
    l.emplace_back("grace of the fleet", [](const World& w) { return w.grace.has_value(); });
    l.emplace_back("safety", [](const World& w) { return any_task(w, [](const Task& t) { return t.safety; }); });
    l.emplace_back("until the month's end",
                   [](const World& w) { return any_task(w, [](const Task& t) { return t.until_month_end; }); });
    l.emplace_back("competent person",
                   [](const World& w) { return any_task(w, [](const Task& t) { return t.competent_person; }); });
    l.emplace_back("covers",
                   [](const World& w) { return any_task(w, [](const Task& t) { return !t.covers.empty(); }); });
    l.emplace_back("covers through covers", [](const World& w) {
      for (const Schedule& s : w.schedules)
        for (const Task& t : s.tasks)
          for (const std::string& c : t.covers)
            for (const Task& u : s.tasks)
              if (u.name == c && !u.covers.empty()) return true;
      return false;
    });
    l.emplace_back("positions",
                   [](const World& w) { return any_task(w, [](const Task& t) { return !t.positions.empty(); }); });
    l.emplace_back("follow-up",
                   [](const World& w) { return any_task(w, [](const Task& t) { return !t.follow_ups.empty(); }); });
    l.emplace_back("follow-up checked", [](const World& w) {
      return any_fact(
          w, [](const Fact& f) { return f.kind == FactKind::service && f.task.find('/') != std::string::npos; });
    });
    l.emplace_back("told of later",
                   [](const World& w) { return any_fact(w, [](const Fact& f) { return f.history; }); });
    l.emplace_back("new machine", [](const World& w) {
      return any_machine(w, [](const Machine& m) { return m.in_service.has_value(); });
    });
    l.emplace_back("delivery hours", [](const World& w) {
      return any_machine(w, [](const Machine& m) { return m.in_service && m.in_service->at > 0; });
    });
    l.emplace_back("bought machine", [](const World& w) {
      return any_machine(w, [](const Machine& m) { return m.bought.has_value(); });
    });
    l.emplace_back("machine with neither", [](const World& w) {
      return any_machine(w, [](const Machine& m) { return !m.bought && !m.in_service; });
    });
    l.emplace_back("left",
                   [](const World& w) { return any_machine(w, [](const Machine& m) { return m.left.has_value(); }); });
    l.emplace_back("several meters", [](const World& w) {
      return any_machine(w, [&](const Machine& m) { return meters_of(w, m).size() > 1; });
    });
    l.emplace_back("reading", fact(FactKind::reading));
    l.emplace_back("sign", fact(FactKind::sign));
    l.emplace_back("measurement", fact(FactKind::measurement));
    l.emplace_back("found failed",
                   [](const World& w) { return any_fact(w, [](const Fact& f) { return f.found_failed; }); });
    l.emplace_back("found worn",
                   [](const World& w) { return any_fact(w, [](const Fact& f) { return f.found_worn; }); });
    l.emplace_back("found failed and looked at", [](const World& w) {
      return any_fact(w, [](const Fact& f) {
        return f.kind == FactKind::looked_at && f.name.find("found failed") != std::string::npos;
      });
    });
    l.emplace_back("found worn by a look", [](const World& w) {
      return any_fact(w, [](const Fact& f) { return f.kind == FactKind::looked_at && !f.found_good; });
    });
    l.emplace_back("measured without a limit", [](const World& w) {
      return any_fact(w, [&](const Fact& f) {
        return f.kind == FactKind::measurement &&
               !any_limb(w, [&](const Limb& x) { return x.kind == Kind::measured && x.name == f.name; });
      });
    });
    l.emplace_back("parts", [](const World& w) { return any_task(w, [](const Task& t) { return t.parts; }); });
    l.emplace_back("meter change", fact(FactKind::meter_change));
    l.emplace_back("roll-over", [](const World& w) { return any_fact(w, [](const Fact& f) { return f.implied; }); });
    l.emplace_back("put off", fact(FactKind::put_off));
    l.emplace_back("put off until a day and a value", [](const World& w) {
      return any_fact(w, [](const Fact& f) { return f.kind == FactKind::put_off && f.until && f.at; });
    });
    l.emplace_back("laid up", fact(FactKind::laid_up));
    l.emplace_back("out of use", fact(FactKind::out_of_use));
    l.emplace_back("back", fact(FactKind::back));
    l.emplace_back("strike", fact(FactKind::strike));
    l.emplace_back("strike of a strike", [](const World& w) {
      return any_fact(w, [&](const Fact& f) {
        return f.kind == FactKind::strike &&
               any_fact(w, [&](const Fact& g) { return g.kind == FactKind::strike && g.entry == *f.strikes; });
      });
    });
    l.emplace_back("service with a value", [](const World& w) {
      return any_fact(w, [](const Fact& f) { return f.kind == FactKind::service && f.at && f.on.whole(); });
    });
    l.emplace_back("service without a value", [](const World& w) {
      return any_fact(w, [](const Fact& f) { return f.kind == FactKind::service && !f.at && f.on.whole(); });
    });
    l.emplace_back("partial date",
                   [](const World& w) { return any_fact(w, [](const Fact& f) { return !f.on.whole(); }); });
    l.emplace_back("partial date with a value",
                   [](const World& w) { return any_fact(w, [](const Fact& f) { return !f.on.whole() && f.at; }); });
    l.emplace_back("service before it was bought", [](const World& w) {
      return any_fact(w, [&](const Fact& f) {
        return any_machine(w, [&](const Machine& m) {
          return m.name == f.machine && m.bought && f.kind == FactKind::service && f.on.first < m.bought->on;
        });
      });
    });
    l.emplace_back("fact after the as-of day", [](const World& w) {
      return any_fact(w, [&](const Fact& f) { return f.kind != FactKind::strike && f.on.first > w.as_of; });
    });
    l.emplace_back("entered out of the order of days", [](const World& w) {
      return any_fact(w, [&](const Fact& f) {
        return any_fact(w, [&](const Fact& g) {
          return f.kind != FactKind::strike && g.kind != FactKind::strike && f.entry < g.entry &&
                 f.on.first > g.on.first;
        });
      });
    });
    l.emplace_back("as of a 29 February", [](const World& w) {
      const Civil c = civil_of(w.as_of);
      return c.month == 2 && c.day == 29;
    });
    l.emplace_back("as of a day before the machine was there", [](const World& w) {
      return any_machine(w, [&](const Machine& m) {
        return (m.in_service && w.as_of < m.in_service->on) || (m.bought && w.as_of < m.bought->on);
      });
    });
    l.emplace_back("two machines", [](const World& w) { return w.machines.size() > 1; });
    return l;
  }();
  return list;
}

}  // namespace

std::vector<std::string> features(const World& world) {
  std::vector<std::string> names;
  for (const auto& [name, uses] : all_uses())
    if (uses(world)) names.push_back(name);
  return names;
}

std::vector<std::string> all_features() {
  std::vector<std::string> names;
  for (const auto& [name, uses] : all_uses()) names.push_back(name);
  return names;
}

}  // namespace twin
