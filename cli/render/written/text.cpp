#include <fmt/format.h>

#include <algorithm>

#include "render/overdue/words.h"
#include "render/shared/cautions.h"
#include "render/shared/cures.h"
#include "render/shared/headings.h"
#include "render/shared/label_words.h"
#include "render/shared/words.h"
#include "render/written/consequences.h"
#include "render/written/left_open.h"
#include "render/written/to_mind.h"
#include "render/written/written.h"
#include "service/bans_after.h"
#include "terminal/wrap.h"

namespace cli {
namespace {

using service::LimbKind;
using service::Point;
using service::PointChange;
using service::Standing;

// When it comes round again, by each limb that has a day or a value for it.
std::string next_due(const Point& point) {
  std::vector<std::string> ends;
  for (const auto& limb : point.limbs) {
    if (limb.kind == LimbKind::calendar && limb.due_on) ends.push_back(to_text(*limb.due_on));
    if (limb.kind == LimbKind::season) {
      const std::string before = before_season_words(limb.lead_days, limb.name);
      ends.push_back(limb.due_on ? fmt::format("{} ({})", to_text(*limb.due_on), before) : before);
    }
    if (limb.kind == LimbKind::changes && limb.count && *limb.count < limb.limit_count) {
      ends.push_back(after_changes_words(limb.limit_count - *limb.count, limb.name));
    }
    if (limb.kind == LimbKind::usage && limb.due_at) ends.push_back("at " + due_point(limb, point));
  }
  return ends.empty() ? "" : fmt::format(", next due {}", fmt::join(ends, " or "));
}

std::string side(const Point* point) {
  if (point == nullptr) return "not listed";
  return words_of(point->standing) + (point->by_estimate ? " by estimate" : "");
}

bool same_fitting(const Point& a, const Point& b) {
  if (a.fitted.has_value() != b.fitted.has_value()) return false;
  return !a.fitted || (a.fitted->on == b.fitted->on && a.fitted->at == b.fitted->at);
}

// Where a point is due by estimate alone, and that because nobody told what its meter showed when it was done: the
// value from which it counts.
std::string counted_from(const Point& point, const std::vector<service::UntoldValue>& untold) {
  if (!point.by_estimate || !point.fitted || point.limbs.empty()) return "";
  const auto& limb = point.limbs[point.ruled_by.value_or(0)];
  for (const service::UntoldValue& value : untold) {
    const bool same = value.machine == point.machine->key && value.meter == limb.name;
    if (!same || !value.last || point.fitted->on.first != value.on) continue;
    return fmt::format("its {} counted from the {} of {}", interval_of(limb, point),
                       with_unit(value.last->shown, value.unit), to_text(value.last->day));
  }
  return "";
}

// `engine-oil: overdue -> later, next due 2027-03-02 or at 1761.4 h`.
std::string words_of(const PointChange& change, const std::vector<service::UntoldValue>& untold, bool with_machine) {
  const Point& point = change.after != nullptr ? *change.after : *change.before;
  std::string text = with_machine ? service::cleaned(point.machine->key) + ' ' : "";
  text += task_of(point) + ": ";
  const std::string was = side(change.before);
  const std::string is = side(change.after);
  text += was == is ? "stays " + is : was + " -> " + is;
  for (const std::string& mark : marks_of(point)) text += ", " + mark;
  if (change.after == nullptr) return text;
  const bool waiting = change.after->standing == Standing::later || change.after->standing == Standing::coming;
  if (waiting) return text + next_due(*change.after);
  if (const std::string from = counted_from(*change.after, untold); !from.empty()) return text + ", " + from;
  const auto words = limb_words(*change.after);
  return words.empty() ? text : text + ", " + words.front();
}

// `engine-oil: from `Overdue` to `Put off``.
std::string words_of(const service::HeadingChange& move, bool with_machine) {
  const auto title = [](service::OverdueHeading heading) {
    const std::string_view whole = title_of(heading);
    return whole.substr(0, whole.find(':'));
  };
  std::string text = with_machine ? service::cleaned(move.point->machine->key) + ' ' : "";
  text += task_of(*move.point) + ": ";
  text += move.was && move.is ? fmt::format("from `{}` to `{}`", title(*move.was), title(*move.is))
          : move.is           ? fmt::format("now under `{}`", title(*move.is))
                              : "no more on it";
  for (const std::string& mark : marks_of(*move.point)) text += ", " + mark;
  return text;
}

// True where people should hear of it: the standing, the estimate mark or the fitting changed, not only a day.
bool worth_telling(const PointChange& change) {
  if (change.before == nullptr || change.after == nullptr) return true;
  const Point& a = *change.before;
  const Point& b = *change.after;
  return a.standing != b.standing || a.by_estimate != b.by_estimate || !same_fitting(a, b);
}

std::string label_of(const service::Fact& service) {
  return service::point_label(service::cleaned(service.task), service::cleaned(service.position));
}

// `oil of loader on 2026-06-15 was already written down on 2026-06-12 (......-1).`
std::string words_of(const service::WrittenTwice& twice) {
  const auto& [earlier, later] = twice;
  std::string text = fmt::format("{} of {} on {} was already written down", label_of(later),
                                 service::cleaned(later.machine), to_text(later.on));
  if (twice.at_one_position()) {
    text += earlier.position.empty() ? fmt::format(" with {}", label_of(earlier))
                                     : fmt::format(" for {}", service::cleaned(earlier.position));
  }
  return text +
         fmt::format(" on {} ({}).", twice.same_day() ? "that day" : to_text(earlier.on), short_text(earlier.id));
}

// What to do about it.
std::string advice_on(const service::WrittenTwice& twice, const service::Entered& entered, const std::string& command) {
  std::string text = twice.same_day() ? "On one day they count as one." : "Both stand.";
  if (twice.at_one_position()) text += " Only that position is double.";
  const service::Fact* spare = twice.spare();
  if (spare == nullptr) return text;
  // What a dry run did not store cannot be struck.
  const bool not_stored = entered.dry_run && std::any_of(entered.added.begin(), entered.added.end(),
                                                         [&](const auto& fact) { return fact.id == spare->id; });
  if (not_stored) return text + " If it was done once, leave this one out.";
  return text + fmt::format(" {}: {} strike {}",
                            twice.same_day() ? "To void " + std::string(spare == &twice.later ? "this one" : "that one")
                                             : "If it was done once",
                            command, short_text(spare->id));
}

// How a doubt stands to what was entered: of another value it is said that it was there before, or why it comes now.
std::string_view doubt_is(const service::Entered& entered, const service::Gap& doubt) {
  const auto is_added = [&](const service::FactId& fact) {
    return std::any_of(entered.added.begin(), entered.added.end(),
                       [&](const service::Fact& added) { return added.id == fact; });
  };
  const auto& newly = entered.newly_doubted;
  if (std::find(newly.begin(), newly.end(), doubt.facts.front()) != newly.end()) {
    return "New doubt of an older value, by what is known now: ";
  }
  return std::any_of(doubt.facts.begin(), doubt.facts.end(), is_added) ? "" : "Still in doubt: ";
}

// `If it is what meter `engine` shows: take this back, then the same with --meter engine`.
std::string meter_meant(const service::Entered& entered, const service::Cure& meter, ToldBy by) {
  const std::string_view tasks = meter.value("tasks");
  return fmt::format("If it is what meter `{0}` shows: {1}{2} with {3}meter {0}\n", meter.value("meter"),
                     entered.dry_run ? "" : "take this back, then ",
                     tasks.empty() ? "the same" : fmt::format("{} by itself", tasks),
                     by == ToldBy::command ? "--" : "");
}

constexpr std::size_t page = 80;

// What follows from a value that is hard to believe, and how to say that it is right after all.
std::string doubts_text(const service::Entered& entered, const std::string& command, ToldBy by) {
  constexpr std::size_t most = 5;
  const auto is_added = [&](const service::FactId& fact) {
    return std::any_of(entered.added.begin(), entered.added.end(),
                       [&](const service::Fact& added) { return added.id == fact; });
  };
  std::string text;
  for (std::size_t i = 0; i < std::min(most, entered.doubts.size()); ++i) {
    const service::Gap& doubt = entered.doubts[i];
    text += fmt::format("{}{} {}: {}\n", doubt_is(entered, doubt), service::cleaned(doubt.machine),
                        service::cleaned(doubt.meter), service::cleaned(doubt.say));
    for (const service::MeterMeant& meant : entered.meters_meant) {
      if (meant.fact == doubt.facts.front()) text += "  " + meter_meant(entered, meant.meter, by);
    }
    const bool not_stored = entered.dry_run && !doubt.facts.empty() && is_added(doubt.facts.front());
    if (const auto right = confirmation_of(entered, doubt); right && !not_stored) {
      text += fmt::format("  If it is right: {}\n", command_to_confirm(*right, command));
    } else if (not_stored) {
      text += by == ToldBy::command ? "  If it is right, say so with --sure.\n"
                                    : "  If it is right, say `sure` at the end of the line.\n";
    }
  }
  if (entered.doubts.size() > most) {
    text += fmt::format("And {} more; see `{} check`.\n", entered.doubts.size() - most, command);
  }
  if (!entered.doubts.empty()) {
    text += "It counts, and every answer says so, until it is confirmed, struck, or read on from.\n";
  }
  return text;
}

// `20603.0 h is the first value known, and ...`, and how to take it back where it is wrong: a lower one is refused
// after it.
std::string first_value_words(const service::HighFirstValue& value, const service::Entered& entered,
                              const std::string& command) {
  const std::string above = value.most_used.empty()
                                ? "more than ten years by day and night"
                                : fmt::format("far above the {} that {} has run, the most of its kind",
                                              with_unit(value.most, value.unit), service::cleaned(value.most_used));
  std::string text = wrapped("",
                             fmt::format("{} {}: {} is the first value known, and {}. Is a decimal point missing?",
                                         service::cleaned(value.machine), service::cleaned(value.meter),
                                         with_unit(value.shown, value.unit), above),
                             page, 0);
  if (entered.dry_run) return text;
  return text + fmt::format("  If it is wrong: {} strike {}\n", command, short_text(value.fact));
}

// `leaks: nobody told what the meter showed, so its use counts from ...`.
std::string untold_text(const service::Entered& entered, const std::string& command, ToldBy by) {
  std::string text;
  for (const service::UntoldValue& value : entered.untold) {
    const service::Machine* machine = entered.is->fleet().machine(value.machine);
    const bool first = machine->first_meter()->name == value.meter;
    text += fmt::format(
        "{}: what {} showed on {} is not known, so use counts from {}.\n",
        service::cleaned(fmt::format("{}", fmt::join(value.tasks, ", "))),
        first && machine->meters.size() == 1 ? "the meter" : fmt::format("meter `{}`", value.meter), to_text(value.on),
        value.last ? fmt::format("the {} of {}", with_unit(value.last->shown, value.unit), to_text(value.last->day))
                   : "nothing");
    if (!entered.dry_run) {
      text += fmt::format("  If you read it: {} reading {} VALUE{} --on {}\n", command, value.machine,
                          first ? "" : " --meter " + value.meter, to_text(value.on));
    } else {
      text += by == ToldBy::command
                  ? fmt::format("  If you read it: --at VALUE{}\n", first ? "" : " --meter " + value.meter)
                  : fmt::format("  If you read it, say it behind the task: at VALUE{}\n",
                                first ? "" : " meter " + value.meter);
    }
  }
  return text;
}

std::string twice_text(const service::Entered& entered, const std::string& command) {
  constexpr std::size_t most = 5;
  const std::vector<service::WrittenTwice>& twice = entered.twice;
  std::string text;
  for (std::size_t i = 0; i < std::min(most, twice.size()); ++i) text += words_of(twice[i]) + '\n';
  if (twice.size() > most) text += fmt::format("And {} more; see `{} check`.\n", twice.size() - most, command);
  if (twice.size() == 1) {
    text += advice_on(twice.front(), entered, command) + '\n';
  } else if (!twice.empty()) {
    text += entered.dry_run ? "All stand. What was done once is left out, or struck where it stands in the book.\n"
                            : fmt::format("All stand. What was done once is struck with `{} strike`.\n", command);
  }
  return text;
}

std::string_view when_words(service::CheckWhen when) {
  switch (when) {
    case service::CheckWhen::once_back:
      return "after it is back: ";
    case service::CheckWhen::once_mended:
      return "once what forbids to run it is mended: ";
    case service::CheckWhen::after_work:
      break;
  }
  return "";
}

// What never waits and what was seen, and what is wrong with it.
std::string before_work_lines(const service::BeforeWork& before) {
  if (before.points.empty() && before.signs.empty() && before.seen.empty()) return "";
  std::string text = "See to these before it works:\n";
  for (const auto* points : {&before.points, &before.signs}) {
    for (const Point* point : *points) text += wrapped("  ", words_of_what_is_wrong(*point), page, 4);
  }
  for (const service::SeenSign* seen : before.seen) text += wrapped("  ", cli::words_of(*seen), page, 4);
  return text;
}

}  // namespace

std::string undo_of(const Written& written, const std::string& command) {
  const service::Entered& entered = written.entered;
  const auto id = command_of(entered);
  if (entered.dry_run || !id) return "";
  const bool named = service::is_file_of_many(entered.added.front().origin, entered.added.size());
  return command + " undo" + (named ? ' ' + to_text(*id) : "");
}

std::string out_of_use_lines(const service::Entered& entered) {
  std::string text;
  if (entered.before == nullptr || entered.after == nullptr) return text;
  for (const service::MachineUse& use : entered.after->not_in_use) {
    const service::UseState* const was = entered.before->state_of(*use.machine);
    const bool stays = was != nullptr && was->kind == service::UseKind::out_of_use;
    if (!stays || use.state.kind != service::UseKind::out_of_use) continue;
    text += wrapped(
        "", fmt::format("{}: {}: {}", out_of_use_title, service::cleaned(use.machine->key), cli::words_of(use.state)),
        page, 2);
  }
  return text;
}

std::string check_lines(const service::Entered& entered, std::size_t columns) {
  const std::vector<const Point*> checks = checks_owed(entered);
  if (checks.empty()) return was_locked_off(entered) ? afterwards("", columns) : "";
  const service::NotToRun stopped(*entered.after);
  std::string text = "Check afterwards:\n";
  for (const Point* check : checks) {
    std::string within = fmt::format("{}", fmt::join(limb_words(*check), " or "));
    text += wrapped("  ",
                    fmt::format("{}: {}{}; {}", task_of(*check), when_words(check_when(entered, *check, stopped)),
                                service::cleaned(check->follow_up->doing), within),
                    columns, 4);
  }
  text += cautions_in_full(cautions_of(checks), "  ", columns);
  return text + afterwards("  ", columns);
}

std::string list_changes(const service::Entered& entered, const Look& look) {
  constexpr std::size_t most = 12;                         // after a long file of facts, the worst and how many more
  const bool about_several = entered.machines.size() > 1;  // then each line names its own
  std::string text;
  std::vector<const PointChange*> told;
  for (const PointChange& change : entered.changes) {
    if (worth_telling(change)) told.push_back(&change);
  }
  // What became worse first: that is what sends people to a machine.
  std::stable_sort(told.begin(), told.end(), [](const PointChange* a, const PointChange* b) {
    const auto rank = [](const PointChange* c) { return c->after == nullptr ? Standing::later : c->after->standing; };
    return rank(a) < rank(b);
  });
  const bool only_counts = std::all_of(entered.added.begin(), entered.added.end(),
                                       [](const service::Fact& fact) { return fact.kind == service::FactKind::count; });
  if (!only_counts) text += told.empty() ? "On the due list nothing changes its standing.\n" : "On the due list:\n";
  for (std::size_t i = 0; i < std::min(most, told.size()); ++i) {
    text += "  " + words_of(*told[i], entered.untold, about_several) + '\n';
  }
  if (told.size() > most) text += fmt::format("  and {} more; see `{} due`\n", told.size() - most, look.command);
  text += not_to_run_lines(entered) + unsafe_now_lines(entered, look.command);
  if (!entered.moves.empty()) text += "On the overdue list:\n";
  for (std::size_t i = 0; i < std::min(most, entered.moves.size()); ++i) {
    text += "  " + words_of(entered.moves[i], about_several) + '\n';
  }
  if (entered.moves.size() > most) {
    text += fmt::format("  and {} more; see `{} due --overdue`\n", entered.moves.size() - most, look.command);
  }
  return text;
}

std::string meter_news_lines(const service::Entered& entered, const std::string& command) {
  constexpr std::size_t most = 5;
  std::string text;
  const auto& known = entered.ended_gaps;
  for (std::size_t i = 0; i < std::min(most, known.size()); ++i) {
    const bool was_asked = known[i].kind == service::GapKind::ran_while_not_in_use;
    text += wrapped("",
                    fmt::format("{}: {}: {}", was_asked ? "No longer asked about" : "No longer on the find-out list",
                                whose({&known[i], 1}), service::cleaned(known[i].say)),
                    page, 2);
    for (const service::Gap& gap : entered.after->gaps) {
      const bool is_rest =
          was_asked && gap.kind == known[i].kind && gap.machine == known[i].machine && gap.meter == known[i].meter;
      if (is_rest) {
        text +=
            wrapped("", fmt::format("Still asked about: {}: {}", whose({&gap, 1}), service::cleaned(gap.say)), page, 2);
      }
    }
  }
  if (known.size() > most) text += fmt::format("And {} more that are no longer on it.\n", known.size() - most);
  const auto& ended = entered.ended_doubts;
  for (std::size_t i = 0; i < std::min(most, ended.size()); ++i) {
    text +=
        fmt::format("No more in doubt: {} {}: {} of {}\n", service::cleaned(ended[i].machine),
                    service::cleaned(ended[i].meter), with_unit(ended[i].shown, ended[i].unit), to_text(ended[i].on));
  }
  if (ended.size() > most) text += fmt::format("And {} more that are no more in doubt.\n", ended.size() - most);
  const auto& high = entered.high_first_values;
  for (std::size_t i = 0; i < std::min(most, high.size()); ++i) text += first_value_words(high[i], entered, command);
  if (high.size() > most) text += fmt::format("And {} more first values that are as high.\n", high.size() - most);
  return text;
}

std::string seen_lines(const service::Entered& entered) {
  std::string text;
  for (const service::SeenSign& seen : entered.seen) {
    text += fmt::format("To be looked at: {}: {}\n", service::cleaned(seen.machine->key), words_of(seen));
  }
  for (const service::SeenSign& seen : entered.answered) {
    const bool still = std::any_of(entered.seen.begin(), entered.seen.end(),
                                   [&](const service::SeenSign& other) { return other.fact == seen.fact; });
    if (still) continue;
    text += fmt::format("No more to be looked at: {}: {}\n", service::cleaned(seen.machine->key),
                        service::cleaned(seen.sign));
  }
  return text;
}

std::string idle_look_lines(const service::Entered& entered, const std::vector<service::Fact>& only) {
  std::string text;
  for (const service::LookAtNothing& idle : looks_at_nothing(entered)) {
    const service::Fact& look = *idle.look;
    if (std::none_of(only.begin(), only.end(), [&](const service::Fact& fact) { return fact.id == look.id; })) continue;
    text += idle.seen_later ? fmt::format("It answers nothing: {}, seen {}, is later than that day.\n",
                                          service::cleaned(look.name), to_text(*idle.seen_later))
                            : fmt::format("It answers nothing: no `{}` of {} was open.\n", service::cleaned(look.name),
                                          service::cleaned(look.machine));
    if (!idle.machines.empty()) text += fmt::format("It is open of {}.\n", listed(idle.machines, "and"));
  }
  return text;
}

std::string value_lines(const service::Entered& entered, const std::string& command, ToldBy by) {
  return doubts_text(entered, command, by) + untold_text(entered, command, by) + twice_text(entered, command);
}

std::string written_as_text(const Written& written, const Look& look) {
  const service::Entered& entered = written.entered;
  std::string text = out_of_use_lines(entered);
  for (const std::string& line : written.understood) text += service::cleaned(line) + '\n';
  for (const std::string& said : entered.said) text += service::cleaned(said) + '\n';
  if (entered.added.empty()) {
    text +=
        entered.already_there > 0 ? "This is in the record already; nothing was stored.\n" : "Nothing was stored.\n";
    for (const std::string& what : written.what) text += "  " + what + '\n';
    for (const std::string& next : written.next) text += next + '\n';
    return text;
  }
  text += entered.dry_run ? "Nothing was stored. Without --dry-run this would be saved:\n" : "Saved:\n";
  for (const std::string& what : written.what) text += "  " + what + '\n';
  text += run_not_in_use_lines(entered, look.command) + newly_asked_lines(entered);
  text += list_changes(entered, look) + meter_news_lines(entered, look.command);
  text += seen_lines(entered) + idle_look_lines(entered, entered.added);
  text += stops_not_taken_lines(entered, look.command);
  // After a file of services the due list says it.
  if (written.command == "done") text += signs_left_lines(entered, look.command);
  text += values_ended_lines(entered, look.command) + values_healed_lines(entered, look.command);
  text += value_lines(entered, look.command);
  for (const std::string& words : written.write_on_it) text += "Write on it: " + words + '\n';
  if (written.command == "done") text += check_lines(entered, page);
  text += not_put_off_lines(entered, look.command);
  if (written.ended) text += ended_lines(*written.ended, look.command);
  if (written.before_work) text += before_work_lines(*written.before_work);
  for (const std::string& next : written.next) text += next + '\n';
  const std::string undo = undo_of(written, look.command);
  if (undo.empty()) return text;
  if (written.command != service::undo_origin) return text + "Take it back: " + undo + '\n';
  // `undo` passes over what `undo` did, so that two of them take back two commands.
  const service::FactId& first = entered.added.front().id;
  text += "Bring it back: " + look.command;
  text += entered.added.size() == 1 ? fmt::format(" strike {}\n", short_text(first))
                                    : fmt::format(" undo {}\n", to_text(*command_of(entered)));
  return written.undo_again ? text + "Take back the command before it too: " + look.command + " undo\n" : text;
}

}  // namespace cli
