#include "service/explain.h"

#include <algorithm>
#include <iterator>
#include <map>

#include "service/season.h"

namespace service {
namespace {

// Readings around a season tell what it took where little else lies between them. Ours, no source.
constexpr int readings_beside_days = 60;
constexpr int past_seasons = 4;

std::vector<PastSeason> past_of(const MeterHistory& history, const Season& season, const SeasonDays& coming) {
  std::vector<PastSeason> past;
  const auto& knots = history.knots();
  const int year = static_cast<int>(std::chrono::year_month_day{coming.from}.year());
  for (int of = year - past_seasons; of < year; ++of) {
    const SeasonDays days = days_of(season, of);
    const auto after = std::find_if(knots.begin(), knots.end(), [&](const Knot& knot) { return knot.day >= days.to; });
    const auto begun = std::find_if(knots.begin(), knots.end(), [&](const Knot& knot) { return knot.day > days.from; });
    if (begun == knots.begin() || after == knots.end()) continue;
    const Knot& before = *std::prev(begun);
    const int beside = days_between(before.day, days.from) + days_between(days.to, after->day);
    if (beside <= readings_beside_days) past.push_back({of, after->usage - before.usage});
  }
  return past;
}

// The points of one machine.
class Explaining {
 public:
  Explaining(const Snapshot& snapshot, const Machine& machine, const Forecaster& forecaster)
      : snapshot_(snapshot),
        machine_(machine),
        forecaster_(forecaster),
        facts_(snapshot.facts_of(machine.key)),
        histories_(meter_histories(snapshot, machine)),
        ahead_(aheads_of(snapshot, machine, histories_, forecaster)) {
    for (const auto& [meter, use] : ahead_) {
      if (use->grounds() != nullptr) grounds_.emplace(meter, *use->grounds());
    }
  }

  Explanation of(const Point& point) {
    Explanation explained;
    explained.point = point;
    explained.running_in =
        !point.task->first.empty() && point.follow_up == nullptr && point.fitted && !point.fitted->fact;
    explained.grace_known = std::none_of(point.limbs.begin(), point.limbs.end(),
                                         [](const LimbStanding& limb) { return limb.state == LimbState::unknown; });
    add_facts(explained);
    explained.ruling = ruling_of(point);
    explained.source = source_of(point);
    explained.resources = resources_of(*point.machine, *point.task, point.follow_up);
    add_use(explained);
    if (reached(point)) return explained;
    explained.ends_certainly =
        point.due_span.p90 && std::any_of(point.limbs.begin(), point.limbs.end(), [&](const LimbStanding& limb) {
          return (limb.kind == LimbKind::calendar || limb.kind == LimbKind::season) &&
                 limb.due_on == point.due_span.p90;
        });
    add_seasons(explained);
    return explained;
  }

 private:
  static std::string source_of(const Point& point) {
    const TaskChange* change = point.machine->change_to(point.task->name);
    return change != nullptr && change->notes ? *change->notes : point.task->notes;
  }

  void add_facts(Explanation& explained) const {
    const Point& point = explained.point;
    if (point.fitted && point.fitted->fact) {
      add(explained, *point.fitted->fact);
      explained.by_covering =
          point.follow_up == nullptr && !point.fitted->task.empty() && point.fitted->task != point.task->name;
    }
    for (const LimbStanding& limb : point.limbs) {
      if (limb.known && limb.known->fact) add(explained, *limb.known->fact);
      if (limb.fact) add(explained, *limb.fact);
      for (const FactId& change : limb.changes) add(explained, change);
      for (const NoticedSign& sign : limb.noticed) {
        // Each of them: one that is wrong can be struck by its id.
        for (const Sighting& one : sign.sightings) add(explained, one.fact);
        for (const SignLook& look : sign.looks) add(explained, look.fact);
      }
    }
    if (point.put_off) add(explained, point.put_off->fact);
  }

  void add(Explanation& explained, const FactId& id) const {
    const auto fact = std::find_if(facts_.begin(), facts_.end(), [&](const Fact& each) { return each.id == id; });
    const bool told = std::any_of(explained.facts.begin(), explained.facts.end(),
                                  [&](const ExplainedFact& each) { return each.fact.id == id; });
    if (fact == facts_.end() || told) return;
    ExplainedFact one{*fact, std::nullopt};
    const Machine& machine = *explained.point.machine;
    const Meter* meter = fact->meter.empty() ? machine.first_meter() : machine.meter(fact->meter);
    const bool shows = fact->kind == FactKind::reading || fact->kind == FactKind::service;
    if (shows && fact->at && meter != nullptr) {
      const auto usage = histories_.find(meter->name)->second.usage_of(fact->id);
      if (usage && *usage != *fact->at) one.usage = usage;
    }
    explained.facts.push_back(std::move(one));
  }

