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

const Meter engine{"engine", "h", std::nullopt};

Schedule random_schedule(Luck& luck, const std::string& name, const World& w, const RandomOptions& options) {
  Schedule s;
  s.name = name;
  const int kind = luck.below(5);
  if (kind == 1) s.meters = {engine, Meter{"separator", "h", std::nullopt}};
  if (kind == 2) s.meters = {Meter{"road", "km", std::nullopt}, engine};
  if (kind == 3) s.meters = {engine, Meter{"bales", "bales", std::nullopt}};
  if (kind == 4) s.meters = {engine};
  const std::vector<Meter> meters = s.meters.empty() ? std::vector<Meter>{engine} : s.meters;
  const int tasks = luck.between(1, 4);
  for (int k = 0; k < tasks; ++k) s.tasks.push_back(random_task(luck, k, s.tasks, meters, w.seasons, options));
  return s;
}

enum class Origin { fresh, used, neither };

constexpr std::size_t day_before_start = 699;  // the truth goes back 700 days

// New: nothing before the in-service day but the delivery hours of the first meter.
void start_new(Luck& luck, std::vector<Amount>& truth, bool first_meter, bool rolls) {
  Amount delivery = 0;
  if (first_meter && rolls)
    delivery = 100 * luck.between(9000, 9990);
  else if (first_meter && !luck.chance(50))
    delivery = luck.between(1, 2000);
  const std::vector<Amount> used = truth;
  for (std::size_t d = 0; d < truth.size(); ++d)
    truth[d] = d <= day_before_start ? delivery : delivery + used[d] - used[day_before_start];
}

// Close to rolling over on the day it was bought, and below before.
void start_before_roll_over(Luck& luck, std::vector<Amount>& truth) {
  const Amount then = truth[day_before_start];
  const Amount wanted = 100 * luck.between(9000, 9990);
  const Amount lift = wanted > then ? wanted - then : 0;
  for (Amount& t : truth) t += lift;
  if (truth[day_before_start] >= 10000 * hundred) throw std::logic_error("rolled over before it was bought");
}

RandomMachine random_use(Luck& luck, const std::vector<Meter>& meters, Origin origin, bool rolls, Day start, Day end) {
  RandomMachine rm;
  rm.meters = meters;
  rm.truth_from = start - 700;
  const int days = end - rm.truth_from;
  for (std::size_t k = 0; k < meters.size(); ++k) {
    Amount at = 0;
    if (origin != Origin::fresh) at = 100 * luck.between(200, 4000) + luck.below(100);
    std::vector<Amount> truth = random_truth(luck, at, days, meters[k].unit == "h", rolls);
    if (origin == Origin::fresh)
      start_new(luck, truth, k == 0, rolls);
    else if (k == 0 && rolls)
      start_before_roll_over(luck, truth);
    rm.truth[meters[k].name] = truth;
  }
  return rm;
}

void random_changes(Luck& luck, const Schedule& schedule, Machine& m) {
  for (const Task& t : schedule.tasks) {
    if (!luck.chance(20)) continue;
    Change c;
    c.task = t.name;
    c.every = random_replacement(luck, t.every);
    if (luck.chance(40)) c.first = random_replacement(luck, t.every);
    m.changes.push_back(c);
  }
}

// Adds a machine to the world; what is true of its use is the answer.
RandomMachine random_machine(Luck& luck, World& w, const std::string& name, Day begin, const RandomOptions& options) {
  const Schedule& schedule = luck.one_of(w.schedules);
  Machine m;
  m.name = name;
  m.schedule = schedule.name;
  for (const std::string& c : conditions_known())
    if (luck.chance(40)) m.conditions.push_back(c);
  const Day start = luck.chance(4) ? w.as_of + luck.between(0, 10) : begin + luck.between(-20, 60);
  const int drawn = luck.below(10);
  const Origin origin = drawn < 4 ? Origin::fresh : drawn < 8 ? Origin::used : Origin::neither;
  std::vector<Meter> meters = schedule.meters.empty() ? std::vector<Meter>{engine} : schedule.meters;
  const bool rolls = options.roll_overs && origin != Origin::neither && meters.front().unit == "h" && luck.chance(35);
  if (rolls) {
    meters.front().rolls_over_at = 10000 * hundred;
    m.meters = meters;
  }
  RandomMachine rm = random_use(luck, meters, origin, rolls, start, w.as_of + 60);
  const Amount first_at = rm.at_end_of(meters.front().name, start - 1);
  if (origin == Origin::fresh) m.in_service = Start{start, first_at};
  if (origin == Origin::used) m.bought = Start{start, first_at};
  // A machine cannot have left before it came.
  if (luck.chance(8)) m.left = std::max(w.as_of + luck.between(-40, 40), start + 1);
  random_changes(luck, schedule, m);
  w.machines.push_back(m);
  return rm;
}

// Facts are entered in any order of days; on one day the order of entry is the order of facts, so that stays.
void enter_in_any_order(Luck& luck, World& w) {
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
}

// Without a meter change, or without a value that rolled over, others would no longer fit.
bool may_be_struck(const World& w, const Fact& target) {
  if (target.kind == FactKind::strike) return true;
  if (target.kind == FactKind::meter_change) return false;
  if (!target.at || target.kind == FactKind::put_off) return true;
  for (const Machine& m : w.machines)
    if (m.name == target.machine)
      for (const Meter& meter : meters_of(w, m))
        if (meter.rolls_over_at) return false;
  return true;
}

Fact strike_of(int entry, int target, const std::string& note) {
  Fact f;
  f.kind = FactKind::strike;
  f.entry = entry;
  f.strikes = target;
  f.note = note;
  return f;
}

void random_strikes(Luck& luck, World& w) {
  const int strikes = luck.between(1, 3);
  int entry = static_cast<int>(w.facts.size());
  std::set<int> taken;
  for (int i = 0; i < strikes; ++i) {
    const Fact target = luck.one_of(w.facts);
    if (taken.count(target.entry) != 0 || !may_be_struck(w, target)) continue;
    taken.insert(target.entry);
    const Fact f = strike_of(entry++, target.entry, "wrong");
    w.facts.push_back(f);
    if (luck.chance(30)) {
      taken.insert(f.entry);
      w.facts.push_back(strike_of(entry++, f.entry, "was right"));
    }
  }
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
  for (int i = 0; i < schedules; ++i)
    w.schedules.push_back(random_schedule(luck, i == 0 ? "tractor" : "harvester", w, options));

  const int machines = luck.chance(30) ? 2 : 1;
  std::vector<RandomMachine> built;
  for (int i = 0; i < machines; ++i)
    built.push_back(random_machine(luck, w, i == 0 ? "loader" : "old-loader", begin, options));
  for (std::size_t i = 0; i < built.size(); ++i) built[i].machine = &w.machines[i];

  for (const RandomMachine& rm : built) {
    const Schedule& schedule = *schedule_of(w, *rm.machine);
    const std::vector<Fact> facts = random_facts(luck, w, rm, schedule, options);
    w.facts.insert(w.facts.end(), facts.begin(), facts.end());
  }
  enter_in_any_order(luck, w);
  if (options.strikes && luck.chance(40) && !w.facts.empty()) random_strikes(luck, w);
  std::sort(w.facts.begin(), w.facts.end(), [](const Fact& a, const Fact& b) { return a.entry < b.entry; });
  const int move = luck.below(4);
  if (move == 1 || move == 3) move_to_a_due_day(luck, w);
  if (move == 2 || move == 3) add_a_telling_reading(luck, w);
  return w;
}

}  // namespace twin
