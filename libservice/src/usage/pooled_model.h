// What the machines of a kind teach about one of their meters, and what each has taught about itself.
//
// Drawn from readings alone, from all machines of the kind at once. No standing that facts decide depends on it.
#pragma once

#include <map>
#include <optional>
#include <string>
#include <vector>

#include "service/usage.h"
#include "usage/profile.h"
#include "usage/spread.h"

namespace service::usage {

// One machine's meter: what was read, and what its owner expects.
struct Trace {
  std::string machine;
  std::vector<ReadingGap> gaps;
  std::optional<double> expected_rate;  // a mean day, as the use in the gaps
  std::optional<Profile> expected_shape;
};

// Everything the forecast of one meter stands on.
struct Learnt {
  Profile profile{};
  RateMixture rate;
  Spread spread;
  double stop_rate = 0;  // standstills that begin, a day of use
  // How little is known of each part of the season: exp(-years in which it was seen), less where use is even.
  Profile unseen{};
  double dispersion = 0;
  double predicted_use = 0;  // over the year-long spans that the spread was measured on
  double used = 0;
  double mean_days = 0;  // exposure of all gaps
  int gaps = 0;
  int others = 0;         // machines of the kind that taught something
  bool expected = false;  // the owner says how much a year
  bool expected_seasons = false;
};

class PooledModel {
 public:
  explicit PooledModel(std::vector<Trace> traces);

  // Of each machine of which its readings, the owner or the kind says how much it is used. To be taken once.
  std::map<std::string, Learnt, std::less<>> take_learnt() &&;

 private:
  struct Member {
    Trace trace;
    double use = 0;
    double years = 0;
    PriorRate prior_rate;
    PastErrors errors;
    Learnt learnt;
    bool known = false;
  };

  void learn_profiles();
  void learn_prior_rates();
  void learn_rates();
  void learn_what_was_seen();
  void learn_spreads();

  std::vector<Member> members_;
  double dispersion_ = 0;  // of the kind
  std::size_t used_machines_ = 0;
};

}  // namespace service::usage
