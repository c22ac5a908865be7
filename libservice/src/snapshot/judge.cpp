// Judging a batch: each fact by itself, then what a file says again, then each meter's line, then ids.
#include <fmt/format.h>

#include <algorithm>
#include <map>
#include <optional>
#include <set>
#include <string_view>
#include <tuple>
#include <unordered_map>
#include <unordered_set>

#include "service/snapshot.h"
#include "snapshot/judge_meters.h"
#include "snapshot/judge_names.h"

namespace service {
namespace {

// Ids are drawn at random, so two facts of one id are one fact, and one of the two was changed by hand.
bool same_fact(const Fact& a, const Fact& b) {
  return same_content(a, b) && a.entered == b.entered && a.entered_by == b.entered_by && a.origin == b.origin;
}

Diagnostic id_clash(const Fact& fact) {
  return {"id-clash", fmt::format("another fact has the id {} already", to_text(fact.id)),
          "take the row as `export` wrote it; to correct a fact, strike it and enter the right one without an id"};
}

// Facts are large, so those of the book stay where they are.
FactPointers in_order(FactPointers facts) {
  const auto by_day = [](const Fact* a, const Fact* b) { return before(*a, *b); };
  if (!std::is_sorted(facts.begin(), facts.end(), by_day)) std::stable_sort(facts.begin(), facts.end(), by_day);
  return facts;
}

// What is void by the strikes of a book and more of them: whether a strike holds depends on strikes alone.
class Voided {
 public:
  explicit Voided(const std::vector<Fact>& book, std::vector<Fact> strikes = {}) {
    for (const Fact& fact : book) {
      if (fact.kind == FactKind::strike) strikes.push_back(fact);
    }
    const std::vector<bool> void_strikes = struck(strikes);
    for (std::size_t i = 0; i < strikes.size(); ++i) {
      const Fact& strike = strikes[i];
      if (!void_strikes[i] && strike.strikes && strike.id > *strike.strikes) ids_.insert(*strike.strikes);
    }
  }

  bool holds(const FactId& id) const { return !ids_.empty() && ids_.contains(id); }

 private:
  std::set<FactId> ids_;
};

FactPointers unstruck_of(const std::vector<Fact>& facts, const Voided& voided) {
  FactPointers standing;
  standing.reserve(facts.size());
  for (const Fact& fact : facts) {
    if (!voided.holds(fact.id)) standing.push_back(&fact);
  }
  return standing;
}

class Judge {
 public:
  Judge(const Fleet& fleet, const std::vector<Fact>& known, const std::vector<Proposal>& proposals, const Stamp& stamp,
        Day today)
      : fleet_(fleet),
        known_(known),
        unstruck_(in_order(unstruck_of(known, Voided(known)))),
        proposals_(proposals),
        stamp_(stamp),
        today_(today),
        seen_(fleet) {
    for (const Fact* fact : unstruck_) seen_.add(*fact);
    for (const Proposal& proposal : proposals) seen_.add(proposal.fact);
    facts_.reserve(proposals.size());
    rows_.reserve(proposals.size());
  }

  Judgement run() {
    for (std::size_t row = 0; row < proposals_.size(); ++row) by_itself(row);
    strike_known();
    drop_known();
    meters();
    number();
    std::stable_sort(refused_.begin(), refused_.end(), [](const auto& a, const auto& b) { return a.row < b.row; });
    for (RowDiagnostic& refused : refused_) {
      refused.why.place = proposals_[refused.row].place;
      result_.refused.push_back(std::move(refused.why));
      result_.refused_rows.push_back(refused.row);
    }
    return std::move(result_);
  }

 private:
  void by_itself(std::size_t row) {
    const Proposal& proposal = proposals_[row];
    facts_.push_back(proposal.fact);
    rows_.push_back(row);
    Fact& fact = facts_.back();
    if (proposal.has_id) {
      fact.from_copy = true;
      return;
    }
    auto wrong =
        fact.kind == FactKind::strike ? judge_strike(fact) : judge_names(fleet_, fact, today_, seen_, result_.said);
    if (!wrong) wrong = proposal.wrong;
    if (wrong) {
      facts_.pop_back();
      rows_.pop_back();
      refused_.push_back({row, std::move(*wrong)});
      return;
    }
    // A provisional number, so that the order of rows is the order of facts of one day.
    fact.id = {stamp_.command, static_cast<int>(row) + 1};
    fact.entered = stamp_.entered;
    fact.entered_by = stamp_.entered_by;
    fact.origin = stamp_.origin;
  }

