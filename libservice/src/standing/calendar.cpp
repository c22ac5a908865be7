#include "service/calendar.h"

#include <algorithm>
#include <map>
#include <set>
#include <utility>

#include "base/event_name.h"
#include "service/not_to_run.h"
#include "service/overdue_news.h"
#include "standing/event_numbers.h"
#include "standing/minded.h"

namespace service {
namespace {

class Maker {
 public:
  Maker(const DueList& list, const CalendarVersion& version) : list_(list), fleet_(*list.fleet), version_(version) {
    std::vector<std::string> about{"summary", list.scope.site};
    if (list.scope.machines) about.insert(about.end(), list.scope.machines->begin(), list.scope.machines->end());
    add(EventKind::summary, std::move(about), list.as_of);
    for (const MachineUse& use : list.not_in_use) {
      BeforeBack& before = before_back_[use.machine->key];
      if (use.state.kind == UseKind::laid_up) before.back_on = use.state.until;
    }
    for (const Point& point : list.points) {
      const auto of = before_back_.find(point.machine->key);
      if (of == before_back_.end()) continue;
      BeforeBack& before = of->second;
      const auto wanted = wanted_by(point, list.as_of);
      if (is_seen_to_before_work(point)) {
        before.points.push_back(&point);
      } else if (before.back_on && wanted && *wanted <= *before.back_on) {
        before.due_by_then.push_back(&point);
      }
    }
    for (const SeenSign& seen : list.seen) {
      const auto of = before_back_.find(seen.machine->key);
      if (of != before_back_.end()) of->second.seen.push_back(&seen);
    }
  }

  void not_in_use(const MachineUse& use) {
    const bool out = use.state.kind == UseKind::out_of_use;
    const Day on = out ? list_.as_of : use.state.until.value_or(list_.as_of);
    CalendarEvent& event = add(
        EventKind::not_in_use,
        {use.machine->key, std::string(to_text(use.state.kind)), use.state.since ? to_text(*use.state.since) : ""}, on);
    event.use = &use;
    const BeforeBack& before = before_back_.at(use.machine->key);
    event.before_back = before.points;
    event.due_by_then = before.due_by_then;
    event.seen_before_back = before.seen;
  }

  void point(const Point& point) {
    const bool unknown = point.standing == Standing::no_record || !point.unknown.empty();
    const bool now = is_due(point) || point.standing == Standing::no_record;
    if (now || (!point.due_on && !point.measure_again.empty())) {
      add_point(EventKind::point, point, list_.as_of);
    } else if (point.due_on) {
      add_point(EventKind::point, point, std::max(*point.due_on, list_.as_of));
    }
    // Beside its event of another day, or in place of one.
    if (unknown && !now) add_point(EventKind::find_out, point, list_.as_of);
  }

  // Of an overdue list: the event that the due list has today.
  void point_today(const Point& point) {
    const bool now = is_due(point) || point.standing == Standing::no_record;
    add_point(now ? EventKind::point : EventKind::find_out, point, list_.as_of);
  }

  void no_record(const NoRecord& line) {
    add(EventKind::no_record, {line.machine->key, "no-record"}, list_.as_of).no_record = line;
  }

  void seen(const SeenSign& seen) {
    add(EventKind::seen, {seen.machine->key, "seen", seen.sign, to_text(seen.fact)}, list_.as_of).seen = &seen;
  }

  void gaps(const std::vector<const Gap*>& gaps) {
    for (const GapLine& line : gap_lines(gaps)) {
      const Gap& gap = *line.gap;
      add(EventKind::gap,
          {gap.machine, gap.meter, std::string(to_text(gap.kind)), gap.facts.empty() ? "" : to_text(gap.facts.front())},
          list_.as_of)
          .gap = line;
    }
  }

  void under(OverdueHeading heading, std::size_t from) {
    for (std::size_t i = from; i < calendar_.events.size(); ++i) calendar_.events[i].heading = heading;
  }

  std::size_t size() const { return calendar_.events.size(); }
  Calendar made() { return std::move(calendar_); }