  static Ruling ruling_of(const Point& point) {
    if (!point.ruled_by) return Ruling::nothing_reckoned;
    if (point.limbs.size() == 1) return Ruling::alone;
    const LimbStanding& ruling = point.limbs[*point.ruled_by];
    if (!reached(ruling)) return Ruling::ends_first;
    const auto alike = std::count_if(point.limbs.begin(), point.limbs.end(),
                                     [&](const LimbStanding& other) { return other.state == ruling.state; });
    return alike > 1 ? Ruling::reached_first : Ruling::furthest;
  }

  void add_use(Explanation& explained) const {
    for (const LimbStanding& limb : explained.point.limbs) {
      if (limb.kind != LimbKind::usage || reached(limb) || !histories_.contains(limb.name)) continue;
      const bool told = std::any_of(explained.use.begin(), explained.use.end(),
                                    [&](const ExplainedUse& each) { return each.meter == limb.name; });
      if (told) continue;
      ExplainedUse use{limb.name, limb.unit, std::nullopt, {}};
      if (const auto found = grounds_.find(limb.name); found != grounds_.end()) {
        use.grounds = found->second;
        use.busy = busy_months(found->second);
      }
      explained.use.push_back(std::move(use));
    }
  }

  void add_seasons(Explanation& explained) {
    if (!seasons_) seasons_ = season_lists();
    for (const auto& [season, days, list] : *seasons_) {
      const auto same = std::find_if(list.points.begin(), list.points.end(),
                                     [&](const Point& point) { return name_of(point) == name_of(explained.point); });
      if (same != list.points.end() && same->odds) {
        explained.seasons.push_back({season, days, *same->odds, use_by(explained.point, *season, days)});
      }
    }
  }

  std::vector<SeasonUse> use_by(const Point& point, const Season& season, const SeasonDays& days) const {
    std::vector<SeasonUse> all;
    for (const LimbStanding& limb : point.limbs) {
      const auto ahead = limb.kind == LimbKind::usage ? ahead_.find(limb.name) : ahead_.end();
      if (ahead == ahead_.end() || !limb.due_at || reached(limb)) continue;
      const auto p10 = ahead->second->on(days.to, Quantile::p10);
      const auto p50 = ahead->second->on(days.to, Quantile::p50);
      const auto p90 = ahead->second->on(days.to, Quantile::p90);
      if (!p10 || !p50 || !p90) continue;
      all.push_back({limb.name, limb.unit, *limb.due_at, UsageSpan{days.to, *p10, *p50, *p90},
                     past_of(histories_.find(limb.name)->second, season, days)});
    }
    return all;
  }

  struct SeasonList {
    const Season* season;
    SeasonDays days;
    DueList list;
  };

  std::vector<SeasonList> season_lists() const {
    const Snapshot alone = snapshot_.within(Scope{{{machine_.key}}});
    std::vector<SeasonList> lists;
    for (const Season& season : snapshot_.fleet().seasons) {
      const SeasonDays days = season_days(season, std::nullopt, snapshot_.as_of());
      lists.push_back({&season, days, due_list(alone, {days.to, days.to, Detail::standings}, forecaster_)});
    }
    return lists;
  }

  const Snapshot& snapshot_;
  const Machine& machine_;
  const Forecaster& forecaster_;
  std::span<const Fact> facts_;
  Histories histories_;
  Aheads ahead_;
  std::map<std::string, Grounds, std::less<>> grounds_;
  std::optional<std::vector<SeasonList>> seasons_;  // costly, and asked for what is not reached only
};

}  // namespace

namespace {

// Of the points that are wanted.
template <class Wanted>
Explanations explain_those(const Snapshot& snapshot, const Forecaster& forecaster, Wanted wanted) {
  constexpr int horizon_days = 30;
  DueList list = due_list(snapshot, {snapshot.as_of() + std::chrono::days{horizon_days}}, forecaster);
  Explanations answer;
  answer.fleet = snapshot.fleet_ptr();
  answer.as_of = snapshot.as_of();
  std::map<const Machine*, Explaining> explaining;
  for (const Point& point : list.points) {
    if (!wanted(list, point)) continue;
    auto& of_machine = explaining.try_emplace(point.machine, snapshot, *point.machine, forecaster).first->second;
    answer.points.push_back(of_machine.of(point));
  }
  answer.left_off = list.points.size() - answer.points.size();
  answer.not_to_run = NotToRun(list);
  answer.gaps = std::move(list.gaps);
  answer.seen = std::move(list.seen);
  answer.not_in_use = std::move(list.not_in_use);
  return answer;
}

}  // namespace

Explanations explain(const Snapshot& snapshot, std::string_view task, std::string_view position,
                     const Forecaster& forecaster) {
  auto answer = explain_those(snapshot, forecaster, [&](const DueList&, const Point& point) {
    return point.name == task && (position.empty() || point.position == position);
  });
  answer.left_off = 0;
  return answer;
}

Explanations explain_worst(const Snapshot& snapshot, const Forecaster& forecaster) {
  return explain_those(snapshot, forecaster,
                       [](const DueList& list, const Point& point) { return &point == &list.points.front(); });
}

}  // namespace service
