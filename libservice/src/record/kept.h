// The states that are kept of machines, as rows.
#pragma once

#include <SQLiteCpp/Database.h>
#include <SQLiteCpp/Statement.h>

#include <cstdint>
#include <functional>
#include <map>
#include <optional>
#include <set>
#include <string>
#include <vector>

#include "record/reading.h"
#include "record/tally.h"
#include "service/kept_state.h"

namespace service::record {

class FactWriter;

// The same as a tally, for whoever keeps a state.
FactTally told(const Tally& tally);

// What strikes strike that are not struck themselves.
std::set<FactId> struck_by(const std::vector<Fact>& facts);

// The bytes of a column; none where it holds nothing.
std::string bytes_at(SQLite::Statement& row, int column);

using Take = std::function<bool(const KeptState& state)>;

// The facts about machines of the scope whose state is not taken, into the reader: `take` is given each machine of
// which something is recorded.
void read_beside(SQLite::Database& database, FactReader& reader, const Scope& scope, const Take& take);

std::vector<KeptState> read_kept(SQLite::Database& database);
// Of those machines of which something is recorded, in their order.
std::vector<KeptState> read_kept_of(SQLite::Database& database, const std::vector<std::string>& machines);

// By name; empty where nothing is kept.
std::string read_group(SQLite::Database& database, const std::string& name);
std::map<std::string, std::string, std::less<>> read_groups(SQLite::Database& database);

void forget_kept(SQLite::Database& database, const std::vector<std::int64_t>& machines);

// What the keeper wants and does not hold for right is worked out of the facts as they are in the database now.
// `reader` and `writer`: that read and wrote in this transaction; `added`: what was stored. `watch`: to be told how far
// it is.
void renew_kept(SQLite::Database& database, const StateKeeper& keeper, FactReader& reader, const FactWriter& writer,
                const std::vector<Fact>& added, const RecordProgress* watch);

}  // namespace service::record
