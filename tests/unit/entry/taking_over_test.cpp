// A fleet out of somebody's spreadsheet: columns guessed and told, messy fields, rows that are no machine, and what is
// asked back.
#include "service/taking_over.h"

#include <doctest/doctest.h>

#include <algorithm>
#include <string>
#include <string_view>
#include <vector>

#include "support/print.h"
#include "support/world.h"

namespace {

using service::take_over;
using service::TakenColumn;
using service::TakenOver;
using service::TakeOverAsk;

constexpr std::string_view starter =
    "schedule: NAME\nexample: true\nmeters: {engine: {unit: h}}\ntasks:\n  oil: {do: Oil, every: {hours: 250, months: "
    "12}}\n";

TakeOverAsk asked() {
  TakeOverAsk ask;
  ask.file = "list.csv";
  ask.fleet_name = "farm";
  ask.today = test::day("2026-06-15");
  ask.starter = starter;
  return ask;
}

TakeOverAsk leaving_out() {
  TakeOverAsk ask = asked();
  ask.skip_bad = true;
  return ask;
}

TakeOverAsk told(const std::string& heading, const std::string& column) {
  TakeOverAsk ask = asked();
  ask.columns = {{heading, column}};
  return ask;
}

// `heading=column` of all, `-` for what was left alone.
std::string columns_of(const TakenOver& taken) {
  std::string text;
  for (const TakenOver::Column& column : taken.columns) {
    text +=
        (text.empty() ? "" : " ") + column.heading + '=' + (column.column ? std::string(to_text(*column.column)) : "-");
  }
  return text;
}

std::string machines_of(const TakenOver& taken) {
  std::string text;
  for (const TakenOver::MachineTaken& machine : taken.machines) {
    text += (text.empty() ? "" : " ") + machine.key;
    if (machine.at) text += ':' + to_text(*machine.at) + '@' + service::to_text(*machine.on);
  }
  return text;
}

std::string aside_of(const TakenOver& taken) {
  std::string text;
  for (const TakenOver::RowAside& row : taken.aside) text += std::to_string(row.line) + ' ' + row.why + '\n';
  return text;
}

struct Refused {
  int status = 0;
  std::string codes;  // with their lines
};

Refused refused(std::string_view bytes, const TakeOverAsk& ask) {
  Refused found;
  try {
    take_over(bytes, ask);
  } catch (const service::Failure& failure) {
    found.status = static_cast<int>(failure.kind());
    for (const service::Diagnostic& what : failure.diagnostics()) {
      found.codes += (found.codes.empty() ? "" : " ") + what.code;
      if (what.place) found.codes += ':' + std::to_string(what.place->line);
    }
  }
  return found;
}

std::string utf16(std::string_view text) {
  std::string out = "\xff\xfe";
  for (const char c : text) (out += c) += '\0';
  return out;
}

}  // namespace

TEST_CASE("headings are guessed in the everyday words of several languages") {
  const std::vector<std::pair<std::string, TakenColumn>> words{{"Machine", TakenColumn::machine},
                                                               {"Maschine", TakenColumn::machine},
                                                               {"Bezeichnung", TakenColumn::name},
                                                               {"D\u00e9signation", TakenColumn::name},
                                                               {"Engine hours", TakenColumn::at},
                                                               {"Betriebsstunden", TakenColumn::at},
                                                               {"Betr.-Std. (h)", TakenColumn::at},
                                                               {"HEURES", TakenColumn::at},
                                                               {"Horas", TakenColumn::at},
                                                               {"Ore", TakenColumn::at},
                                                               {"Draaiuren", TakenColumn::at},
                                                               {"Driftstimer", TakenColumn::at},
                                                               {"Z\u00e4hlerstand [h]", TakenColumn::at},
                                                               {"abgelesen am", TakenColumn::on},
                                                               {"Relev\u00e9 le", TakenColumn::on},
                                                               {"Standort", TakenColumn::site},
                                                               {"Emplacement", TakenColumn::site},
                                                               {"Serien-Nr.", TakenColumn::serial},
                                                               {"Stunden bei Kauf", TakenColumn::bought_at},
                                                               {"Mise en service", TakenColumn::in_service},
                                                               {"in-service-at", TakenColumn::in_service_at},
                                                               {"Std./Jahr", TakenColumn::per_year},
                                                               {"Heures par an", TakenColumn::per_year},
                                                               {"Bemerkungen", TakenColumn::notes},
                                                               {"Wartungsplan", TakenColumn::schedule},
                                                               {" per-year ", TakenColumn::per_year}};
  for (const auto& [heading, column] : words) {
    CAPTURE(heading);
    const auto guessed = service::guess_column(heading);
    REQUIRE(guessed.has_value());
    CHECK(to_text(*guessed) == to_text(column));
  }
  for (const char* heading : {"", "Colour", "Type", "Hectares", "Stundenlohn", "(h)", "machine-x"}) {
    CAPTURE(heading);
    CHECK_FALSE(service::guess_column(heading).has_value());
  }
  for (int i = 0; i <= static_cast<int>(TakenColumn::notes); ++i) {  // each by its own name
    const auto column = static_cast<TakenColumn>(i);
    CHECK((service::guess_column(to_text(column)) == column));
    CHECK((service::parse_taken_column(to_text(column)) == column));
  }
}

