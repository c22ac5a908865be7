#include "honesty/truths.h"

#include <algorithm>
#include <boost/random/normal_distribution.hpp>
#include <boost/random/uniform_int_distribution.hpp>
#include <boost/random/uniform_real_distribution.hpp>
#include <cmath>
#include <functional>
#include <map>

namespace honesty {
namespace {

using Random = std::mt19937_64;
using service::Day;

double uniform(Random& random, double from, double to) {
  return boost::random::uniform_real_distribution<double>(from, to)(random);
}
double normal(Random& random, double mean, double sd) {
  return boost::random::normal_distribution<double>(mean, sd)(random);
}
double lognormal(Random& random, double median, double sigma) { return median * std::exp(normal(random, 0, sigma)); }
bool chance(Random& random, double odds) { return uniform(random, 0, 1) < odds; }
int whole(Random& random, int from, int to) { return boost::random::uniform_int_distribution<int>(from, to)(random); }

int day_in_year(Day day) {
  const std::chrono::year_month_day parts{day};
  return service::days_between(Day{std::chrono::sys_days{parts.year() / 1 / 1}}, day);
}
int year_of(Day day) { return static_cast<int>(std::chrono::year_month_day{day}.year()); }
bool is_sunday(Day day) { return std::chrono::weekday{day} == std::chrono::Sunday; }
bool is_weekend(Day day) { return is_sunday(day) || std::chrono::weekday{day} == std::chrono::Saturday; }

// Wet spells: a two-state chain, the same for all machines of a fleet.
bool next_weather(bool wet, Random& random) { return wet ? !chance(random, 0.3) : chance(random, 0.12); }
std::vector<bool> weather(int days, Random& random) {
  std::vector<bool> wet(static_cast<std::size_t>(days));
  bool now = chance(random, 0.4);
  for (std::size_t i = 0; i < wet.size(); ++i) wet[i] = now = next_weather(now, random);
  return wet;
}

double year_shift(Random& random) { return std::clamp(normal(random, 0, 7), -18.0, 18.0); }

struct Fleet {
  Day from;
  int days;
  std::vector<bool> wet;
  std::map<int, double> year_shift;  // days by which the season of a year comes late
};

using Machine = std::function<double(int, Random&)>;  // hours of a day, by its number

// Yard work on working days, now and then a fortnight off.
Machine steady(const Fleet& fleet, Random& random) {
  const double mean = lognormal(random, 2.2, 0.35);
  const double works = uniform(random, 0.7, 0.95);
  return [&fleet, mean, works, off = 0](int i, Random& r) mutable {
    const Day day = fleet.from + std::chrono::days{i};
    if (off > 0) return --off, 0.0;
    if (chance(r, 1.0 / 150)) off = whole(r, 5, 16);
    if (is_weekend(day) || !chance(r, works)) return 0.0;
    return std::min(10.0, lognormal(r, mean, 0.4));
  };
}

// Field work from spring to autumn with a few hours in winter.
Machine seasonal(const Fleet& fleet, Random& random) {
  const double busy = lognormal(random, 4.0, 0.3);
  const double quiet = uniform(random, 0.1, 0.5);
  return [&fleet, busy, quiet](int i, Random& r) {
    const Day day = fleet.from + std::chrono::days{i};
    const int at = day_in_year(day) - static_cast<int>(fleet.year_shift.at(year_of(day)));
    const bool in_season = (at > 75 && at < 140) || (at > 180 && at < 310);
    if (is_sunday(day)) return 0.0;
    if (!in_season) return chance(r, 0.25) ? lognormal(r, 4 * quiet, 0.5) : 0.0;
    const double odds = fleet.wet[static_cast<std::size_t>(i)] ? 0.25 : 0.7;
    return chance(r, odds) ? std::min(16.0, lognormal(r, busy, 0.5)) : 0.0;
  };
}

// A harvester: one campaign of some weeks, as many hours as the fields and the weather allow.
Machine campaign(const Fleet& fleet, Random& random) {
  const int begins = whole(random, 185, 215);
  const double work = lognormal(random, 190, 0.3);
  return [&fleet, begins, work, year = 0, left = 0.0](int i, Random& r) mutable {
    const Day day = fleet.from + std::chrono::days{i};
    const int at = day_in_year(day) - static_cast<int>(fleet.year_shift.at(year_of(day)));
    if (year != year_of(day)) {
      year = year_of(day);
      left = lognormal(r, work, 0.18);
    }
    if (at < begins || left <= 0 || at > begins + 70) return 0.0;
    if (fleet.wet[static_cast<std::size_t>(i)] && !chance(r, 0.15)) return 0.0;
    const double hours = std::min({left, 15.0, lognormal(r, 8, 0.4)});
    left -= hours;
    return hours;
  };
}

// Several jobs a year of some days each: slurry, baling, cutting hedges.
Machine several(const Fleet& fleet, Random& random) {
  std::vector<std::pair<int, double>> jobs;
  const int count = whole(random, 3, 5);
  for (int k = 0; k < count; ++k) {
    const int begins = 30 + k * 330 / count + whole(random, -15, 15);
    jobs.emplace_back(begins, lognormal(random, 45, 0.35));
  }
  return [&fleet, jobs, year = 0, left = std::vector<double>(jobs.size())](int i, Random& r) mutable {
    const Day day = fleet.from + std::chrono::days{i};
    const int at = day_in_year(day) - static_cast<int>(fleet.year_shift.at(year_of(day)));
    if (year != year_of(day)) {
      year = year_of(day);
      for (std::size_t k = 0; k < jobs.size(); ++k) left[k] = chance(r, 0.93) ? lognormal(r, jobs[k].second, 0.25) : 0;
    }
    for (std::size_t k = 0; k < jobs.size(); ++k) {
      if (at < jobs[k].first || left[k] <= 0 || at > jobs[k].first + 45) continue;
      if (fleet.wet[static_cast<std::size_t>(i)] && chance(r, 0.6)) return 0.0;
      const double hours = std::min(left[k], std::min(12.0, lognormal(r, 6, 0.4)));
      left[k] -= hours;
      return hours;
    }
    return 0.0;
  };
}

// A standby generator or a digger: test runs, and now and then a job that lasts.
Machine rare(const Fleet& fleet, Random& random) {
  const double jobs = uniform(random, 3, 8);  // a year
  const double size = lognormal(random, 22, 0.5);
  return [&fleet, jobs, size, left = 0.0](int i, Random& r) mutable {
    const Day day = fleet.from + std::chrono::days{i};
    if (left <= 0 && chance(r, jobs / 365)) left = lognormal(r, size, 0.9);
    if (left > 0) {
      const double hours = std::min(left, lognormal(r, 9, 0.4));
      left -= hours;
      return std::min(hours, 24.0);
    }
    return std::chrono::weekday{day} == std::chrono::Monday ? 0.3 : 0.0;
  };
}

// An irrigation pump: it runs through dry spells of the summer, night and day.
Machine weather_driven(const Fleet& fleet, Random& random) {
  const double share = uniform(random, 0.5, 0.9);
  const double hours = uniform(random, 9, 18);
  return [&fleet, share, hours, dry = 0](int i, Random& r) mutable {
    const Day day = fleet.from + std::chrono::days{i};
    dry = fleet.wet[static_cast<std::size_t>(i)] ? 0 : dry + 1;
    const int at = day_in_year(day);
    if (at < 120 || at > 260 || dry < 5) return 0.0;
    return chance(r, share) ? std::min(24.0, lognormal(r, hours, 0.2)) : 0.0;
  };
}

// A feed mixer: every day, more in winter, by the number of animals, which wanders.
Machine regular(const Fleet& fleet, Random& random) {
  const double mean = lognormal(random, 3, 0.3);
  const double swing = uniform(random, 0.3, 0.7);
  return [&fleet, mean, swing, animals = 0.0](int i, Random& r) mutable {
    const Day day = fleet.from + std::chrono::days{i};
    animals = animals * (1 - 1 / 200.0) + normal(r, 0, 0.012);
    const double season = 1 + swing * std::cos(2 * 3.14159265 * (day_in_year(day) - 15) / 365.0);
    return std::max(0.0, normal(r, mean * season * std::exp(animals), 0.25 * mean));
  };
}

// A ventilation fan on a timer: nothing but the season and a little scatter.
Machine clockwork(const Fleet& fleet, Random& random) {
  const double mean = lognormal(random, 3, 0.3);
  const double swing = uniform(random, 0.3, 0.7);
  return [&fleet, mean, swing](int i, Random& r) {
    const Day day = fleet.from + std::chrono::days{i};
    const double season = 1 + swing * std::cos(2 * 3.14159265 * (day_in_year(day) - 15) / 365.0);
    return std::max(0.0, normal(r, mean * season, 0.15 * mean));
  };
}

// Use that changes: a new driver, a new contract; and sometimes a season without any work.
Machine changing(const Fleet& fleet, Random& random) {
  return [&fleet, mean = lognormal(random, 2.0, 0.4), still = 0](int i, Random& r) mutable {
    const Day day = fleet.from + std::chrono::days{i};
    if (chance(r, 1.0 / 700)) mean = std::clamp(mean * lognormal(r, 1, 0.8), 0.4, 7.0);
    if (still > 0) return --still, 0.0;
    if (chance(r, 1.0 / 800)) still = whole(r, 60, 200);
    if (is_weekend(day) || !chance(r, 0.8)) return 0.0;
    return std::min(12.0, lognormal(r, mean, 0.5));
  };
}

// Hired out: worked hard while it is out, and again and again it stands, for a repair or because nobody wants it.
Machine stopping(const Fleet& fleet, Random& random) {
  const double mean = lognormal(random, 2.5, 0.5);
  const double works = uniform(random, 0.6, 0.95);
  const double stops = uniform(random, 1, 3);  // a year
  return [&fleet, mean, works, stops, still = 0](int i, Random& r) mutable {
    const Day day = fleet.from + std::chrono::days{i};
    if (still > 0) return --still, 0.0;
    if (chance(r, stops / 365)) still = static_cast<int>(std::min(300.0, lognormal(r, 40, 0.9)));
    if (is_sunday(day) || !chance(r, works)) return 0.0;
    return std::min(14.0, lognormal(r, mean, 0.5));
  };
}

// Anybody uses it who comes: sessions at odd times, as popular as the place is, which wanders.
Machine sessions(const Fleet& fleet, Random& random) {
  const double a_day = lognormal(random, 0.6, 0.7);
  const double length = lognormal(random, 2.5, 0.4);
  return [&fleet, a_day, length, liked = 0.0](int i, Random& r) mutable {
    const Day day = fleet.from + std::chrono::days{i};
    liked = liked * (1 - 1 / 120.0) + normal(r, 0, 0.06);
    double hours = 0;
    const double odds = 1 - std::exp(-a_day * std::exp(liked) * (is_weekend(day) ? 0.7 : 1.1));
    for (int k = 0; k < 4 && chance(r, odds); ++k) hours += lognormal(r, length, 0.6);
    return std::min(20.0, hours);
  };
}

// A ventilator of a busy place: the same every week but for a holiday.
Machine weekly(const Fleet& fleet, Random& random) {
  const double mean = lognormal(random, 6, 0.4);
  const double weekend = uniform(random, 0.3, 1.1);
  const double swing = uniform(random, 0, 0.25);
  return [&fleet, mean, weekend, swing](int i, Random& r) {
    const Day day = fleet.from + std::chrono::days{i};
    const int at = day_in_year(day);
    const bool holidays = at > 355 || at < 4 || (at > 205 && at < 220);
    const double season = 1 + swing * std::cos(2 * 3.14159265 * (at - 160) / 365.0);
    return std::min(24.0,
                    mean * season * (is_weekend(day) ? weekend : 1) * (holidays ? 0.7 : 1) * lognormal(r, 1, 0.12));
  };
}

// A heater: it runs by the cold, and the cold comes in spells.
Machine heater(const Fleet& fleet, Random& random) {
  const double from = uniform(random, 8, 16);  // degrees below which it runs
  const double hours = uniform(random, 0.4, 1.2);
  return [&fleet, from, hours, spell = 0.0](int i, Random& r) mutable {
    const Day day = fleet.from + std::chrono::days{i};
    spell = 0.85 * spell + normal(r, 0, 2);
    const double degrees = 10 - 9 * std::cos(2 * 3.14159265 * (day_in_year(day) - 20) / 365.0) + spell;
    return std::clamp(hours * (from - degrees), 0.0, 24.0);
  };
}

const std::map<std::string, std::function<Machine(const Fleet&, Random&)>> makers{
    {"steady", steady},     {"seasonal", seasonal},      {"campaign", campaign}, {"several", several},
    {"rare", rare},         {"weather", weather_driven}, {"regular", regular},   {"clockwork", clockwork},
    {"changing", changing}, {"stopping", stopping},      {"sessions", sessions}, {"weekly", weekly},
    {"heater", heater}};

// What a young fleet may do: nobody knows yet.
const std::vector<std::string> anything{"steady",   "seasonal", "several",  "rare",   "regular",
                                        "changing", "stopping", "sessions", "weekly", "heater"};

// How a machine stood at the end of a day, and what it would do from there on with other luck, under other weather.
// The season of that day's own year comes when it comes; those of later years are drawn again.
void draw_otherwise(Used& used, const Machine& stood, Fleet& fleet, int known, int times) {
  std::mt19937_64 random(static_cast<std::uint64_t>(known) + 1);
  const Fleet came = fleet;
  const auto from = static_cast<std::size_t>(known) + 1;
  for (int k = 0; k < times; ++k) {
    for (std::size_t i = from; i < fleet.wet.size(); ++i) fleet.wet[i] = next_weather(fleet.wet[i - 1], random);
    for (auto& [year, shift] : fleet.year_shift) {
      if (year > year_of(fleet.from + std::chrono::days{known})) shift = year_shift(random);
    }
    Machine run = stood;
    std::vector<double> path(used.usage.begin(), used.usage.begin() + known + 1);
    for (int i = known + 1; i < fleet.days; ++i) path.push_back(path.back() + run(i, random));
    used.otherwise.push_back(std::move(path));
  }
  fleet = came;
}

// `known_to`: empty, or of each machine the day from which it is drawn again, so often.
World drawn(const std::string& kind, int far, Random& random, const std::vector<Day>& known_to, int times) {
  const bool all_young = kind == "all-young";
  const bool lone = kind == "lone";
  const std::string maker = all_young || lone ? anything[static_cast<std::size_t>(whole(random, 0, 9))]
                            : kind == "young" ? "seasonal"
                                              : kind;
  const int machines = lone ? 1 : 5;
  const int history = all_young ? 120 : lone ? whole(random, 60, 365) : whole(random, 500, 2000);
  const Day as_of =
      Day{std::chrono::sys_days{std::chrono::year{2024} / 1 / 1}} + std::chrono::days{whole(random, 0, 364)};
  World world;
  world.first = as_of - std::chrono::days{history};
  const int days = history + far + 1;
  Fleet fleet{world.first, days, weather(days, random), {}};
  for (int year = year_of(fleet.from) - 1; year <= year_of(fleet.from + std::chrono::days{days}) + 1; ++year) {
    fleet.year_shift[year] = year_shift(random);
  }
  double year = 0;
  for (int m = 0; m < machines; ++m) {
    Machine run = makers.at(maker)(fleet, random);
    const bool young = kind == "young" && m < 2;
    const int from = all_young             ? history - whole(random, 15, 120)
                     : lone                ? 0
                     : young               ? history - whole(random, 60, 330)
                     : chance(random, 0.6) ? 0
                                           : whole(random, 0, history / 2);
    Used used{"m" + std::to_string(m), "kind", world.first + std::chrono::days{from}, {}, kind != "young" || young};
    const int known = known_to.empty() ? -1 : service::days_between(world.first, known_to[world.machines.size()]);
    Machine stood;
    double sum = 0;
    for (int i = 0; i < days; ++i) {
      const double hours = run(i, random);
      if (i >= from) sum += hours;
      used.usage.push_back(sum);
      if (i == known) stood = run;
    }
    year += sum / std::max(1, days - from) * 365 / machines;
    if (stood) draw_otherwise(used, stood, fleet, known, times);
    world.machines.push_back(std::move(used));
  }
  const std::vector<double> shares =
      all_young ? std::vector<double>{0.05, 0.15, 0.4} : std::vector<double>{0.15, 0.4, 0.9};
  for (const double share : shares) {
    world.intervals["kind"].push_back(std::max(5.0, std::round(year * share * uniform(random, 0.7, 1.3))));
  }
  return world;
}

}  // namespace

const std::vector<Kind>& kinds() {
  static const std::vector<Kind> all{
      {"steady", "yard work on working days, with breaks"},
      {"seasonal", "field work, spring to autumn, by the weather"},
      {"campaign", "one campaign of a few weeks"},
      {"several", "three to five jobs a year"},
      {"rare", "test runs, and rarely a long job"},
      {"weather", "runs through dry spells"},
      {"regular", "every day, more in winter, as the herd wants"},
      {"changing", "use that changes, idle months"},
      {"stopping", "works hard, stands for weeks again and again"},
      {"sessions", "whoever comes, as the place is liked"},
      {"weekly", "the same every week; its coverage is told, and not judged: see main.cpp"},
      {"heater", "by the cold"},
      {"young", "in its first year, among older ones"},
      {"all-young", "the whole fleet two weeks to four months old, of any use"},
      {"lone", "alone of its kind, in its first year, of any use"},
      {"clockwork", "on a timer; told, and not judged: see main.cpp"}};
  return all;
}

World simulated(const std::string& kind, int far, Random& random) { return drawn(kind, far, random, {}, 0); }

World simulated_otherwise(const std::string& kind, int far, Random& random, const std::vector<Day>& known_to,
                          int times) {
  return drawn(kind, far, random, known_to, times);
}

}  // namespace honesty
