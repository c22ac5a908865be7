// What the tests of the record share: a folder of their own, facts, and what a failure said.
#pragma once

#include <filesystem>
#include <fstream>
#include <iterator>
#include <string>
#include <utility>
#include <vector>

#include "service/record.h"
#include "support/temporary_folder.h"

namespace record_test {

class Folder : public test::TemporaryFolder {
 public:
  // How many files are in it.
  int files() const { return static_cast<int>(std::distance(std::filesystem::directory_iterator(path()), {})); }
};

// Only for files that no record of this process has open.
inline std::string bytes_of(const std::filesystem::path& file) {
  std::ifstream in(file, std::ios::binary);
  return {std::istreambuf_iterator<char>(in), {}};
}

inline void write_bytes(const std::filesystem::path& file, const std::string& bytes) {
  std::ofstream out(file, std::ios::binary | std::ios::trunc);
  out.write(bytes.data(), static_cast<std::streamsize>(bytes.size()));
}

constexpr std::int64_t some_time = 1'767'225'600'000;  // 2026-01-01T00:00:00.000Z

inline service::CommandId command(std::int64_t later, std::uint8_t drawn = 0) {
  return service::make_command_id(some_time + later, {drawn, 1, 2, 3, 4, 5, 6, 7, 8, drawn});
}

inline service::FactId fact_id(std::int64_t later, int number, std::uint8_t drawn = 0) {
  return {command(later, drawn), number};
}

// A reading, entered `later` milliseconds after some time.
inline service::Fact reading(const std::string& machine, service::Day day, std::int64_t units, std::int64_t later,
                             int number = 1, std::uint8_t drawn = 0) {
  service::Fact fact;
  fact.kind = service::FactKind::reading;
  fact.machine = machine;
  fact.on = day;
  fact.at = service::Amount::units(units);
  fact.id = fact_id(later, number, drawn);
  fact.entered = some_time + later;
  fact.entered_by = "ann";
  fact.origin = "reading";
  return fact;
}

inline service::Fact strike(service::FactId target, std::int64_t later, const std::string& origin = "strike",
                            int number = 1) {
  service::Fact fact;
  fact.kind = service::FactKind::strike;
  fact.strikes = target;
  fact.id = fact_id(later, number);
  fact.entered = some_time + later;
  fact.entered_by = "ann";
  fact.origin = origin;
  return fact;
}

inline std::vector<service::Fact> add(service::Record& record, const std::vector<service::Fact>& facts) {
  return record.append({}, false, [&](const std::vector<service::Fact>&) { return facts; });
}

inline service::Record new_record(const std::filesystem::path& file) {
  service::Record::create(file);
  return service::Record::open(file, service::Access::write);
}

inline std::string csv_of(const service::Record& record) { return service::facts_to_csv(record.facts()); }

// The exit status and the code of the first mistake, such as "65 record-empty"; "none" where nothing failed.
template <class Action>
std::string failure_of(Action&& action) {
  try {
    action();
  } catch (const service::Failure& failure) {
    if (failure.diagnostics().empty()) return "no diagnostic";
    return std::to_string(static_cast<int>(failure.kind())) + " " + failure.diagnostics().front().code;
  }
  return "none";
}

// "line:column code" of every mistake, in one line.
inline std::string mistakes_of(const service::FactsRead& read) {
  std::string all;
  for (const service::Diagnostic& mistake : read.diagnostics) {
    if (!all.empty()) all += ", ";
    all += std::to_string(mistake.place->line) + ":" + std::to_string(mistake.place->column) + " " + mistake.code;
  }
  return all;
}

inline std::vector<service::Fact> facts_of(const service::FactsRead& read) {
  std::vector<service::Fact> facts;
  for (const service::FactRow& row : read.rows) facts.push_back(row.fact);
  return facts;
}

// One fact of every kind, with every column that the kind may have, and texts that are hard on quoting.
std::vector<service::Fact> hard_facts();

}  // namespace record_test
