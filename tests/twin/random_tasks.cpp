// Tasks by chance.
#include <algorithm>

#include "limbs.h"
#include "random_worlds.h"

namespace twin {

namespace {

Limb random_calendar(Luck& luck) {
  switch (luck.below(5)) {
    case 0:
      return calendar(luck.between(20, 200), Unit::days);
    case 1:
      return calendar(luck.between(3, 30), Unit::weeks);
    case 4:
      return calendar(luck.between(1, 2), Unit::years);
    default:
      return calendar(luck.one_of(std::vector<int>{1, 2, 3, 6, 12, 18}), Unit::months);
  }
}

Amount random_interval(Luck& luck) {
  if (luck.chance(20)) return 100 * luck.between(50, 400) + luck.one_of(std::vector<int>{25, 50, 33, 75});
  return 100 * luck.one_of(std::vector<int>{50, 100, 125, 250, 500, 1000});
}

std::string name_of_task(int i) {
  static const std::vector<std::string> names{"grease", "engine-oil", "air-primary", "air-safety", "big-service"};
  return names[static_cast<std::size_t>(i)];
}

Limb random_usage_limb(Luck& luck, const std::vector<Meter>& meters, std::size_t which) {
  const Amount interval = random_interval(luck);
  const Meter& m = meters[which];
  if (m.unit == "h") {
    bool first_in_hours = true;
    for (std::size_t i = 0; i < which; ++i)
      if (meters[i].unit == "h") first_in_hours = false;
    if (first_in_hours && luck.chance(80)) return hours(interval);
    return usage(m.name, interval);
  }
  return usage(m.name, interval * 10);
}

}  // namespace

std::vector<Limb> random_replacement(Luck& luck, const std::vector<Limb>& every) {
  std::vector<Limb> limbs;
  for (const Limb& limb : every) {
    if (!luck.chance(60)) continue;
    if (limb.kind == Kind::usage) {
      Limb l = limb;
      l.amount = limb.amount * luck.one_of(std::vector<int>{40, 50, 80, 120}) / 100;
      limbs.push_back(l);
    } else if (limb.kind == Kind::calendar) {
      limbs.push_back(random_calendar(luck));
    } else if (limb.kind == Kind::changes) {
      Limb l = limb;
      l.count = luck.between(1, 3);
      limbs.push_back(l);
    } else if (limb.kind == Kind::measured) {
      Limb l = limb;
      l.amount += 100 * luck.between(-1, 1);
      limbs.push_back(l);
    }
  }
  const bool has_calendar =
      std::any_of(every.begin(), every.end(), [](const Limb& l) { return l.kind == Kind::calendar; });
  if (limbs.empty() || (!has_calendar && luck.chance(20))) {
    const bool already =
        std::any_of(limbs.begin(), limbs.end(), [](const Limb& l) { return l.kind == Kind::calendar; });
    if (!already) limbs.push_back(random_calendar(luck));
  }
  return limbs;
}

std::optional<Grace> random_grace(Luck& luck, const std::vector<Meter>& meters, bool for_fleet) {
  switch (luck.below(for_fleet ? 4 : 6)) {
    case 0:
      return percent(luck.one_of(std::vector<int>{0, 5, 7, 10, 15, 20}));
    case 1: {
      // Never as long as the shortest interval, which is 20 h, 20 days or one change.
      Grace g;
      if (luck.chance(60)) g.hours = luck.one_of(std::vector<int>{500, 1000, 1250});
      if (luck.chance(60)) g.days = luck.between(1, 14);
      if (luck.chance(30)) g.changes = 1;
      if (!for_fleet && !g.hours) {
        const Meter& m = meters.back();
        if (luck.chance(50)) g.usage.emplace_back(m.name, m.unit == "h" ? 800 : 5000);
      }
      if (!g.hours && !g.days && !g.changes && g.usage.empty()) g.days = 5;
      return g;
    }
    default:
      return std::nullopt;
  }
}

Task random_task(Luck& luck, int i, const std::vector<Task>& before, const std::vector<Meter>& meters,
                 const std::vector<Season>& seasons_of_fleet, const RandomOptions& options) {
  Task t;
  t.name = name_of_task(i);
  if (luck.chance(70)) {
    const auto which = static_cast<std::size_t>(luck.below(static_cast<int>(meters.size())));
    t.every.push_back(random_usage_limb(luck, meters, which));
    if (meters.size() > 1 && luck.chance(25)) {
      const std::size_t other = (which + 1) % meters.size();
      const Limb l = random_usage_limb(luck, meters, other);
      t.every.push_back(l);
    }
  }
  if (luck.chance(60)) t.every.push_back(random_calendar(luck));
  if (!before.empty() && luck.chance(20)) t.every.push_back(changes(luck.one_of(before).name, luck.between(1, 3)));
  if (luck.chance(15))
    t.every.push_back(measured("restriction", true, 25 * hundred, "inH2O"));
  else if (luck.chance(12))
    t.every.push_back(measured("tread", false, 3 * hundred, "mm"));
  if (luck.chance(20))
    t.every.push_back(
        signs(luck.chance(50) ? std::vector<std::string>{"leak"} : std::vector<std::string>{"leak", "hard-start"}));
  if (!seasons_of_fleet.empty() && luck.chance(20))
    t.every.push_back(season(luck.one_of(seasons_of_fleet).name, luck.one_of(std::vector<int>{0, 7, 14, 30})));
  if (t.every.empty()) t.every.push_back(random_calendar(luck));
  // The written order varies, with limbs of one key side by side.
  if (luck.chance(40)) std::rotate(t.every.begin(), t.every.begin() + 1, t.every.end());
  std::stable_sort(t.every.begin(), t.every.end(), [](const Limb& a, const Limb& b) {
    // `usage:` is one key, `hours:` another: keep the named meters together at the front of the usage limbs.
    const auto rank = [](const Limb& l) { return l.kind == Kind::usage && !l.meter.empty() ? 0 : 1; };
    return rank(a) < rank(b);
  });

  if (luck.chance(35)) t.first = random_replacement(luck, t.every);
  if (luck.chance(30)) t.in.push_back({"dusty", random_replacement(luck, t.every)});
  if (luck.chance(20)) t.in.push_back({"coastal", random_replacement(luck, t.every)});
  t.grace = random_grace(luck, meters, false);
  t.safety = luck.chance(12);
  t.counts_from = all_counts_from[static_cast<std::size_t>(luck.below(3))];
  t.until_month_end = luck.chance(15);
  t.competent_person = luck.chance(10);
  if (luck.chance(25)) t.positions = {"front-left", "front-right"};
  if (luck.chance(15)) t.positions.push_back("rear");
  for (const Task& b : before) {
    if (!luck.chance(25)) continue;
    if (!t.positions.empty() && t.positions != b.positions) continue;
    if (b.competent_person && !t.competent_person && !options.idle_covers) continue;
    t.covers.push_back(b.name);
  }
  if (luck.chance(30)) {
    FollowUp f;
    f.name = "check-leaks";
    if (luck.chance(70)) f.within.push_back(hours(100 * luck.between(1, 20)));
    if (f.within.empty() || luck.chance(40)) f.within.push_back(calendar(luck.between(2, 20), Unit::days));
    t.follow_ups.push_back(f);
    if (luck.chance(30)) t.follow_ups.push_back(FollowUp{"re-torque", {hours(10 * hundred)}});
  }
  t.parts = luck.chance(30);
  return t;
}

}  // namespace twin
