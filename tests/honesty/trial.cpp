#include "honesty/trial.h"

#include <fmt/format.h>

#include <algorithm>
#include <boost/random/normal_distribution.hpp>
#include <boost/random/uniform_real_distribution.hpp>
#include <cmath>
#include <memory>

#include "service/due_list.h"

namespace honesty {
namespace {

using namespace service;

class Book {
 public:
  Book(const World& world, std::mt19937_64& random) : world_(world), random_(random) {}

  void keep(const Used& machine) {
    const std::vector<double>& intervals = world_.intervals.at(machine.kind);
    const double typical = 14 + 50 * even(random_);
    const double pause = typical * std::exp(0.3 * normal(random_));
    double next_reading = pause * even(random_);
    std::vector<double> fitted(intervals.size(), 0);
    std::vector<double> patience(intervals.size());
    for (double& each : patience) each = 1 + 0.07 * normal(random_);
    for (Day day = machine.from; day <= world_.last(); day += std::chrono::days{1}) {
      const auto i = static_cast<std::size_t>(days_between(world_.first, day));
      const double end = machine.usage[i];
      const double begin = day == machine.from ? 0 : machine.usage[i - 1];
      const double seen = begin + (end - begin) * even(random_);
      const Amount at{static_cast<std::int64_t>(std::floor(seen * 10)) * 10};
      bool read = false;
      for (std::size_t t = 0; t < intervals.size(); ++t) {
        if (seen - fitted[t] < intervals[t] * patience[t]) continue;
        Fact fact = fact_of(FactKind::service, machine.key, day, at);
        fact.task = fmt::format("task-{}", t);
        facts_.push_back(fact);
        read = true;
        fitted[t] = seen;
        patience[t] = 1 + 0.07 * normal(random_);
        if (even(random_) < 0.15) patience[t] += 0.2 * even(random_);
      }
      const double age = days_between(machine.from, day);
      if (age < next_reading) continue;
      if (!read) facts_.push_back(fact_of(FactKind::reading, machine.key, day, at));
      next_reading = age + pause * std::exp(0.6 * normal(random_));
    }
  }

  std::vector<Fact> facts() && { return std::move(facts_); }

 private:
  Fact fact_of(FactKind kind, const std::string& machine, Day day, Amount at) {
    Fact fact;
    fact.kind = kind;
    fact.machine = machine;
    fact.on = day;
    fact.meter = "engine";
    fact.at = at;
    fact.entered = ++entered_;
    fact.id = {make_command_id(entered_, {}), 1};
    return fact;
  }

