// How good the plans of invented weeks are and how much of that is proven, by size of week and by time spent on it.
// usage: bench_weeks [--seconds 60] [--seeds 3] [--effort 1] [SIZE...]     each week ends by itself, or after that long
//
// Seconds are of the processor, of one thread. A gap is what the plan costs above what is proven, of the plan's money.
#include "routing/weeks.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cstdlib>
#include <ctime>
#include <iostream>
#include <limits>
#include <string>
#include <vector>

#include "routing/solve.h"

using namespace service::routing;

namespace {

struct Row {
  const char* name;
  test::WeekSize size;
};

constexpr std::array rows = {
    Row{"1x3-15", {1, 3, 15, false}}, Row{"1x5-26", {1, 5, 26, false}}, Row{"1x5-48", {1, 5, 48, false}},
    Row{"2x5-45", {2, 5, 45, false}}, Row{"3x5-60", {3, 5, 60, false}}, Row{"3x3-60-short", {3, 3, 60, true}},
};

double seconds() { return static_cast<double>(std::clock()) / CLOCKS_PER_SEC; }

// In percent; negative: not even the safety jobs are proven.
double gap(const Value& value, const Value& bound) {
  if (bound.promises != value.promises || bound.safety != value.safety) return -1;
  return value.money == 0 ? 0 : 100 * static_cast<double>(value.money - bound.money) / static_cast<double>(value.money);
}

std::string gap_text(double percent) { return percent < 0 ? "-" : fmt::format("{:.2f}", percent); }

struct Course {
  Value first;          // the plan before anything is proven
  double bound_at = 0;  // the first bound, and the gap then
  double first_gap = -1;
  double two_percent = -1;  // when that was reached; negative: never
  double gap_at_5 = -1;
  double gap_at_30 = -1;
  double took = 0;
  Solution solution;
};

Course solve_in(const Problem& problem, int effort, double most) {
  Course course;
  const double begun = seconds();
  const auto now = [&] { return seconds() - begun; };
  std::size_t told = 0;
  const auto see = [&](const Value& value, const Value& bound) {
    const double is = gap(value, bound);
    if (is >= 0 && is <= 2 && course.two_percent < 0) course.two_percent = now();
    if (now() <= 5) course.gap_at_5 = is;
    if (now() <= 30) course.gap_at_30 = is;
  };
  Effort how;
  how.times = effort;
  how.stop = [&] { return now() >= most; };
  how.progress = [&](std::size_t, std::size_t, const Value& value, const Value& bound) {
    if (++told == 1) {
      course.first = value;
    } else if (course.bound_at == 0) {
      course.bound_at = now();
      course.first_gap = gap(value, bound);
    }
    see(value, bound);
  };
  course.solution = solve(problem, how);
  course.took = now();
  see(course.solution.value, course.solution.bound);
  return course;
}

void print(const Row& row, int seed, const Problem& problem, const Course& course) {
  const Solution& is = course.solution;
  std::size_t longest = 0;
  std::size_t done = 0;
  for (const Route& route : is.plan) {
    longest = std::max(longest, route.size());
    done += route.size();
  }
  const double above = course.first.promises == is.value.promises && course.first.safety == is.value.safety
                           ? gap(course.first, is.value)
                           : -1;
  std::cout << fmt::format("{:<13}{:>4}{:>6}/{:<4}{:>4}{:>8}{:>8.2f}{:>7}{:>8}{:>8}{:>8}{:>9}{:>8.2f}{:>8}{}\n",
                           row.name, seed, done, problem.jobs.size(), longest, gap_text(above), course.bound_at,
                           gap_text(course.first_gap), gap_text(course.two_percent), gap_text(course.gap_at_5),
                           gap_text(course.gap_at_30), is.value.money, course.took, gap_text(gap(is.value, is.bound)),
                           is.proven ? "  proven" : "");
  std::cout.flush();
}

}  // namespace

int main(int argc, char** argv) {
  double most = 60;
  int seeds = 3;
  int effort = 1;
  std::vector<std::string> wanted;
  for (int i = 1; i < argc; ++i) {
    const std::string word = argv[i];
    const auto number = [&] { return ++i < argc ? std::atoi(argv[i]) : 0; };
    if (word == "--seconds") {
      most = number();
    } else if (word == "--seeds") {
      seeds = number();
    } else if (word == "--effort") {
      effort = number();
    } else {
      wanted.push_back(word);
    }
  }
  std::cout << "crews x days - visits; seconds of the processor, gaps in percent\n"
            << fmt::format("{:<13}{:>4}{:>11}{:>4}{:>8}{:>8}{:>7}{:>8}{:>8}{:>8}{:>9}{:>8}{:>8}\n", "week", "seed",
                           "done", "most", "search", "bound", "gap", "<=2 %", "at 5 s", "at 30", "value", "ended",
                           "gap");
  for (const Row& row : rows) {
    if (!wanted.empty() && std::find(wanted.begin(), wanted.end(), row.name) == wanted.end()) continue;
    for (int seed = 1; seed <= seeds; ++seed) {
      const Problem problem = test::invented_week(row.size, static_cast<std::uint64_t>(seed));
      print(row, seed, problem, solve_in(problem, effort, most));
    }
  }
}