TEST_CASE("a plain list becomes a fleet with its readings") {
  const TakenOver taken =
      take_over("Machine,Site,Hours,Date,Colour\nBig tractor,Home yard,2345.5,2026-05-27,red\nPump,,402,,\n", asked());
  CHECK(columns_of(taken) == "Machine=machine Site=site Hours=at Date=on Colour=-");
  CHECK(machines_of(taken) == "big-tractor:2345.5@2026-05-27 pump:402@2026-06-15");
  CHECK(taken.without_day == 1);
  CHECK(to_text(taken.encoding) == "UTF-8");
  CHECK(taken.aside.empty());
  const service::Machine& tractor = *taken.fleet->machine("big-tractor");
  CHECK(tractor.name == "Big tractor");
  CHECK(taken.fleet->site(tractor.site)->name == "Home yard");
  CHECK(tractor.schedule == "example");
  CHECK(taken.fleet->schedule("example")->example);
  CHECK(taken.fleet->name == "farm");
  REQUIRE(taken.readings.size() == 2);
  CHECK(taken.readings[0].machine == "big-tractor");
  CHECK(taken.readings[0].kind == service::FactKind::reading);
  CHECK(service::find_out(*taken.list).size() == 2);
  // The files say the same to whoever reads them.
  service::FleetFiles files;
  files.texts = taken.files;
  CHECK(service::read_fleet(files).machines.size() == 2);
  CHECK(taken.files.contains("schedules/example.yaml"));
  CHECK(taken.files.at("register.csv").starts_with("machine,name,schedule,site\r\n"));
}

TEST_CASE("units, decimal commas, days with the day first and blanks of all kinds are read") {
  const TakenOver taken = take_over(
      "Maschine;Stunden;abgelesen;Std./Jahr;gekauft;Stunden bei Kauf\n"
      " Schlepper\u00a0 gro\u00df ;2.345,5 h;27/05/2026 00:00;700 h/Jahr;2019;1.250 Std.\n"
      "Pumpe;5.120h;1.6.2026;;13.02.2020;\n"
      "Dritte;-;;?;;\n",
      asked());
  CHECK(machines_of(taken) == "schlepper-gross:2345.5@2026-05-27 pumpe:5120@2026-06-01 dritte");
  const service::Machine& tractor = *taken.fleet->machine("schlepper-gross");
  CHECK(tractor.name == "Schlepper gro\u00df");
  CHECK(to_text(*tractor.expect.per_year) == "700");
  CHECK(to_text(tractor.start.on) == "2019");
  CHECK(to_text(*tractor.start.at) == "1250");
  CHECK((tractor.start.kind == service::StartKind::bought));
  CHECK(taken.number_settled_by == "2.345,5");
}

