// Which points of a due list are shown, and which of their limbs.
#include <algorithm>
#include <string_view>
#include <unordered_map>
#include <unordered_set>

#include "service/due_list.h"
#include "standing/shown.h"

namespace service {

namespace {

// The machines of which nothing is known at all, for whoever asks of many.
class Unrecorded {
 public:
  explicit Unrecorded(const DueList& list) {
    for (const Gap& gap : list.gaps) {
      if (gap.kind == GapKind::nothing_recorded) keys_.insert(gap.machine);
    }
  }
  bool contains(std::string_view machine) const { return keys_.contains(machine); }

 private:
  std::unordered_set<std::string_view> keys_;
};

}  // namespace

bool nothing_known(const DueList& list, const Machine& machine) { return Unrecorded(list).contains(machine.key); }

std::vector<const Point*> NoRecord::safety() const {
  std::vector<const Point*> found;
  std::copy_if(points.begin(), points.end(), std::back_inserter(found),
               [](const Point* point) { return never_waits(*point); });
  return found;
}

std::vector<NoRecord> take_no_record(const DueList& list, std::vector<const Point*>& points) {
  const Unrecorded unrecorded(list);
  std::vector<NoRecord> lines;
  std::unordered_map<const Machine*, std::size_t> places;
  std::erase_if(points, [&](const Point* point) {
    if (point->standing != Standing::no_record || point->put_off) return false;
    const auto [place, is_new] = places.emplace(point->machine, lines.size());
    if (is_new) lines.push_back({point->machine, {}, unrecorded.contains(point->machine->key)});
    lines[place->second].points.push_back(point);
    return true;
  });
  return lines;
}

std::vector<const Gap*> gaps_beside(const DueList& list, const std::vector<NoRecord>& lines) {
  std::unordered_set<std::string_view> told;
  for (const NoRecord& line : lines) {
    if (line.nothing_recorded) told.insert(line.machine->key);
  }
  std::vector<const Gap*> gaps;
  for (const Gap& gap : list.gaps) {
    if (gap.kind != GapKind::nothing_recorded || !told.contains(gap.machine)) gaps.push_back(&gap);
  }
  return gaps;
}

// It comes later, and nobody has to do, decide or find out anything about it until then. A check that is owed after a
// service is not so: it is asked once and soon, of whoever did the work, and forgotten where no list names it.
bool may_be_left_out(const Point& point) {
  return point.standing == Standing::later && point.follow_up == nullptr && point.unknown.empty() &&
         point.measure_again.empty() && !point.put_off;
}

DueRows rows_of(const DueList& list, const DueShow& show) {
  DueRows rows;
  rows.counts = list.let_go.counts;
  for (const auto& [standing, count] : rows.counts) rows.later += static_cast<std::size_t>(count);
  for (const Point& point : list.points) {
    ++rows.counts[point.standing];
    if (!show.later && may_be_left_out(point)) {
      ++rows.later;
      continue;
    }
    rows.anything_due = rows.anything_due || point.standing != Standing::later;
    rows.points.push_back(&point);
  }
  if (!show.each_without_record) rows.no_record = take_no_record(list, rows.points);
  rows.left_off = keep_first(rows.points, show.first, [](const Point* point) { return point->standing; });
  // Lines that cannot be cut: one of them may be all that says of a machine that nothing is known.
  return rows;
}

const LimbStanding* limb_of(const Point& point, LimbKind kind) {
  if (point.ruled_by && point.limbs[*point.ruled_by].kind == kind) return &point.limbs[*point.ruled_by];
  const auto first =
      std::find_if(point.limbs.begin(), point.limbs.end(), [&](const LimbStanding& limb) { return limb.kind == kind; });
  return first == point.limbs.end() ? nullptr : &*first;
}

}  // namespace service
