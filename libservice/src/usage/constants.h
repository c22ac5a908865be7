// The forecast's constants, in one place, with where each comes from. Units: hours and days.
//
//   set by hand   chosen on simulated fleets for development, which had nothing to do with those that our tests draw;
//                 measure again (tests/honesty, several seeds) whoever changes one
//   as first      as the first version of this forecast had it; it was measured as a part of the whole, never alone
//   reasoned      from what it stands for; likewise never measured alone
//   numerical     bounds the work of computing
//   published     with its source
#pragma once

#include <array>

namespace service::usage {

struct ForecastConstants {
  // The season profile.
  int profile_rounds = 25;          // numerical: rounds of expectation maximisation
  double years_behind_flat = 0.05;  // weight of a flat prior, in years of readings (set by hand)
  double years_behind_kind = 1.0;   // weight of the kind's profile or the owner's (set by hand)
  double smoothing = 0.25;          // weight of each neighbouring bin (reasoned: 1, 2, 1)

  // The rate before anything was read.
  // Published: tractors of a cost table run 300 h a year (University of Illinois farmdoc, Machinery Cost Estimates:
  // Tractors, May 2008). It has little weight, and sets the size to which other meters are brought.
  double hours_a_year = 300;
  double first_years = 0.25;       // years of readings that the prior rate is worth (as first)
  double longest_for_kind = 1000;  // days of one machine that count towards its kind's rate (as first)
  double shortest_for_kind = 60;   // days below which it does not count (as first)

  // Windows of readings, and the dispersion of use within the kind.
  int window_days = 14;            // the shortest window (reasoned: a fortnight holds whole weeks)
  double local_days = 250;         // scale of the exponential mean around a window (as first)
  double dispersion_weight = 40;   // hours of prior (set by hand)
  double dispersion_prior = 12;    // hours (set by hand; a long day's work)
  double least_dispersion = 0.05;  // hours (set by hand, for use as even as a clock)
  int least_windows = 4;           // fewer say nothing of the dispersion (as first)

  // The mixture over rates (filter_rate).
  double changes_a_year = 0.1;   // hazard of a change point (set by hand)
  double fresh_shape = 1.7;      // gamma shape of a component that has just begun (set by hand)
  double memory_years = 1.8;     // discounting: the time in which a window's weight falls to 1 / e (set by hand)
  double least_kept = 0.7;       // gamma shape below which nothing is discounted (set by hand)
  double fresh_days = 60;        // of the prior rate in the rate of a fresh component (as first)
  double season_shift_days = 7;  // a season moved by a week is no change of rate (as first)
  double loose_share = 0.01;     // of a window's mean use, added to the dispersion (set by hand)
  double idle_share = 0.02;      // of expected use; a window below may be a standstill (as first)
  double idle_begins = 0.02;     // odds, a window (set by hand)
  double idle_lasts = 0.85;      // odds that it goes on, a window of the shortest length (as first)
  double lightest = 9;           // numerical: log weight behind the heaviest at which a component is dropped
  int most_components = 12;      // numerical
  int kept_components = 2;       // as first; one alone loses about 1 % more days
  double change_to_come = 0.02;  // weight of a change not seen yet (set by hand)
  double soft_profile_sd = 5;    // days over which the profile's slope is softened: a bin (as first)

  // The spread: past-only errors at three lengths, and its widening where little is known.
  double least_learning_years = 0.4;  // nothing is measured before (as first)
  double most_learning_years = 1.5;   // (as first)
  double learning_share = 0.33;       // of the history, between those two (as first)
  double shortest_length = 0.8;       // of the length asked for, that windows together must have (as first)
  double longest_length = 1.8;        // beyond which they tell of another length (as first)
  double least_spread = 0.05;         // hours (set by hand)
  double widening = 1.2;              // where nothing is known of the year (set by hand)
  double widening_years = 0.5;        // known years that halve it, about (set by hand)
  double regular_factor = 8;          // regular use is widened less (set by hand)
  double few_lumps = 5;               // widening by the number of lumps that were seen (set by hand)
  double most_few_lumps = 1.5;        // its bound (set by hand)
  double most_years = 4;              // of one machine that count as known (set by hand)

  // First passage of a level.
  int shift_step = 5;           // days between the phase shifts of the season (as first)
  double shift_sd = 8;          // standard deviation of the shift (set by hand)
  double profile_doubt = 0.16;  // variance, as a share squared, of a profile of which no year is known (set by hand)
  double long_history = 100;    // hours of predicted use at which the rate's own error begins to be in the spread
                                // (as first)
  double certain_shape = 10;    // below it that error counts whole (as first)
  double quiet_share = 0.35;    // of the year's mean; a shift is learnt where the quietest weeks lie below
                                // (as first)
  int quiet_days = 61;          // those weeks (as first)
  int least_season_days = 20;   // since their middle, before a shift is learnt (as first)
  double shift_error = 0.0225;  // (15 %)^2: how far a season's use so far may stray beside its lumps (as first)
  double idle_shown = 0.02;     // odds of standing below which it is left out (as first)
  // How long a machine that stands goes on standing: three cases, equally likely (set by hand).
  std::array<int, 3> idle_days{18, 69, 179};
  double alike_mean = 0.01;  // numerical: components of so little difference become one
  double alike_shape = 0.25;

  double least_season_use = 0.1;  // numerical: hours, below which the logarithm of a season's use is not taken

  // Numerical: how finely answers are searched and drawn.
  int first_search_days = 8;  // the first step out from the likely day; each next one is so many times as long:
  int search_growth = 3;
  double use_precision = 0.004;  // hours to which a quantile of usage is found: under half a hundredth
  int path_step_days = 7;        // between two values of a sample path

  // That no service was written down.
  double lateness_spread = 0.15;   // standard deviation of use at a service over the interval (as first)
  double lateness_prior = 6;       // recorded pairs that the prior is worth (as first)
  double least_unserviced = 0.03;  // a service can go unrecorded however late it is (as first)
  double fresh_element = 0.55;     // share of the interval below which nobody changes it: the weight is that of 0
                                   // (reasoned: three standard deviations early)
  int weighing_steps = 16;         // numerical: steps in which the days are weighed
  double negligible = 1e-4;        // numerical: odds that are not weighed
};

inline constexpr ForecastConstants constants{};

}  // namespace service::usage
