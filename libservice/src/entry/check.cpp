// A whole book looked at beside the fleet files of today.
#include <fmt/format.h>

#include <algorithm>
#include <map>

#include "entry/healed.h"
#include "service/entry.h"
#include "service/healed_values.h"
#include "service/usage.h"

namespace service {
namespace {

Cure strike(const FactId& fact, std::string_view which = {}) {
  Cure cure{CureKind::strike_fact, {{"fact", to_text(fact)}}};
  if (!which.empty()) cure.values.emplace_back("which", which);
  return cure;
}

// `, for front-left`, where one of the two is of all positions.
std::string where_double(const WrittenTwice& two) {
  if (!two.at_one_position()) return "";
  return ", for " + (two.earlier.position.empty() ? two.later : two.earlier).position;
}

class BookCheck {
 public:
  BookCheck(const std::shared_ptr<const Fleet>& fleet, const std::vector<Fact>& facts, Day today, bool day_is_given)
      : fleet_(fleet), facts_(facts), today_(today), snapshot_(fleet, whole_book(facts), today, day_is_given) {
    for (const Fact& fact : facts) by_id_.emplace(fact.id, &fact);
  }

  std::vector<FactDiagnostic> run() {
    judged_again();
    gaps();
    twice();
    healed();
    ended();
    return std::move(found_);
  }

 private:
  void say(const std::optional<FactId>& fact, Diagnostic what) {
    found_.push_back({fact ? std::optional(*by_id_.at(*fact)) : std::nullopt, std::move(what)});
  }

  void judged_again() {
    for (auto& [fact, what] : judge_again(*fleet_, facts_, today_)) {
      // Of a machine that is not listed all facts are told at once.
      const bool about_machine = what.code == "unlisted-machine";
      if (!about_machine && what.severity == Severity::error) what.cures.push_back(strike(fact));
      say(about_machine ? std::nullopt : std::optional(fact), std::move(what));
    }
  }

  void gaps() {
    for (const Gap& gap : due_list(snapshot_, {today_, {}, Detail::standings}, straight_line()).gaps) {
      if (gap.kind == GapKind::clock) say({}, {"clock", gap.say, "mend the clock, or strike the fact"});
      if (gap.kind == GapKind::doubtful) {
        const Fact& value = *by_id_.at(gap.facts.front());
        say(value.id, {"doubtful-reading",
                       gap.say,
                       "look at the meter again",
                       std::nullopt,
                       Severity::remark,
                       {strike(value.id), confirmation_of(value, *fleet_->machine(gap.machine))}});
      }
      if (gap.kind == GapKind::ran_while_not_in_use) {
        // Of a lay-up that is over the value that tells it is not named.
        const bool named = !gap.facts.empty();
        Diagnostic what{"ran-while-not-in-use",
                        named ? gap.say : fmt::format("{}: {}", cleaned(gap.machine), gap.say),
                        "where it is back, write that down; where it stands, say so again",
                        std::nullopt,
                        Severity::remark,
                        {}};
        if (named) what.cures.push_back(strike(gap.facts.front()));
        say(named ? std::optional(gap.facts.front()) : std::nullopt, std::move(what));
      }
      if (gap.kind != GapKind::contradiction) continue;
      Diagnostic what{"contradiction", fmt::format("{}: {}", cleaned(gap.machine), gap.say), ""};
      for (const FactId& fact : gap.facts) what.cures.push_back(strike(fact, "either"));
      say({}, std::move(what));
    }
  }

  void twice() {
    for (const WrittenTwice& two : written_twice(snapshot_)) {
      Diagnostic what{
          "written-twice",
          fmt::format("was already written down on {} ({}){}; {}", to_text(two.earlier.on), short_text(two.earlier.id),
                      where_double(two), two.same_day() ? "they count as one" : "both stand"),
          "nothing needs doing where it was done twice", std::nullopt, Severity::remark};
      if (const Fact* spare = two.spare()) what.cures.push_back(strike(spare->id, "second"));
      say(two.later.id, std::move(what));
    }
  }

  void healed() {
    for (const Machine& machine : fleet_->machines) {
      for (const HealedValue& value : healed_values(*fleet_, machine, snapshot_.facts_of(machine.key))) {
        const std::string unit = value.unit.empty() ? "" : ' ' + value.unit;
        say(value.is.id,
            {"value-heals",
             fmt::format("{} was {}{} on {}, limit {}{}, and nothing says that it was renewed since",
                         point_label(value.is.name, value.position), to_text(*value.was.value), unit,
                         to_text(value.was.on), to_text(value.limit), unit),
             fmt::format("where it was renewed, write down that {} was done", point_label(value.task, value.position)),
             std::nullopt,
             Severity::remark,
             {strike(value.is.id, "second"), strike(value.was.id, "either")}});
      }
    }
  }

  // A value at its limit that a check has ended, of which nobody says how.
  void ended() {
    for (const Machine& machine : fleet_->machines) {
      const auto& facts = snapshot_.facts_of(machine.key);
      for (const entry::Ended& value : entry::ended_in(*fleet_, machine, facts)) {
        const Fact& was = facts[value.was];
        const Fact& by = facts[value.by];
        const std::string unit = was.unit.empty() ? "" : ' ' + was.unit;
        say(by.id, {"value-ends",
                    fmt::format("{} was {}{} on {}, limit {}{}, and counts no more, as if it was renewed or put right",
                                point_label(was.name, value.position), to_text(*was.value), unit, to_text(was.on),
                                to_text(value.limb.limit), unit),
                    "write down what it measures now; where it was only looked at, that value again",
                    std::nullopt,
                    Severity::remark,
                    {}});
      }
    }
  }

  std::shared_ptr<const Fleet> fleet_;
  const std::vector<Fact>& facts_;
  Day today_;
  Snapshot snapshot_;
  std::map<FactId, const Fact*> by_id_;
  std::vector<FactDiagnostic> found_;
};

}  // namespace

std::vector<FactDiagnostic> check_book(const std::shared_ptr<const Fleet>& fleet, const std::vector<Fact>& facts,
                                       Day today, bool day_is_given) {
  return BookCheck(fleet, facts, today, day_is_given).run();
}

std::vector<FactDiagnostic> check_all(const std::shared_ptr<const Fleet>& fleet, const Legible& book, Day today,
                                      bool day_is_given, bool strict) {
  std::vector<FactDiagnostic> found;
  const auto add = [&](const std::vector<Diagnostic>& diagnostics) {
    for (const Diagnostic& what : diagnostics) found.push_back({std::nullopt, what});
  };
  if (fleet != nullptr) add(fleet->remarks);
  if (fleet != nullptr && strict) add(odd_intervals(*fleet));
  add(book.diagnostics);
  if (fleet == nullptr) return found;
  for (FactDiagnostic& one : check_book(fleet, book.facts, today, day_is_given)) found.push_back(std::move(one));
  return found;
}

}  // namespace service
