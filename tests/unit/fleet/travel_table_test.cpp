// The travel table: ways as rows of a CSV file that fleet.yaml names.
#include <doctest/doctest.h>

#include <fstream>

#include "service/fleet.h"
#include "support/temporary_folder.h"
#include "unit/fleet/texts.h"

namespace {

using namespace service;

FleetFiles files_with(std::string_view table, std::string_view travel = "{table: travel.csv}") {
  FleetFiles files = fleet_texts::files_of(
      fleet_texts::one_machine + "sites: {yard: {}, field: {}, dale: {}}\ntravel: " + std::string(travel) + "\n",
      fleet_texts::one_task);
  files.texts.emplace("travel.csv", table);
  return files;
}

std::string codes(std::string_view table) { return fleet_texts::codes_of(files_with(table)); }

std::string rows_of(const Fleet& fleet) {
  std::string text;
  for (const TravelRow& row : fleet.travel->rows) {
    text += row.from + ' ' + row.to + ' ' + std::to_string(row.minutes) + ' ' + std::to_string(row.tenths_of_km) + '\n';
  }
  return text;
}

}  // namespace

TEST_CASE("ways are read in any order of rows and columns, and kept by their ends") {
  const Fleet fleet = read_fleet(files_with("to,km,from,minutes\nyard,12.34,field,20\nfield,12.35,yard,18\n"));
  CHECK(rows_of(fleet) == "field yard 20 123\nyard field 18 124\n");
}

TEST_CASE("a travel table as spreadsheets save it") {
  const Fleet fleet =
      read_fleet(files_with("\xEF\xBB\xBF"
                            "from;to;minutes;km;\r\nyard;field;18;12,5;\r\n;;;;\r\nfield;yard;20;0,05;\r\n"));
  CHECK(rows_of(fleet) == "field yard 20 1\nyard field 18 125\n");
}

TEST_CASE("what is wrong with a way") {
  CHECK(codes("from,to,minutes,km\n") == "");
  CHECK(codes("") == "empty-file");
  CHECK(codes("from,to,minutes\nyard,field,3\n") == "missing-column");
  CHECK(codes("from,to,minutes,km,via\nyard,field,3,2,x\n") == "unknown-column");
  CHECK(codes("from,to,minutes,km\nyard,field,3\n") == "ragged-row");
  CHECK(codes("from,to,minutes,km\nyard,,3,2\n") == "empty-value");
  CHECK(codes("from,to,minutes,km\nyard,field,,2\n") == "empty-value");
  CHECK(codes("from,to,minutes,km\nyard,feild,3,2\n") == "unknown-site");
  CHECK(codes("from,to,minutes,km\nyard,yard,3,2\n") == "way-to-itself");
  CHECK(codes("from,to,minutes,km\nyard,field,3,2\nfield,yard,3,2\n") == "");
  CHECK(codes("from,to,minutes,km\nyard,field,3,2\nyard,field,4,2\n") == "repeated-value");
  CHECK(codes("from,to,minutes,km\nyard,field,3.5,2\n") == "bad-number");
  CHECK(codes("from,to,minutes,km\nyard,field,-3,2\n") == "bad-number");
  CHECK(codes("from,to,minutes,km\nyard,field,3,2.125\n") == "two-readings");
  CHECK(codes("from,to,minutes,km\nyard,field,3,2.1256\n") == "bad-number");
  CHECK(codes("from,to,minutes,km\nyard,field,3,1e3\n") == "bad-number");
  CHECK(codes("from,to,minutes,km\nyard,field,10001,2\n") == "out-of-range");
  CHECK(codes("from,to,minutes,km\nyard,field,3,10000.01\n") == "out-of-range");
}

TEST_CASE("a way that is wrong is told at its place") {
  try {
    read_fleet(files_with("from,to,minutes,km\nyard,field,3,2\nyard,feild,x,2\n"));
    FAIL("it was read");
  } catch (const Failure& failure) {
    REQUIRE(failure.diagnostics().size() == 2);
    const auto& place = failure.diagnostics()[0].place;
    CHECK(place->file == "travel.csv");
    CHECK(place->line == 3);
    CHECK(place->column == 6);
    CHECK(failure.diagnostics()[0].hint == "did you mean `field`?");
    CHECK(failure.diagnostics()[1].place->column == 12);
  }
}