TEST_CASE("Windows-1252 and UTF-16 are read, and said") {
  const TakenOver western = take_over("Maschine;Stunden\nM\xe4hdrescher;12\n", asked());
  CHECK(to_text(western.encoding) == "Windows-1252");
  CHECK(western.fleet->machine("maehdrescher")->name == "M\u00e4hdrescher");
  const TakenOver wide = take_over(utf16("Maschine\tStunden\nPumpe\t12\n"), asked());
  CHECK(to_text(wide.encoding) == "UTF-16");
  CHECK(machines_of(wide) == "pumpe:12@2026-06-15");
  CHECK(wide.separator == '\t');
  CHECK(take_over("\xef\xbb\xbfMaschine;Stunden\nPumpe;12\n", asked()).machines.size() == 1);
  CHECK(refused(std::string_view("Maschine\0x", 10), asked()).codes == "bad-text");
  CHECK(refused("Maschine\nM\x81\n", asked()).codes == "bad-text");
  CHECK(refused("", asked()).codes == "empty-file");
}

TEST_CASE("titles, headers told again, headings, totals and remarks are no machines") {
  const TakenOver taken = take_over(
      "Our machines\n\nMachine;Serial;Hours;Person\nTractors:;;;\nBig;1;100;\nMachine;Serial;Hours;Person\n"
      "Small;;50;\nTotal hours;;150;\n;;150;\n;;;ask Ann\nTotal pump;7;3;\n",
      asked());
  CHECK(machines_of(taken) == "big:100@2026-06-15 small:50@2026-06-15 total-pump:3@2026-06-15");
  CHECK(aside_of(taken) ==
        "1 it stands above the header\n4 it is a heading\n6 it is the header again\n8 it is a total\n"
        "9 it names no machine\n10 it names no machine\n");
}

TEST_CASE("a sum over all machines is no machine, and a machine is none for its name") {
  const auto taken = take_over("Machine;Hours\nOne;1200\nAll terrain quad;90\nAll machines;1290\n", asked());
  CHECK(machines_of(taken) == "one:1200@2026-06-15 all-terrain-quad:90@2026-06-15");
  CHECK(aside_of(taken) == "4 it is a total\n");
}

TEST_CASE("three digits behind a point are asked back where the column has marks between thousands") {
  const std::string mixed = "Machine;Hours;Per year\nOne;1'250.5;\nTwo;1.250;\nThree;12.345;1.5\n";
  CHECK(refused(mixed, asked()).codes == "two-readings:3 two-readings:4");
  CHECK(refused(mixed, leaving_out()).codes == "two-readings:3 two-readings:4");
  TakeOverAsk point = asked();
  point.told.decimal = service::DecimalMark::point;
  CHECK(machines_of(take_over("Machine;Hours\nOne;1'250.5\nTwo;1.250\n", point)) ==
        "one:1250.5@2026-06-15 two:1.25@2026-06-15");
  CHECK(refused("Machine;Hours\nOne;1.250,5\nTwo;1,250\n", asked()).codes == "two-readings:3");
  // Marks in another column, and digits that part no thousands.
  CHECK(refused("Machine;Hours;Per year\nOne;1.25;1'250.5\nTwo;0.250;\nThree;1.2500;\n", asked()).codes.empty());
  CHECK(refused("Machine;Hours\nOne;1'250.5\nTwo;0.250\nThree;12345.250\n", asked()).codes.empty());
}

TEST_CASE("readings without days beside a column of days that nobody knows are asked back") {
  const std::string read = "Machine;Hours;Read\nOne;1200;2026-05-02\nTwo;90;\nThree;50;?\n";
  CHECK(refused(read, asked()).codes == "days-of-what:1");
  CHECK(refused(read, leaving_out()).codes == "days-of-what:1");
  CHECK(machines_of(take_over(read, told("Read", "on"))) ==
        "one:1200@2026-05-02 two:90@2026-06-15 three:50@2026-06-15");
  TakeOverAsk one_day = asked();
  one_day.read_on = test::day("2026-06-01");
  CHECK(machines_of(take_over(read, one_day)) == "one:1200@2026-06-01 two:90@2026-06-01 three:50@2026-06-01");
  CHECK(refused("Machine;Hours;Seen\nOne;1200;03/25/2026\n", asked()).codes == "days-of-what:1");
  // A column of years or with something else in it, no readings, and a day that is known.
  for (const char* const known :
       {"Machine;Hours;Built\nOne;1200;2009\n", "Machine;Hours;Seen\nOne;1200;2026-05-02 by M.\n",
        "Machine;Site;Seen\nOne;Yard;2026-05-02\n", "Machine;Hours;Date;Seen\nOne;1200;2026-05-02;2026-05-03\n",
        "Machine;Hours;Seen\nOne;1200;\n"}) {
    CAPTURE(std::string(known));
    CHECK(refused(known, asked()).codes.empty());
  }
}

