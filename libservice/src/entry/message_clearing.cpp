#include "entry/message_clearing.h"

#include <fmt/format.h>

#include <algorithm>
#include <set>

#include "entry/message_answers.h"
#include "service/snapshot.h"

namespace service::entry {
namespace {

Diagnostic why_not_ended(const Machine& machine, const Ended& ended, const Fact& was) {
  const std::string unit = was.unit.empty() ? "" : ' ' + was.unit;
  const std::string task = point_label(ended.task->name, ended.position);
  const std::string looked =
      never_waits(*ended.task, nullptr)
          ? fmt::format("where it was only looked at: done {} {} found worn, or found failed", machine.key, task)
          : "where it was only looked at, that value says it all";
  return {"value-ends",
          fmt::format("{} was {}{} on {}, limit {}{}; this would take {} off the list, and may mean that it was "
                      "renewed or put right, or only looked at",
                      point_label(was.name, ended.position), to_text(*was.value), unit, to_text(was.on),
                      to_text(ended.limb.limit), unit, task),
          looked + "; where it was renewed or put right, enter that by the command"};
}

Diagnostic why_not_ended(const Machine& machine, const EndedSign& ended, const Fact& was) {
  const std::string task = point_label(ended.task->name, ended.position);
  return {"sign-ends",
          fmt::format("`{}` of {} was seen on {}; this would take {} off the list, and may mean that it was renewed or "
                      "put right, or only looked at",
                      was.name, machine.key, to_text(was.on), task),
          fmt::format("where it was only looked at: looked {} {} by WHO found good, or found worn, or found failed; "
                      "where it was renewed or put right, enter that by the command",
                      machine.key, was.name)};
}

}  // namespace

bool Clearing::clears_at(const Draft& draft, std::size_t which) const {
  return draft.is_new[which] && (clears(draft.facts[which]) || heals_.contains({draft.line.number, which}));
}

bool Clearing::clears_anything(const Draft& draft) const {
  for (std::size_t j = 0; j < draft.facts.size(); ++j) {
    if (clears_at(draft, j)) return true;
  }
  return false;
}

bool Clearing::clears_safety(const Draft& draft) const {
  for (std::size_t j = 0; j < draft.facts.size(); ++j) {
    if (clears_at(draft, j) && is_of_safety(draft.facts[j])) return true;
  }
  return false;
}

bool Clearing::is_of_safety(const Fact& fact) const {
  const Machine& machine = *text_.fleet().machine(fact.machine);
  if (fact.kind == FactKind::looked_at) return text_.is_look_of_safety(fact);
  const Schedule& schedule = text_.fleet().schedule_of(machine);
  std::vector<std::string> names = done_with(schedule, fact.task);
  names.push_back(fact.task);
  return std::any_of(names.begin(), names.end(), [&](const std::string& name) {
    const NamedTask named = task_named(schedule, name);
    return named.task != nullptr && never_waits(*named.task, named.follow_up);
  });
}

void Clearing::find_what_heals() {
  heals_.clear();
  std::set<std::string> machines;
  for (const Draft& draft : text_.drafts()) {
    const bool measures = draft.line.fate == LineFate::taken && draft.facts.front().kind == FactKind::measurement;
    if (measures) machines.insert(draft.facts.front().machine);
  }
  for (const std::string& machine : machines) find_what_heals(machine);
}

void Clearing::find_what_heals(const std::string& machine) {
  const auto [facts, places] = text_.together(machine);
  for (Healed& healed : healed_in(text_.fleet(), *text_.fleet().machine(machine), facts)) {
    const auto place = places[healed.is];
    if (place.first == 0) continue;
    auto& heals = heals_[place];
    const bool never_waits = service::never_waits(*healed.task, nullptr);
    if (!heals.what.task || (never_waits && !service::never_waits(*heals.what.task, nullptr))) {
      heals = {std::move(healed), facts[healed.was]};
    }
  }
}

bool Clearing::refuse_what_heals(Draft& draft) {
  if (draft.line.fate != LineFate::taken) return false;
  for (std::size_t j = 0; j < draft.facts.size(); ++j) {
    const auto found = heals_.find({draft.line.number, j});
    if (found == heals_.end() || !never_waits(*found->second.what.task, nullptr)) continue;
    const auto& [what, was] = found->second;
    const Fact& fact = draft.facts[j];
    const std::string unit = was.unit.empty() ? "" : ' ' + was.unit;
    const std::string task = point_label(what.task->name, what.position);
    refuse(draft,
           {"value-heals",
            fmt::format("{} was {}{} on {}, limit {}{}; {}{} would take {} off the list, and nothing says that it was "
                        "renewed",
                        point_label(fact.name, what.position), to_text(*was.value), unit, to_text(was.on),
                        to_text(what.limb.limit), unit, to_text(*fact.value), unit, task),
            fmt::format("where it was renewed, say that before it: done {} {} by WHO; where one of the two is wrong, "
                        "send the right value, or have the wrong one struck",
                        fact.machine, task)});
    return true;
  }
  return false;
}

bool Clearing::refuse_what_ends() {
  std::set<std::string> machines;
  for (const Draft& draft : text_.drafts()) {
    const bool serves = draft.line.fate == LineFate::taken && draft.facts.front().kind == FactKind::service;
    if (serves) machines.insert(draft.facts.front().machine);
  }
  bool any = false;
  for (const std::string& key : machines) {
    const Machine& machine = *text_.fleet().machine(key);
    const auto [facts, places] = text_.together(key);
    for (const Ended& ended : ended_in(text_.fleet(), machine, facts)) {
      any = refuse_service(places[ended.by].first, why_not_ended(machine, ended, facts[ended.was])) || any;
    }
    for (const EndedSign& ended : ended_signs_in(text_.fleet(), machine, facts)) {
      any = refuse_service(places[ended.by].first, why_not_ended(machine, ended, facts[ended.was])) || any;
    }
  }
  return any;
}

bool Clearing::refuse_service(int number, Diagnostic why) {
  const auto draft = std::find_if(text_.drafts().begin(), text_.drafts().end(), [&](const Draft& each) {
    return each.line.number == number && each.line.fate == LineFate::taken;
  });
  if (draft == text_.drafts().end()) return false;
  draft->line.instead = draft->facts;
  refuse(*draft, std::move(why));
  return true;
}

void tell_what_is_cleared(TextBesideBook& text) {
  std::map<std::string, std::vector<Fact>> standing;
  const auto add = [&](const Fact& fact, std::vector<Fact>* cleared) {
    std::vector<Fact>& signs = standing[fact.machine];
    const Machine* machine = text.fleet().machine(fact.machine);
    if (machine == nullptr) return;
    std::erase_if(signs, [&](const Fact& sign) {
      const bool is_answered = sign.on.first <= fact.on.first && answers(text.fleet(), *machine, fact, sign);
      if (is_answered && cleared != nullptr &&
          std::none_of(cleared->begin(), cleared->end(), [&](const Fact& one) { return one.name == sign.name; })) {
        cleared->push_back(sign);
      }
      return is_answered;
    });
    if (fact.kind == FactKind::sign || is_bad_look(fact)) signs.push_back(fact);
  };
  for (const auto& [key, facts] : text.book()) {
    for (const Fact& fact : facts) add(fact, nullptr);
  }
  for (Draft& draft : text.drafts()) {
    draft.line.clears.clear();
    if (draft.line.fate != LineFate::taken) continue;
    for (std::size_t j = 0; j < draft.facts.size(); ++j) {
      if (draft.is_new[j]) add(draft.facts[j], &draft.line.clears);
    }
  }
}

}  // namespace service::entry
