// How honest the forecast is: on simulated machines whose future is known, how often the day on which a point comes due
// lies inside its 80 % span, and how far off the days are beside two plain rules.
// usage: honesty [--fleets N] [--seed N] [--check]      --check: status 1 where a bound is not kept
//
// Scored are days after as-of, from 0 (already there) to 548; never within five years counts as 548. Loss: the pinball
// loss averaged over p10, p50 and p90 (the plain rules say one day for all three). Coverage is told with its standard
// error, fleets taken as clusters, for the machines of a fleet share the weather.
#include <fmt/format.h>

#include <algorithm>
#include <boost/random/normal_distribution.hpp>
#include <boost/random/uniform_int_distribution.hpp>
#include <boost/random/uniform_real_distribution.hpp>
#include <cmath>
#include <cstdio>
#include <cstring>
#include <memory>
#include <string>
#include <vector>

#include "honesty/truths.h"
#include "service/due_list.h"

namespace {

using namespace service;

constexpr int far_days = 548;
constexpr int machines = 5;

double pinball(double said, double truth, double share) {
  return truth >= said ? share * (truth - said) : (1 - share) * (said - truth);
}

struct Score {
  int points = 0;
  int inside = 0;
  int below = 0;
  int above = 0;
  int said_past = 0;
  int truly_past = 0;
  double loss = 0;
  double naive_a = 0;
  double naive_b = 0;
  double middle = 0;
  double middle_a = 0;
  double middle_b = 0;
  std::vector<std::pair<int, int>> clusters;  // points, inside

