// The forecast's constants, in one place. Those marked "set by hand" were chosen on simulated fleets that had nothing
// to do with the ones our tests draw; measure again (tests/honesty) whoever changes one. Units: hours and days.
#pragma once

namespace service::usage {

struct ForecastConstants {
  // The profile. Rounds of the estimate, and what the prior weighs in years of readings.
  int profile_rounds = 25;
  double years_behind_flat = 0.05;  // set by hand
  double years_behind_kind = 1.0;   // set by hand
  double smoothing = 0.25;          // the weight of each neighbouring bin

  // The level before anything was read.
  double hours_a_year = 300;       // where neither the owner nor the kind says (a cost table's custom, see levels.h)
  double longest_for_kind = 1000;  // days of one machine that count towards its kind's level
  double shortest_for_kind = 60;

  // Windows of readings, and the size of a clump of use.
  int window_days = 14;
  double local_days = 250;   // how far around a window its mean reaches
  double clump_weight = 40;  // hours of prior (set by hand)
  double clump_prior = 12;   // hours (set by hand)
  double least_clump = 0.05;

  // The level's mixture.
  double changes_a_year = 0.1;  // set by hand
  double fresh_shape = 1.7;     // of a component that has just begun (set by hand)
  double memory_years = 1.8;    // set by hand
  double least_kept = 0.7;      // set by hand
  double fresh_days = 60;       // of the prior level in the rate of a new component
  double season_slip_days = 7;  // a season moved by a week is no change of level
  double loose_share = 0.01;    // of use in a window: how loosely its total is believed
  double idle_share = 0.02;     // of what was expected; below it a window may be a standstill
  double idle_begins = 0.02;    // odds in a window (set by hand)
  double idle_lasts = 0.85;     // odds that it goes on, a window
  double lightest = 9;          // log weight behind the heaviest at which a component is dropped
  int most_components = 12;
  int kept_components = 2;
  double change_to_come = 0.02;  // set by hand

  // The spread.
  double least_spread = 0.05;
  double widening = 1.2;  // set by hand
  double regular_factor = 8;
  double most_years = 4;

  // The crossing.
  double slip_step = 5;         // days between the shifts of the season
  double slip_sd = 8;           // set by hand
  double profile_doubt = 0.16;  // set by hand
  double long_history = 100;    // hours of predicted use at which the level's own error begins to be in the spread
  double certain_shape = 10;
  double quiet_level = 0.35;  // of the year's mean; the season is learnt where the quietest weeks are below
  int quiet_days = 61;
  int least_season_days = 20;
  double idle_shown = 0.02;

  // That no service was written down.
  double lateness_spread = 0.15;
  double lateness_prior = 6;  // recorded pairs that the prior is worth
  double least_unserviced = 0.03;
};

inline constexpr ForecastConstants constants{};

}  // namespace service::usage
