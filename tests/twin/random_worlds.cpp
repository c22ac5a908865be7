#include "random_worlds.h"

#include <map>
#include <set>
#include <stdexcept>

#include "limbs.h"

namespace twin {

namespace {

// Days without use, days of a few hours, days of the harvest: at most 20 h a day.
std::vector<Amount> random_truth(Luck& luck, Amount start, int days, bool in_hours, bool gentle) {
  std::vector<Amount> truth;
  Amount now = start;
  int mood = 0;
  for (int i = 0; i < days; ++i) {
    if (i % 11 == 0) mood = luck.below(4);
    truth.push_back(now);
    Amount step = 0;
    if (mood == 1) step = luck.below(500);
    if (mood == 2) step = luck.below(900);
    if (mood == 3) step = gentle ? luck.below(600) : luck.below(2000);
    now += in_hours ? step : 5 * step;
  }
  return truth;
}

const std::vector<std::string>& conditions_known() {
  static const std::vector<std::string> list{"dusty", "coastal"};
  return list;
}

}  // namespace

World random_world(std::uint64_t seed, const RandomOptions& options) {
  Luck luck(seed);
  World w;
  if (luck.chance(60)) {
    w.grace = random_grace(luck, {}, true);
  }
  const std::vector<Season> known{{"harvest", 8, 1, 9, 20}, {"feeding", 11, 15, 2, 10}, {"new-year", 12, 20, 1, 5}};
  for (const Season& s : known)
    if (luck.chance(70)) w.seasons.push_back(s);

  const Day begin = day_of(2021, 6, 1) + luck.below(400);
  w.as_of = std::min(begin + luck.between(120, 1100), day_of(2025, 6, 30));
  // Often a day on which something about months can go wrong.
  if (luck.chance(20))
    w.as_of = luck.one_of(std::vector<Day>{day_of(2024, 2, 29), day_of(2024, 2, 28), day_of(2023, 2, 28),
                                           day_of(2024, 12, 31), day_of(2024, 3, 31)});

  const int schedules = luck.chance(25) ? 2 : 1;
  for (int i = 0; i < schedules; ++i) {
    Schedule s;
    s.name = i == 0 ? "tractor" : "harvester";
    const int kind = luck.below(5);
    if (kind == 1) s.meters = {Meter{"engine", "h", std::nullopt}, Meter{"separator", "h", std::nullopt}};
    if (kind == 2) s.meters = {Meter{"road", "km", std::nullopt}, Meter{"engine", "h", std::nullopt}};
    if (kind == 3) s.meters = {Meter{"engine", "h", std::nullopt}, Meter{"bales", "bales", std::nullopt}};
    if (kind == 4) s.meters = {Meter{"engine", "h", std::nullopt}};
    const std::vector<Meter> meters =
        s.meters.empty() ? std::vector<Meter>{Meter{"engine", "h", std::nullopt}} : s.meters;
    const int tasks = luck.between(1, 4);
    for (int k = 0; k < tasks; ++k) s.tasks.push_back(random_task(luck, k, s.tasks, meters, w.seasons, options));
    w.schedules.push_back(s);
  }

  const int machines = luck.chance(30) ? 2 : 1;
  std::vector<RandomMachine> built;
  for (int i = 0; i < machines; ++i) {
    const Schedule& schedule = w.schedules[static_cast<std::size_t>(luck.below(schedules))];
    Machine m;
    m.name = i == 0 ? "loader" : "old-loader";
    m.schedule = schedule.name;
    for (const std::string& c : conditions_known())
      if (luck.chance(40)) m.conditions.push_back(c);
    const Day start = luck.chance(4) ? w.as_of + luck.between(0, 10) : begin + luck.between(-20, 60);
    const int start_kind = luck.below(10);  // new, bought, neither
    std::vector<Meter> meters =
        schedule.meters.empty() ? std::vector<Meter>{Meter{"engine", "h", std::nullopt}} : schedule.meters;
    const bool rolls = options.roll_overs && start_kind < 8 && meters.front().unit == "h" && luck.chance(35);
    if (rolls) {
      meters.front().rolls_over_at = 10000 * hundred;
      m.meters = meters;
    }

    RandomMachine rm;
    rm.meters = meters;
    rm.truth_from = start - 700;
    const int days = w.as_of + 60 - rm.truth_from;
    for (std::size_t k = 0; k < meters.size(); ++k) {
      Amount at = 0;
      if (start_kind >= 4) at = 100 * luck.between(200, 4000) + luck.below(100);
      std::vector<Amount> truth = random_truth(luck, at, days, meters[k].unit == "h", rolls);
      if (start_kind < 4) {
        // New: nothing before the in-service day but the delivery hours of the first meter.
        const Amount delivery = k == 0 ? (rolls             ? 100 * luck.between(9000, 9990)
                                          : luck.chance(50) ? 0
                                                            : luck.between(1, 2000))
                                       : 0;
        const std::vector<Amount> used = truth;
        for (std::size_t d = 0; d < truth.size(); ++d) {
          const std::size_t zero = 699;
          truth[d] = d <= zero ? delivery : delivery + used[d] - used[zero];
        }
      } else if (k == 0 && rolls) {
        // Close to rolling over on the day it was bought, and below before.
        const Amount then = truth[699];
        const Amount wanted = 100 * luck.between(9000, 9990);
        const Amount lift = wanted > then ? wanted - then : 0;
        for (Amount& t : truth) t += lift;
        if (truth[699] >= 10000 * hundred) throw std::logic_error("rolled over before it was bought");
      }
      rm.truth[meters[k].name] = truth;
    }
    const Amount first_at = rm.at_end_of(meters.front().name, start - 1);
    if (start_kind < 4)
      m.in_service = Start{start, first_at};
    else if (start_kind < 8)
      m.bought = Start{start, first_at};
    // A machine cannot have left before it came.
    if (luck.chance(8)) m.left = std::max(w.as_of + luck.between(-40, 40), start + 1);

    for (const Task& t : schedule.tasks) {
      if (!luck.chance(20)) continue;
      Change c;
      c.task = t.name;
      c.every = random_replacement(luck, t.every);
      if (luck.chance(40)) c.first = random_replacement(luck, t.every);
      m.changes.push_back(c);
    }
    w.machines.push_back(m);
    built.push_back(rm);
  }
  for (std::size_t i = 0; i < built.size(); ++i) built[i].machine = &w.machines[i];

  for (const RandomMachine& rm : built) {
    const Schedule& schedule = *schedule_of(w, *rm.machine);
    const std::vector<Fact> facts = random_facts(luck, w, rm, schedule, options);
    w.facts.insert(w.facts.end(), facts.begin(), facts.end());
  }

  // Facts are entered in any order of days; on one day the order of entry is the order of facts, so that stays.
  std::vector<int> entries;
  for (std::size_t i = 0; i < w.facts.size(); ++i) entries.push_back(static_cast<int>(i));
  for (std::size_t i = entries.size(); i > 1; --i)
    std::swap(entries[i - 1], entries[static_cast<std::size_t>(luck.below(static_cast<int>(i)))]);
  if (luck.chance(40)) std::sort(entries.begin(), entries.end());
  std::map<Day, std::vector<int>> of_day;
  for (std::size_t i = 0; i < w.facts.size(); ++i) of_day[w.facts[i].on.first].push_back(entries[i]);
  for (auto& [day, list] : of_day) std::sort(list.begin(), list.end());
  std::map<Day, std::size_t> next;
  for (Fact& f : w.facts) f.entry = of_day[f.on.first][next[f.on.first]++];

  if (options.strikes && luck.chance(40) && !w.facts.empty()) {
    const int strikes = luck.between(1, 3);
    int entry = static_cast<int>(w.facts.size());
    std::set<int> taken;
    for (int i = 0; i < strikes; ++i) {
      const auto which = static_cast<std::size_t>(luck.below(static_cast<int>(w.facts.size())));
      const Fact target = w.facts[which];
      if (taken.count(target.entry) != 0) continue;
      // Without a meter change, or without a value that rolled over, others would no longer fit.
      if (target.kind == FactKind::meter_change) continue;
      if (target.kind != FactKind::strike) {
        bool rolls = false;
        for (const Machine& m : w.machines)
          if (m.name == target.machine)
            for (const Meter& meter : meters_of(w, m)) rolls = rolls || meter.rolls_over_at.has_value();
        if (rolls && target.at && target.kind != FactKind::put_off) continue;
      }
      taken.insert(target.entry);
      Fact f;
      f.kind = FactKind::strike;
      f.entry = entry++;
      f.strikes = target.entry;
      f.note = "wrong";
      w.facts.push_back(f);
      if (luck.chance(30)) {
        Fact again;
        again.kind = FactKind::strike;
        again.entry = entry++;
        again.strikes = f.entry;
        again.note = "was right";
        taken.insert(f.entry);
        w.facts.push_back(again);
      }
    }
  }
  std::sort(w.facts.begin(), w.facts.end(), [](const Fact& a, const Fact& b) { return a.entry < b.entry; });
  const int move = luck.below(4);
  if (move == 1 || move == 3) move_to_a_due_day(luck, w);
  if (move == 2 || move == 3) add_a_telling_reading(luck, w);
  return w;
}

}  // namespace twin
