#include "service/overdue_news.h"

#include <fmt/format.h>

#include <algorithm>
#include <chrono>
#include <map>
#include <set>
#include <string_view>
#include <tuple>
#include <unordered_set>

#include "service/run_ban.h"
#include "standing/said_entries.h"
#include "standing/urgent.h"

namespace service {
namespace {

bool counted_by_machine(OverdueHeading heading) {
  return heading == OverdueHeading::out_of_use || heading == OverdueHeading::do_not_run;
}

OverdueCounts counts_of(const std::vector<OverdueBlock>& blocks, const DueList& list, std::size_t not_to_run) {
  OverdueCounts counts{not_to_run, {}};
  for (const OverdueBlock& block : blocks) {
    if (!counted_by_machine(block.heading)) counts.others.push_back({block.heading, parts_of(block, list).lines()});
  }
  return counts;
}

// The machines of which these hold what forbids to run them.
std::size_t machines_stopped_by(const std::vector<OverdueBlock>& blocks, const Fleet& fleet) {
  std::set<const Machine*> machines;
  for (const OverdueBlock& block : blocks) {
    for (const OverdueEntry& entry : block.entries) {
      if (forbids_running(entry)) machines.insert(machine_of(entry, fleet));
    }
  }
  return machines.size();
}

void add(std::vector<OverdueBlock>& blocks, const OverdueEntry& entry) {
  if (blocks.empty() || blocks.back().heading != entry.heading) blocks.push_back({entry.heading, {}});
  blocks.back().entries.push_back(entry);
}

// The day of the weekly word that is not after this one.
Day day_of_word(const Fleet& fleet, Day day) {
  const auto wanted = static_cast<unsigned>(fleet.mail.weekly_word.value_or(Weekday::monday));
  return day - (std::chrono::weekday(day) - std::chrono::weekday((wanted + 1) % 7));
}

// What was said before, by what makes an entry the same.
class Said {
 public:
  explicit Said(const Handed& before) {
    for (const SaidEntry& entry : before.entries) {
      entries_.emplace(key_of(entry), &entry);
      names_.emplace(entry.name, &entry);
    }
  }
  const SaidEntry* find(const SaidEntry& now) const {
    const auto found = entries_.find(key_of(now));
    return found == entries_.end() ? nullptr : found->second;
  }
  // Where it stood, whatever it stood on, if that was under another heading.
  std::optional<OverdueHeading> other_heading(const SaidEntry& now) const {
    const auto heading = heading_of(now.name);
    return heading == now.heading ? std::nullopt : heading;
  }
  std::optional<OverdueHeading> heading_of(std::string_view name) const {
    const SaidEntry* const said = of_name(name);
    return said == nullptr ? std::nullopt : std::optional(said->heading);
  }
  // Whatever it stood on.
  const SaidEntry* of_name(std::string_view name) const {
    const auto found = names_.find(name);
    return found == names_.end() ? nullptr : found->second;
  }

