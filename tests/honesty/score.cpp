#include "honesty/score.h"

#include <algorithm>
#include <cmath>

namespace honesty {
namespace {

double pinball(double said, double truth, double share) {
  return truth >= said ? share * (truth - said) : (1 - share) * (said - truth);
}

double loss_of(const Said& said, double truth) {
  return (pinball(said.p10, truth, 0.1) + pinball(said.p50, truth, 0.5) + pinball(said.p90, truth, 0.9)) / 3;
}

}  // namespace

void Score::add(const Answer& answer) {
  const auto& [said, straight, same_days, truth, all_known] = answer;
  const bool inside = said.p10 <= truth && truth <= said.p90;
  ++points_;
  ++open_points_;
  inside_ += inside ? 1 : 0;
  open_inside_ += inside ? 1 : 0;
  below_ += truth < said.p10 ? 1 : 0;
  above_ += truth > said.p90 ? 1 : 0;
  before_middle_ += truth < said.p50 ? 1 : truth > said.p50 ? 0 : 0.5;
  said_past_ += said.p50 <= 0 ? 1 : 0;
  truly_past_ += truth <= 0 ? 1 : 0;
  loss_ += loss_of(said, truth);
  straight_ += loss_of({straight, straight, straight}, truth);
  same_days_ += loss_of({same_days, same_days, same_days}, truth);
  middle_ += pinball(said.p50, truth, 0.5);
  middle_straight_ += pinball(straight, truth, 0.5);
  middle_same_days_ += pinball(same_days, truth, 0.5);
  if (all_known) {
    least_ += loss_of(*all_known, truth);
    least_middle_ += pinball(all_known->p50, truth, 0.5);
  }
}

void Score::end_cluster() {
  if (open_points_ > 0) clusters_.emplace_back(open_points_, open_inside_);
  open_points_ = open_inside_ = 0;
}

void Score::add(const Score& more) {
  points_ += more.points_;
  inside_ += more.inside_;
  below_ += more.below_;
  above_ += more.above_;
  before_middle_ += more.before_middle_;
  said_past_ += more.said_past_;
  truly_past_ += more.truly_past_;
  loss_ += more.loss_;
  straight_ += more.straight_;
  same_days_ += more.same_days_;
  middle_ += more.middle_;
  middle_straight_ += more.middle_straight_;
  middle_same_days_ += more.middle_same_days_;
  least_ += more.least_;
  least_middle_ += more.least_middle_;
  clusters_.insert(clusters_.end(), more.clusters_.begin(), more.clusters_.end());
}

double Score::coverage_error() const {
  double sum = 0;
  const double mean = static_cast<double>(inside_) / points_;
  for (const auto& [n, in] : clusters_) sum += (in - mean * n) * (in - mean * n);
  return 100 * std::sqrt(sum) / points_;
}

double Score::ratio() const { return loss_ / std::min(straight_, same_days_); }

double Score::middle_ratio() const { return middle_ / std::min(middle_straight_, middle_same_days_); }

double Score::least_ratio() const { return least_ / std::min(straight_, same_days_); }

double Score::least_middle_ratio() const { return least_middle_ / std::min(middle_straight_, middle_same_days_); }

}  // namespace honesty
