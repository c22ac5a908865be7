#include "standing/decide_all.h"

#include <algorithm>

#include "standing/changes_ahead.h"
#include "standing/decide_standing.h"
#include "standing/due_odds.h"
#include "standing/observed.h"

namespace service {
namespace {

// A limb that counts changes waits for the days of the task that it counts.
bool waits(const LimbStanding& limb) {
  return limb.kind == LimbKind::changes && limb.state == LimbState::not_reached && !limb.expected;
}

class Days {
 public:
  Days(std::vector<Point>& points, const MachineView& view, const DueAsk& ask)
      : points_(points), view_(view), ask_(ask), dated_(points.size()) {}

  void decide(std::size_t i) {
    Point& point = points_[i];
    const bool expects = decide_standing(point);
    note_observed(point);
    if (reached(point)) {
      point.due_span = {point.due_on, point.due_on, point.due_on};
      if (ask_.odds_by) point.odds = Probability{1};
      if (ask_.earlier_by) point.earlier_odds = Probability{1};
      date_limbs(point);  // whoever asks
    }
    dated_[i] = !expects;
    if (expects) open_.push_back(i);
  }

  // After all of them were decided.
  void look_ahead() {
    for (const std::size_t i : open_) {
      reckon(i);
      Point& point = points_[i];
      const bool comes = !point.by_estimate && point.due_on && *point.due_on <= ask_.within;
      if (comes && ask_.detail != Detail::standings) point.standing = Standing::coming;
    }
  }

 private:
  // What is asked for, odds and days, both from one race of the limbs: it remembers costly answers.
  void reckon(std::size_t i) {
    Point& point = points_[i];
    // The overdue list shows what is due by estimate, and what is not known beside it; the due list what to measure,
    // too.
    const bool measured = !point.measure_again.empty() && ask_.detail == Detail::coming;
    const bool shown = point.by_estimate || !point.unknown.empty() || point.put_off || measured;
    const bool days = !dated_[i] && (ask_.detail == Detail::everything || shown);
    const bool days_if_likely = !dated_[i] && !days && ask_.detail == Detail::coming;
    if (!days && !days_if_likely && !ask_.odds_by) return;
    expect_changes(i);
    const DueOdds odds(point, view_);
    if (ask_.odds_by && odds.known()) point.odds = odds.by(*ask_.odds_by);
    if (ask_.earlier_by && odds.known()) point.earlier_odds = odds.by(*ask_.earlier_by);
    if (days || (days_if_likely && likely_within(odds))) date(i, odds);
  }

  bool likely_within(const DueOdds& odds) const {
    if (!odds.known() || (ask_.days_from_odds >= Probability{0.5} && !odds.may_be_even(ask_.within))) return false;
    return odds.by(ask_.within) >= ask_.days_from_odds;
  }

  // The span of a point, the own days of its limbs, and which of them rules.
  void date(std::size_t i) {
    if (dated_[i]) return;
    dated_[i] = true;
    expect_changes(i);
    date(i, DueOdds(points_[i], view_));
  }

  void date(std::size_t i, const DueOdds& odds) {
    dated_[i] = true;
    Point& point = points_[i];
    date_limbs(point);
    point.due_span = odds.span();
    if (point.by_estimate) return;
    point.ruled_by = ruling_limb(point);
    point.due_on = point.due_span.p50;
  }

  void date_limbs(Point& point) const {
    for (LimbStanding& limb : point.limbs) {
      if (limb.state != LimbState::not_reached) continue;
      if (limb.kind == LimbKind::changes) limb.unforeseen = !limb.due_on;
      if (limb.kind != LimbKind::usage) continue;
      if (!limb.by_estimate) limb.due_on = view_.expected_at(limb.name, *limb.due_at, Quantile::p50);
      const bool stands = view_.state.kind != UseKind::in_use && !view_.state.until;
      limb.unforeseen = stands || !view_.estimate_today(limb.name);
    }
  }

  void expect_changes(std::size_t i) {
    for (LimbStanding& limb : points_[i].limbs) {
      if (!waits(limb) || leads_back(limb.name, points_[i].name)) continue;
      std::vector<const Point*> counted;
      for (std::size_t k = 0; k < points_.size(); ++k) {
        if (points_[k].name != limb.name) continue;
        date(k);
        counted.push_back(&points_[k]);
      }
      limb.expected = changed_by(view_, counted, limb.name, limb.limit_count - limb.count.value_or(0));
      limb.due_on = limb.expected->p50;
    }
  }

  // Tasks that count each other's changes expect nothing of each other.
  bool leads_back(const std::string& from, const std::string& to) const {
    std::vector<std::string> names{from};
    for (std::size_t n = 0; n < names.size(); ++n) {
      if (names[n] == to) return true;
      for (const Point& point : points_) {
        if (point.name != names[n]) continue;
        for (const LimbStanding& limb : point.limbs) {
          const bool is_new = std::find(names.begin(), names.end(), limb.name) == names.end();
          if (limb.kind == LimbKind::changes && is_new) names.push_back(limb.name);
        }
      }
    }
    return false;
  }

  std::vector<Point>& points_;
  const MachineView& view_;
  const DueAsk& ask_;
  std::vector<bool> dated_;
  std::vector<std::size_t> open_;
};

}  // namespace

void decide_all(std::vector<Point>& points, const MachineView& view, const DueAsk& ask) {
  Days days(points, view, ask);
  for (std::size_t i = 0; i < points.size(); ++i) days.decide(i);
  days.look_ahead();
}

}  // namespace service
