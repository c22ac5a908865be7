// New facts before the judge, beside those of a small world.
#pragma once

#include <doctest/doctest.h>

#include <algorithm>
#include <string>
#include <string_view>
#include <vector>

#include "support/world.h"

namespace test {

// Facts to propose are added to a world of their own that has the same fleet; only their content is taken.
class Bench {
 public:
  explicit Bench(const std::string& tasks, const std::string& machine = "bought: 2020-01-01",
                 const std::string& more = "", const std::string& meters = "")
      : known(tasks, machine, more, meters), entry(tasks, machine, more, meters) {}

  World known;  // the book
  World entry;  // what is entered, in the order of its rows

  service::Judgement judge(std::string_view today = "2026-12-31") const { return judge(proposals(false), today); }

  // The same as rows of a file.
  service::Judgement judge_file() const { return judge(proposals(true), "2026-12-31"); }

  std::vector<service::Proposal> proposals(bool of_file) const {
    std::vector<service::Proposal> all;
    for (service::Fact fact : entry.facts()) {
      fact.id = {};
      fact.entered = 0;
      service::Proposal proposal{fact, false, {}};
      if (of_file) proposal.place.emplace().line = static_cast<int>(all.size()) + 2;
      all.push_back(std::move(proposal));
    }
    return all;
  }

  service::Judgement judge(const std::vector<service::Proposal>& proposals,
                           std::string_view today = "2026-12-31") const {
    return service::judge(known.fleet(), known.facts(), proposals, stamp(), day(today));
  }

  static service::Stamp stamp() { return {service::make_command_id(5'000'000, {}), 5'000'000, "ann", "reading"}; }

  // The book with what was accepted.
  service::Snapshot after(std::string_view as_of) const {
    const auto judgement = judge();
    std::vector<service::Fact> all = known.facts();
    all.insert(all.end(), judgement.accepted.begin(), judgement.accepted.end());
    return {std::make_shared<const service::Fleet>(known.fleet()), service::whole_book(all), day(as_of), true};
  }
};

inline const std::string oil = "  oil: {do: Oil, every: {hours: 250, signs: [leak]}}\n";
inline const std::string rolls = "meters: {engine: {unit: h, rolls-over-at: 10000}}\n";

// Judged on the readings of a machine bought used.
inline Bench hours(const std::string& meters = "") { return Bench(oil, "bought: 2020-01-01", "", meters); }

inline std::string usage_after(const Bench& bench, std::string_view as_of) {
  const auto snapshot = bench.after(as_of);
  return text_or_none(service::meter_histories(snapshot, *snapshot.fleet().machine("m")).at("engine").on(day(as_of)));
}

// "2 accepted, 1 refused"; rows already there only where there are any.
inline std::string verdict(const service::Judgement& judgement) {
  std::string text =
      std::to_string(judgement.accepted.size()) + " accepted, " + std::to_string(judgement.refused.size()) + " refused";
  if (judgement.already_there != 0) text += ", " + std::to_string(judgement.already_there) + " already there";
  return text;
}

// All that a refusal tells people.
inline std::string told(const service::Judgement& judgement) {
  std::string text;
  for (const auto& diagnostic : judgement.refused) {
    text += diagnostic.message + ". " + diagnostic.hint + "\n";
    for (const service::Cure& cure : diagnostic.cures) {
      text += std::string(to_text(cure.kind));
      for (const auto& [name, value] : cure.values) text += ' ' + name + ' ' + value;
      text += '\n';
    }
  }
  return text;
}

inline bool tells(const service::Judgement& judgement, std::string_view words) {
  return told(judgement).find(words) != std::string::npos;
}

}  // namespace test