TEST_CASE("a row that says something of a machine and names none is asked back") {
  const std::string list = "Machine;Serial;Hours\nBig;1;100\n;2;50\n";
  CHECK(refused(list, asked()).codes == "no-name:3");
  CHECK(refused(list, asked()).status == 65);
  const TakenOver taken = take_over(list, leaving_out());
  CHECK(taken.machines.size() == 1);
  CHECK(aside_of(taken).starts_with("3 the row names no machine"));
}

TEST_CASE("the same machine twice is asked back, unless serial numbers tell two apart") {
  const std::string twice = "Machine;Serial;Hours\nBig Tractor;;100\nPump;;5\nbig  tractor ;;120\n";
  CHECK(refused(twice, asked()).codes == "machine-twice:4");
  CHECK(refused(twice, asked()).status == 65);
  const TakenOver taken = take_over(twice, leaving_out());
  CHECK(machines_of(taken) == "big-tractor:100@2026-06-15 pump:5@2026-06-15");
  CHECK(aside_of(taken) == "4 `big tractor` is there already, on line 2\n");
  const TakenOver pumps = take_over("Machine;Serial\nPump;A1\nPump;A2\nPump;\u00e41\n", asked());
  CHECK(machines_of(pumps) == "pump pump-2 pump-3");
  CHECK(refused("Machine;Serial\nPump;A1\nPump;a 1\n", asked()).codes.empty());
  CHECK(refused("Machine;Serial\nPump;A1\nPump;A1\n", asked()).codes == "machine-twice:3");
  CHECK(refused("Machine;Serial\nPump;A1\nPump;\n", asked()).codes == "machine-twice:3");
}

TEST_CASE("keys are short, plain and unlike") {
  const TakenOver taken = take_over(
      "Machine\nM\u00fcller's pump\nMuller's pump\n\u0414\u0432\u0430\nPump (red)\nPump (blue)\n"
      "The very long name of a machine that nobody wants to type\n"
      "The very long name of a machine beside it\n",
      asked());
  CHECK(machines_of(taken) ==
        "mueller-s-pump muller-s-pump machine-4 pump-red pump-blue the-very-long-name-of-a-machine "
        "the-very-long-name-of-a-machine-2");
  CHECK(taken.fleet->machine("machine-4")->name == "\u0414\u0432\u0430");
  CHECK(refused("Machine\nM\u00fcller\nMueller\n", asked()).codes == "machine-twice:3");
  REQUIRE(taken.alike.size() == 1);
  CHECK(taken.machines[taken.alike[0].later].line == 8);
}

TEST_CASE("columns are told, and told ones win") {
  const std::string list = "Was;Zahl;Stunden\nPumpe;7;12\n";
  TakeOverAsk ask = told("was", "name");
  ask.columns.emplace_back("Zahl", "at");
  const TakenOver taken = take_over(list, ask);
  CHECK(columns_of(taken) == "Was=name Zahl=at Stunden=-");
  CHECK(machines_of(taken) == "pumpe:7@2026-06-15");
  CHECK(taken.columns[0].told);
  CHECK(refused(list, asked()).codes == "no-names:1");
  CHECK(refused(list, told("Wass", "name")).status == 64);
  CHECK(refused(list, told("Wass", "name")).codes == "unknown-heading");
  CHECK(refused(list, told("Was", "hours")).codes == "unknown-column");
  ask.columns.emplace_back("Stunden", "at");
  CHECK(refused(list, ask).codes == "told-twice");
  CHECK(refused("Machine;Hours;Stunden\na;1;2\n", asked()).codes == "two-columns:1");
  CHECK(refused("Machine;X;X\na;1;2\n", told("X", "at")).codes == "two-headings");
  CHECK(columns_of(take_over("Code;Machine;Notes;Comment\na;b;c;d\n", asked())) ==
        "Code=machine Machine=name Notes=notes Comment=-");
  CHECK(columns_of(take_over("Machine;Code\nb;a\n", asked())) == "Machine=name Code=machine");
}