TEST_CASE("the file that is named must be there, and lie in the folder") {
  FleetFiles files = files_with("from,to,minutes,km\n");
  files.texts.erase("travel.csv");
  CHECK(fleet_texts::codes_of(files) == "no-travel-table");
  for (const char* name :
       {"../travel.csv", "sub/travel.csv", "register.csv", ".csv", "travel.txt", "/etc/travel.csv"}) {
    CAPTURE(name);
    CHECK(fleet_texts::codes_of(files_with("", std::string("{table: ") + name + "}")) == "bad-file-name");
  }
}

TEST_CASE("the folder's travel table is found however fleet.yaml is written") {
  const test::TemporaryFolder folder;
  const auto write = [&](const char* name, std::string_view text) { std::ofstream(folder.path() / name) << text; };
  std::filesystem::create_directory(folder.path() / "schedules");
  write("schedules/pump.yaml", fleet_texts::one_task);
  write("travel.csv", "from,to,minutes,km\n");
  write("other.csv", "no table at all");
  const auto found = [&](const std::string& yaml) {
    write("fleet.yaml", yaml);
    return load_fleet_files(folder.path()).texts.contains("travel.csv");
  };
  CHECK(found(fleet_texts::one_machine + "travel: {table: travel.csv}\n"));
  CHECK(found(fleet_texts::one_machine + "travel:\n  speed: 40 km/h\n  # the table\n  table: \"travel.csv\"\n"));
  CHECK(found("\"travel\": {table: travel.csv}\n" + fleet_texts::one_machine));
  CHECK(found("{fleet: Test farm, travel: {table: travel.csv}}\n"));
  CHECK_FALSE(found(fleet_texts::one_machine + "# travel: {table: travel.csv}\n"));
  CHECK_FALSE(found(fleet_texts::one_machine + "travel: {table: ../travel.csv}\n"));
  CHECK_FALSE(found(fleet_texts::one_machine));
  CHECK_FALSE(load_fleet_files(folder.path()).texts.contains("other.csv"));
}

TEST_CASE("the compiled text holds the travel table, and is not used for another one") {
  FleetFiles files = files_with("from,to,minutes,km\nyard,field,3,2\n");
  files.compiled = compile_fleet(files, read_fleet(files));
  REQUIRE(is_compiled(files));
  CHECK(rows_of(read_fleet(files)) == "yard field 3 20\n");
  files.texts["travel.csv"] = "from,to,minutes,km\nyard,field,4,2\n";
  CHECK_FALSE(is_compiled(files));
  CHECK(rows_of(read_fleet(files)) == "yard field 4 20\n");
  files.texts["travel.csv"] = "from,to,minutes,km\nyard,yard,4,2\n";
  CHECK(fleet_texts::codes_of(files) == "way-to-itself");
}

TEST_CASE("ways of a fleet made in code are held to the same rules, and put in order") {
  Fleet fleet = read_fleet(files_with("from,to,minutes,km\n"));
  fleet.travel->rows = {{"yard", "field", 3, 20}, {"dale", "yard", 4, 30}};
  CHECK(rows_of(checked(fleet)) == "dale yard 4 30\nyard field 3 20\n");
  const auto refused = [&](TravelRow row) {
    Fleet wrong = fleet;
    wrong.travel->rows.push_back(std::move(row));
    try {
      checked(wrong);
    } catch (const Failure& failure) {
      return failure.diagnostics().front().code;
    }
    return std::string();
  };
  CHECK(refused({"yard", "field", 5, 20}) == "repeated-value");
  CHECK(refused({"yard", "yard", 5, 20}) == "way-to-itself");
  CHECK(refused({"yard", "wood", 5, 20}) == "unknown-site");
}
