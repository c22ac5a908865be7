// register.csv: machines as rows.
#include <doctest/doctest.h>

#include <algorithm>
#include <string>
#include <string_view>

#include "service/fleet.h"
#include "unit/fleet/texts.h"

namespace {

using namespace service;
using fleet_texts::codes_of;
using fleet_texts::fleet_of;

}  // namespace

TEST_CASE("a register lists machines beside or instead of the fleet file") {
  const std::string rows =
      "\xEF\xBB\xBFname,machine,schedule,site,in-service,at,serial,conditions,left,per-year,bought,bought-at\r\n"
      "\"Pump, \"\"big\"\" one\",pump-2,pump,yard,2011,12.5,77-1,dusty; wet,2030-01-01,450,,\r\n"
      "\r\n"
      "Pumpe S\xC3\xBC"
      "d,pump-3,pump,,,,,,,,2020-05,\r\n"
      ",pump-4,pump,,,,,,,,2020-05-01,4100\r\n"
      ",,,,,,,,,,,\r\n";
  const Fleet fleet = fleet_of("fleet: Test farm\nsites: {yard: {}}\n",
                               fleet_texts::one_task + "    in: {dusty: {months: 3}, wet: {months: 4}}\n", rows);
  REQUIRE(fleet.machines.size() == 3);
  const Machine& first = *fleet.machine("pump-2");
  CHECK(first.name == "Pump, \"big\" one");
  CHECK(first.site == "yard");
  CHECK(to_text(first.start.on) == "2011");
  CHECK(to_text(*first.start.at) == "12.5");
  CHECK(first.serial == "77-1");
  REQUIRE(first.conditions.size() == 2);
  CHECK(first.conditions[1] == "wet");
  CHECK(to_text(*first.left) == "2030-01-01");
  CHECK(to_text(*first.expect.per_year) == "450");
  CHECK(first.place.file == "register.csv");
  CHECK(first.place.line == 2);
  CHECK(first.place.column == 21);
  CHECK(first.meters.size() == 1);
  CHECK(to_text(fleet.machine("pump-3")->start.on) == "2020-05");
  CHECK(fleet.machine("pump-3")->start.at.has_value() == false);
  CHECK(fleet.machine("pump-3")->place.column == 11);
  CHECK(fleet.machine("pump-4")->name == "pump-4");
  CHECK(to_text(*fleet.machine("pump-4")->start.at) == "4100");
  CHECK((fleet.machine("pump-5") == nullptr));
}

TEST_CASE("an apostrophe that keeps a spreadsheet from computing is no part of a name") {
  const Fleet fleet = fleet_of("fleet: Test farm\n", fleet_texts::one_task,
                               "machine,schedule,name,serial\np,pump,'-Pump-,'=12\nq,pump,'t Pumpje,'12\n");
  CHECK(fleet.machine("p")->name == "-Pump-");
  CHECK(fleet.machine("p")->serial == "=12");
  CHECK(fleet.machine("q")->name == "'t Pumpje");
  CHECK(fleet.machine("q")->serial == "'12");
}

TEST_CASE("a register with its header alone adds nothing") {
  CHECK(fleet_of(fleet_texts::one_machine, fleet_texts::one_task, "machine,schedule\n").machines.size() == 1);
  CHECK(codes_of("fleet: Test farm\n", fleet_texts::one_task, "machine,schedule\n") == "no-machines");
}