  void add(const Score& more) {
    points += more.points;
    inside += more.inside;
    below += more.below;
    above += more.above;
    said_past += more.said_past;
    truly_past += more.truly_past;
    loss += more.loss;
    naive_a += more.naive_a;
    naive_b += more.naive_b;
    middle += more.middle;
    middle_a += more.middle_a;
    middle_b += more.middle_b;
    clusters.insert(clusters.end(), more.clusters.begin(), more.clusters.end());
  }
  double coverage() const { return 100.0 * inside / points; }
  double coverage_error() const {
    double sum = 0;
    const double mean = static_cast<double>(inside) / points;
    for (const auto& [n, in] : clusters) sum += (in - mean * n) * (in - mean * n);
    return 100 * std::sqrt(sum) / points;
  }
  double ratio() const { return loss / std::min(naive_a, naive_b); }
  double middle_ratio() const { return middle / std::min(middle_a, middle_b); }
};

struct Truth {
  std::string key;
  Day from;
  std::vector<double> usage;  // at the end of each day since `start`
};

Fact fact_of(FactKind kind, const std::string& machine, Day day, std::int64_t& entered) {
  Fact fact;
  fact.kind = kind;
  fact.machine = machine;
  fact.on = day;
  fact.entered = ++entered;
  fact.id = {make_command_id(entered, {}), 1};
  return fact;
}

// What people wrote down of a machine until as-of: readings when somebody thought of it, and services, most with the
// meter, done somewhat early or late.
void write_down(const Truth& truth, Day start, Day as_of, const std::vector<double>& intervals, std::mt19937_64& random,
                std::vector<Fact>& facts, std::int64_t& entered) {
  boost::random::uniform_real_distribution<double> even(0, 1);
  boost::random::normal_distribution<double> normal(0, 1);
  const double typical = 14 + 50 * even(random);
  const double pause = typical * std::exp(0.3 * normal(random));
  double next_reading = pause * even(random);
  std::vector<double> fitted(intervals.size(), 0);
  std::vector<double> patience(intervals.size());
  for (double& each : patience) each = 1 + 0.07 * normal(random);
  for (Day day = truth.from; day <= as_of; day += std::chrono::days{1}) {
    const auto i = static_cast<std::size_t>(days_between(start, day));
    const double end = truth.usage[i];
    const double begin = day == truth.from ? 0 : truth.usage[i - 1];
    const double seen = begin + (end - begin) * even(random);
    const Amount at{static_cast<std::int64_t>(std::floor(seen * 10)) * 10};
    bool read = false;
    for (std::size_t t = 0; t < intervals.size(); ++t) {
      if (seen - fitted[t] < intervals[t] * patience[t]) continue;
      Fact fact = fact_of(FactKind::service, truth.key, day, entered);
      fact.task = fmt::format("task-{}", t);
      fact.meter = "engine";
      fact.at = at;
      facts.push_back(fact);
      read = true;
      fitted[t] = seen;
      patience[t] = 1 + 0.07 * normal(random);
      if (even(random) < 0.15) patience[t] += 0.2 * even(random);
    }
    const double age = days_between(truth.from, day);
    if (age < next_reading) continue;
    if (!read) {
      Fact fact = fact_of(FactKind::reading, truth.key, day, entered);
      fact.meter = "engine";
      fact.at = at;
      facts.push_back(fact);
    }
    next_reading = age + pause * std::exp(0.6 * normal(random));
  }
}

double days_to(const std::optional<Day>& day, Day as_of) {
  if (!day) return far_days;
  return std::clamp(days_between(as_of, *day), 0, far_days);
}

Score score_fleet(const std::string& kind, std::mt19937_64& random) {
  const int history = boost::random::uniform_int_distribution<int>(500, 2000)(random);
  const Day as_of = Day{std::chrono::sys_days{std::chrono::year{2024} / 1 / 1}} +
                    std::chrono::days{boost::random::uniform_int_distribution<int>(0, 364)(random)};
  const Day start = as_of - std::chrono::days{history};
  const int all = history + far_days + 1;
  const auto hours = honesty::hours_of(kind, machines, start, all, random);

  std::string yaml = "fleet: Simulated\nmachines:\n";
  std::vector<Truth> truths;
  double year = 0;
  for (int m = 0; m < machines; ++m) {
    const bool young = kind == "young" && m < 2;
    const int from = honesty::starts_on(kind == "young" && !young ? "seasonal" : kind, history, random);
    Truth truth{fmt::format("m{}", m), start + std::chrono::days{from}, {}};
    double sum = 0;
    for (int i = 0; i < all; ++i) {
      if (i >= from) sum += hours[static_cast<std::size_t>(m)][static_cast<std::size_t>(i)];
      truth.usage.push_back(sum);
    }
    year += sum / std::max(1, all - from) * 365 / machines;
    yaml += fmt::format("  {}: {{schedule: kind, in-service: {{on: {}, at: 0}}}}\n", truth.key, to_text(truth.from));
    truths.push_back(std::move(truth));
  }
  std::vector<double> intervals;
  for (const double share : {0.15, 0.4, 0.9}) {
    intervals.push_back(
        std::max(5.0, std::round(year * share * boost::random::uniform_real_distribution<double>(0.7, 1.3)(random))));
  }
  FleetFiles files;
  files.texts["fleet.yaml"] = yaml;
  std::string tasks = "schedule: kind\nmeters: {engine: {unit: h}}\ntasks:\n";
  for (std::size_t t = 0; t < intervals.size(); ++t) {
    tasks += fmt::format("  task-{}: {{do: Something, every: {{hours: {}}}}}\n", t, intervals[t]);
  }
  files.texts["schedules/kind.yaml"] = tasks;
  const auto fleet = std::make_shared<const Fleet>(read_fleet(files));
  std::vector<Fact> facts;
  std::int64_t entered = 1'000;
  for (const Truth& truth : truths) write_down(truth, start, as_of, intervals, random, facts, entered);

  const Snapshot snapshot(fleet, service::whole_book(facts), as_of, true);
  const DueAsk ask{as_of + std::chrono::days{30}, {}};
  const auto learnt = due_list(snapshot, ask);
  const auto find = [](const DueList& list, const Point& point) -> const Point& {
    return *std::find_if(list.points.begin(), list.points.end(), [&](const Point& other) {
      return other.machine->key == point.machine->key && other.name == point.name;
    });
  };
  const auto list_a = due_list(snapshot, ask, straight_line());
  const auto list_b = due_list(snapshot, ask, same_days_again());
  Score score;
  for (const Point& point : learnt.points) {
    const auto& limb = point.limbs.front();
    if (limb.state != LimbState::not_reached) continue;  // facts decide
    const auto m = static_cast<std::size_t>(point.machine->key[1] - '0');
    if (kind == "young" && m > 1) continue;
    const double level = static_cast<double>(limb.due_at->hundredths) / 100;
    const auto& usage = truths[m].usage;
    const auto crossed = std::lower_bound(usage.begin(), usage.end(), level) - usage.begin();
    const double truth = std::clamp(static_cast<int>(crossed) - history, 0, far_days);
    const double p10 = days_to(point.due_span.p10, as_of);
    const double p50 = days_to(point.due_span.p50, as_of);
    const double p90 = days_to(point.due_span.p90, as_of);
    const double a = days_to(find(list_a, point).due_on, as_of);
    const double b = days_to(find(list_b, point).due_on, as_of);
    ++score.points;
    score.inside += p10 <= truth && truth <= p90 ? 1 : 0;
    score.below += truth < p10 ? 1 : 0;
    score.above += truth > p90 ? 1 : 0;
    score.said_past += p50 <= 0 ? 1 : 0;
    score.truly_past += truth <= 0 ? 1 : 0;
    score.loss += (pinball(p10, truth, 0.1) + pinball(p50, truth, 0.5) + pinball(p90, truth, 0.9)) / 3;
    for (const double share : {0.1, 0.5, 0.9}) {
      score.naive_a += pinball(a, truth, share) / 3;
      score.naive_b += pinball(b, truth, share) / 3;
    }
    score.middle += pinball(p50, truth, 0.5);
    score.middle_a += pinball(a, truth, 0.5);
    score.middle_b += pinball(b, truth, 0.5);
  }
  score.clusters = {{score.points, score.inside}};
  return score;
}

void print_row(const std::string& name, const Score& score) {
  std::fputs(
      fmt::format("{:<10} {:>6} {:>6.1f} ({:>3.1f}) {:>5.0f} / {:<3.0f} {:>8.1f} {:>8.1f} {:>8.1f} {:>7.2f} {:>9.2f} "
                  "{:>5.1f} / {:<4.1f}\n",
                  name, score.points, score.coverage(), score.coverage_error(), 100.0 * score.below / score.points,
                  100.0 * score.above / score.points, score.loss / score.points, score.naive_a / score.points,
                  score.naive_b / score.points, score.ratio(), score.middle_ratio(),
                  100.0 * score.said_past / score.points, 100.0 * score.truly_past / score.points)
          .c_str(),
      stdout);
}

}  // namespace

