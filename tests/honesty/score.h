// How far off the days are that a forecast said, beside two plain rules.
#pragma once

#include <optional>
#include <string>
#include <utility>
#include <vector>

namespace honesty {

// Days after the day asked about: 0 where it is there already, `far` where it is beyond what is told.
struct Said {
  double p10 = 0;
  double p50 = 0;
  double p90 = 0;
};

// Of one point: what was said, by the two plain rules too, and what came.
struct Answer {
  Said said;
  double straight = 0;
  double same_days = 0;
  double truth = 0;
  std::optional<Said> all_known;  // by one who knows how the machine runs and all that it did, but for its luck ahead
};

// Loss: the pinball loss averaged over p10, p50 and p90 (the plain rules say one day for all three). Coverage is told
// with its standard error, clusters of points that share weather and machines taken together.
class Score {
 public:
  void add(const Answer& answer);
  void end_cluster();
  void add(const Score& more);

  int points() const { return points_; }
  double coverage() const { return 100.0 * inside_ / points_; }
  double coverage_error() const;
  double below() const { return 100.0 * below_ / points_; }
  double above() const { return 100.0 * above_ / points_; }
  double before_middle() const { return 100.0 * before_middle_ / points_; }
  double loss() const { return loss_ / points_; }
  double straight() const { return straight_ / points_; }
  double same_days() const { return same_days_ / points_; }
  double ratio() const;         // of the loss to that of the better plain rule
  double middle_ratio() const;  // the same of the p50 alone
  // The same of one who knows all but the luck ahead: no forecast can be expected to do better. 0 where it was not
  // drawn.
  double least_ratio() const;
  double least_middle_ratio() const;
  double to_straight() const { return loss_ / straight_; }
  double said_past() const { return 100.0 * said_past_ / points_; }
  double truly_past() const { return 100.0 * truly_past_ / points_; }

 private:
  int points_ = 0;
  int inside_ = 0;
  int below_ = 0;
  int above_ = 0;
  double before_middle_ = 0;
  int said_past_ = 0;
  int truly_past_ = 0;
  double loss_ = 0;
  double straight_ = 0;
  double same_days_ = 0;
  double middle_ = 0;
  double middle_straight_ = 0;
  double middle_same_days_ = 0;
  double least_ = 0;
  double least_middle_ = 0;
  int open_points_ = 0;  // of the cluster that is not ended yet
  int open_inside_ = 0;
  std::vector<std::pair<int, int>> clusters_;  // points, inside
};

}  // namespace honesty
