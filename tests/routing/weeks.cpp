#include "routing/weeks.h"

#include <algorithm>
#include <cmath>
#include <vector>

#include "routing/dice.h"

namespace test {
namespace {

constexpr Minute opens = 7 * 60 + 30;
constexpr Minute closes = 16 * 60;
constexpr Minute duty = 8 * 60;
constexpr int per_hour = 4400;
constexpr int per_km = 55;
constexpr int speed = 50;

// Of whole tenths of a km between points of a map, as roads go.
Leg leg_of(double across, double up) {
  const auto tenths = static_cast<int>(std::lround(13 * std::hypot(across, up)));
  const int minutes = (tenths * 6 + speed - 1) / speed;
  return {minutes, (minutes * per_hour + 30) / 60 + tenths * per_km / 10};
}

std::vector<Span> gate_of(int kind) {
  if (kind == 0) return {{8 * 60, 12 * 60}, {13 * 60, 17 * 60}};
  if (kind == 1) return {{7 * 60, 17 * 60 + 30}};
  return {{0, 24 * 60}};
}

}  // namespace

Problem invented_week(const WeekSize& size, std::uint64_t seed) {
  Dice dice(seed);
  const auto from_to = [&](int from, int to) {
    return from + static_cast<int>(dice.below(static_cast<std::size_t>(to - from + 1)));
  };
  Problem problem;
  // The first places are where the crews live; two of three visits are at a site of their own.
  Profile profile;
  profile.places = size.crews + std::max(4, size.visits * 2 / 3);
  std::vector<std::array<double, 2>> at;
  std::vector<int> gates;
  for (int place = 0; place < profile.places; ++place) {
    at.push_back({from_to(0, 600) / 10.0, from_to(0, 450) / 10.0});
    gates.push_back(from_to(0, 3));
    const Minute set_up = 5 * from_to(0, 3);
    profile.set_ups.push_back({set_up, set_up * per_hour / 60});
  }
  for (const auto& from : at) {
    for (const auto& to : at) profile.legs.push_back(leg_of(to[0] - from[0], to[1] - from[1]));
  }
  problem.profiles = {profile};
  for (int day = 0; day < size.days; ++day) {
    for (int crew = 0; crew < size.crews; ++crew) {
      const Minute meal = crew % 2 == 1 ? 30 : 0;
      problem.shifts.push_back({0, crew, crew, opens, closes, duty, meal, std::numeric_limits<int>::max(), {}});
    }
  }
  for (int visit = 0; visit < size.visits; ++visit) {
    const int place = from_to(size.crews, profile.places - 1);
    const Minute work = size.short_calls ? 5 * from_to(2, 6) : 10 * from_to(4, 20);
    const Pence skip = from_to(500, 25000);
    problem.jobs.push_back({place, work, skip, from_to(0, 9) == 0 ? Rank::safety : Rank::money, 0});
    const bool first_crew_only = from_to(0, 9) == 0;
    const Pence first_day = from_to(0, 800);
    const Pence each_day = from_to(0, 600);
    const int promised = from_to(0, 5) == 0 ? from_to(0, size.days - 1) : -1;
    const Minute from = from_to(0, 1) == 0 ? 8 * 60 : 13 * 60;
    for (std::size_t s = 0; s < problem.shifts.size(); ++s) {
      const int day = static_cast<int>(s) / size.crews;
      Option option;
      option.possible = !(first_crew_only && problem.shifts[s].start != 0) && (promised < 0 || promised == day);
      option.cost = first_day + each_day * day;
      option.spans =
          promised < 0 ? gate_of(gates[static_cast<std::size_t>(place)]) : std::vector<Span>{{from, from + 3 * 60}};
      problem.shifts[s].options.push_back(std::move(option));
    }
  }
  return problem;
}

}  // namespace test