  const World& world_;
  std::mt19937_64& random_;
  boost::random::uniform_real_distribution<double> even{0, 1};
  boost::random::normal_distribution<double> normal{0, 1};
  std::vector<Fact> facts_;
  std::int64_t entered_ = 1'000;
};

double days_to(const std::optional<Day>& day, Day as_of, int far) {
  return day ? std::clamp(days_between(as_of, *day), 0, far) : far;
}

// The odds that people who keep a book as `Book` does have not written a service down after a share of the interval.
double unserviced(double share) {
  const auto patient = [&](double late) { return 0.5 * std::erfc((share - 1 - late) / (0.07 * std::sqrt(2.0))); };
  return 0.85 * patient(0) + 0.15 * (patient(0.02) + patient(0.06) + patient(0.1) + patient(0.14) + patient(0.18)) / 5;
}

// Of one who knows how the machine runs, how it stood at its last fact, and how the book is kept: the days on which its
// other ways of going on reach the level, each as likely as it leaves no service written down since.
std::optional<Said> all_known(const Used& used, double level, double interval, int today, int far) {
  if (used.otherwise.empty()) return std::nullopt;
  std::vector<std::pair<double, double>> days;  // with their weights
  double sum = 0;
  for (const std::vector<double>& path : used.otherwise) {
    const auto reached = std::lower_bound(path.begin(), path.end(), level) - path.begin();
    const double weight = unserviced((path[static_cast<std::size_t>(today)] - (level - interval)) / interval) + 1e-9;
    days.emplace_back(std::clamp(static_cast<int>(reached) - today, 0, far), weight);
    sum += weight;
  }
  std::sort(days.begin(), days.end());
  const auto of = [&](double share) {
    double below = 0;
    for (const auto& [day, weight] : days) {
      below += weight;
      if (below >= share * sum) return day;
    }
    return days.back().first;
  };
  return Said{of(0.1), of(0.5), of(0.9)};
}

}  // namespace

std::shared_ptr<const Fleet> fleet_of(const World& world) {
  FleetFiles files;
  std::string yaml = "fleet: Of known use\nmachines:\n";
  for (const Used& machine : world.machines) {
    yaml += fmt::format("  {}: {{schedule: {}, in-service: {{on: {}, at: 0}}}}\n", machine.key, machine.kind,
                        to_text(machine.from));
  }
  files.texts["fleet.yaml"] = yaml;
  for (const auto& [kind, intervals] : world.intervals) {
    std::string tasks = fmt::format("schedule: {}\nmeters: {{engine: {{unit: {}}}}}\ntasks:\n", kind, world.unit);
    for (std::size_t t = 0; t < intervals.size(); ++t) {
      tasks += fmt::format("  task-{}: {{do: Something, every: {{usage: {{engine: {:.2f}}}}}}}\n", t, intervals[t]);
    }
    files.texts["schedules/" + kind + ".yaml"] = tasks;
  }
  return std::make_shared<const Fleet>(read_fleet(files));
}

void Scores::add(const Scores& more) {
  all.add(more.all);
  for (std::size_t i = 0; i < by_age.size(); ++i) by_age[i].add(more.by_age[i]);
}

void Scores::end_cluster() {
  all.end_cluster();
  for (Score& each : by_age) each.end_cluster();
}

std::vector<Fact> write_down(const World& world, std::mt19937_64& random) {
  Book book(world, random);
  for (const Used& machine : world.machines) book.keep(machine);
  return std::move(book).facts();
}

std::vector<Day> last_facts(const World& world, const std::vector<Fact>& facts, Day as_of) {
  std::vector<Day> last;
  for (const Used& machine : world.machines) {
    Day day = machine.from;
    for (const Fact& fact : facts) {
      if (fact.machine == machine.key && fact.on.first <= as_of) day = std::max(day, fact.on.first);
    }
    last.push_back(day);
  }
  return last;
}

Scores ask(const World& world, const std::vector<Fact>& facts, Day as_of, int far) {
  const auto fleet = fleet_of(world);
  std::vector<Fact> known;
  std::copy_if(facts.begin(), facts.end(), std::back_inserter(known),
               [&](const Fact& fact) { return fact.on.first <= as_of; });
  const Snapshot snapshot(fleet, whole_book(known), as_of, true);
  const DueAsk ask{as_of + std::chrono::days{30}, {}};
  const DueList learnt = due_list(snapshot, ask);
  const DueList straight = due_list(snapshot, ask, straight_line());
  const DueList same_days = due_list(snapshot, ask, same_days_again());
  using Places = std::map<std::pair<std::string, std::string>, const Point*>;
  const auto places_of = [](const DueList& list) {
    Places places;
    for (const Point& point : list.points) places[{point.machine->key, point.name}] = &point;
    return places;
  };
  const Places in_straight = places_of(straight);
  const Places in_same_days = places_of(same_days);
  const int today = days_between(world.first, as_of);
  Scores scores;
  for (const Point& point : learnt.points) {
    const LimbStanding& limb = point.limbs.front();
    if (limb.state != LimbState::not_reached) continue;  // facts decide
    const auto used = std::find_if(world.machines.begin(), world.machines.end(),
                                   [&](const Used& each) { return each.key == point.machine->key; });
    if (!used->asked) continue;
    const double level = static_cast<double>(limb.due_at->hundredths) / 100;
    const double interval = static_cast<double>(limb.every->hundredths) / 100;
    const auto crossed = std::lower_bound(used->usage.begin(), used->usage.end(), level) - used->usage.begin();
    const std::pair place{point.machine->key, point.name};
    const auto& span = point.due_span;
    const Answer answer{{days_to(span.p10, as_of, far), days_to(span.p50, as_of, far), days_to(span.p90, as_of, far)},
                        days_to(in_straight.at(place)->due_on, as_of, far),
                        days_to(in_same_days.at(place)->due_on, as_of, far),
                        static_cast<double>(std::clamp(static_cast<int>(crossed) - today, 0, far)),
                        all_known(*used, level, interval, today, far)};
    scores.all.add(answer);
    const auto band = std::upper_bound(age_from.begin(), age_from.end(), days_between(used->from, as_of));
    scores.by_age[static_cast<std::size_t>(band - age_from.begin()) - 1].add(answer);
  }
  return scores;
}

}  // namespace honesty