 private:
  struct BeforeBack {
    std::optional<Day> back_on;
    std::vector<const Point*> points;
    std::vector<const Point*> due_by_then;
    std::vector<const SeenSign*> seen;
  };

  CalendarEvent& add(EventKind kind, std::vector<std::string> parts, Day on) {
    parts.insert(parts.begin(), {fleet_.name, std::to_string(static_cast<int>(kind))});
    calendar_.events.push_back({kind, event_name_of(parts), on, version_.sequence, version_.changed});
    return calendar_.events.back();
  }

  void add_point(EventKind kind, const Point& point, Day on) {
    const std::string cycle = point.fitted ? to_text(point.fitted->on.first) : "";
    add(kind, {point.machine->key, point.name, point.position, cycle}, on).point = &point;
  }

  const DueList& list_;
  const Fleet& fleet_;
  const CalendarVersion& version_;
  std::map<std::string_view, BeforeBack> before_back_;  // of machines not in use
  Calendar calendar_;
};

void add_count(std::vector<CalendarCount>& counts, Counted what, std::size_t lines) {
  if (lines > 0) counts.push_back({what, lines});
}

// What the overdue list shows as put off, or as of a machine that is laid up: a mail counts it as that, and not as
// overdue, due or to find out.
class LaidAside {
 public:
  explicit LaidAside(const DueList& list) {
    for (const OverdueBlock& block : overdue_blocks(list)) {
      if (block.heading != OverdueHeading::put_off && block.heading != OverdueHeading::laid_up) continue;
      lines_[block.heading] = parts_of(block, list).lines();
      for (const OverdueEntry& entry : block.entries) {
        if (entry.point != nullptr) points_.insert(entry.point);
      }
    }
  }
  bool holds(const Point& point) const { return points_.contains(&point); }
  std::size_t of(Standing standing) const {
    return static_cast<std::size_t>(
        std::count_if(points_.begin(), points_.end(), [&](const Point* one) { return one->standing == standing; }));
  }
  std::size_t lines(OverdueHeading heading) const {
    const auto found = lines_.find(heading);
    return found == lines_.end() ? 0 : found->second;
  }

