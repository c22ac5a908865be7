// Facts that come from elsewhere: files of facts, and other copies of the book.
#include <algorithm>
#include <memory>
#include <optional>
#include <set>
#include <string_view>
#include <unordered_set>
#include <utility>

#include "service/entry.h"
#include "service/file_entry.h"

namespace service {
namespace {

// All but the facts.
EntryRequest request_of_file(const FactsRead& read, std::string origin, Day today, bool day_is_given, bool skip_bad) {
  EntryRequest request;
  request.origin = std::move(origin);
  request.scope = scope_of_rows(read.rows);
  request.today = today;
  request.day_is_given = day_is_given;
  request.skip_bad = skip_bad;
  request.unread = read.diagnostics;
  return request;
}

}  // namespace

std::vector<Gap> newly_contradicted(const Entered& merged) {
  std::set<std::vector<FactId>> was;
  for (const Gap& gap : merged.before->gaps) {
    if (gap.kind == GapKind::contradiction) was.insert(gap.facts);
  }
  std::vector<Gap> contradicted;
  for (const Gap& gap : merged.after->gaps) {
    if (gap.kind == GapKind::contradiction && !was.contains(gap.facts)) contradicted.push_back(gap);
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
  std::unordered_set<std::string_view> machines;
  for (const FactRow& row : rows) {
    if (row.fact.kind == FactKind::strike) return {};
    if (!row.fact.machine.empty()) machines.insert(row.fact.machine);
  }
  std::vector<std::string> names(machines.begin(), machines.end());
  std::sort(names.begin(), names.end());
  return {std::move(names)};
}

void take_as_history(FactsRead& read) {
  for (FactRow& row : read.rows) {
    if (row.fact.kind == FactKind::service && !row.has_id && !row.says_history) row.fact.history = true;
  }
}

EntryRequest entry_of_file(const FactsRead& read, std::string origin, Day today, bool day_is_given, bool skip_bad) {
  std::vector<Proposal> proposals;
  for (const FactRow& row : read.rows) proposals.push_back({row.fact, row.has_id, row.place});
  EntryRequest request = request_of_file(read, std::move(origin), today, day_is_given, skip_bad);
  request.propose = [proposals = std::move(proposals)](const Extract&) { return proposals; };
  return request;
}

EntryRequest take_entry_of_file(FactsRead& read, std::string origin, Day today, bool day_is_given, bool skip_bad) {
  EntryRequest request = request_of_file(read, std::move(origin), today, day_is_given, skip_bad);
  const auto proposals = std::make_shared<std::optional<std::vector<Proposal>>>(std::in_place);
  (*proposals)->reserve(read.rows.size());
  for (FactRow& row : read.rows) {
    // The line alone stays: `rejects_of` sorts by it.
    const int line = row.place.line;
    (*proposals)->push_back({std::move(row.fact), row.has_id, std::move(row.place)});
    row.place = Place{};
    row.place.line = line;
  }
  if (!skip_bad) read.rows = std::vector<FactRow>();  // `{}` would keep the room
  request.propose = [proposals](const Extract&) {
    if (!*proposals) {
      throw Failure(FailureKind::internal,
                    {"entered-twice", "this file was entered already; nothing was stored", "read it again"});
    }
    std::vector<Proposal> taken = std::move(**proposals);
    proposals->reset();
    return taken;
  };
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
