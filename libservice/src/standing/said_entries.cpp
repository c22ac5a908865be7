// What makes an entry the same as yesterday's, and how far past it is.
//
// An entry that was answered and came back must never pass for one that was told: what it stands on is part of it. So a
// service, another sign or the same one seen again, a new reading behind an estimate or a new delay makes it news; use
// and days going on do not.
#include "standing/said_entries.h"

#include <fmt/format.h>

#include <algorithm>
#include <string>
#include <vector>

#include "service/run_ban.h"
#include "standing/kept_lines.h"

namespace service {
namespace {

std::string text_of(const std::vector<FactId>& facts) {
  std::string text;
  for (const FactId& fact : facts) text += ' ' + to_text(fact);
  return text;
}

std::string name_of(const OverdueEntry& entry) {
  if (entry.point != nullptr) {
    return fmt::format("point {} {}", entry.point->machine->key, point_label(entry.point->name, entry.point->position));
  }
  if (entry.gap != nullptr) {
    return fmt::format("gap {} {} {}", to_text(entry.gap->kind), entry.gap->machine, entry.gap->meter);
  }
  if (entry.seen != nullptr) return fmt::format("seen {} {}", entry.seen->machine->key, entry.seen->sign);
  return "machine " + entry.use->machine->key;
}

std::string since_of(const Point& point, OverdueHeading heading) {
  std::string since = point.fitted ? "fitted " + to_text(point.fitted->on) : "not fitted";
  if (point.fitted && point.fitted->fact) since += ' ' + to_text(*point.fitted->fact);
  if (point.put_off) since += " put-off " + to_text(point.put_off->fact);
  for (const LimbKind kind : point.unknown) since += fmt::format(" unknown {}", to_text(kind));
  for (const LimbStanding& limb : point.limbs) {
    if (limb.kind == LimbKind::sign && limb.fact) since += " sign " + to_text(*limb.fact);
    if (limb.kind == LimbKind::sign && limb.looked_on) since += " looked " + to_text(*limb.looked_on);
    // Seen again, it may be worse, and somebody wrote why he told it.
    for (const NoticedSign& sign : limb.noticed) {
      if (!sign.answered()) since += " seen " + to_text(sign.sightings.back().fact);
    }
    const bool rests_on_reading = heading == OverdueHeading::read_the_meter && limb.kind == LimbKind::usage;
    if (rests_on_reading && limb.known) since += " known " + to_text(limb.known->day);
  }
  // What is measured again at or past the limit is told again, for nobody may run the machine.
  for (const LimbStanding* limb : forbidding_limbs(point)) {
    if (limb->kind == LimbKind::measured && limb->fact) since += " measured " + to_text(*limb->fact);
  }
  return since;
}

std::string since_of(const OverdueEntry& entry) {
  if (entry.point != nullptr) return since_of(*entry.point, entry.heading);
  if (entry.gap != nullptr) {
    // A gap that grows has more facts, or says more: either is news. What only counts days is told by `over`.
    const bool counts_days = entry.gap->kind == GapKind::stale || entry.gap->kind == GapKind::no_reading ||
                             entry.gap->kind == GapKind::clock || entry.gap->kind == GapKind::no_machine;
    return (entry.gap->since ? to_text(*entry.gap->since) : "") + text_of(entry.gap->facts) +
           (counts_days ? "" : ' ' + entry.gap->say);
  }
  if (entry.seen != nullptr) {
    const SeenSign& seen = *entry.seen;
    std::string since = fmt::format("{} seen {}", to_text(seen.fact), to_text(seen.newest));
    if (seen.found && seen.looked_on) {
      since += fmt::format(" {} {} {}", to_text(*seen.looked_on), to_text(*seen.found), seen.note);
    }
    return since;
  }
  const UseState& state = entry.use->state;
  return fmt::format("{} {}", state.since ? to_text(*state.since) : "", state.reasons.size());
}

constexpr const char* days_of_gap = "days";

// How far past its due point a limb is, in its own measure; nothing where it is not.
std::optional<SaidOver> over(const LimbStanding& limb, Day as_of) {
  if (limb.past_grace_by_estimate && limb.estimated_left) return SaidOver{-limb.estimated_left->hundredths, true};
  if (limb.state != LimbState::overdue) return std::nullopt;
  if (limb.kind == LimbKind::usage && limb.left) return SaidOver{-limb.left->hundredths};
  if (limb.kind == LimbKind::changes && limb.count) return SaidOver{*limb.count - limb.limit_count};
  if (limb.left_days) return SaidOver{-*limb.left_days};
  if (limb.due_on) return SaidOver{days_between(*limb.due_on, as_of)};
  return std::nullopt;
}

// As it is kept: one line, whatever somebody wrote.
std::string key_of(const LimbStanding& limb) { return cleaned(fmt::format("{}:{}", to_text(limb.kind), limb.name)); }

std::map<std::string, SaidOver> over_of(const OverdueEntry& entry, Day as_of) {
  std::map<std::string, SaidOver> all;
  if (entry.point != nullptr) {
    for (const LimbStanding& limb : entry.point->limbs) {
      if (const auto far = over(limb, as_of)) all[key_of(limb)] = *far;
    }
  }
  if (entry.gap != nullptr && entry.gap->since &&
      (entry.gap->kind == GapKind::stale || entry.gap->kind == GapKind::no_reading)) {
    all[days_of_gap] = {days_between(*entry.gap->since, as_of)};
  }
  return all;
}

}  // namespace

SaidEntry said_of(const OverdueEntry& entry, Day as_of) {
  return {cleaned(name_of(entry)), cleaned(since_of(entry)), entry.heading, over_of(entry, as_of)};
}

std::vector<Further> further(const OverdueEntry& entry, const SaidEntry& now, const SaidEntry& before) {
  std::vector<Further> all;
  bool any_worse = false;
  const auto add = [&](const LimbStanding* limb, const std::string& key) {
    const auto is = now.over.find(key);
    if (is == now.over.end()) return;
    const auto was = before.over.find(key);
    const bool worse = was == before.over.end()
                           ? is->second.far > 0
                           : is->second.far >= 2 * was->second.far && is->second.far > was->second.far;
    if (!worse && was == before.over.end()) return;
    any_worse = any_worse || worse;
    all.push_back({limb, was == before.over.end() ? std::nullopt : std::optional(was->second), is->second});
  };
  if (entry.gap != nullptr) add(nullptr, days_of_gap);
  if (entry.point != nullptr) {
    for (const LimbStanding& limb : entry.point->limbs) add(&limb, key_of(limb));
  }
  if (!any_worse) all.clear();
  return all;
}

SinceTold since_told(const OverdueEntry& entry, const SaidEntry& before) {
  SinceTold since;
  if (entry.heading != before.heading) return since;
  const std::vector<std::string_view> was = split(before.since, ' ');  // as `since_of` writes it
  const auto word = [&](std::size_t at) { return at < was.size() ? was[at] : std::string_view{}; };
  if (entry.seen != nullptr) {
    const SeenSign& seen = *entry.seen;
    if (word(0) != to_text(seen.fact) || word(1) != "seen") return since;
    if (word(2) != to_text(seen.newest)) since.seen_again = seen.again();
    since.looked = seen.looked_on && word(3) != to_text(*seen.looked_on);
  }
  if (entry.use != nullptr && entry.use->state.since && word(0) == to_text(*entry.use->state.since)) {
    const auto& reasons = entry.use->state.reasons;
    const auto told = parse_count(word(1));
    const std::size_t known = told ? static_cast<std::size_t>(*told) : reasons.size();
    if (known < reasons.size())
      since.reasons.assign(reasons.begin() + static_cast<std::ptrdiff_t>(known), reasons.end());
  }
  return since;
}

}  // namespace service
