#include "fleet/travel_table.h"

#include <algorithm>
#include <set>
#include <tuple>

#include "fleet/csv_table.h"
#include "fleet/guard.h"
#include "fleet/value_checks.h"

namespace service::fleet {
namespace {

using Holds = TableColumn::Holds;

enum ColumnAt : std::size_t { from_at, to_at, minutes_at, km_at };

constexpr TableColumn columns[] = {{"from", Holds::text, true},
                                   {"to", Holds::text, true},
                                   {"minutes", Holds::number, true},
                                   {"km", Holds::number, true}};

constexpr Wanted whole_minutes{code::bad_number, "a whole number of minutes", "write digits only"};

// No way is longer, and sums of them stay far from overflowing.
constexpr int longest_minutes = 10'000;
constexpr std::int64_t longest_km = 10'000;

class TableReader {
 public:
  explicit TableReader(const Reader& reader) : reader_(reader) {}

  void read() {
    CsvTable table(reader_, {columns, "write the header `from,to,minutes,km`"});
    if (!table.begin()) return;
    TableRow row;
    while (table.next(row)) read_row(row, table.dialect());
  }

 private:
  // A site, which is told of where there is none of that name.
  std::string site(const TableRow& row, ColumnAt at) const {
    const CsvField* field = row.fields[at];
    if (field == nullptr) return {};
    reader_.draft.mentions_of(Noun::site).push_back({field->text, spot_of(reader_, *field)});
    return field->text;
  }

  void out_of_range(const CsvField& field, std::string_view what, std::int64_t most) const {
    reader_.error(code::out_of_range, spot_of(reader_, field),
                  fmt::format("a way cannot be {} {} long", cleaned(field.text), what),
                  fmt::format("write a value from 0 to {}", most));
  }

  std::optional<int> minutes(const TableRow& row, const Dialect& dialect) const {
    const CsvField* field = row.fields[minutes_at];
    if (field == nullptr) return std::nullopt;
    const auto read = value_in(reader_, *field, plain_number(field->text, dialect), parse_count, whole_minutes);
    if (!read || *read <= longest_minutes) return read;
    out_of_range(*field, "min", longest_minutes);
    return std::nullopt;
  }

  std::optional<int> tenths_of_km(const TableRow& row, const Dialect& dialect) const {
    const CsvField* field = row.fields[km_at];
    if (field == nullptr) return std::nullopt;
    const auto read =
        value_in(reader_, *field, plain_number(field->text, dialect), parse_exact<Distance>, wanted::number);
    if (!read) return std::nullopt;
    if (*read > Distance::units(longest_km)) {
      out_of_range(*field, "km", longest_km);
      return std::nullopt;
    }
    return static_cast<int>((read->hundredths + 5) / 10);
  }

  void read_row(const TableRow& row, const Dialect& dialect) {
    TravelRow way{site(row, from_at), site(row, to_at), 0, 0};
    const auto took = minutes(row, dialect);
    const auto far = tenths_of_km(row, dialect);
    if (way.from.empty() || way.to.empty()) return;  // said already
    if (!check_way(way, seen_, row.spot, reader_.diagnostics())) return;
    if (!took || !far) return;
    way.minutes = *took;
    way.tenths_of_km = *far;
    reader_.draft.fleet.travel->rows.push_back(std::move(way));
  }

  const Reader& reader_;
  std::set<std::pair<std::string, std::string>> seen_;
};

}  // namespace

bool is_table_name(std::string_view name) {
  return name.ends_with(".csv") && !name.starts_with('.') && name.find_first_of("/\\") == std::string_view::npos &&
         name != "register.csv";
}

void read_travel_table(const Source& source, Diagnostics& diagnostics, Draft& draft) {
  if (fit_to_read(source, register_limit, diagnostics)) {
    const Reader reader(source, diagnostics, draft);
    TableReader(reader).read();
  }
}

void put_in_order(Travel& travel) {
  std::sort(travel.rows.begin(), travel.rows.end(),
            [](const TravelRow& a, const TravelRow& b) { return std::tie(a.from, a.to) < std::tie(b.from, b.to); });
}

}  // namespace service::fleet