TEST_CASE("what parts the fields is told by the header, also where a heading holds a comma") {
  TakeOverAsk ask = told("Was, genau", "name");
  const TakenOver taken = take_over("Was, genau;Stunden\nPumpe, alt;12\n", ask);
  CHECK(columns_of(taken) == "Was, genau=name Stunden=at");
  CHECK(machines_of(taken) == "pumpe-alt:12@2026-06-15");
  CHECK(columns_of(take_over("List; of 2026\nMachine,Hours\na,1\n", asked())) == "Machine=machine Hours=at");
}

TEST_CASE("what is no number, no day or no reading is asked back, and with that left out the machine stays") {
  const std::string list =
      "Machine;Hours;Date;Bought;In service;Hours per year\nOne;broken;2026-05-01;;;\nTwo;100;32.05.2026;;;\n"
      "Three;100;05/2026;;;\nFour;100 km;;;;\nFive;100;2027-01-01;;;\nSix;2127 h / 80 h;;;;\n"
      "Seven;1;;2020;2021;\nEight;2;;;;lots\n";
  const Refused all = refused(list, asked());
  CHECK(all.status == 65);
  CHECK(all.codes == "bad-number:2 bad-day:3 bad-day:4 other-unit:5 future:6 bad-number:7 two-starts:8 bad-number:9");
  const TakenOver taken = take_over(list, leaving_out());
  CHECK(taken.machines.size() == 8);
  CHECK(machines_of(taken) == "one two three four five six seven:1@2026-06-15 eight:2@2026-06-15");
  std::string codes;
  for (const TakenOver::FieldLeftOut& field : taken.left_out) {
    codes += std::to_string(field.what.place->line) + field.what.code + ' ';
  }
  CHECK(codes == "2bad-number 3bad-day 4bad-day 5other-unit 6future 7bad-number 8two-starts 9bad-number ");
  CHECK((taken.fleet->machine("seven")->start.kind == service::StartKind::unknown));
}

TEST_CASE("a value of an unknown way of writing is asked back with both readings") {
  CHECK(refused("Machine;Hours\nOne;1.250\n", asked()).codes == "two-readings:2");
  TakeOverAsk ask = asked();
  ask.told.decimal = service::DecimalMark::comma;
  CHECK(machines_of(take_over("Machine;Hours\nOne;1.250\n", ask)) == "one:1250@2026-06-15");
  CHECK(refused("Machine;Hours;Date\nOne;1;03/04/2025\n", asked()).codes == "two-readings:2");
}

TEST_CASE("machines take the schedules that are there, and get examples of the others") {
  TakeOverAsk ask = asked();
  ask.schedules["schedules/pump.yaml"] =
      "schedule: pump\nmeters: {distance: {unit: km}}\ntasks:\n  seal: {do: Seal, every: {months: 12}}\n";
  ask.schedule = "tractor";
  const TakenOver taken =
      take_over("Machine;Schedule;Hours\nOne;Pump;10 km\nTwo;;7\nThree;R\u00fcben Roder;8 h\n", ask);
  CHECK(taken.fleet->machine("one")->schedule == "pump");
  CHECK_FALSE(taken.fleet->schedule("pump")->example);
  CHECK(taken.fleet->machine("two")->schedule == "tractor");
  CHECK(taken.fleet->machine("three")->schedule == "rueben-roder");
  CHECK((taken.example_schedules == std::vector<std::string>{"tractor", "rueben-roder"}));
  CHECK_FALSE(taken.files.contains("schedules/pump.yaml"));
  CHECK(machines_of(taken) == "one:10@2026-06-15 two:7@2026-06-15 three:8@2026-06-15");
  CHECK(refused("Machine;Schedule;Hours\nOne;Pump;10 h\nTwo;Pump;3\n", ask).codes == "other-unit:2");
}

