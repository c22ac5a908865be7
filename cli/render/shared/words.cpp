#include "render/shared/words.h"

#include <fmt/format.h>

#include <algorithm>

#include "render/shared/cautions.h"
#include "service/run_ban.h"

namespace cli {
namespace {

using service::LimbKind;
using service::LimbStanding;
using service::Point;
using service::Standing;

std::string days(int count) { return service::counted(count, "day", "days"); }

// The meter is named where it is not the machine's first one.
std::string of_meter(const LimbStanding& limb, const Point& point) {
  const service::Meter* first = point.machine == nullptr ? nullptr : point.machine->first_meter();
  return first == nullptr || first->name == limb.name ? "" : fmt::format(" ({})", limb.name);
}

// What is recorded, and today's estimate where it is another in whole units.
std::string usage_words(const LimbStanding& limb, const Point& point) {
  if (!limb.left) return "use unknown, of " + interval_of(limb, point);
  std::string words = left_words(*limb.left, limb, point);
  if (!limb.estimated_left) return words;
  const bool over = limb.estimated_left->hundredths < 0;
  const std::string estimate = about(over ? -*limb.estimated_left : *limb.estimated_left, limb.unit);
  const bool was_over = limb.left->hundredths < 0;
  if (over == was_over && estimate == about(was_over ? -*limb.left : *limb.left, limb.unit)) return words;
  return words + fmt::format(", about {}{} by estimate{}", estimate, over && !was_over ? " over" : "",
                             estimate_from_words(limb, point));
}

std::string days_words(const LimbStanding& limb, const Point& point) {
  const std::string interval = interval_of(limb, point);
  if (!limb.left_days) return limb.kind == LimbKind::calendar ? "day unknown, of " + interval : interval;
  const int left = *limb.left_days;
  if (limb.kind == LimbKind::season) {
    if (left == 0) return interval + ": today";
    return left > 0 ? fmt::format("{}: in {}", interval, days(left))
                    : fmt::format("{}: {} over", interval, days(-left));
  }
  if (left == 0) return interval + " up today";
  return left > 0 ? fmt::format("{} left of {}", days(left), interval)
                  : fmt::format("{} over {}", days(-left), interval);
}

std::string changes_words(const LimbStanding& limb) {
  const std::string what =
      service::counted(limb.limit_count, "change", "changes") + " of " + service::cleaned(limb.name);
  return limb.count ? fmt::format("{} of {}", *limb.count, what) : "not counted, of " + what;
}

// Since when signs and measurements are judged.
std::string since_words(const LimbStanding& limb) {
  return limb.counted_from ? " since " + to_text(*limb.counted_from) : "";
}

std::string measured_words(const LimbStanding& limb, const Point& point, bool loud) {
  const std::string interval = interval_of(limb, point);
  if (limb.measured) {
    const auto& again = point.measure_again;
    return fmt::format("{} {} {}, limit {} {}{}", service::cleaned(limb.name), to_text(*limb.measured),
                       service::cleaned(limb.unit), to_text(limb.limit), service::cleaned(limb.unit),
                       std::find(again.begin(), again.end(), limb.name) == again.end() ? "" : ": measure again");
  }
  if (limb.other_unit) {
    return fmt::format("{} measured, but not in {}", service::cleaned(limb.name), service::cleaned(limb.unit));
  }
  return loud ? fmt::format("{}: not measured{}", interval, since_words(limb)) : "";
}

// Behind the day of the first: its note, the last time and those that have a note.
std::string sightings_words(const std::vector<service::Sighting>& sightings) {
  std::string text;
  for (const service::Sighting& one : sightings) {
    const bool last = &one == &sightings.back();
    if (&one != &sightings.front() && (last || !one.note.empty())) text += ", " + again_words(one);
    if (&one == &sightings.front() && !one.note.empty()) text += fmt::format(" ({})", service::cleaned(one.note));
  }
  return text;
}

// `; looked at 2026-06-15, found worn: a bearing hums`, behind what was seen, be it listed or not.
std::string look_words(service::Day on, service::Found found, const std::string& note) {
  return fmt::format("; looked at {}, found {}{}", to_text(on), to_text(found),
                     note.empty() ? "" : ": " + service::cleaned(note));
}

std::string sign_words(const LimbStanding& limb, const Point& point, bool loud) {
  if (!limb.seen.empty()) {
    std::string text =
        fmt::format("{} seen{}", service::cleaned(limb.seen), limb.due_on ? " " + to_text(*limb.due_on) : "");
    const service::NoticedSign* const open = limb.open_sign();
    if (open != nullptr) text += sightings_words(open->sightings);
    if (limb.found && limb.looked_on) {
      text += look_words(*limb.looked_on, *limb.found,
                         open == nullptr || open->looks.empty() ? "" : open->looks.back().note);
    }
    return text;
  }
  if (!loud) return "";
  if (!limb.noticed.empty()) return noticed_words(limb.noticed.back());
  return fmt::format("{}: none seen{}", interval_of(limb, point), since_words(limb));
}

}  // namespace

std::string words_of(Standing standing) {
  return standing == Standing::no_record ? "no record" : std::string(to_text(standing));
}

std::string_view mark_of(Standing standing) {
  switch (standing) {
    case Standing::overdue:
      return "!!";
    case Standing::due:
      return "! ";
    case Standing::coming:
      return "> ";
    case Standing::later:
      return "  ";
    case Standing::no_record:
      return "? ";
  }
  return "? ";
}

std::string words_of(LimbKind kind) {
  switch (kind) {
    case LimbKind::usage:
      return "use";
    case LimbKind::calendar:
      return "time";
    case LimbKind::changes:
      return "changes";
    case LimbKind::measured:
      return "measurement";
    case LimbKind::sign:
      return "signs";
    case LimbKind::season:
      return "season";
  }
  return "";
}

std::string about(service::Amount amount, const std::string& unit) {
  return fmt::format("{} {}", (amount.hundredths + 50) / 100, unit);
}

std::string estimate_from_words(const LimbStanding& limb, const Point& point) {
  const auto from = estimated_from(limb, point);
  if (!from) return "";
  return fmt::format(", counted from {}{}", limb.known->fact ? "the reading of " : "", to_text(*from));
}

std::string due_point(const service::LimbStanding& limb, const service::Point& point) {
  std::string usage = with_unit(*limb.due_at, limb.unit) + of_meter(limb, point);
  if (!limb.due_shown || *limb.due_shown == *limb.due_at) return usage;
  return fmt::format("{} (the meter then shows {})", usage, with_unit(*limb.due_shown, limb.unit));
}

std::string with_unit(service::Amount amount, const std::string& unit) {
  const std::string number = unit == "h" ? to_text_tenths(amount) : to_text(amount);
  return unit.empty() ? number : number + ' ' + service::cleaned(unit);
}

std::string listed(const std::vector<std::string>& names, std::string_view last) {
  std::string text;
  for (std::size_t i = 0; i < names.size(); ++i) {
    if (i > 0) text += i + 1 == names.size() ? fmt::format(" {} ", last) : ", ";
    text += service::cleaned(names[i]);
  }
  return text;
}

std::string whose(const service::GapLine& line) {
  if (line.gap->kind == service::GapKind::no_machine && line.gap->machine.empty()) return "no machine";
  if (line.gap->machine.empty()) return "whole fleet";
  return line.machines == 1 ? line.gap->machine : fmt::format("{} and {} more", line.gap->machine, line.machines - 1);
}

std::string customer_of(const service::Fleet& fleet, const service::Machine& machine) {
  const service::Site* site = fleet.site(machine.site);
  return site == nullptr ? "" : site->customer;
}

std::string_view never_wait_words(bool competent_person) { return competent_person ? "safety or statutory" : "safety"; }

std::string whose_list(const service::Fleet& fleet, const service::Scope& scope) {
  std::string text = service::cleaned(fleet.name);
  if (!scope.machines) return text;
  if (const service::Site* site = fleet.site(scope.site)) {
    const std::string customer = service::cleaned(site->customer);
    return text + fmt::format(", site {}{}", service::cleaned(site->key),
                              customer.empty() ? "" : fmt::format(" ({})", customer));
  }
  constexpr std::size_t most = 3;
  std::vector<std::string> names = *scope.machines;
  if (names.size() > most) {
    names.resize(most - 1);
    names.push_back(fmt::format("{} more", scope.machines->size() - names.size()));
  }
  return text + ", " + listed(names, "and");
}

std::string site_words(const service::Fleet& fleet, const service::Machine& machine) {
  const std::string customer = service::cleaned(customer_of(fleet, machine));
  return service::cleaned(machine.site) + (customer.empty() ? "" : fmt::format(" ({})", customer));
}

std::string task_of(const Point& point) { return service::point_label(point.name, point.position); }

std::string names_of(const std::vector<service::PointName>& points, std::string_view between) {
  std::vector<std::string> names;
  for (const service::PointName& point : points) names.push_back(service::point_label(point.task, point.position));
  return fmt::format("{}", fmt::join(names, between));
}

std::string task_of(const service::PointName& point) {
  return service::cleaned(service::point_label(point.task, point.position));
}

std::string interval_of(const LimbStanding& limb, const Point& point) {
  switch (limb.kind) {
    case LimbKind::usage:
      // The interval as it is written, without a needless decimal.
      return (limb.every ? to_text(*limb.every) + ' ' + service::cleaned(limb.unit) : "?") + of_meter(limb, point);
    case LimbKind::calendar:
      return (limb.span ? to_text(*limb.span) : "?") + (limb.until_month_end ? " to the month's end" : "");
    case LimbKind::changes:
      return fmt::format("every {} of {}", service::counted(limb.limit_count, "change", "changes"),
                         service::cleaned(limb.name));
    case LimbKind::measured:
      return fmt::format("{} {} {} {}", service::cleaned(limb.name), limb.above ? "above" : "below",
                         to_text(limb.limit), service::cleaned(limb.unit));
    case LimbKind::sign:
      return "on " + listed(limb.signs, "or");
    case LimbKind::season:
      return fmt::format("{} before {}", days(limb.lead_days), service::cleaned(limb.name));
  }
  return "";
}

std::string left_words(service::Amount left, const LimbStanding& limb, const Point& point) {
  const std::string interval = interval_of(limb, point);
  if (left.hundredths == 0) return interval + " reached";
  if (left.hundredths > 0) return fmt::format("{} left of {}", with_unit(left, limb.unit), interval);
  return fmt::format("{} over {}", with_unit(-left, limb.unit), interval);
}

std::string sooner_words(const Point& point) {
  return point.sooner_if.empty() ? "" : fmt::format("sooner if {} shows it", listed(point.sooner_if, "or"));
}

std::string noticed_words(const service::NoticedSign& sign) {
  // What was noted each time is told of the facts.
  const auto* const again = sign.again();
  std::string text = fmt::format("{} seen {}{}", service::cleaned(sign.name), to_text(sign.first().on),
                                 again == nullptr ? "" : ", again " + to_text(again->on));
  for (const service::SignLook& look : sign.looks) {
    text += fmt::format("; looked at {}{}, {}: {}", to_text(look.on),
                        look.by.empty() ? "" : " by " + service::cleaned(look.by), to_text(look.found),
                        service::cleaned(look.note));
  }
  return text;
}

std::string words_of(const LimbStanding& limb, const Point& point, bool loud) {
  switch (limb.kind) {
    case LimbKind::usage:
      return usage_words(limb, point);
    case LimbKind::calendar:
    case LimbKind::season:
      return days_words(limb, point);
    case LimbKind::changes:
      return changes_words(limb);
    case LimbKind::measured:
      return measured_words(limb, point, loud);
    case LimbKind::sign:
      return sign_words(limb, point, loud);
  }
  return "";
}

std::vector<std::string> limb_words(const Point& point) {
  std::vector<std::string> words;
  const bool alone = point.limbs.size() == 1;
  if (point.ruled_by) words.push_back(words_of(point.limbs[*point.ruled_by], point, alone));
  for (std::size_t i = 0; i < point.limbs.size(); ++i) {
    if (point.ruled_by && *point.ruled_by == i) continue;
    words.push_back(words_of(point.limbs[i], point, alone));
  }
  std::erase(words, std::string{});
  return words;
}

std::string when(const Point& point, service::Day as_of) {
  if (!point.due_on) return "";
  const std::string day = to_text(*point.due_on);
  if (*point.due_on == as_of) return "today";
  if (*point.due_on < as_of) return "since " + day;
  if (!service::is_expected(point)) {
    return service::day_kind(point) == service::DayKind::at_latest ? fmt::format("by {} at the latest", day)
                                                                   : "on " + day;
  }
  const auto& span = point.due_span;
  if (span.p10 && span.p90 && *span.p10 != *span.p90) {
    return fmt::format("about {} ({} to {})", day, to_text(*span.p10), to_text(*span.p90));
  }
  return "about " + day;
}

std::string meter_words(const service::Machine& machine, std::string_view meter) {
  return machine.meters.size() > 1 ? fmt::format("the {} meter", service::cleaned(meter)) : "the meter";
}

std::string words_of(const service::PutOff& put_off, const service::Machine& machine) {
  std::string text = "until ";
  if (put_off.until) text += to_text(*put_off.until);
  if (put_off.at) {
    text += put_off.until ? " or " : "";
    text += fmt::format("{} on {}", with_unit(put_off.shown.value_or(*put_off.at), put_off.unit),
                        meter_words(machine, put_off.meter));
    if (put_off.shown && *put_off.shown != *put_off.at) {
      text += fmt::format(" (use {})", with_unit(*put_off.at, put_off.unit));
    }
  }
  if (!put_off.by.empty()) text += " by " + service::cleaned(put_off.by);
  if (!put_off.why.empty()) text += ": " + service::cleaned(put_off.why);
  if (put_off.by_estimate) {
    text += fmt::format("; over by estimate: read {}", meter_words(machine, put_off.meter));
  }
  return text;
}

std::string as_known(const service::DaySpan& span) {
  std::string text = to_text(span);
  if (span.whole_day()) return text;
  return text + (text.size() == 4 ? ", year only" : ", month only");
}

std::string estimate_words(const Point& point) {
  if (point.past_grace_by_estimate) return "overdue by estimate: read the meter";
  return point.by_estimate ? "by estimate: read the meter" : "";
}

std::vector<std::string> remarks_of(const Point& point) {
  std::vector<std::string> remarks = marks_of(point);
  if (forbids_running(point)) remarks.emplace_back(not_before_mended);
  if (point.doubtful) remarks.emplace_back(rests_on_doubt);
  if (auto estimate = estimate_words(point); !estimate.empty()) remarks.push_back(std::move(estimate));
  if (std::string sooner = sooner_words(point); !sooner.empty()) remarks.push_back(std::move(sooner));
  if (point.put_off) remarks.push_back("put off " + words_of(*point.put_off, *point.machine));
  if (point.fitted && point.fitted->year_or_month_only()) {
    const bool since_new = point.fitted->basis == service::Basis::in_service;
    remarks.push_back(fmt::format("{} {}", since_new ? "in service" : "done", as_known(point.fitted->on)));
  }
  if (point.standing == Standing::no_record && !point.fitted) remarks.emplace_back("no service is written down");
  return remarks;
}

std::string seen_words(const service::SeenSign& seen) {
  std::string text = fmt::format("{}, seen {}", service::cleaned(seen.sign), as_known(seen.on));
  const bool looked = seen.found && seen.looked_on;
  // Whose word a note is must be seen: each sighting's stands behind its day, and behind the last thing of all without
  // brackets, where nothing could be taken for it.
  if (looked || seen.sightings.size() > 1) text += sightings_words(seen.sightings);
  if (looked) return text + look_words(*seen.looked_on, *seen.found, seen.note);
  if (!seen.note.empty() && seen.sightings.size() < 2) text += ": " + service::cleaned(seen.note);
  return text;
}

std::string again_words(const service::Sighting& sighting) {
  return fmt::format("again {}{}", as_known(sighting.on),
                     sighting.note.empty() ? "" : fmt::format(" ({})", service::cleaned(sighting.note)));
}

std::string words_of(const service::SeenSign& seen) {
  return forbids_running(seen) ? fmt::format("{}; {}", seen_words(seen), not_before_mended) : seen_words(seen);
}

std::string words_of_what_is_wrong(const service::Point& point) {
  std::string text =
      fmt::format("{}: {}{}", task_of(point), words_of(point.standing), point.by_estimate ? " by estimate" : "");
  if (!point.by_estimate && point.past_grace_by_estimate) text += ", overdue by estimate";
  for (const std::string& mark : marks_of(point)) text += "; " + mark;
  if (service::forbids_running(point)) text += fmt::format("; {}", not_before_mended);
  for (const std::string& limb : limb_words(point)) text += "; " + limb;
  return text;
}

std::string look_first_words(const std::vector<const service::SeenSign*>& seen) {
  std::vector<std::string> strange;
  for (const service::SeenSign* each : seen) {
    if (!forbids_running(*each)) strange.push_back(words_of(*each));
  }
  return strange.empty() ? "" : fmt::format("Look before it runs: {}", fmt::join(strange, "; "));
}

namespace {

// `; has run 31.8 h since 2026-05-06`: whoever reads that it stands reads that as well.
std::string ran_words(const std::vector<service::RanSince>& all) {
  std::vector<std::string> parts;
  for (const service::RanSince& ran : all) {
    parts.push_back(fmt::format("{}{} since {}", with_unit(ran.used, service::cleaned(ran.unit)),
                                all.size() > 1 ? " (" + service::cleaned(ran.meter) + ")" : "", to_text(ran.from)));
  }
  return parts.empty() ? "" : fmt::format("; has run {}", fmt::join(parts, ", "));
}

}  // namespace

std::string words_of(const service::UseState& state) {
  if (state.kind == service::UseKind::laid_up && state.since) {
    return words_of(service::LayUp{*state.since, state.until, state.reasons}) + ran_words(state.ran);
  }
  const bool out_of_use = state.kind == service::UseKind::out_of_use;
  std::string text = out_of_use ? "out of use" : "in use";
  if (state.since) text += " since " + to_text(*state.since) + reasons_of(state.reasons, *state.since);
  if (state.ran_out) text += ", as planned";
  return text + (out_of_use && state.laid_up ? "; " + words_of(*state.laid_up) : "") + ran_words(state.ran);
}

std::string words_of(const service::LayUp& laid_up) {
  return fmt::format("laid up since {}{}{}", to_text(laid_up.since),
                     laid_up.until ? " until " + to_text(*laid_up.until) : "",
                     reasons_of(laid_up.reasons, laid_up.since));
}

std::string reasons_of(const std::vector<service::UseReason>& reasons, service::Day since) {
  std::string text;
  for (const service::UseReason& reason : reasons) {
    const bool from_the_start = text.empty() && reason.on == since;
    text += (from_the_start ? "" : "; " + to_text(reason.on)) + ": " + service::cleaned(reason.note);
  }
  return text;
}

}  // namespace cli
