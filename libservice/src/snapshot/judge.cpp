// Judging a batch: each fact by itself, then what a file says again, then each meter's line, then ids.
#include <fmt/format.h>

#include <algorithm>
#include <map>
#include <set>
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

class Judge {
 public:
  Judge(const Fleet& fleet, const std::vector<Fact>& known, const std::vector<Proposal>& proposals, const Stamp& stamp,
        Day today)
      : fleet_(fleet),
        known_(known),
        unstruck_(unstruck(known)),
        proposals_(proposals),
        stamp_(stamp),
        today_(today),
        seen_(fleet) {
    for (const Fact& fact : unstruck_) seen_.add(fact);
    for (const Proposal& proposal : proposals) seen_.add(proposal.fact);
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
    if (proposal.has_id) {
      rows_.push_back({proposal.fact, row});
      rows_.back().fact.from_copy = true;
      return;
    }
    Fact fact = proposal.fact;
    if (fact.kind == FactKind::strike) {
      if (auto wrong = judge_strike(fact)) {
        refused_.push_back({row, std::move(*wrong)});
        return;
      }
    } else if (auto wrong = judge_names(fleet_, fact, today_, seen_, result_.said)) {
      refused_.push_back({row, std::move(*wrong)});
      return;
    }
    // A provisional number, so that the order of rows is the order of facts of one day.
    fact.id = {stamp_.command, static_cast<int>(row) + 1};
    fact.entered = stamp_.entered;
    fact.entered_by = stamp_.entered_by;
    fact.origin = stamp_.origin;
    rows_.push_back({std::move(fact), row});
  }

  std::optional<Diagnostic> judge_strike(const Fact& fact) const {
    if (auto wrong = judge_future(fact, today_)) return wrong;
    const auto target = std::find_if(known_.begin(), known_.end(),
                                     [&](const Fact& known) { return fact.strikes && known.id == *fact.strikes; });
    if (target == known_.end()) {
      return Diagnostic{
          "unknown-fact",          "the record holds no fact with this id", "", std::nullopt, Severity::error,
          {{CureKind::show_facts}}};
    }
    const bool standing =
        std::any_of(unstruck_.begin(), unstruck_.end(), [&](const Fact& known) { return known.id == target->id; });
    if (!standing) {
      return Diagnostic{"already-struck", fmt::format("fact {} is already struck", short_text(target->id)),
                        "nothing needs doing; to bring it back, strike the strike"};
    }
    return std::nullopt;
  }

  // What the batch itself strikes, or brings along struck, no longer stands in the way of its other facts.
  void strike_known() {
    std::vector<Fact> all = known_;
    for (const NewValue& value : rows_) {
      if (proposals_[value.row].has_id || value.fact.kind == FactKind::strike) all.push_back(value.fact);
    }
    unstruck_ = unstruck(std::move(all));
  }

  void drop_known() {
    std::unordered_map<std::string, int> standing;  // equal facts of the book that no row of the file stands for yet
    std::map<FactId, const Fact*> ids;
    for (const Fact& fact : known_) ids.emplace(fact.id, &fact);
    for (const Fact& fact : unstruck_) {
      if (ids.contains(fact.id)) ++standing[content_key(fact)];
    }
    std::erase_if(rows_, [&](const NewValue& value) {
      if (!proposals_[value.row].has_id) {
        // What somebody types is a new fact, though it says again what was said: on one day a machine may go out of
        // use, come back and go out of use. The n-th row of a file is the n-th of its equals, so that a file that is
        // imported twice changes nothing.
        if (!proposals_[value.row].place) return false;
        const auto equal = standing.find(content_key(value.fact));
        if (equal == standing.end() || equal->second == 0) return false;
        --equal->second;
        ++result_.already_there;
        return true;
      }
      // The proposal stays where it is; the row may move.
      const auto [at, is_new] = ids.emplace(value.fact.id, &proposals_[value.row].fact);
      if (is_new) return false;
      if (same_fact(*at->second, value.fact)) {
        ++result_.already_there;
      } else {
        refused_.push_back({value.row, id_clash(value.fact)});
      }
      return true;
    });
  }

  void meters() {
    std::map<std::pair<std::string, std::string>, std::vector<NewValue>> lines;
    std::map<std::string, std::vector<Fact>> known;
    std::map<std::string, bool> concerned;
    for (const NewValue& value : rows_) {
      const Fact& fact = value.fact;
      if (proposals_[value.row].has_id) continue;  // judged when it was entered; among the unstruck ones if it stands
      const bool shows = fact.kind == FactKind::reading || fact.kind == FactKind::meter_change ||
                         (fact.kind == FactKind::service && fact.at);
      const Machine* machine = fleet_.machine(fact.machine);
      if (!shows || machine == nullptr || machine->meter(fact.meter) == nullptr) continue;
      concerned[fact.machine] = true;
      lines[{fact.machine, fact.meter}].push_back(value);
    }
    for (const Fact& fact : unstruck_) {
      if (concerned.contains(fact.machine)) known[fact.machine].push_back(fact);
    }
    for (auto& [line, values] : lines) {
      std::stable_sort(values.begin(), values.end(),
                       [](const NewValue& a, const NewValue& b) { return before(a.fact, b.fact); });
      auto& facts = known[line.first];
      std::stable_sort(facts.begin(), facts.end(), before);
      const Machine& machine = *fleet_.machine(line.first);
      auto judged = judge_meter_values(machine, *machine.meter(line.second), facts, values);
      for (RowDiagnostic& refused : judged.refused) refused_.push_back(std::move(refused));
      for (WholeUnit& whole : judged.whole_units) whole_units_.push_back(std::move(whole));
      for (RollOver& roll_over : judged.roll_overs) {
        result_.said.push_back(
            fmt::format("meter `{}` of {} went past {}: its roll-over on {} is recorded with the reading", line.second,
                        line.first, to_text(*roll_over.change.last), to_text(roll_over.change.on)));
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
    int next = 1;
    for (NewValue& value : rows_) {
      if (refused.contains(value.row)) continue;
      if (proposals_[value.row].has_id) {
        result_.accepted.push_back(std::move(value.fact));
        continue;
      }
      if (const auto found = roll_overs_.find(value.row); found != roll_overs_.end()) {
        Fact change = found->second;
        change.id = {stamp_.command, next++};
        change.entered = stamp_.entered;
        change.entered_by = stamp_.entered_by;
        change.origin = stamp_.origin;
        result_.accepted.push_back(std::move(change));
      }
      value.fact.id = {stamp_.command, next++};
      result_.accepted.push_back(std::move(value.fact));
    }
  }

  const Fleet& fleet_;
  const std::vector<Fact>& known_;
  std::vector<Fact> unstruck_;
  const std::vector<Proposal>& proposals_;
  const Stamp& stamp_;
  Day today_;

  WhatWasSeen seen_;  // used while `unstruck_` is what it was at first
  std::vector<NewValue> rows_;
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