TEST_CASE("a reading below what the meter showed when it was bought is asked back") {
  const std::string list = "Machine;Hours;Date;Bought;Bought at\nOne;90;2026-05-01;2025-01-01;100\n";
  CHECK(refused(list, asked()).status == 65);
  const TakenOver taken = take_over(list, leaving_out());
  CHECK(machines_of(taken) == "one");
  CHECK(taken.left_out.size() == 1);
  CHECK(taken.readings.empty());
}

TEST_CASE("text that a program could take for something else stays text") {
  const TakenOver taken =
      take_over("Machine;Site;Notes;Serial\n=1+1;\"Barn: \"\"{x}\"\" # 1\";\"two\nlines, and a comma\";007\n", asked());
  CHECK(taken.fleet->machines[0].name == "=1+1");
  CHECK(taken.fleet->machines[0].key == "1-1");
  CHECK(taken.fleet->machines[0].notes == "two lines, and a comma");
  CHECK(taken.fleet->machines[0].serial == "007");
  CHECK(taken.fleet->sites[0].name == "Barn: \"{x}\" # 1");
  TakeOverAsk ask = asked();
  ask.fleet_name = "a \"b\" \\ c: d";
  CHECK(take_over("Machine\nOne\n", ask).fleet->name == "a \"b\" \\ c: d");
}

TEST_CASE("a list without a machine, and rows that cannot be taken apart, are asked back") {
  CHECK(refused("Machine;Hours\nTotal;3\n", asked()).codes == "no-machines:1");
  CHECK(refused("Machine;Hours\nOne;3\nT\"wo;4;\n", asked()).codes == "bad-quote:3");
  CHECK(refused("Machine;Hours\nOne;3\nTwo;4;5\n", asked()).codes == "ragged-row:3");
  CHECK(machines_of(take_over("Machine;Hours\nOne\nTwo;4;;;\n", asked())) == "one two:4@2026-06-15");
}

TEST_CASE("what was left out names its machine, column and value, and what went with it") {
  const TakenOver taken = take_over(
      "Machine;Hours;Date;In service;In service at\nOne;100;32.05.2026;;\nTwo;1200?;2026-05-01;;\n"
      "Three;5;;2026-05-01;3x\n",
      leaving_out());
  REQUIRE(taken.left_out.size() == 3);
  CHECK(taken.left_out[0].machine == "one");
  CHECK(taken.left_out[0].heading == "Date");
  CHECK(taken.left_out[0].value == "32.05.2026");
  CHECK(taken.left_out[0].besides == "the reading `100`");
  CHECK(taken.left_out[1].machine == "two");
  CHECK(taken.left_out[1].value == "1200?");
  CHECK(taken.left_out[2].besides == "the day, `2026-05-01`");
  CHECK((taken.fleet->machine("three")->start.kind == service::StartKind::unknown));
}

TEST_CASE("a machine that is still to come is asked back, and so is a doubt behind a figure") {
  CHECK(refused("Machine;Hours;Bought\nOne;1;2062\n", asked()).codes == "future-start:2");
  CHECK(refused("Machine;Hours;In service\nOne;1;2027\nTwo;1;2026\n", asked()).codes == "future-start:2");
  const TakenOver taken = take_over("Machine;Hours;Bought;Hours when bought\nOne;9;2062;5\n", leaving_out());
  CHECK((taken.fleet->machine("one")->start.kind == service::StartKind::unknown));
  CHECK(taken.list->machines == 1);
  CHECK(taken.left_out.at(0).besides == "the hours then, `5`");
  for (const char* doubt : {"1200?", "1200 !", "1200*", "1200 h?", "1200 (?)", "~1200"}) {
    CAPTURE(doubt);
    CHECK(refused("Machine;Hours\nOne;" + std::string(doubt) + "\n", asked()).codes == "bad-number:2");
  }
  for (const char* sure : {"1200", "1200 h", "1200 Std.", "1200 (h)", "1'200 h"}) {
    CAPTURE(sure);
    CHECK(machines_of(take_over("Machine;Hours\nOne;" + std::string(sure) + "\n", asked())) == "one:1200@2026-06-15");
  }
}

