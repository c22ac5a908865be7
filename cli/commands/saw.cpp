// `saw`: a sign in one or several words, and measurements as NAME=VALUE.
#include <fmt/format.h>

#include <algorithm>

#include "commands/commands.h"
#include "commands/writing.h"
#include "mistakes.h"
#include "render/shared/sign_words.h"
#include "service/telling.h"
#include "service/told_signs.h"

namespace cli {
namespace {

void insist_on_measurement(const Arguments& arguments, const char* option) {
  if (!arguments.has(option)) return;
  wrong("no-measurement", fmt::format("`--{}` belongs to a measurement, and none is given", option),
        "write a measurement as NAME=VALUE");
}

std::string value_of(const service::Fact& fact) { return fact.value ? to_text(*fact.value) : ""; }

// Somebody who is there can say what he means; what comes from elsewhere is kept in its own words.
void ask_back_if_near(const Context& context, const service::Fleet& fleet, const service::Machine& machine,
                      const service::Fact& fact, service::Day today) {
  if (!context.world.terminal || context.arguments.has("new")) return;
  const auto near = near_told(fleet, machine, fact);
  if (!near) return;
  const bool measured = fact.kind == service::FactKind::measurement;
  const std::string as_it_is = measured ? fmt::format("{}={}", fact.name, value_of(fact)) : fact.name;
  wrong(measured ? "near-measurement" : "near-sign",
        measured ? fmt::format("no task of {} has a limit for `{}`; nothing was stored", machine.key, fact.name)
                 : fmt::format("no task of {} comes due on `{}`; nothing was stored", machine.key, fact.name),
        fmt::format("did you mean `{}`: {}; or keep it as it is: {} saw {} {}{} --new", near->name,
                    command_to_say(*near, fact, today, context.look.command), context.look.command, machine.key,
                    quoted(as_it_is), fact.on == service::DaySpan(today) ? "" : " --on " + to_text(fact.on)));
}

// `restriction = 4.5` is one word, with blanks or without.
std::vector<std::string> joined_at_equals(const std::vector<std::string>& words) {
  std::vector<std::string> joined;
  for (const std::string& word : words) {
    const bool goes_on = !joined.empty() && (word.starts_with('=') || joined.back().ends_with('='));
    goes_on ? joined.back().append(word) : joined.emplace_back(word);
  }
  return joined;
}

// Where it was measured is not guessed: a value of no position in particular speaks for all of them.
void insist_on_position(const service::MeasuredName& limit, service::Fact& fact) {
  if (limit.positions.empty()) return;
  if (service::all_told(fact.position, limit.positions.size())) {
    fact.position.clear();
    return;
  }
  if (!fact.position.empty()) return;
  wrong("needs-position",
        fmt::format("`{}` of {} is measured at positions, and none is named; nothing was stored", limit.name,
                    service::cleaned(fact.machine)),
        fmt::format("say which: --position {}; or --position all", fmt::join(limit.positions, ", --position ")));
}

service::Fact measurement_of(const std::string& written, const service::Fact& about, const service::Fleet& fleet,
                             const Arguments& arguments) {
  const service::Fact told = service::measurement_told(written);
  service::Fact fact = about;
  fact.name = told.name;
  fact.value = told.value;
  if (!fact.note.empty()) {
    wrong("no-note", "a measurement has no note", "leave --note out, or write a sign in a command of its own");
  }
  fact.unit = arguments.value("unit").value_or("");
  fact.position = arguments.value("position").value_or("");
  std::vector<std::string> names;
  const auto all = measured_names(fleet, *fleet.machine(fact.machine));
  for (const service::MeasuredName& one : all) names.push_back(one.name);
  if (const auto name = service::name_written(fact.name, names)) {
    insist_on_position(
        *std::find_if(all.begin(), all.end(), [&](const service::MeasuredName& one) { return one.name == *name; }),
        fact);
  }
  return fact;
}

// What was seen, listed signs by their names and all else in its own words, and that the machine must not run where
// those say so for certain.
void add_signs(std::vector<service::Fact>& facts, const Context& context, const Session& session,
               const service::Machine& machine, const std::string& written) {
  const service::Fact about = fact_about(context, session, service::FactKind::sign, machine);
  const service::StopTold stop = stop_told(*session.fleet, machine, written, about.note);
  const bool stops = stop.says == service::MustNotRun::said;
  const std::string& seen = stops && !stop.why.empty() ? stop.why : written;
  const auto signs =
      context.arguments.has("new") ? service::SignsTold{{{seen, ""}}} : signs_told(*session.fleet, machine, seen);
  const auto and_note = [&](const std::string& note) {
    return note + (note.empty() || about.note.empty() ? "" : "; ") + about.note;
  };
  for (const service::SignNoted& sign : signs.signs) {
    service::Fact fact = about;
    fact.name = sign.name;
    fact.note = and_note(sign.note);
    facts.push_back(std::move(fact));
  }
  if (stops) facts.push_back(out_of_use_beside(about, and_note(stop.why)));
}

}  // namespace

int saw(Context& context) {
  const Arguments& arguments = context.arguments;
  const Session session = open_fleet(context);
  const auto& machine = the_machine(*session.fleet, arguments.words[0]);
  std::vector<service::Fact> facts;
  std::vector<std::string> sign;  // its words
  for (const std::string& written : joined_at_equals({arguments.words.begin() + 1, arguments.words.end()})) {
    if (written.find('=') == std::string::npos) {
      sign.push_back(written);
      continue;
    }
    const service::Fact fact = fact_about(context, session, service::FactKind::measurement, machine);
    facts.push_back(measurement_of(written, fact, *session.fleet, arguments));
  }
  if (facts.empty()) {
    insist_on_measurement(arguments, "unit");
    insist_on_measurement(arguments, "position");
  }
  if (!sign.empty()) {
    add_signs(facts, context, session, machine, service::sign_told(sign));
  }
  for (const service::Fact& fact : facts) ask_back_if_near(context, *session.fleet, machine, fact, session.today);
  auto record = open_record(context, session.folder, service::Access::write);
  Written written = write(context, session, record, request_of(context, session, facts));
  for (const service::Fact& fact : written.entered.added) {
    if (arguments.has("new")) break;
    if (const auto near = near_told(*session.fleet, machine, fact)) {
      // What was only tried is not there to be taken back: `undo` would strike something else.
      // And what was told beside it stays.
      const bool alone = written.entered.added.size() == 1;
      const std::string back = written.entered.dry_run ? ""
                               : alone                 ? context.look.command + " undo; "
                                       : fmt::format("{} strike {}; ", context.look.command, short_text(fact.id));
      written.next.push_back(fmt::format("If `{}` was meant: {}{}", near->name, back,
                                         command_to_say(*near, fact, session.today, context.look.command)));
    }
  }
  for (const service::SeenSign& seen : written.entered.seen) {
    written.next.push_back("When somebody has looked: " + command_to_look(seen, *session.fleet, context.look.command));
  }
  tell(context, written);
  return 0;
}

}  // namespace cli
