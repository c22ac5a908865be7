// What a meter shows, and what was done.
#include "entry/message_verbs.h"

#include <fmt/format.h>

#include <algorithm>

#include "entry/message_overheard.h"
#include "entry/message_tasks.h"
#include "entry/message_two_lines.h"
#include "entry/others_figures.h"
#include "service/text.h"
#include "service/typed.h"

namespace service::entry::message {
namespace {

void add_value(Fact& fact, const Machine& machine, const Tail& tail) {
  fact.at = tail.at;
  fact.sure = tail.sure;
  fact.meter = tail.meter;
  if (fact.at && fact.meter.empty() && machine.first_meter() != nullptr) fact.meter = machine.first_meter()->name;
}

// What was done, but for words that say that something is not so.
std::string or_what_was_done(const Machine& machine, std::string_view words) {
  return denies(words) ? "" : fmt::format("; what was done, done {} TASK", machine.key);
}

// Words around one value, or none.
[[noreturn]] void say_the_value_or_what_it_is(const Machine& machine, Words words) {
  const auto is_value = [](const Word& word) { return is_number(word.text); };
  if (std::count_if(words.begin(), words.end(), is_value) != 1) ask_what_it_is(machine, joined(words), "");
  const std::string value = std::find_if(words.begin(), words.end(), is_value)->text;
  wrong("not-understood", fmt::format("`{}` is nothing that a meter of {} shows", joined(words), machine.key),
        fmt::format("where its meter shows {1}, say {0} {1} alone; what was seen: saw {0} {2}; where it must not run, "
                    "out-of-use {0}{3}",
                    machine.key, value, joined(words), or_what_was_done(machine, joined(words))));
}

// A word in which amounts are told, such as of fuel. It names nothing that anybody saw.
bool is_of_amounts(const Word& word) {
  constexpr auto units = std::to_array<std::string_view>(
      {"l",        "litre", "litres", "liter", "liters", "ml",    "gal",    "gallon", "gallons", "pint",   "pints",
       "kg",       "g",     "t",      "ton",   "tons",   "tonne", "tonnes", "lb",     "lbs",     "ha",     "hectare",
       "hectares", "acre",  "acres",  "bale",  "bales",  "mm",    "cm",     "m",      "km",      "mile",   "miles",
       "bar",      "psi",   "kpa",    "kw",    "kwh",    "hp",    "rpm",    "v",      "volt",    "volts",  "%",
       "percent",  "h",     "hr",     "hrs",   "hour",   "hours", "min",    "mins",   "minute",  "minutes"});
  return is_one_of(word, units);
}

// One word behind a value, or two: it may be a unit that no meter of it counts in, and not a word to drop.
bool may_be_a_unit(Words words) {
  const std::string& text = words.front().text;
  return !text.empty() && text.find_first_of("0123456789?!") == std::string::npos &&
         (words.size() == 1 || is_like_a_day(words[1].text) || (is_of_amounts(words[0]) && is_word(words[1], "of"))) &&
         std::string_view("abcdefghijklmnopqrstuvwxyz%").find(folded_name(text).front()) != std::string_view::npos;
}

// Why the words behind a machine are no reading.
[[noreturn]] void say_why_no_reading(const Told& told, const Machine& machine, Words words) {
  ask_for_two_lines(told, machine, words);
  if (verb_of(words)) {
    const std::size_t count = verb_of(words)->second;
    wrong(
        "not-understood", fmt::format("`{}` stands behind the machine", joined(words.first(count))),
        fmt::format("put it before: {} {} {}", joined(words.first(count)), machine.key, joined(words.subspan(count))));
  }
  if (words[0].text.find_first_not_of("0123456789.,") == std::string::npos && !is_number(words[0].text)) {
    wrong("not-understood", fmt::format("`{}` {}", words[0].text, typed_amount(words[0].text).problem),
          std::string(forms_of_numbers));
  }
  if (words.size() > 1 && verb_of(words.last(1)) == std::pair{Verb::done, std::size_t{1}} && !denies(joined(words))) {
    const std::string what = joined(words.first(words.size() - 1));
    wrong("not-understood", "`done` stands at the end", fmt::format("put it before: done {} {}", machine.key, what));
  }
  if (!is_number(words[0].text)) say_the_value_or_what_it_is(machine, words);
  const Words rest = words.subspan(1);
  if (std::any_of(rest.begin(), rest.end(), [](const Word& word) { return is_number(without_stop(word.text)); })) {
    wrong("not-understood", fmt::format("there is a second value: `{}`", joined(words)),
          fmt::format("say the right value alone: {} VALUE", machine.key));
  }
  if (may_be_a_unit(rest)) {
    std::string hint = fmt::format("{}: say the value as it shows it", units_counted(machine));
    if (!is_of_amounts(rest[0])) {
      hint += fmt::format("; if that is what was seen, in a line of its own: saw {} {}", machine.key, joined(rest));
    }
    wrong("other-unit", fmt::format("`{}` behind the value is not understood", joined(rest)), std::move(hint));
  }
  ask_what_it_is(machine, joined(rest), words[0].text);
}

// Whoever has looked at a filter says that he checked it, and so does whoever changed it and looked for leaks.
[[noreturn]] void ask_what_was_checked(const Fleet& fleet, const Machine& machine, const std::vector<Fact>& facts,
                                       const Tail& tail) {
  std::string behind = tail.at ? " at " + tail.at_text : "";
  if (!tail.meter.empty()) behind += " meter " + tail.meter;
  if (tail.on) behind += ' ' + to_text(*tail.on);
  if (!tail.by.empty()) behind += " by " + tail.by;
  std::vector<std::string> tasks;
  for (const Fact& fact : facts) tasks.push_back(fact.position.empty() ? fact.task : fact.task + '@' + fact.position);
  const std::string done = fmt::format("done {} {}", machine.key, fmt::format("{}", fmt::join(tasks, ", ")));
  std::string hint = fmt::format("where it is done, say so without that word: {}{}", done, behind);
  const auto all = with_checks(fleet, machine, facts);
  if (all.size() > facts.size()) {
    for (std::size_t i = facts.size(); i < all.size(); ++i) {
      tasks.push_back(all[i].position.empty() ? all[i].task : all[i].task + '@' + all[i].position);
    }
    hint += fmt::format("; and its checks with it: done {} {}{}", machine.key, fmt::join(tasks, ", "), behind);
  }
  wrong("checked-or-done",
        fmt::format("`checked` may mean that {} done, or only looked at", facts.size() == 1 ? "it is" : "they are"),
        fmt::format("{0}; where it was only looked at, what was seen: saw {1} SIGN, or looked {1} SIGN found good",
                    hint, machine.key));
}

// Whoever only looked says how he found it too, and so does whoever renewed what he found worn. Of a check that never
// waits nothing is asked where it found something bad: that stays on the list.
void insist_on_how_it_was_found(const Fleet& fleet, const Machine& machine, const std::vector<Fact>& facts) {
  const KeptAsSeen kept(fleet, machine);
  if (std::all_of(facts.begin(), facts.end(), [&](const Fact& fact) { return kept.of(fact).has_value(); })) return;
  const std::string_view how = to_text(*facts.front().found);
  const bool bad = found_bad(facts.front());
  throw AskedBack(
      {"found-or-done",
       fmt::format("`found {}` may mean that {} done, or only looked at", how,
                   facts.size() == 1 ? "it is" : "they are"),
       fmt::format("where it was only looked at, say what was seen: {}; where it is done, send it without `found`",
                   bad ? fmt::format("saw {0} SIGN, and where it must not run, out-of-use {0}", machine.key)
                       : fmt::format("looked {} SIGN found good", machine.key))},
      facts);
}

// `3 hours today` says how long it ran.
void insist_on_no_duration(const Machine& machine, const Tail& tail, Words words) {
  constexpr auto hours_of_day = Amount{2400};
  const bool is_at = std::any_of(words.begin(), words.end(), [](const Word& word) { return is_word(word, "at"); });
  if (is_at || !tail.on || tail.unit.empty() || *tail.at > hours_of_day) return;
  const std::string unit = folded_name(tail.unit);
  if (unit != "h" && !unit.starts_with("hr") && !unit.starts_with("hour")) return;
  wrong("value-or-duration", fmt::format("`{}` may be how long it ran", joined(words)),
        fmt::format("say what the meter shows: {} at {}", machine.key, tail.at_text));
}

}  // namespace

void ask_what_it_is(const Machine& machine, const std::string& words, const std::string& value) {
  const std::string first =
      value.empty() ? "" : fmt::format("say {} {} alone, and in a line of its own ", machine.key, value);
  wrong("not-understood",
        value.empty() ? fmt::format("`{}` is nothing that a meter of {} shows", words, machine.key)
                      : fmt::format("`{}` behind the value is not understood, and the value is not taken", words),
        fmt::format("{0}{1}saw {2} {3}; where it must not run, out-of-use {2}{4}", first,
                    value.empty() ? "begin with what it is: " : "what it is: ", machine.key, words,
                    or_what_was_done(machine, words)));
}

namespace {

// `is now at 2081.5`, `hours 2081.5`: words before a value that say nothing else.
Words behind_small_words(Words words) {
  constexpr auto small = std::to_array<std::string_view>({"is", "now", "shows", "reads", "hours", "hour"});
  std::size_t count = 0;
  while (count < words.size() && !words[count].quoted && is_one_of(words[count], small)) ++count;
  const Words rest = words.subspan(count);
  const bool value = !rest.empty() && (is_word(rest[0], "at") || is_number(figure_of(rest[0].text).number));
  return value ? rest : words;
}

}  // namespace

Fact fact_about(const Told& told, FactKind kind, const Machine& machine, const std::optional<DaySpan>& on) {
  Fact fact;
  fact.kind = kind;
  fact.machine = machine.key;
  if (!on && !told.on)
    wrong("bad-day", fmt::format("its day is not known: {}", told.no_day), "say the day at its end, as 2026-03-01");
  fact.on = on ? *on : DaySpan(*told.on);
  return fact;
}

Said reading_in(const Told& told, const Machine& machine, Words words) {
  if (words.empty()) {
    wrong("not-understood", fmt::format("nothing is said of {}", machine.key),
          fmt::format("what its meter shows: {} 1250.5", machine.key));
  }
  words = behind_small_words(words);
  if (words.size() > 1 && value_ends_at_comma(words)) ask_for_two_lines(told, machine, words);
  Tail tail;
  try {
    tail = tail_in(told, machine, Verb::reading, words);
  } catch (const Failure& failure) {
    if (failure.diagnostics().front().code != "not-understood") throw;
    say_why_no_reading(told, machine, words);
  }
  if (!tail.at)
    wrong("no-value", fmt::format("no value of {} is told", machine.key),
          fmt::format("say what its meter shows: {} 1250.5", machine.key));
  insist_on_unit(machine, tail);
  insist_on_no_duration(machine, tail, words);
  Fact fact = fact_about(told, FactKind::reading, machine, tail.on);
  add_value(fact, machine, tail);
  return {{fact}, tail.on.has_value(), tail.day_counts};
}

Said done_in(const Told& told, const Machine& machine, Words words) {
  const DoneWords said = done_words(told, machine, words);
  insist_on_plain_value(said.tail);
  insist_on_unit(machine, said.tail);
  if (!said.tail.meter.empty() && !said.tail.at) {
    wrong("meter-without-value", fmt::format("meter `{}` is named, but not what it showed", said.tail.meter),
          "say the value too");
  }
  Fact fact = fact_about(told, FactKind::service, machine, said.tail.on);
  add_value(fact, machine, said.tail);
  fact.found = said.tail.found;
  fact.by = said.tail.by.empty() ? told.by : said.tail.by;
  fact.note = said.tail.note;
  std::vector<Fact> facts;
  for (const TaskTold& task : said.tasks) {
    fact.task = task.task;
    fact.position = task.position;
    facts.push_back(fact);
  }
  if (said.tail.checked) ask_what_was_checked(told.fleet, machine, facts, said.tail);
  if (fact.found) insist_on_how_it_was_found(told.fleet, machine, facts);
  if (!fact.note.empty()) {
    throw AskedBack(
        {"done-with-words", fmt::format("`{}` behind it may say that it is not all done", fact.note),
         fmt::format("where it is all done, send it without that, and what is left in a message of its own: "
                     "saw {} SIGN",
                     machine.key)},
        std::move(facts));
  }
  return {std::move(facts), said.tail.on.has_value(), said.tail.day_counts};
}

}  // namespace service::entry::message
