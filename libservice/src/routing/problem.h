// Rounds as a problem of its own, without machines and tasks: jobs at places, shifts that may do them, and what all of
// it costs. Minutes and money are whole numbers.
//
// Wanted is a plan: to each shift an order of jobs, each job at most once, such that every shift's times can be kept.
// The best plan is the one with the smallest value: first the jobs of the higher ranks that are skipped, then money.
#pragma once

#include <array>
#include <compare>
#include <cstddef>
#include <cstdint>
#include <limits>
#include <optional>
#include <vector>

namespace service::routing {

using Minute = int;          // since midnight, or a length
using Pence = std::int64_t;  // the smallest unit of money

struct Span {
  Minute from = 0;
  Minute to = 0;
  friend bool operator==(const Span&, const Span&) = default;
};

// How a job counts that is skipped.
enum class Rank { money, safety, promise };  // the last weighs more than any number of the one before

struct Job {
  int place = 0;
  Minute work = 0;
  Pence skip = 0;  // what skipping it costs
  Rank rank = Rank::money;
  int load = 0;
};

struct Leg {
  Minute minutes = 0;
  Pence cost = 0;
};

// What shifts of one kind have in common: how they get from place to place.
struct Profile {
  int places = 0;
  std::vector<Leg> legs;     // [from * places + to]; from a place to itself nothing
  std::vector<Leg> set_ups;  // by place: minutes and cost of coming to it from another place
  const Leg& leg(int from, int to) const {
    return legs[static_cast<std::size_t>(from) * static_cast<std::size_t>(places) + static_cast<std::size_t>(to)];
  }
};

// A job in a shift.
struct Option {
  bool possible = false;
  Pence cost = 0;           // beside travel
  std::vector<Span> spans;  // in order and apart; the stay, set-up and work, lies in one of them
};

struct Shift {
  int profile = 0;
  int start = 0;  // places
  int end = 0;
  Minute opens = 0;
  Minute closes = 0;
  Minute duty = std::numeric_limits<Minute>::max();  // the longest from leaving to being back
  Minute meal = 0;                                   // minutes that are neither driving, set-up nor work
  int capacity = std::numeric_limits<int>::max();    // of all loads of its jobs
  std::vector<Option> options;                       // by job
};

struct Problem {
  std::vector<Profile> profiles;
  std::vector<Job> jobs;
  std::vector<Shift> shifts;
};

using Route = std::vector<int>;   // jobs, in order
using Plan = std::vector<Route>;  // by shift

struct Value {
  int promises = 0;  // skipped
  int safety = 0;    // skipped
  Pence money = 0;   // travel, options and skips
  friend auto operator<=>(const Value&, const Value&) = default;
};

}  // namespace service::routing