TEST_CASE("figures that cannot be are asked back, all in one go with the rest") {
  const Refused all = refused(
      "Machine;Hours;Date;In service;Hours per year\nOne;1;;;9000\nTwo;2000000;;;\nThree;900;2026-06-01;2026-05-20;\n"
      "Four;x;;;\nFour;1;;;\n",
      asked());
  CHECK(all.codes == "impossible:2 impossible:3 reading-jumps:4 bad-number:5 machine-twice:6");
  CHECK(refused("Machine;Hours;Date\nOne;1200?;32.01.2026\n", asked()).codes == "bad-number:2 bad-day:2");
}

TEST_CASE("columns without heading are listed, also at the end, and fields below them are no field too many") {
  const TakenOver taken = take_over("Machine;Hours;\nLoader;8000;13.05.2026\nPump;5;\n", asked());
  CHECK(machines_of(taken) == "loader:8000@2026-06-15 pump:5@2026-06-15");
  REQUIRE(taken.columns.size() == 3);
  CHECK(taken.columns[2].number == 3);
  CHECK(taken.columns[2].heading.empty());
  CHECK(take_over("Machine;Hours;;;\nLoader;8000;;;\n", asked()).columns.size() == 2);
  CHECK(refused("Machine;Hours\nLoader;8000;13.05.2026\n", asked()).codes == "ragged-row:2");
}

TEST_CASE("a header of two lines is asked back, and so is a file without any") {
  const std::string two = "Machine;Meter;\n;Hours;Date\nLoader;8000;13.05.2026\n";
  CHECK(refused(two, asked()).codes == "second-header:2");
  CHECK(aside_of(take_over(two, leaving_out())).find("the header has two lines") != std::string::npos);
  CHECK(aside_of(take_over("Machine;Hours\n;h\nLoader;8000\n", asked())) == "2 it names no machine\n");  // units
  CHECK(refused("Loader;8000\nPump;5\n", asked()).codes == "no-header:1");
}

TEST_CASE("two names that give one key are two machines, and said") {
  const TakenOver taken = take_over("Maschine;Stunden\nPumpe 1;10\nPumpe #1;20\n", asked());
  CHECK(machines_of(taken) == "pumpe-1:10@2026-06-15 pumpe-1-2:20@2026-06-15");
  REQUIRE(taken.alike.size() == 1);
  CHECK(taken.machines[taken.alike[0].first].key == "pumpe-1");
  CHECK(taken.machines[taken.alike[0].later].key == "pumpe-1-2");
  CHECK(refused("ID;Vehicle\n7;Pump\n8;Pump\n", asked()).codes == "machine-twice:3");
  CHECK(machines_of(take_over("ID;Vehicle\n7;Pump\n8;Pump\n", told("ID", "machine"))) == "7 8");
}

TEST_CASE("a machine long in service without services in the book is asked for them, a new one is not") {
  const TakenOver taken = take_over(
      "Machine;Hours;Date;In service\nLoader;8000;13.05.2026;2005\nNew one;40;13.05.2026;2026-04-01\n", asked());
  REQUIRE(taken.services_not_known.size() == 1);
  CHECK(taken.services_not_known[0] == "loader");
  CHECK((taken.fleet->machine("loader")->start.kind == service::StartKind::bought));
  CHECK(to_text(*taken.fleet->machine("loader")->start.at) == "0");
  CHECK((taken.fleet->machine("new-one")->start.kind == service::StartKind::in_service));
  for (const service::Point& point : taken.list->points) CHECK((point.standing != service::Standing::overdue));
  const auto asked_for = service::find_out(*taken.list);
  REQUIRE(asked_for.size() == 1);
  CHECK(asked_for[0].machine->key == "loader");
  CHECK(taken.files.at("register.csv").find("loader,Loader,example,,2005,0") != std::string::npos);
}
