#include "render/written/to_mind.h"

#include <fmt/format.h>

#include <algorithm>

#include "render/shared/cautions.h"
#include "render/shared/not_to_run.h"
#include "render/shared/run_ban_words.h"
#include "render/shared/words.h"
#include "service/bans_after.h"
#include "service/healed_values.h"
#include "terminal/shell_word.h"
#include "terminal/wrap.h"

namespace cli {
namespace {

constexpr std::size_t columns = 80;
constexpr std::size_t most = 12;  // after a long file of facts

// `pump-south has run 12.0 h while laid up since 2026-03-09`.
std::string words_of(const service::RunNotInUse& run) {
  const bool unsafe = run.state.kind == service::UseKind::out_of_use;
  const std::string stood =
      fmt::format("{} since {}", unsafe ? "out of use" : "laid up", service::to_text(*run.state.since));
  const std::string ran = fmt::format("{} has run {}", service::cleaned(run.machine->key),
                                      with_unit(run.used, service::cleaned(run.meter->unit)));
  return run.all_of_it
             ? fmt::format("{} while {}", ran, stood)
             : fmt::format("{} since {}, and {} {}", ran, service::to_text(run.from), run.still ? "is" : "was", stood);
}

// What to do about it.
std::string cure_of(const service::RunNotInUse& run, const std::string& command) {
  if (run.state.kind == service::UseKind::out_of_use) {
    return std::string(run.still ? "do not run it; " : "") + "ask who may have run it";
  }
  return fmt::format("where it works again: {} back {}", command, service::cleaned(run.machine->key));
}

// `whichever saw tractor-big tread-depth=14 --position front-right`.
std::string command_to_write_again(const service::EndedValue& value, service::Day today, const std::string& command) {
  const service::Fact& again = value.again;
  std::string text = fmt::format("{} saw {} {}", command, service::cleaned(again.machine),
                                 shell_word(fmt::format("{}={}", service::cleaned(again.name), to_text(value.value))));
  if (!again.unit.empty()) text += " --unit " + shell_word(service::cleaned(again.unit));
  if (!again.position.empty()) text += " --position " + service::cleaned(again.position);
  if (again.on.first != today) text += " --on " + service::to_text(again.on.first);
  return text;
}

std::string and_more(std::size_t all) { return all > most ? fmt::format("  and {} more\n", all - most) : ""; }

}  // namespace

std::string run_not_in_use_lines(const service::Entered& entered, const std::string& command) {
  const auto runs = run_not_in_use(entered);
  std::string text;
  for (std::size_t i = 0; i < std::min(most, runs.size()); ++i) {
    text += wrapped("", fmt::format("{}: {}.", words_of(runs[i]), cure_of(runs[i], command)), columns, 2);
  }
  return text + and_more(runs.size());
}

std::string not_put_off_lines(const service::Entered& entered, const std::string& command) {
  const auto points = not_put_off(entered);
  if (points.empty()) return "";
  std::string text = "Not put off by this; do it by itself:\n";
  for (const service::Point* point : points) {
    text += wrapped("  ",
                    fmt::format("{}; when done: {} done {} {}{}", words_of_what_is_wrong(*point), command,
                                service::cleaned(point->machine->key), task_of(*point),
                                by_competent_person(*point) ? " --by NAME" : ""),
                    columns, 4);
  }
  return text;
}

std::string not_to_run_lines(const service::Entered& entered) {
  std::vector<service::RunBan> bans = bans_after(entered);
  std::erase_if(bans, [](const service::RunBan& ban) { return ban.out_of_use(); });
  std::string text;
  for (std::size_t i = 0; i < std::min(most, bans.size()); ++i) {
    text += wrapped(
        "", fmt::format("{} {} {}.", not_to_run_title, service::cleaned(bans[i].machine->key), ban_words(bans[i])),
        columns, 2);
  }
  return text + and_more(bans.size());
}

std::string unsafe_now_lines(const service::Entered& entered, const std::string& command) {
  const auto machines = unsafe_now(entered);
  std::string text;
  for (std::size_t i = 0; i < std::min(most, machines.size()); ++i) {
    const std::string key = service::cleaned(machines[i]->key);
    text += wrapped("",
                    fmt::format("Something for safety is overdue now on {0}. Where it may not run until it is done: "
                                "{1} out-of-use {0} --note \"...\"",
                                key, command),
                    columns, 2);
  }
  return text + and_more(machines.size());
}

std::string ended_lines(const service::MachineUse& ended, const std::string& command) {
  const bool unsafe = ended.state.kind == service::UseKind::out_of_use;
  std::string text = fmt::format("{} was {}.", service::cleaned(ended.machine->key), words_of(ended.state));
  if (unsafe) text += ended.state.reasons.size() > 1 ? " Is all of that mended?" : " Is that mended?";
  if (unsafe && ended.state.laid_up) {
    const auto& until = ended.state.laid_up->until;
    text += fmt::format(" It is not laid up any more either; to lay it up again: {} lay-up {}{}", command,
                        service::cleaned(ended.machine->key), until ? " --until " + to_text(*until) : "");
  }
  return wrapped("", text, columns, 2);
}

std::string values_ended_lines(const service::Entered& entered, const std::string& command) {
  const auto values = ended_values(entered);
  std::string text;
  for (std::size_t i = 0; i < std::min(most, values.size()); ++i) {
    const service::EndedValue& value = values[i];
    const std::string unit = value.unit.empty() ? "" : ' ' + service::cleaned(value.unit);
    const std::string said = fmt::format("{}: {} was {}{} on {}, limit {}{}", service::cleaned(value.task),
                                         service::point_label(value.name, value.position), to_text(value.value), unit,
                                         service::to_text(value.on), to_text(value.limit), unit);
    const std::string again = command_to_write_again(value, entered.today, command);
    if (value.found_bad) {
      text += wrapped("",
                      said +
                          ", and it was found so, not renewed. A service ends what was measured before it: measure "
                          "again, and write that down.",
                      columns, 2);
      text += fmt::format("  If it measures the same: {}\n", again);
    } else {
      text += wrapped("", said + ". It counts no more, for this says that it was renewed or put right.", columns, 2);
      text += fmt::format("  If it was only looked at: {}\n", again);
    }
  }
  return text + and_more(values.size());
}

std::string values_healed_lines(const service::Entered& entered, const std::string& command) {
  const auto values = healed_values(entered);
  std::string text;
  for (std::size_t i = 0; i < std::min(most, values.size()); ++i) {
    const service::HealedValue& value = values[i];
    const std::string unit = value.unit.empty() ? "" : ' ' + service::cleaned(value.unit);
    const std::string task = service::point_label(service::cleaned(value.task), service::cleaned(value.position));
    text +=
        wrapped("",
                fmt::format("{} of {} was {}{} on {}, limit {}{}; now {}{}, and nothing says that it was renewed.",
                            service::point_label(service::cleaned(value.is.name), service::cleaned(value.position)),
                            service::cleaned(value.machine), to_text(*value.was.value), unit,
                            service::to_text(value.was.on), to_text(value.limit), unit, to_text(*value.is.value), unit),
                columns, 2);
    text += fmt::format("  If it was: {} done {} {} --on DAY\n", command, service::cleaned(value.machine), task);
    const bool not_stored = entered.dry_run;
    text += not_stored ? fmt::format("  If one is wrong, leave this out, or: {} strike {}\n", command,
                                     short_text(value.was.id))
                       : fmt::format("  If one is wrong: {0} strike {1} ({2}{3}), or {0} strike {4} ({5}{3})\n",
                                     command, short_text(value.was.id), to_text(*value.was.value), unit,
                                     short_text(value.is.id), to_text(*value.is.value));
  }
  return text + and_more(values.size());
}

Json values_healed_as_json(const service::Entered& entered) {
  return array_of(healed_values(entered), [](const service::HealedValue& value) {
    return Json{{"machine", value.machine},
                {"task", value.task},
                {"position", text_or_null(value.position)},
                {"name", value.is.name},
                {"unit", text_or_null(value.unit)},
                {"limit", number(value.limit)},
                {"above", value.above},
                {"was", number(*value.was.value)},
                {"was_on", service::to_text(value.was.on)},
                {"was_fact", to_text(value.was.id)},
                {"value", number(*value.is.value)},
                {"on", service::to_text(value.is.on)},
                {"fact", to_text(value.is.id)}};
  });
}

Json values_ended_as_json(const service::Entered& entered, const std::string& command) {
  return array_of(ended_values(entered), [&](const service::EndedValue& value) {
    return Json{{"machine", value.machine},
                {"task", value.task},
                {"position", text_or_null(value.position)},
                {"name", value.name},
                {"unit", text_or_null(value.unit)},
                {"value", number(value.value)},
                {"limit", number(value.limit)},
                {"above", value.above},
                {"reached", value.reached},
                {"found_bad", value.found_bad},
                {"on", service::to_text(value.on)},
                {"fact", to_text(value.fact)},
                {"again", command_to_write_again(value, entered.today, command)}};
  });
}

Json run_not_in_use_as_json(const service::Entered& entered, const service::NotToRun& stopped) {
  return array_of(run_not_in_use(entered), [&](const service::RunNotInUse& run) {
    Json json = machine_as_json({run.machine, run.state}, entered.is->fleet(), stopped);
    json["meter"] = run.meter->name;
    json["unit"] = run.meter->unit;
    json["fact"] = to_text(run.fact);
    json["used"] = number(run.used);
    json["from"] = to_text(run.from);
    json["to"] = to_text(run.to);
    json["all_of_it"] = run.all_of_it;
    json["still"] = run.still;
    return json;
  });
}

Json wrong_as_json(const service::Point& point, const service::NotToRun& stopped) {
  Json json = place_of(point);
  mark(json, point);
  json["standing"] = to_text(point.standing);
  json["by_estimate"] = point.by_estimate;
  json["due_on"] = day_or_null(point.due_on);
  json["unknown"] = kinds_of(point.unknown);
  json["do_not_run"] = stopped.holds(*point.machine);
  return json;
}

Json not_put_off_as_json(const service::Entered& entered, const service::NotToRun& stopped) {
  return array_of(not_put_off(entered), [&](const service::Point* point) { return wrong_as_json(*point, stopped); });
}

Json unsafe_now_as_json(const service::Entered& entered) {
  return array_of(unsafe_now(entered),
                  [&](const service::Machine* machine) { return machine_of(*machine, entered.is->fleet()); });
}

}  // namespace cli
