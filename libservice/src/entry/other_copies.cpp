// Facts that come from elsewhere: files of facts, and other copies of the book.
#include <algorithm>
#include <set>

#include "service/entry.h"

namespace service {

std::vector<Gap> newly_contradicted(const Entered& merged) {
  std::vector<Gap> contradicted;
  for (const Gap& gap : merged.after->gaps) {
    const bool was = std::any_of(merged.before->gaps.begin(), merged.before->gaps.end(),
                                 [&](const Gap& g) { return g.kind == gap.kind && g.facts == gap.facts; });
    if (gap.kind == GapKind::contradiction && !was) contradicted.push_back(gap);
  }
  return contradicted;
}

bool about_this_fleet(const Fleet& fleet, const std::vector<Fact>& facts) {
  bool about_machines = false;
  for (const Fact& fact : facts) {
    if (fact.machine.empty()) continue;
    if (fleet.machine(fact.machine) != nullptr) return true;
    about_machines = true;
  }
  return !about_machines;
}

Scope scope_of_rows(const std::vector<FactRow>& rows) {
  std::set<std::string> machines;
  for (const FactRow& row : rows) {
    if (row.fact.kind == FactKind::strike) return {};
    if (!row.fact.machine.empty()) machines.insert(row.fact.machine);
  }
  return {std::vector<std::string>(machines.begin(), machines.end())};
}

void take_as_history(FactsRead& read) {
  for (FactRow& row : read.rows) {
    if (row.fact.kind == FactKind::service && !row.has_id && !row.says_history) row.fact.history = true;
  }
}

EntryRequest entry_of_file(const FactsRead& read, std::string origin, Day today, bool day_is_given, bool skip_bad) {
  std::vector<Proposal> proposals;
  for (const FactRow& row : read.rows) proposals.push_back({row.fact, row.has_id, row.place});
  EntryRequest request;
  request.origin = std::move(origin);
  request.scope = scope_of_rows(read.rows);
  request.propose = [proposals = std::move(proposals)](const Extract&) { return proposals; };
  request.today = today;
  request.day_is_given = day_is_given;
  request.skip_bad = skip_bad;
  request.unread = read.diagnostics;
  return request;
}

std::string rejects_of(const FactsRead& read, const std::vector<std::size_t>& refused_rows) {
  std::vector<std::pair<int, std::string_view>> rows;
  for (const auto& row : read.rejected) rows.emplace_back(row.line, row.raw);
  for (const std::size_t row : refused_rows) rows.emplace_back(read.rows[row].place.line, read.rows[row].raw);
  std::stable_sort(rows.begin(), rows.end(), [](const auto& a, const auto& b) { return a.first < b.first; });
  std::string text = read.header.empty() ? "" : read.header + '\n';
  for (const auto& [line, raw] : rows) text += std::string(raw) + '\n';
  return text;
}

}  // namespace service
