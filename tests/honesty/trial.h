// A world of machines whose whole use is known, the book that people keep of it, and the forecast asked from that book.
#pragma once

#include <array>
#include <map>
#include <memory>
#include <random>
#include <string>
#include <vector>

#include "honesty/score.h"
#include "service/fleet.h"
#include "service/record.h"

namespace honesty {

using service::Day;
using service::days_between;

struct Used {
  std::string key;
  std::string kind;
  Day from;                   // put in service new
  std::vector<double> usage;  // at the end of each day of the world
  bool asked = true;
  // The usage as it could have gone on as well after its last reading, by day of the world: the same machine, as it
  // stood that day, with other luck. Empty where nobody draws it.
  std::vector<std::vector<double>> otherwise = {};
};

struct World {
  Day first;
  std::string unit = "h";
  std::vector<Used> machines;
  std::map<std::string, std::vector<double>> intervals;  // by kind

  int days() const { return static_cast<int>(machines.front().usage.size()); }
  Day last() const { return first + std::chrono::days{days() - 1}; }
};

// What people wrote down: readings when somebody thought of it, and services, most with the meter, done somewhat early
// or late.
std::vector<service::Fact> write_down(const World& world, std::mt19937_64& random);

// Each machine's newest fact that is known on a day.
std::vector<Day> last_facts(const World& world, const std::vector<service::Fact>& facts, Day as_of);

// As files would say it: every machine with its kind's tasks.
std::shared_ptr<const service::Fleet> fleet_of(const World& world);

// How old a machine's book was on the day asked about.
inline constexpr std::array<int, 4> age_from{0, 60, 120, 365};
inline constexpr std::array<const char*, 4> age_names{"< 60 d", "60..120", "120..365", "> 1 year"};

struct Scores {
  Score all;
  std::array<Score, 4> by_age;

  void add(const Scores& more);
  void end_cluster();
};

// Days are told up to `far` after the day asked about; a truth beyond counts as `far`, and so does what was said.
Scores ask(const World& world, const std::vector<service::Fact>& facts, Day as_of, int far);

}  // namespace honesty
