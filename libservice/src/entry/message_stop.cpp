#include "entry/message_stop.h"

#include <fmt/format.h>

#include <algorithm>
#include <utility>

#include "entry/message_overheard.h"
#include "entry/message_who.h"

namespace service::entry {
namespace message {
namespace {

constexpr std::string_view to_keep_it = "to keep it from being run send: out-of-use {} {}";

// As it may stand behind `out-of-use`: what denies, or hangs on something, would be asked back.
std::string reason(const std::string& why) {
  const auto words = words_of(why);
  const bool is_plain = std::none_of(words.begin(), words.end(), [](const Word& word) {
    return makes_a_condition(word) || names_no_certain_day(word);
  });
  return why.empty() || !is_plain || denies(why) ? "WHY" : why;
}

}  // namespace

StopSaid stop_said(const Told& told, const Machine& machine, Words written, const std::vector<std::string>& own,
                   const std::string& note) {
  const std::string text = fmt::format("{}", fmt::join(own, " "));
  StopSaid said{stop_told(told.fleet, machine, text, note), own};
  if (said.told.says != MustNotRun::said) return said;
  const bool quotes = std::any_of(written.begin(), written.end(), [](const Word& word) {
    return word.quoted && stop_told(word.text).says != MustNotRun::not_said;
  });
  if (quotes) {
    said.told.says = MustNotRun::may_be_said;
  } else if (!said.told.why.empty() && !own.empty()) {
    said.others.clear();
    for (const Word& word : words_of(said.told.why)) said.others.push_back(word.text);
  }
  return said;
}

void add_stop(Said& said, const StopSaid& stop, std::string why) {
  const Fact seen = said.facts.front();
  if (stop.told.says == MustNotRun::said) {
    said.facts.push_back(out_of_use_beside(seen, std::move(why)));
  } else if (stop.told.says == MustNotRun::may_be_said) {
    said.asks.push_back({"run-or-not", "it may say that the machine must not run, and that is not taken",
                         fmt::format(fmt::runtime(to_keep_it), seen.machine, reason(stop.told.why)) +
                             "; where it may run, nothing more is needed"});
  }
}

}  // namespace message

void tell_how_to_stop(const Fleet& fleet, std::string_view line, std::vector<Diagnostic>& wrong) {
  const std::vector<message::Word> words = message::words_of(line);
  const auto verb = message::verb_of(words);
  if (verb && verb->first == message::Verb::out_of_use) return;  // it is said, and something else is wrong
  const std::vector<std::string> machines = machines_in(fleet, line);
  if (wrong.empty() || machines.empty() || stop_told(line).says == MustNotRun::not_said) return;
  std::string& hint = wrong.front().hint;
  if (hint.find("out-of-use") != std::string::npos) return;
  hint = fmt::format(fmt::runtime(message::to_keep_it), machines.back(), "WHY") + (hint.empty() ? "" : "; ") + hint;
}

}  // namespace service::entry
