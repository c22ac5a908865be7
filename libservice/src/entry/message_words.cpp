#include "entry/message_words.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <utility>

#include "entry/message_near_machine.h"
#include "entry/message_overheard.h"
#include "entry/message_verbs.h"
#include "service/telling.h"
#include "service/text.h"

namespace service::entry {
namespace message {
namespace {

constexpr std::array<std::string_view, 7> not_taken{"put-off", "lay-up", "back", "meter-change",
                                                    "count",   "strike", "undo"};

// For words that say that something is not so.
constexpr std::string_view forms_of_alarm =
    "what was seen: saw MACHINE SIGN; where it must not run, out-of-use MACHINE";

struct MachineFound {
  const Machine* machine = nullptr;  // null: none of these words begins with one
  std::size_t words = 0;
};

// By the most words: `pump 3 1200` is pump 3's, where there is one. A colon behind it is no part of it.
MachineFound machine_in(const Fleet& fleet, Words words) {
  constexpr std::size_t longest_name = 10;
  for (std::size_t count = std::min(words.size(), longest_name); count > 0; --count) {
    std::string text = joined(words.first(count));
    const bool ends = !words[count - 1].quoted && (text.ends_with(':') || text.ends_with(','));
    if (ends) text.pop_back();
    const auto named = machine_named(fleet, text);
    if (named.one != nullptr) {
      if (!ends && !words[count - 1].quoted) insist_on_end_of_name(fleet, *named.one, words, count);
      return {named.one, count};
    }
    if (!named.several.empty()) machine_told(fleet, text);  // says which
  }
  return {};
}

Said said_by(Verb verb, const Told& told, Words words) {
  std::vector<Word> trimmed(words.begin(), words.end());
  const bool own = verb == Verb::saw || verb == Verb::out_of_use;
  const auto found = machine_in(told.fleet, trimmed);
  if (!own) drop_last_nods(trimmed);
  if (!trimmed.empty() && !trimmed.back().quoted && trimmed.size() > found.words)
    trimmed.back().text = without_stop(trimmed.back().text);
  if (!own) drop_last_nods(trimmed);
  if (found.machine == nullptr) {
    if (trimmed.empty()) wrong("no-machine", "no machine is named", std::string(forms));
    // Its name is what stands before the first figure, else one word.
    const auto figure =
        std::find_if(trimmed.begin(), trimmed.end(), [](const Word& word) { return is_number(word.text); });
    const auto count =
        verb == Verb::reading && figure != trimmed.begin() ? static_cast<std::size_t>(figure - trimmed.begin()) : 1;
    machine_told(told.fleet, joined(Words(trimmed).first(count)));
    wrong("not-understood", "no machine is named", std::string(forms));
  }
  const Words rest = Words(trimmed).subspan(std::min(found.words, trimmed.size()));
  switch (verb) {
    case Verb::reading:
      return reading_in(told, *found.machine, rest);
    case Verb::done:
      return done_in(told, *found.machine, rest);
    case Verb::saw:
      return saw_in(told, *found.machine, rest);
    case Verb::looked:
      return looked_in(told, *found.machine, rest);
    case Verb::out_of_use:
      return out_of_use_in(told, *found.machine, rest);
  }
  return {};
}

// No command, and no machine: what may have been meant.
[[noreturn]] void say_nothing_is_known(const Fleet& fleet, Words words) {
  for (const std::string_view name : not_taken) {
    if (!words.empty() && is_word(words[0], name)) {
      wrong("not-from-messages", fmt::format("`{}` is not taken from messages", name),
            "enter it by the command of that name");
    }
  }
  const auto figure = std::find_if(words.begin(), words.end(), [](const Word& word) { return is_number(word.text); });
  const bool has_value = figure != words.begin() && figure != words.end();
  // The words before the first figure, else one, may be the name of a machine.
  const std::string name = joined(words.first(has_value ? static_cast<std::size_t>(figure - words.begin()) : 1));
  // What takes something off a list is offered to nobody who did not say it.
  std::vector<std::string> names;
  for (const auto& [verb, meaning] : verbs) {
    if (meaning != Verb::done) names.emplace_back(verb);
  }
  // Nor is a command to whoever denies something, or speaks another language: behind one stands a machine.
  constexpr std::size_t least_near = 5;
  const bool denied = denies(joined(words));
  const bool may_begin = !denied && words.size() > 1 &&
                         (machine_in(fleet, words.subspan(1)).machine != nullptr ||
                          (words[1].text.size() >= least_near && !machine_named(fleet, words[1].text).near.empty()));
  const auto near_verbs = may_begin ? nearest(folded_name(words[0].text), names) : std::vector<std::string>{};
  const bool near_machine = !denied && !machine_named(fleet, name).near.empty();
  if (!near_machine && !near_verbs.empty()) {
    wrong("not-understood", fmt::format("`{}` is no word that begins a message", words[0].text),
          did_you_mean(near_verbs));
  }
  if (near_machine || (has_value && !denied)) machine_told(fleet, name);
  wrong("not-understood", "it begins with no machine, and with no word that says what was done or seen",
        std::string(denied ? forms_of_alarm : forms));
}

}  // namespace
}  // namespace message

bool begins_a_message(const Fleet& fleet, std::string_view text) {
  using namespace message;
  const auto words = words_of(text);
  if (verb_of(words)) return true;
  try {
    return machine_in(fleet, words).machine != nullptr;
  } catch (const Failure&) {
    return true;  // of several that it may be
  }
}

bool may_begin_a_message(const Fleet& fleet, std::string_view text) {
  using namespace message;
  if (begins_a_message(fleet, text)) return true;
  const auto words = words_of(text);
  if (words.empty()) return false;
  std::vector<std::string> names;
  for (const auto& [verb, meaning] : verbs) names.emplace_back(verb);
  return !nearest(folded_name(words[0].text), names).empty() || !machine_named(fleet, words[0].text).near.empty() ||
         !machine_named(fleet, joined(Words(words).first(std::min<std::size_t>(words.size(), 2)))).near.empty();
}

std::optional<std::string> before_machine_told(const Fleet& fleet, std::string_view text) {
  using namespace message;
  std::vector<Word> words = words_of(text);
  for (Word& word : words) word.text = without_stop(word.text);
  const bool is_command =
      !words.empty() && (verb_of(words) || std::any_of(not_taken.begin(), not_taken.end(),
                                                       [&](std::string_view name) { return is_word(words[0], name); }));
  if (is_command) return "";
  for (std::size_t from = 0; from < words.size(); ++from) {
    const std::string before = joined(Words(words).first(from));
    try {
      if (machine_in(fleet, Words(words).subspan(from)).machine != nullptr) return before;
    } catch (const Failure&) {
      return before;  // of several that it may be
    }
  }
  return std::nullopt;
}

std::vector<std::string> machines_in(const Fleet& fleet, std::string_view line) {
  using namespace message;
  const std::vector<Word> words = words_of(line);
  const auto verb = verb_of(words);
  std::vector<std::string> machines;
  for (const std::size_t from : {std::size_t{0}, verb ? verb->second : std::size_t{0}}) {
    try {
      if (const auto found = machine_in(fleet, Words(words).subspan(from)); found.machine != nullptr) {
        machines.push_back(found.machine->key);
      }
    } catch (const Failure&) {
      continue;  // one of several, and none of them for certain
    }
  }
  return machines;
}

Said said_in(std::string_view line, const Told& told) {
  using namespace message;
  const std::vector<Word> words = words_of(line);
  const auto verb = verb_of(words);
  const auto machine = machine_in(told.fleet, words);
  if (!verb && machine.machine == nullptr) say_nothing_is_known(told.fleet, words);
  if (!verb) return said_by(Verb::reading, told, words);
  if (machine.machine == nullptr) return said_by(verb->first, told, Words(words).subspan(verb->second));
  // A machine that is called by such a word: what can be read in one way only is taken.
  Said as_reading;
  try {
    as_reading = said_by(Verb::reading, told, words);
  } catch (const Failure&) {
    return said_by(verb->first, told, Words(words).subspan(verb->second));
  }
  try {
    said_by(verb->first, told, Words(words).subspan(verb->second));
  } catch (const Failure&) {
    return as_reading;
  }
  wrong("not-understood", fmt::format("`{}` is a machine and a command", words[0].text),
        "say reading before what a meter shows");
}

}  // namespace service::entry
