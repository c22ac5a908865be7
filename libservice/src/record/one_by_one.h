// A book read machine after machine, with every row and every tally that is read verified.
#pragma once

#include <SQLiteCpp/Database.h>
#include <SQLiteCpp/Statement.h>

#include <optional>
#include <set>
#include <string>
#include <string_view>
#include <vector>

#include "record/kept.h"
#include "record/reading.h"
#include "service/kept_state.h"
#include "service/record.h"

namespace service::record {

// Lives within one transaction.
class MachineByMachine : public OneByOne {
 public:
  explicit MachineByMachine(SQLite::Database& database);

  const std::vector<std::string>& machines() const override { return names_; }
  std::optional<KeptState> kept(std::string_view machine) override;
  std::string kept_of_group(const std::string& name) override { return read_group(database_, name); }
  std::vector<Fact> unstruck(std::string_view machine) override;

 private:
  struct Row {
    std::int64_t key = 0;
    FactTally tally;
  };

  std::optional<std::size_t> place_of(std::string_view machine) const;
  void insist_on_no_damage();

  SQLite::Database& database_;
  FactReader reader_;
  SQLite::Statement kept_query_;
  std::vector<std::string> names_;  // in order
  std::vector<Row> rows_;           // likewise
  std::set<FactId> voided_;         // by strikes that hold
};

}  // namespace service::record