TEST_CASE("what is wrong with a row of the register is said") {
  struct Row {
    std::string_view text;
    std::string_view codes;
  };
  const Row rows[] = {
      {"machine,schedule\n,pump\n", "empty-value"},
      {"machine,schedule\np,\n", "empty-value"},
      {"machine,schedule\nP 1,pump\n", "bad-name"},
      {"machine,schedule\np,pump\np,pump\n", "duplicate-machine"},
      {"machine;schedule\np;pump\n", ""},
      {"machine|schedule\np|pump\n", "unknown-column missing-column missing-column"},
      {"machine,schedule\np,pump,x\n", "ragged-row"},
      {"machine,schedule\np,pump,\n", ""},
      {"sep=;\n Machine ;SCHEDULE;;\np;pump;;\n", ""},
      {"machine,schedule,name\np,pump,\"a\"b\n", "bad-quote"},
      {"machine,schedule,name\np,pump,a\"b\"\n", "bad-quote"},
      {"machine,schedule,name\np,pump,\"a\nq,pump,b\"\n", "bad-quote bad-quote"},
      {"machine,schedule,in-service\np,pump,1/3/2011\n", "two-readings"},
      {"machine,schedule,in-service\np,pump,31/2/2011\n", "bad-day"},
      {"machine;schedule;in-service;at\np;pump;2011;1,5\nq;pump;2011;1.5\n", "mixed-dialect"},
      {"machine,schedule,in-service,at\np,pump,2011-03-01,12h\n", "bad-number"},
      {"machine,schedule,in-service,at\np,pump,,12\n", "missing-key"},
      {"machine,schedule,bought,in-service\np,pump,2011,2012\n", "two-starts"},
      {"machine,schedule,in-service,left\np,pump,2011-03-01,2011-02-28\n", "left-before-start"},
      {"machine,schedule,conditions\np,pump,dusty dusty\n", "repeated-value"},
      {"machine,schedule,per-year\np,pump,-1\n", "bad-number"},
      {"machine,schedule,site\np,pump,yard\n", "unknown-site"},
      {"", "empty-file"},
  };
  for (const Row& row : rows) {
    const std::string text(row.text);
    CAPTURE(text);
    CHECK(codes_of(fleet_texts::one_machine, fleet_texts::one_task, text) == std::string(row.codes));
  }
}

TEST_CASE("a register of a hundred thousand rows is read, and looked up by name") {
  std::string rows = "machine,name,schedule\n";
  for (int i = 0; i < 100'000; ++i) {
    rows += "m-" + std::to_string(i) + ",Machine " + std::to_string(i) + ",pump\n";
  }
  const Fleet fleet = fleet_of("fleet: Test farm\n", fleet_texts::one_task, rows);
  CHECK(fleet.machines.size() == 100'000);
  int found = 0;
  for (int i = 0; i < 100'000; ++i) {
    const Machine* const machine = fleet.machine("m-" + std::to_string(i));
    if (machine != nullptr && machine->name == "Machine " + std::to_string(i)) ++found;
  }
  CHECK(found == 100'000);
}

TEST_CASE("a register as a spreadsheet saves it") {
  const std::string rows =
      "machine;schedule;in-service;at;bought;bought-at;left;per-year\n"
      "a;pump;13.02.2011;0,5;;;;1.250\n"
      "b;pump;;;03.04.2015;4.100,25;01.05.2030;\n";
  const auto check = [](const service::Fleet& fleet) {
    CHECK(to_text(fleet.machine("a")->start.on) == "2011-02-13");
    CHECK(to_text(*fleet.machine("a")->start.at) == "0.5");
    CHECK(to_text(*fleet.machine("a")->expect.per_year) == "1250");
    CHECK(to_text(fleet.machine("b")->start.on) == "2015-04-03");
    CHECK(to_text(*fleet.machine("b")->start.at) == "4100.25");
    CHECK(to_text(*fleet.machine("b")->left) == "2030-05-01");
  };
  const std::string tabs = [&] {
    std::string text = rows;
    std::replace(text.begin(), text.end(), ';', '\t');
    return text;
  }();
  std::string utf16 = "\xff\xfe";
  for (const char c : rows) {
    utf16 += c;
    utf16 += '\0';
  }
  check(fleet_of(fleet_texts::one_machine, fleet_texts::one_task, rows));
  check(fleet_of(fleet_texts::one_machine, fleet_texts::one_task, tabs));
  check(fleet_of(fleet_texts::one_machine, fleet_texts::one_task, "\xef\xbb\xbf" + rows));
  check(fleet_of(fleet_texts::one_machine, fleet_texts::one_task, utf16));
}

TEST_CASE("the meter in service has a column of that name, an older name of it, and one of the two") {
  for (const std::string column : {"in-service-at", "at", "In-Service At"}) {
    const Fleet fleet =
        fleet_of("fleet: Test farm\n", fleet_texts::one_task,
                 "machine,schedule,in-service," + column + ",notes\np,pump,2011,12.5,'=behind the barn\n");
    CHECK(to_text(*fleet.machine("p")->start.at) == "12.5");
    CHECK(fleet.machine("p")->notes == "=behind the barn");
  }
  CHECK(codes_of("fleet: Test farm\n", fleet_texts::one_task, "machine,schedule,at,in-service-at\np,pump,,\n") ==
        codes_of("fleet: Test farm\n", fleet_texts::one_task, "machine,schedule,site,site\np,pump,,\n"));
}