  std::optional<Diagnostic> judge_strike(const Fact& fact) {
    if (auto wrong = judge_future(fact, today_)) return wrong;
    if (!standing_) {
      standing_.emplace();
      for (const Fact& known : known_) standing_->emplace(known.id, false);
      for (const Fact* known : unstruck_) (*standing_)[known->id] = true;
    }
    const auto target = fact.strikes ? standing_->find(*fact.strikes) : standing_->end();
    if (target == standing_->end()) {
      return Diagnostic{
          "unknown-fact",          "the record holds no fact with this id", "", std::nullopt, Severity::error,
          {{CureKind::show_facts}}};
    }
    if (!target->second) {
      return Diagnostic{"already-struck", fmt::format("fact {} is already struck", short_text(target->first)),
                        "nothing needs doing; to bring it back, strike the strike"};
    }
    return std::nullopt;
  }

  // What the batch itself strikes, or brings along struck, no longer stands in the way of its other facts.
  void strike_known() {
    FactPointers brought;
    std::vector<Fact> strikes;
    for (std::size_t i = 0; i < facts_.size(); ++i) {
      if (facts_[i].kind == FactKind::strike) strikes.push_back(facts_[i]);
      const Proposal& proposal = proposals_[rows_[i]];  // it stays where it is, and the new fact may move
      if (proposal.has_id) brought.push_back(&proposal.fact);
    }
    if (brought.empty() && strikes.empty()) return;
    const Voided voided(known_, std::move(strikes));
    unstruck_ = unstruck_of(known_, voided);
    std::erase_if(brought, [&](const Fact* fact) { return voided.holds(fact->id); });
    unstruck_.insert(unstruck_.end(), brought.begin(), brought.end());
    unstruck_ = in_order(std::move(unstruck_));
  }

  void drop_known() {
    std::unordered_map<std::string, int> standing;  // equal facts of the book that no row of the file stands for yet
    std::map<FactId, const Fact*> ids;
    const auto is_typed = [&](std::size_t row) { return !proposals_[row].has_id && !proposals_[row].place; };
    if (std::all_of(rows_.begin(), rows_.end(), is_typed)) return;
    for (const Fact& fact : known_) ids.emplace(fact.id, &fact);
    for (const Fact* fact : unstruck_) {
      if (ids.contains(fact->id)) ++standing[content_key(*fact)];
    }
    drop([&](const Fact& fact, std::size_t row) {
      const Proposal& proposal = proposals_[row];
      if (!proposal.has_id) {
        // What somebody types is a new fact, though it says again what was said: on one day a machine may go out of
        // use, come back and go out of use. The n-th row of a file is the n-th of its equals, so that a file that is
        // imported twice changes nothing.
        if (!proposal.place || standing.empty()) return false;
        const auto equal = standing.find(content_key(fact));
        if (equal == standing.end() || equal->second == 0) return false;
        --equal->second;
        ++result_.already_there;
        return true;
      }
      const auto [at, is_new] = ids.emplace(fact.id, &proposal.fact);
      if (is_new) return false;
      if (same_fact(*at->second, fact)) {
        ++result_.already_there;
      } else {
        refused_.push_back({row, id_clash(fact)});
      }
      return true;
    });
  }

  // The new facts for which this is true.
  template <class Is>
  void drop(Is&& is) {
    std::size_t kept = 0;
    for (std::size_t i = 0; i < facts_.size(); ++i) {
      if (is(facts_[i], rows_[i])) continue;
      if (kept != i) facts_[kept] = std::move(facts_[i]);
      rows_[kept++] = rows_[i];
    }
    facts_.resize(kept);
    rows_.resize(kept);
  }

  // The new values of one meter.
  struct Line {
    const Machine* machine;
    const Meter* meter;
    std::vector<NewValue> values;
  };

  // By the names of machines and meters, each in the one order.
  std::vector<Line> lines() const {
    std::vector<Line> all;
    std::unordered_map<const Meter*, std::size_t> at;
    for (std::size_t i = 0; i < facts_.size(); ++i) {
      const Fact& fact = facts_[i];
      if (proposals_[rows_[i]].has_id) continue;  // judged when it was entered; among the unstruck ones if it stands
      const bool shows = fact.kind == FactKind::reading || fact.kind == FactKind::meter_change ||
                         (fact.kind == FactKind::service && fact.at);
      const Machine* machine = shows ? fleet_.machine(fact.machine) : nullptr;
      const Meter* meter = machine == nullptr ? nullptr : machine->meter(fact.meter);
      if (meter == nullptr) continue;
      const auto [line, is_new] = at.try_emplace(meter, all.size());
      if (is_new) all.push_back({machine, meter, {}});
      all[line->second].values.push_back({&fact, rows_[i]});
    }
    const auto by_day = [](const NewValue& a, const NewValue& b) { return before(*a.fact, *b.fact); };
    for (Line& line : all) std::stable_sort(line.values.begin(), line.values.end(), by_day);
    std::sort(all.begin(), all.end(), [](const Line& a, const Line& b) {
      return std::tie(a.machine->key, a.meter->name) < std::tie(b.machine->key, b.meter->name);
    });
    return all;
  }

