#include "record/schema.h"

#include <SQLiteCpp/Statement.h>

#include <algorithm>
#include <string>
#include <string_view>
#include <vector>

#include "record/migrations.gen.h"

namespace service::record {
namespace {

// The statements of the migrations, whose ends are a semicolon before a line end. They are told from their text, for
// making the tables anew in memory would cost more than all else that opening does. A migration that does other than
// create needs more here, and no record would open without it.
std::vector<std::string> expected_schema() {
  std::vector<std::string> schema;
  for (std::string_view rest : migrations) {
    for (std::size_t from = rest.find("CREATE "); from != std::string_view::npos; from = rest.find("CREATE ")) {
      rest.remove_prefix(from);
      const std::size_t end = rest.find(";\n");
      schema.emplace_back(rest.substr(0, end));
      rest.remove_prefix(std::min(end, rest.size()));
    }
  }
  std::sort(schema.begin(), schema.end());
  return schema;
}

// The engine keeps each statement as it was written. What it adds by itself are the indexes behind UNIQUE.
std::vector<std::string> schema_of(SQLite::Database& database) {
  std::vector<std::string> schema;
  SQLite::Statement query(database,
                          "SELECT ifnull(sql, name) FROM sqlite_master "
                          "WHERE sql IS NOT NULL OR type <> 'index' OR name NOT LIKE 'sqlite_autoindex_%'");
  while (query.executeStep()) schema.push_back(query.getColumn(0).getString());
  std::sort(schema.begin(), schema.end());
  return schema;
}

}  // namespace

bool has_our_schema(SQLite::Database& database) { return schema_of(database) == expected_schema(); }

}  // namespace service::record
