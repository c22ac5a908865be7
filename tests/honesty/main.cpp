// How honest the forecast is: on machines whose future is known, how often the day on which a point comes due lies
// inside its 80 % span, and how far off the days are beside two plain rules.
//
// usage: honesty [--fleets N] [--seed N] [--kind NAME]...          simulated machines
//        honesty --real FOLDER [--books N] [--seed N] [--half first|second]      open data of real ones
//        honesty --replay [--fleets N] [--seed N]      what a replay says of simulated fleets, beside the truth
//        with --check: status 1 where a bound is not kept; --ages: by the age of the book; --least N: beside it the
//        loss of one who knows the machine, from N other ways in which it could have gone on since its last fact
//
// Scored are days after as-of, from 0 (already there) to 548, or to the last day of the data.
#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <cstdio>
#include <cstring>
#include <map>
#include <string>
#include <vector>

#include "honesty/real_use.h"
#include "honesty/trial.h"
#include "honesty/truths.h"
#include "service/outlook.h"

namespace {

using namespace honesty;

constexpr int far_days = 548;

struct Asked {
  int fleets = 40;
  int books = 4;
  unsigned seed = 1;
  bool check = false;
  bool ages = false;
  int otherwise = 0;
  std::vector<std::string> kinds;
  std::string real;
  bool replay = false;
  Half half = Half::all;
};

// Each world draws by itself, whatever is asked beside it.
std::mt19937_64 random_of(unsigned seed, int number, const std::string& name) {
  std::seed_seq seeds{seed, static_cast<unsigned>(number), static_cast<unsigned>(name[0] * 256 + name[1])};
  return std::mt19937_64(seeds);
}

void print_head(const std::string& what) {
  std::fputs(fmt::format("{}\n{:<17} {:>6}  inside (se) below/above  before  loss  plain A  plain B  ratio  p50 alone  "
                         "past said/true %  least  p50\n",
                         what, "", "points")
                 .c_str(),
             stdout);
}

void print_row(const std::string& name, const Score& score) {
  if (score.points() == 0) return;
  const std::string least =
      score.least_ratio() == 0 ? "" : fmt::format("{:>8.2f} {:>5.2f}", score.least_ratio(), score.least_middle_ratio());
  std::fputs(fmt::format("{:<17} {:>6} {:>6.1f} ({:>3.1f}) {:>4.0f} / {:<4.0f} {:>6.0f} {:>6.2f} {:>8.2f} {:>8.2f} "
                         "{:>6.2f} {:>8.2f} {:>8.1f} / {:<4.1f} {}\n",
                         name, score.points(), score.coverage(), score.coverage_error(), score.below(), score.above(),
                         score.before_middle(), score.loss(), score.straight(), score.same_days(), score.ratio(),
                         score.middle_ratio(), score.said_past(), score.truly_past(), least)
                 .c_str(),
             stdout);
}

void print_ages(const Scores& scores) {
  for (std::size_t i = 0; i < age_names.size(); ++i) print_row(fmt::format("  {}", age_names[i]), scores.by_age[i]);
}

bool honest(const std::string& name, const Score& score) {
  const double slack = 1.64 * score.coverage_error();
  if (score.coverage() + slack >= 75 && score.coverage() - slack <= 85) return true;
  std::fputs(fmt::format("  {}: coverage is outside of 75..85\n", name).c_str(), stdout);
  return false;
}

bool below(const std::string& what, double figure, double bound) {
  if (figure <= bound) return true;
  std::fputs(fmt::format("  {} is {:.2f}, over {:.2f}\n", what, figure, bound).c_str(), stdout);
  return false;
}

bool on_simulated(const Asked& asked) {
  print_head(fmt::format("{} fleets a kind, seed {}", asked.fleets, asked.seed));
  Scores all;
  bool kept = true;
  for (const Kind& kind : kinds()) {
    if (!asked.kinds.empty() && std::find(asked.kinds.begin(), asked.kinds.end(), kind.name) == asked.kinds.end()) {
      continue;
    }
    Scores sum;
    for (int f = 0; f < asked.fleets; ++f) {
      std::mt19937_64 random = random_of(asked.seed, f, kind.name);
      World world = simulated(kind.name, far_days, random);
      const auto facts = write_down(world, random);
      const Day as_of = world.last() - std::chrono::days{far_days};
      if (asked.otherwise > 0) {
        random = random_of(asked.seed, f, kind.name);
        world = simulated_otherwise(kind.name, far_days, random, last_facts(world, facts, as_of), asked.otherwise);
      }
      Scores scores = ask(world, facts, as_of, far_days);
      scores.end_cluster();
      sum.add(scores);
    }
    print_row(kind.name, sum.all);
    if (asked.ages) print_ages(sum);
    // Where use is as even as a clock's the 80 % span is two or three days wide, and whole days at both ends hold more.
    const bool even = kind.name == "clockwork" || kind.name == "weekly";
    if (kind.name == "clockwork") continue;
    all.add(sum);
    kept = (even || honest(kind.name, sum.all)) && kept;
  }
  print_row("all", all.all);
  print_ages(all);
  kept = below("the loss beside the better plain rule", all.all.ratio(), 0.75) && kept;
  return kept;
}

bool on_real(const Asked& asked) {
  print_head(fmt::format("{} books a set, seed {}", asked.books, asked.seed));
  Scores all;
  bool kept = true;
  for (RealSet& set : real_sets(asked.real, asked.half)) {
    Scores sum;
    for (int b = 0; b < asked.books; ++b) {
      std::mt19937_64 random = random_of(asked.seed, b, set.name);
      draw_intervals(set.world, random);
      const auto facts = write_down(set.world, random);
      for (const Day day : days_to_ask(set.world)) {
        Scores scores = ask(set.world, facts, day, std::min(far_days, days_between(day, set.world.last())));
        scores.end_cluster();
        sum.add(scores);
      }
    }
    print_row(set.name, sum.all);
    if (asked.ages) print_ages(sum);
    all.add(sum);
    kept = honest(set.name, sum.all) && kept;
    kept = below(set.name + ": the loss beside the better plain rule", sum.all.ratio(), 0.8) && kept;
  }
  print_row("all", all.all);
  print_ages(all);
  return kept;
}

// The verdict that a user reads is that of his book; here the truth is known as well, of every day that was asked
// again.
bool on_replay(const Asked& asked) {
  std::fputs(fmt::format("{} fleets a kind, seed {}\n{:<17} {:>8} {:>8}   {:>8} {:>8}\n", asked.fleets, asked.seed, "",
                         "replayed", "inside", "points", "inside")
                 .c_str(),
             stdout);
  Score truth;
  int answered = 0;
  int inside = 0;
  const auto print = [](const std::string& name, int scored, int held, const Score& all) {
    std::fputs(fmt::format("{:<17} {:>8} {:>8.1f}   {:>8} {:>8.1f}\n", name, scored, 100.0 * held / std::max(1, scored),
                           all.points(), all.coverage())
                   .c_str(),
               stdout);
  };
  for (const Kind& kind : kinds()) {
    if (kind.name == "clockwork" || kind.name == "all-young" || kind.name == "lone") continue;  // no year to ask again
    Score of_kind;
    int scored = 0;
    int held = 0;
    for (int f = 0; f < asked.fleets; ++f) {
      std::mt19937_64 random = random_of(asked.seed, f, kind.name);
      const World world = simulated(kind.name, far_days, random);
      const auto facts = write_down(world, random);
      const Day today = world.last() - std::chrono::days{far_days};
      std::vector<service::Fact> book;
      std::copy_if(facts.begin(), facts.end(), std::back_inserter(book),
                   [&](const service::Fact& fact) { return fact.on.first <= today; });
      const auto past = service::replay(fleet_of(world), book, today, {});
      scored += past.all.answered;
      held += past.all.inside;
      for (const Day day : past.days) of_kind.add(ask(world, facts, day, far_days).all);
    }
    print(kind.name, scored, held, of_kind);
    answered += scored;
    inside += held;
    truth.add(of_kind);
  }
  print("all", answered, inside, truth);
  const double apart = 100.0 * inside / std::max(1, answered) - truth.coverage();
  return below("replayed coverage less the true one, points", std::abs(apart), 3);
}

}  // namespace

int main(int argc, char** argv) {
  Asked asked;
  for (int i = 1; i < argc; ++i) {
    const std::string option = argv[i];
    if (option == "--check") asked.check = true;
    if (option == "--ages") asked.ages = true;
    if (option == "--replay") asked.replay = true;
    if (i + 1 == argc) continue;
    if (option == "--fleets") asked.fleets = std::atoi(argv[++i]);
    if (option == "--books") asked.books = std::atoi(argv[++i]);
    if (option == "--least") asked.otherwise = std::atoi(argv[++i]);
    if (option == "--seed") asked.seed = static_cast<unsigned>(std::atoi(argv[++i]));
    if (option == "--kind") asked.kinds.emplace_back(argv[++i]);
    if (option == "--real") asked.real = argv[++i];
    if (option == "--half") asked.half = std::strcmp(argv[++i], "first") == 0 ? Half::first : Half::second;
  }
  const bool kept = asked.replay ? on_replay(asked) : asked.real.empty() ? on_simulated(asked) : on_real(asked);
  return asked.check && !kept ? 1 : 0;
}
