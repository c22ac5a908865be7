// The forecast's constants, in one place, with where each comes from. Units: days, and use in mean days: a meter's use
// over the days of all machines of its kind, so that hours, kilometres and bales are alike.
//
//   chosen        on simulated fleets and the first halves of real sets (tests/honesty/PROTOCOL.md); most matter
//                 little: half or double of one moves the loss by about one part in a hundred or less
//   as first      as the first version of this forecast had it; it was measured as a part of the whole, never alone
//   reasoned      from what it stands for; likewise never measured alone
//   numerical     bounds the work of computing
#pragma once

#include <array>

namespace service::usage {

struct ForecastConstants {
  // The season profile.
  int profile_rounds = 25;          // numerical: rounds of expectation maximisation
  double years_behind_flat = 0.05;  // weight of a flat prior, in years of readings (as first)
  double years_behind_kind = 1.0;   // weight of the kind's profile or the owner's (as first)
  double smoothing = 0.25;          // weight of each neighbouring bin (reasoned: 1, 2, 1)
  double free_pieces = 6;           // pieces of a year that smoothing leaves independent (reasoned: two months each;
                                    // loss of real use 3 % lower than without, 12 would win another 1 %)

  // The rate before a machine's own readings.
  double owner_shape = 6;          // gamma shape: an owner's word is good to 40 % (reasoned)
  double own_shape = 1;            // of a machine of which nobody says anything: about its own mean (reasoned)
  double kin_variance = 0.25;      // of rates within a kind, as a share squared: half as much again (reasoned)
  double kin_machines = 2;         // that this is worth (reasoned)
  double kin_half_days = 60;       // of readings at which a machine counts half in it (reasoned)
  double longest_for_kind = 1000;  // days of one machine that count towards its kind's rate (as first)

  // Windows of readings, and the dispersion of use within the kind.
  int window_days = 14;            // the shortest window (reasoned: a fortnight holds whole weeks)
  double local_days = 250;         // scale of the exponential mean around a window (as first)
  double dispersion_prior = 8;     // mean days' use in a lump (chosen)
  double prior_windows = 1;        // that it is worth (reasoned)
  double kin_windows = 2;          // that the kind's is worth (reasoned)
  double least_dispersion = 0.01;  // mean days (numerical, for use as even as a clock)

  // The mixture over rates (filter_rate).
  double changes_a_year = 0.1;   // hazard of a change point (as first)
  double fresh_shape = 1.7;      // gamma shape of a component that has just begun (as first)
  double memory_years = 1.8;     // discounting: the time in which a window's weight falls to 1 / e (as first)
  double least_kept = 0.7;       // gamma shape below which nothing is discounted (as first)
  double season_shift_days = 7;  // a season moved by a week is no change of rate (as first)
  double loose_share = 0.01;     // of a window's mean use, added to the dispersion (as first)
  double beside_season = 2;   // mean days, added to the dispersion for each time that the year's mean is more than the
                              // profile of a window: so much beside the season may be chance (chosen: from 0.1 to 3
                              // a reading out of season stops to count for the whole year, and the loss stays)
  double idle_share = 0.02;   // of expected use; a window below may be a standstill (as first)
  double idle_begins = 0.02;  // odds, a window (as first)
  double idle_lasts = 0.85;   // odds that it goes on, a window of the shortest length (as first)
  double lightest = 9;        // numerical: log weight behind the heaviest at which a component is dropped
  int most_components = 12;   // numerical
  int kept_components = 2;    // numerical: a third one changes next to nothing
  double change_to_come = 0.04;  // weight of a change not seen yet (chosen)
  double soft_profile_sd = 5;    // days over which the profile's slope is softened: a bin (as first)

  // The spread: past-only errors at three lengths. Lumps at the shortest; beyond them, the doubt about the rate.
  double least_learning_years = 0.4;         // nothing is measured before (as first)
  double most_learning_years = 1.5;          // (as first)
  double learning_share = 0.33;              // of the history, between those two (as first)
  double shortest_length = 0.8;              // of the length asked for, that windows together must have (as first)
  double longest_length = 1.8;               // beyond which they tell of another length (as first)
  double few_windows = 1;                    // a lump measured in n windows is widened by this over n + 1 (chosen)
  double taken_as_lumps = 0.7;               // of the lumps' variance, before the rest is called doubt (chosen)
  std::array<double, 2> doubts{0.03, 0.06};  // variance of the rate at 120 and 365 days, as a share squared (chosen)
  double doubt_spans = 4;                    // that these are worth, and the kind's for a machine (reasoned)
  double even_use = 12;   // of sqrt(lump / a year's use), below which use is not expected to change as others' (chosen)
  double most_years = 4;  // of one machine that count as known (as first)
  double long_history =
      120;  // mean days of predicted use at which the rate's own error is half in the doubt (as first)
  double certain_shape = 10;  // below it that error counts whole (as first)

  // Parts of the year that nobody saw.
  double told_days = 91;        // between two readings, within which they tell when the use fell (reasoned: a quarter)
  double unseen_season = 1.5;   // variance of such a part's use, as a share squared (chosen: coverage of lone machines)
  double season_days = 30;      // in which what is known of a part of the year says e times less of the next (chosen)
  double least_profile = 0.05;  // an unseen part may be busier than its profile (reasoned)

  // First passage of a level.
  double shift_sd = 8;          // standard deviation of the shift (as first)
  double quiet_share = 0.35;    // of the year's mean; a season is one where the quietest weeks lie below (as first)
  int quiet_days = 61;          // those weeks (as first)
  int least_season_days = 20;   // since their middle, before a shift is learnt (as first)
  double shift_error = 0.0225;  // (15 %)^2: how far a season's use so far may stray beside its lumps (as first)
  double many_lumps = 8;        // lumps to a level, from which on their sum is taken as log-normal (numerical)
  double small_doubt = 0.2;     // of a lump: doubt that is added to it, and not told apart (numerical)

  // Standstills: one that is there, and one that may begin on the way.
  double idle_shown = 0.02;        // odds below which it is left out (as first)
  double stops_a_year = 0.5;       // (chosen: 0.1 to 1 differ little)
  double days_behind_stops = 365;  // of use that the kind's stops are worth (reasoned)
  // How long a machine that stands goes on standing: three cases, equally likely (as first).
  std::array<int, 3> idle_days{18, 69, 179};
  double alike_mean = 0.01;  // numerical: components of so little difference become one
  double alike_shape = 0.25;

  double least_season_use = 0.1;  // numerical: mean days, below which the logarithm of a season's use is not taken

  // Numerical: how finely answers are searched and drawn.
  int guessed_days = 5;       // where the odds say that they come to it, before it is searched
  int first_search_days = 8;  // the first step out from there; each next one is so many times as long:
  int search_growth = 3;
  double use_precision = 0.004;  // of the meter's unit, to which a quantile of usage is found: under half a hundredth
  int most_steps_out = 10;       // from the mean, to where a level is sought that few odds come to
  int most_asked = 12;           // levels that are asked about beforehand, so that others need not be
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