 private:
  using Key = std::tuple<std::string_view, std::string_view, OverdueHeading>;
  static Key key_of(const SaidEntry& entry) { return {entry.name, entry.since, entry.heading}; }
  std::map<Key, const SaidEntry*> entries_;
  std::map<std::string_view, const SaidEntry*> names_;
};

SaidEntry said_of_machine(const MachineUse& use, Day as_of) {
  const auto heading = use.state.kind == UseKind::out_of_use ? OverdueHeading::out_of_use : OverdueHeading::laid_up;
  return said_of({heading, nullptr, nullptr, &use, nullptr}, as_of);
}

// Whether the machine of a point or a sign was out of use or laid up when that was last said, and is in use now.
std::optional<BackInUse> back_in_use(const OverdueEntry& entry, const DueList& list, const Said& before,
                                     const Snapshot* snapshot) {
  const Machine* const machine =
      entry.gap != nullptr || entry.use != nullptr ? nullptr : machine_of(entry, *list.fleet);
  if (machine == nullptr || list.state_of(*machine) != nullptr) return std::nullopt;
  const MachineUse stood{machine, {}};
  const auto was = before.heading_of(said_of_machine(stood, list.as_of).name);
  if (!was) return std::nullopt;
  return BackInUse{*was, snapshot == nullptr ? std::nullopt : use_state(*snapshot, *machine).since};
}

// How something that is news was told before; nothing where it is new.
std::optional<ToldBefore> told_before(const OverdueEntry& entry, const SaidEntry& now, const Said& before,
                                      const std::optional<BackInUse>& back) {
  ToldBefore told{entry, before.other_heading(now), {}, back};
  if (const SaidEntry* const said = before.find(now)) told.further = further(entry, now, *said);
  if (const SaidEntry* const said = before.of_name(now.name)) {
    const SinceTold since = since_told(entry, *said);
    told.seen_again = since.seen_again;
    told.looked_since = since.looked;
    told.reasons_since = since.reasons;
  }
  const bool any = told.was_under || !told.further.empty() || back || told.seen_again != nullptr || told.looked_since ||
                   !told.reasons_since.empty();
  return any ? std::optional(std::move(told)) : std::nullopt;
}

}  // namespace

std::size_t BlockParts::lines() const {
  return machines.size() + seen.size() + gap_lines(gaps).size() + points.size() + no_record.size();
}

BlockParts parts_of(const OverdueBlock& block, const DueList& list) {
  BlockParts parts;
  for (const OverdueEntry& entry : block.entries) {
    if (entry.point != nullptr) parts.points.push_back(entry.point);
    if (entry.seen != nullptr) parts.seen.push_back(entry.seen);
    if (entry.gap != nullptr) parts.gaps.push_back(entry.gap);
    if (entry.use != nullptr) parts.machines.push_back(entry.use);
  }
  parts.no_record = take_no_record(list, parts.points);
  const auto beside = gaps_beside(list, parts.no_record);
  const std::unordered_set<const Gap*> left(beside.begin(), beside.end());
  std::erase_if(parts.gaps, [&](const Gap* gap) { return !left.contains(gap); });
  return parts;
}

std::size_t OverdueCounts::under(OverdueHeading heading) const {
  const auto found =
      std::find_if(others.begin(), others.end(), [&](const HeadingCount& count) { return count.heading == heading; });
  return found == others.end() ? 0 : found->lines;
}

OverdueCounts overdue_counts(const DueList& list) {
  return counts_of(overdue_blocks(list), list, run_bans(list).size());
}

const ToldBefore* OverdueNews::told(const Point& point) const {
  const auto found = std::find_if(told_before.begin(), told_before.end(),
                                  [&](const ToldBefore& one) { return one.entry.point == &point; });
  return found == told_before.end() ? nullptr : &*found;
}

const ToldBefore* OverdueNews::told(const Gap& gap) const {
  const auto found = std::find_if(told_before.begin(), told_before.end(),
                                  [&](const ToldBefore& one) { return one.entry.gap == &gap; });
  return found == told_before.end() ? nullptr : &*found;
}

const ToldBefore* OverdueNews::told(const SeenSign& seen) const {
  const auto found = std::find_if(told_before.begin(), told_before.end(),
                                  [&](const ToldBefore& one) { return one.entry.seen == &seen; });
  return found == told_before.end() ? nullptr : &*found;
}

const ToldBefore* OverdueNews::told(const MachineUse& use) const {
  const auto found = std::find_if(told_before.begin(), told_before.end(),
                                  [&](const ToldBefore& one) { return one.entry.use == &use; });
  return found == told_before.end() ? nullptr : &*found;
}

const Machine* machine_of(const OverdueEntry& entry, const Fleet& fleet) {
  if (entry.point != nullptr) return entry.point->machine;
  if (entry.seen != nullptr) return entry.seen->machine;
  if (entry.use != nullptr) return entry.use->machine;
  return entry.gap == nullptr ? nullptr : fleet.machine(entry.gap->machine);
}

OverdueNews overdue_news(const DueList& list, const Handed* before, const Snapshot* snapshot) {
  OverdueNews news;
  news.not_to_run = NotToRun(list);
  news.everything = before == nullptr;
  news.then = {cleaned(list.fleet->name),
               list.as_of,
               {},
               before == nullptr ? std::nullopt : before->word,
               before == nullptr ? 0 : before->no_lists};
  const Handed nothing;
  const Said said_before(before == nullptr ? nothing : *before);
  std::vector<OverdueBlock> told;
  std::vector<OverdueEntry> urgent;
  for (const OverdueEntry& entry : overdue_list(list)) {
    const SaidEntry now = said_of(entry, list.as_of);
    const SaidEntry* const said = said_before.find(now);
    const auto back = back_in_use(entry, list, said_before, snapshot);
    const bool is_news = said == nullptr || back || !further(entry, now, *said).empty();
    // What is not in this message stays as it was last said, so that it is told when it has become twice that.
    news.then.entries.push_back(is_news ? now : *said);
    add(is_news ? news.blocks : told, entry);
    if (auto was = is_news ? told_before(entry, now, said_before, back) : std::nullopt) {
      news.told_before.push_back(std::move(*was));
    }
    if (is_news && must_not_wait(entry, back.has_value())) urgent.push_back(entry);
  }
  for (const MachineUse& use : list.not_in_use) {
    if (use.state.kind == UseKind::laid_up) news.then.entries.push_back(said_of_machine(use, list.as_of));
  }
  news.first = urgent_lines(urgent, news.not_to_run, *list.fleet);
  const std::size_t stopped = machines_stopped_by(news.blocks, *list.fleet);
  news.counts = counts_of(news.blocks, list, stopped);
  news.said_before = counts_of(told, list, news.not_to_run.bans().size() - stopped);
  return news;
}

std::string handed_file_of(const Scope& scope) {
  return scope.site.empty() ? std::string(handed_file) : fmt::format("{}-{}", handed_file, scope.site);
}

std::vector<const Machine*> machines_without_site(const Fleet& fleet, Day day) {
  std::vector<const Machine*> without;
  bool any_has_one = false;
  for (const Machine& machine : fleet.machines) {
    if (!kept_on(machine, day)) continue;
    any_has_one = any_has_one || !machine.site.empty();
    if (machine.site.empty()) without.push_back(&machine);
  }
  if (!any_has_one) without.clear();
  return without;
}

bool has_weekly_word(const Fleet& fleet, bool always) { return fleet.mail.weekly_word || always; }

bool weekly_word_is_on(const Fleet& fleet, Day day, bool always, std::optional<Day> last) {
  if (!has_weekly_word(fleet, always)) return false;
  const Day owed_since = day_of_word(fleet, day);
  return last ? *last < owed_since : day == owed_since;
}

std::vector<Day> weekly_words_missed(const Fleet& fleet, Day day, std::optional<Day> last) {
  std::vector<Day> missed;
  if (!last) return missed;
  constexpr std::chrono::days week{7};
  for (Day each = day_of_word(fleet, day); each > *last; each -= week) {
    if (each < day) missed.insert(missed.begin(), each);
  }
  return missed;
}

WeeklyWord weekly_word(const DueList& list, std::optional<Day> backup, std::vector<Day> missed) {
  WeeklyWord word;
  word.missed = std::move(missed);
  word.machines = list.machines;
  word.backup = backup;
  for (const Point& point : list.points) {
    if (point.standing == Standing::due && !forbids_running(point)) word.due.push_back(&point);
    const bool ahead = point.standing == Standing::coming || point.standing == Standing::later;
    if (ahead && point.due_on && (word.next == nullptr || *point.due_on < *word.next->due_on)) word.next = &point;
    const bool in_use = list.state_of(*point.machine) == nullptr;
    for (const LimbStanding& limb : point.limbs) {
      if (limb.kind != LimbKind::usage) continue;
      word.by_meter = true;
      if (!limb.known || !limb.known->fact) continue;
      const Day day = limb.known->day;
      if (!word.newest || day > *word.newest) word.newest = day;
      if (!in_use || (word.longest_since && day >= *word.longest_since)) continue;
      word.longest_since = day;
      word.longest = &point;
    }
  }
  return word;
}

}  // namespace service