 private:
  std::set<const Point*> points_;
  std::map<OverdueHeading, std::size_t> lines_;
};

// Of all, those that are not shown (`first`) too.
std::vector<CalendarCount> counts_of(const DueList& list, const DueRows& shown) {
  const LaidAside aside(list);
  const auto standing = [&](Standing one) {
    const auto found = shown.counts.find(one);
    const auto all = found == shown.counts.end() ? std::size_t{0} : static_cast<std::size_t>(found->second);
    return all - aside.of(one);
  };
  std::vector<const Point*> unknown;
  std::size_t lines = 0;
  for (const Point& point : list.points) {
    if (aside.holds(point)) continue;
    if (point.standing == Standing::no_record) unknown.push_back(&point);
    if (point.standing != Standing::no_record && !is_due(point) && !point.unknown.empty()) ++lines;
  }
  const std::vector<NoRecord> no_record = take_no_record(list, unknown);
  lines += unknown.size() + no_record.size() + gap_lines(gaps_beside(list, no_record)).size();
  std::vector<CalendarCount> counts;
  add_count(counts, Counted::not_to_run, run_bans(list).size());
  add_count(counts, Counted::overdue, standing(Standing::overdue));
  add_count(counts, Counted::due, standing(Standing::due));
  add_count(counts, Counted::seen, list.seen.size());
  add_count(counts, Counted::find_out, lines);
  add_count(counts, Counted::put_off, aside.lines(OverdueHeading::put_off));
  add_count(counts, Counted::laid_up, aside.lines(OverdueHeading::laid_up));
  return counts;
}

// What is in none of those: a point with something unknown is to be found out.
std::vector<CalendarCount> counts_ahead(const DueList& list) {
  std::size_t coming = 0;
  std::size_t later = 0;
  for (const Point& point : list.points) {
    if (!point.unknown.empty()) continue;
    if (point.standing == Standing::coming) ++coming;
    if (point.standing == Standing::later) ++later;
  }
  std::vector<CalendarCount> counts;
  add_count(counts, Counted::coming, coming);
  add_count(counts, Counted::later, later);
  return counts;
}

Counted counted_as(OverdueHeading heading) {
  switch (heading) {
    case OverdueHeading::out_of_use:
    case OverdueHeading::do_not_run:
      return Counted::not_to_run;
    case OverdueHeading::overdue:
      return Counted::overdue;
    case OverdueHeading::seen:
      return Counted::seen;
    case OverdueHeading::read_the_meter:
      return Counted::read_the_meter;
    case OverdueHeading::find_out:
      return Counted::find_out;
    case OverdueHeading::put_off:
      return Counted::put_off;
    case OverdueHeading::laid_up:
      break;
  }
  return Counted::laid_up;
}

}  // namespace

CalendarVersion version_of(const std::vector<Fact>& book, Day as_of) {
  constexpr std::int64_t day = 86'400'000;
  CalendarVersion version{first_sequence_of(as_of), std::max<std::int64_t>(0, days_between(Day{}, as_of) * day)};
  std::int64_t facts = 0;
  for (const Fact& fact : book) {
    if (has_day(fact) && fact.on.first > as_of) continue;
    ++facts;
    version.changed = std::max(version.changed, fact.entered);
  }
  version.sequence = std::min(version.sequence + std::min(facts, numbers_a_day - 1), highest_sequence);
  return version;
}

CalendarVersion version_after(const CalendarVersion& version, std::int64_t last) {
  if (version.sequence > last) return version;
  const std::int64_t sequence = std::min(last + 1, highest_sequence);
  constexpr std::int64_t a_second = 1000;  // what a stamp can tell apart
  return {sequence, version.changed + (sequence - version.sequence) * a_second};
}

Calendar due_calendar(const DueList& list, const DueRows& shown, const CalendarVersion& version) {
  Maker maker(list, version);
  for (const MachineUse& use : list.not_in_use) maker.not_in_use(use);
  for (const NoRecord& line : shown.no_record) maker.no_record(line);
  for (const Point* point : shown.points) maker.point(*point);
  for (const SeenSign& seen : list.seen) maker.seen(seen);
  maker.gaps(gaps_beside(list, shown.no_record));
  Calendar calendar = maker.made();
  calendar.counts = counts_of(list, shown);
  calendar.ahead = counts_ahead(list);
  return calendar;
}

Calendar overdue_calendar(const DueList& list, const CalendarVersion& version) {
  Maker maker(list, version);
  const OverdueCounts all = overdue_counts(list);
  std::vector<CalendarCount> counts;
  add_count(counts, Counted::not_to_run, all.not_to_run);
  for (const HeadingCount& count : all.others) add_count(counts, counted_as(count.heading), count.lines);
  for (const OverdueBlock& block : overdue_blocks(list)) {
    const std::size_t from = maker.size();
    std::vector<const Point*> points;
    std::vector<const Gap*> gaps;
    for (const OverdueEntry& entry : block.entries) {
      if (entry.use != nullptr) maker.not_in_use(*entry.use);
      if (entry.seen != nullptr) maker.seen(*entry.seen);
      if (entry.gap != nullptr) gaps.push_back(entry.gap);
      if (entry.point != nullptr) points.push_back(entry.point);
    }
    const auto lines = take_no_record(list, points);
    for (const NoRecord& line : lines) maker.no_record(line);
    for (const Point* point : points) maker.point_today(*point);
    std::erase_if(gaps, [&](const Gap* gap) {
      const auto beside = gaps_beside(list, lines);
      return std::find(beside.begin(), beside.end(), gap) == beside.end();
    });
    maker.gaps(gaps);
    maker.under(block.heading, from);
  }
  Calendar calendar = maker.made();
  calendar.counts = std::move(counts);
  return calendar;
}

}  // namespace service
