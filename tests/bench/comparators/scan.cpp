// The limit of a program that reads rows through SQLite: steps one narrow latest row a point, and one a meter, reads
// every column, and does nothing else.   usage: scan LATEST.DB

#include <sqlite3.h>

#include <cstdint>
#include <cstdio>
#include <initializer_list>

int main(int count, char** words) {
  sqlite3* book = nullptr;
  if (count != 2 || sqlite3_open_v2(words[1], &book, SQLITE_OPEN_READONLY, nullptr) != SQLITE_OK) return 66;
  std::int64_t sum = 0;
  std::int64_t rows = 0;
  for (const char* question :
       {"SELECT machine, task, fitted_on, fitted_at FROM point", "SELECT machine, day, usage FROM meter"}) {
    sqlite3_stmt* statement = nullptr;
    if (sqlite3_prepare_v2(book, question, -1, &statement, nullptr) != SQLITE_OK) return 65;
    const int columns = sqlite3_column_count(statement);
    for (; sqlite3_step(statement) == SQLITE_ROW; ++rows) {
      for (int i = 0; i < columns; ++i) sum += sqlite3_column_int64(statement, i);
    }
    if (sqlite3_finalize(statement) != SQLITE_OK) return 65;
  }
  std::printf("%lld rows, %lld\n", static_cast<long long>(rows), static_cast<long long>(sum));
  return sqlite3_close(book) == SQLITE_OK ? 0 : 65;
}