  void meters() {
    const std::vector<Line> all = lines();
    std::unordered_map<std::string_view, FactPointers> known;
    for (const Line& line : all) known[line.machine->key];
    for (const Fact* fact : unstruck_) {
      if (const auto of_machine = known.find(fact->machine); of_machine != known.end()) {
        of_machine->second.push_back(fact);
      }
    }
    for (const auto& [machine, meter, values] : all) {
      auto judged = judge_meter_values(*machine, *meter, known[machine->key], values);
      for (RowDiagnostic& refused : judged.refused) refused_.push_back(std::move(refused));
      for (WholeUnit& whole : judged.whole_units) whole_units_.push_back(std::move(whole));
      for (RollOver& roll_over : judged.roll_overs) {
        result_.said.push_back(
            fmt::format("meter `{}` of {} went past {}: its roll-over on {} is recorded with the reading", meter->name,
                        machine->key, to_text(*roll_over.change.last), to_text(roll_over.change.on)));
        roll_overs_.emplace(roll_over.row, std::move(roll_over.change));
      }
    }
    say_whole_units();
  }

  // A spreadsheet may be full of them; then their number is said.
  void say_whole_units() {
    constexpr std::size_t a_few = 3;
    if (whole_units_.size() > a_few) {
      result_.said.push_back(
          fmt::format("{} values were read to the whole unit, less than one below what the meter "
                      "had shown; they count as no use",
                      whole_units_.size()));
      return;
    }
    for (const WholeUnit& whole : whole_units_) {
      const Fact& fact = proposals_[whole.row].fact;
      result_.said.push_back(
          fmt::format("{0} {3} of {1} was read to the whole unit: the {2} {3} before it holds, and no "
                      "use is counted",
                      to_text(whole.shown), fact.machine, to_text(whole.held), whole.unit));
    }
  }

  // The final numbers: rows in their order, a roll-over directly before the reading that it explains.
  void number() {
    std::unordered_set<std::size_t> refused;
    for (const RowDiagnostic& value : refused_) refused.insert(value.row);
    drop([&](const Fact&, std::size_t row) { return refused.contains(row); });
    if (!roll_overs_.empty()) put_roll_overs();
    int next = 1;
    for (std::size_t i = 0; i < facts_.size(); ++i) {
      if (!proposals_[rows_[i]].has_id) facts_[i].id = {stamp_.command, next++};
    }
    result_.accepted = std::move(facts_);
  }

  void put_roll_overs() {
    std::vector<Fact> all;
    std::vector<std::size_t> rows;
    all.reserve(facts_.size() + roll_overs_.size());
    for (std::size_t i = 0; i < facts_.size(); ++i) {
      if (const auto found = roll_overs_.find(rows_[i]); found != roll_overs_.end()) {
        Fact change = found->second;
        change.entered = stamp_.entered;
        change.entered_by = stamp_.entered_by;
        change.origin = stamp_.origin;
        all.push_back(std::move(change));
        rows.push_back(rows_[i]);
      }
      all.push_back(std::move(facts_[i]));
      rows.push_back(rows_[i]);
    }
    facts_ = std::move(all);
    rows_ = std::move(rows);
  }

  const Fleet& fleet_;
  const std::vector<Fact>& known_;
  FactPointers unstruck_;  // in the one order
  const std::vector<Proposal>& proposals_;
  const Stamp& stamp_;
  Day today_;

  WhatWasSeen seen_;                                // used while `unstruck_` is what it was at first, and so is this:
  std::optional<std::map<FactId, bool>> standing_;  // whether a known fact is unstruck, once a strike asks
  std::vector<Fact> facts_;                         // the new ones that are right by themselves
  std::vector<std::size_t> rows_;                   // of which proposal each is
  std::vector<RowDiagnostic> refused_;
  std::map<std::size_t, Fact> roll_overs_;
  std::vector<WholeUnit> whole_units_;
  Judgement result_;
};

}  // namespace

Judgement judge(const Fleet& fleet, const std::vector<Fact>& known, const std::vector<Proposal>& proposals,
                const Stamp& stamp, Day today) {
  return Judge(fleet, known, proposals, stamp, today).run();
}

}  // namespace service
