#include "entry/message_against.h"

#include <fmt/format.h>

#include <algorithm>
#include <set>

#include "entry/message_answers.h"
#include "entry/message_words.h"

namespace service::entry {

bool is_earlier(const Fact& sign, const Draft& its, const Fact& answer, const Draft& line) {
  if (sign.on.last < answer.on.first) return true;
  return sign.on.first <= answer.on.last && sent_before(its, line);
}

SaidAgainst::Against SaidAgainst::speaks_against(const Fact& said, const Draft& its, const Fact& answer,
                                                 const Draft& line) const {
  if (said.machine != answer.machine) return mentions(said, answer, line) ? Against::own_words : Against::nothing;
  const bool earlier = is_earlier(said, its, answer, line);
  if (said.kind == FactKind::out_of_use) return earlier || said.note.empty() ? Against::nothing : Against::own_words;
  const Machine& machine = *text_.fleet().machine(said.machine);
  if (is_bad_look(said))
    return !earlier && answers(text_.fleet(), machine, answer, said) ? Against::sign : Against::nothing;
  if (said.kind != FactKind::sign) return Against::nothing;
  // The very words that a look answers, said before it, are no others.
  const bool is_it = earlier && answer.kind == FactKind::looked_at && answer.name == said.name;
  if (is_listed(machine, said.name) && !earlier) return Against::sign;
  if (is_listed(machine, said.name) && (!its.own_words || said.note.empty())) return Against::nothing;
  return is_it ? Against::nothing : Against::own_words;
}

bool SaidAgainst::is_sign_in_own_words(const Fact& said) const {
  return said.kind == FactKind::sign && !is_listed(*text_.fleet().machine(said.machine), said.name);
}

bool SaidAgainst::is_listed(const Machine& machine, const std::string& sign) const {
  return listed_.try_emplace(machine.key, text_.fleet(), machine).first->second.is_listed(sign);
}

Diagnostic SaidAgainst::why_against(Against against, const Fact& said, const Draft& its, const Fact& answer,
                                    const Draft& line) const {
  const std::string alone = "where it is so all the same, send it alone";
  if (against == Against::own_words) {
    return {"own-words-beside",
            fmt::format("line {} says of {} in its own words `{}`, and may say that it is not so", its.line.number,
                        said.machine, is_sign_in_own_words(said) ? said.name : said.note),
            alone};
  }
  const bool is_answer = answers(text_.fleet(), *text_.fleet().machine(said.machine), answer, said);
  if (!sent_before(line, its) && said.on.first <= answer.on.last) {
    return {"which-came-first",
            fmt::format("`{}` of {} stands in line {}, and nobody knows which came first", said.name, said.machine,
                        its.line.number),
            is_answer ? "say the day of both, or send it alone once somebody has seen to that" : alone};
  }
  std::string when = fmt::format("in line {}", its.line.number);
  if (said.on.first > answer.on.last) {
    when = fmt::format("on {}", to_text(said.on));
  } else if (its.block != line.block) {
    constexpr int minute = 60;
    const int minutes = *its.stamp->second / minute;
    when = *its.sent_on == *line.sent_on ? fmt::format("at {:02}:{:02}", minutes / minute, minutes % minute) : when;
  }
  return {"seen-after", fmt::format("`{}` of {} was seen after it, {}", said.name, said.machine, when),
          is_answer ? "it does not answer that; say it anew once somebody has seen to it" : alone};
}

std::string SaidAgainst::own_words_of(const Fact& said) const {
  const Machine& machine = *text_.fleet().machine(said.machine);
  if (said.kind == FactKind::out_of_use) return said.note;
  if (said.kind != FactKind::sign && !is_bad_look(said)) return "";
  const bool no_note = said.found && said.note == fmt::format("found {}", to_text(*said.found));
  return (is_listed(machine, said.name) ? "" : said.name + ' ') + (no_note ? "" : said.note);
}

bool SaidAgainst::mentions(const Fact& said, const Fact& answer, const Draft& its) const {
  const std::string words = own_words_of(said);
  if (words.empty()) return false;
  const auto heard = own_words_.try_emplace(words, text_.fleet(), words).first;
  return heard->second.mentions(*text_.fleet().machine(answer.machine), things_of(its));
}

const std::vector<std::string>& SaidAgainst::things_of(const Draft& cleared) const {
  const auto [things, is_first] = things_.try_emplace(cleared.line.number);
  if (is_first) {
    // Of one that is asked back: what it would say.
    const std::vector<Fact>& facts = cleared.facts.empty() ? cleared.line.instead : cleared.facts;
    things->second = things_of(*text_.fleet().machine(facts.front().machine), facts);
  }
  return things->second;
}

std::vector<std::string> SaidAgainst::things_of(const Machine& machine, const std::vector<Fact>& facts) const {
  std::set<std::string> words;
  const auto add = [&](std::string_view text) {
    for (std::string& word : plain_words(text)) words.insert(std::move(word));
  };
  const auto add_limbs = [&](const MachineTask& task) {
    for (const LimbChoice& choice : task.every) {
      if (const auto* limb = std::get_if<MeasuredLimb>(&choice.candidates.front())) add(limb->name);
      const auto* signs = std::get_if<SignLimb>(&choice.candidates.front());
      for (const std::string& sign : signs != nullptr ? signs->signs : std::vector<std::string>{}) add(sign);
    }
  };
  const Schedule& schedule = text_.fleet().schedule_of(machine);
  for (const Fact& fact : facts) {
    for (const std::string& text : {fact.task, fact.position, fact.name}) add(text);
    if (fact.kind == FactKind::reading) add("value reading meter hours");
    if (fact.kind != FactKind::service) continue;
    for (const std::string& name : done_with(schedule, fact.task)) {
      add(name);
      if (const auto task = task_of(text_.fleet(), machine, name)) add_limbs(*task);
    }
  }
  return {words.begin(), words.end()};
}

}  // namespace service::entry