int main(int argc, char** argv) {
  int fleets = 40;
  unsigned seed = 1;
  bool check = false;
  std::string only;
  for (int i = 1; i < argc; ++i) {
    if (std::strcmp(argv[i], "--check") == 0) check = true;
    if (std::strcmp(argv[i], "--fleets") == 0 && i + 1 < argc) fleets = std::atoi(argv[++i]);
    if (std::strcmp(argv[i], "--seed") == 0 && i + 1 < argc) seed = static_cast<unsigned>(std::atoi(argv[++i]));
    if (std::strcmp(argv[i], "--kind") == 0 && i + 1 < argc) only = argv[++i];
  }
  std::fputs(fmt::format("{} fleets of {} machines a kind, seed {}\n"
                         "kind       points  inside (se) below/above    loss   plain A  plain B   ratio  p50 alone  "
                         "past said/true %\n",
                         fleets, machines, seed)
                 .c_str(),
             stdout);
  Score all;
  bool kept = true;
  for (const honesty::Kind& kind : honesty::kinds()) {
    if (!only.empty() && kind.name != only) continue;
    Score sum;
    for (int f = 0; f < fleets; ++f) {
      std::seed_seq seeds{seed, static_cast<unsigned>(f), static_cast<unsigned>(kind.name[0] * 256 + kind.name[1])};
      std::mt19937_64 random(seeds);
      sum.add(score_fleet(kind.name, random));
    }
    print_row(kind.name, sum);
    all.add(sum);
    const double slack = 1.64 * sum.coverage_error();
    // On a timer the 80 % span is two or three days wide, and whole days at both ends hold more than 80 %.
    if (kind.name == "clockwork") continue;
    if (sum.coverage() + slack < 75 || sum.coverage() - slack > 85) {
      std::fputs(fmt::format("  {}: coverage is outside of 75..85\n", kind.name).c_str(), stdout);
      kept = false;
    }
  }
  print_row("all", all);
  if (all.ratio() > 0.75) {
    std::fputs("the loss is not a quarter under the better plain rule\n", stdout);
    kept = false;
  }
  return check && !kept ? 1 : 0;
}
