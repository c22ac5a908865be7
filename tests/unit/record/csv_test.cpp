#include <doctest/doctest.h>

#include "unit/record/support.h"

using namespace service;
using record_test::facts_of;
using record_test::mistakes_of;

namespace {

FactsRead read(const std::string& text) { return read_facts(text, "facts.csv"); }

const std::string header = "kind,machine,on,at,task,note\n";

}  // namespace

TEST_CASE("facts survive a file of CSV, and the file survives them") {
  const std::vector<Fact> facts = record_test::hard_facts();
  const std::string csv = facts_to_csv(facts);
  const FactsRead again = read(csv);
  CHECK(mistakes_of(again) == "");
  REQUIRE(again.rows.size() == facts.size());
  for (std::size_t i = 0; i < facts.size(); ++i) {
    CAPTURE(i);
    const FactRow& row = again.rows[i];
    CHECK(row.has_id);
    CHECK(same_content(row.fact, facts[i]));
    CHECK(to_text(row.fact.id) == to_text(facts[i].id));
    CHECK(row.fact.entered == facts[i].entered);
    CHECK(row.fact.entered_by == facts[i].entered_by);
    CHECK(row.fact.origin == facts[i].origin);
  }
  CHECK(facts_to_csv(facts_of(again)) == csv);
}

TEST_CASE("CSV is written with all columns, LF, exact decimals and no quotes without need") {
  const std::string id = to_text(record_test::command(5));
  CHECK(facts_to_csv({record_test::hard_facts().front()}) ==
        "kind,machine,on,meter,at,task,position,name,value,unit,last,first,until,part,found,by,note,sure,history,id,"
        "entered,"
        "entered-by,origin,batch,strikes\n"
        "reading,loader,2026-03-01,engine,1250.5,,,,,,,,,,,,,,," +
            id + "-1,2026-01-01T00:00:00.005Z,'=cmd,\"old, \"\"book\"\".csv\"," + id + ",\n");
}

TEST_CASE("no text field that is written can start a formula in a spreadsheet") {
  for (const std::string start :
       {"=", "+", "-", "@", "\t", "\n", "\xef\xbc\x9d", "\xef\xbc\x8b", "\xef\xbc\x8d", "\xef\xbc\xa0"}) {
    for (const std::string apostrophes : {"", "'", "''"}) {
      Fact fact = record_test::hard_facts().front();
      fact.kind = FactKind::sign;
      fact.at.reset();
      fact.meter.clear();
      fact.name = "leak";
      fact.note = apostrophes + start + "1+1";
      const std::string csv = facts_to_csv({fact});
      CAPTURE(csv);
      CHECK(csv.find("'" + fact.note) != std::string::npos);
      const auto again = facts_of(read(csv));
      REQUIRE(again.size() == 1);
      CHECK(again[0].note == fact.note);
    }
  }
}

TEST_CASE("apostrophes elsewhere stay as they are") {
  const auto rows = facts_of(read(header + "back,loader,2026-01-01,,,'tis back\nback,loader,2026-01-01,,,''\n"));
  REQUIRE(rows.size() == 2);
  CHECK(rows[0].note == "'tis back");
  CHECK(rows[1].note == "''");
  CHECK(facts_to_csv(rows).find(",'tis back,") != std::string::npos);
}

TEST_CASE("a negative value is a number and stays one") {
  const auto rows = facts_of(read("kind,machine,on,name,value\nmeasurement,loader,2026-01-01,oil temperature,-5\n"));
  REQUIRE(rows.size() == 1);
  CHECK(rows[0].value->millionths == -5'000'000);
  CHECK(facts_to_csv(rows).find(",-5,") != std::string::npos);
}

TEST_CASE("byte order mark, line ends, order of columns, separators and empty lines do not matter") {
  const std::string rows = "service,loader,2009,,oil,x\nreading,loader,2026-03-01,1250.5,,\n";
  const std::string plain = facts_to_csv(facts_of(read(header + rows)));
  for (const std::string& text :
       {"\xef\xbb\xbf" + header + rows,
        std::string("kind,machine,on,at,task,note\r\n"
                    "service,loader,2009,,oil,x\r\n\r\nreading,loader,2026-03-01,1250.5,,"),
        std::string("note,task,at,on,machine,kind\n"
                    "x,oil,,2009,loader,service\n,,,,,\n,,1250.5,2026-03-01,loader,reading\n"),
        std::string("kind;machine;on;at;task;note\n"
                    "service;loader;2009;;oil;x\nreading;loader;2026-03-01;1250.50;;\n"),
        std::string("kind\tmachine\ton\tat\ttask\tnote\n"
                    "service\tloader\t2009\t\toil\tx\nreading\tloader\t2026-03-01\t1250.5\t\t\n"),
        std::string("\"kind\",\"machine\",\"on\",\"at\",\"task\",\"note\"\n"
                    "\"service\",\"loader\",\"2009\",\"\",\"oil\",\"x\"\n"
                    "\"reading\",\"loader\",\"2026-03-01\",\"1250.5\",\"\",\"\"\n")}) {
    CAPTURE(text);
    const FactsRead read_text = read(text);
    CHECK(mistakes_of(read_text) == "");
    CHECK(facts_to_csv(facts_of(read_text)) == plain);
  }
}

TEST_CASE("a quoted field may hold separators, quotes and line breaks") {
  const auto rows = facts_of(read(header + "back,loader,2026-01-01,,,\"a, \"\"b\"\"\r\nc\nd\"\n"));
  REQUIRE(rows.size() == 1);
  CHECK(rows[0].note == "a, \"b\"\nc\nd");
}

TEST_CASE("a row knows its place, also behind a field with line breaks") {
  const FactsRead rows = read(header + "back,loader,2026-01-01,,,\"a\nb\"\nback,loader,2026-01-02,,,\n");
  REQUIRE(rows.rows.size() == 2);
  CHECK(rows.rows[0].place.line == 2);
  CHECK(rows.rows[1].place.line == 4);
  CHECK(rows.rows[1].place.file == "facts.csv");
  CHECK(rows.rows[1].place.text == "back,loader,2026-01-02,,,");
  CHECK_FALSE(rows.rows[1].has_id);
}

TEST_CASE("what is not CSV is told with its place") {
  struct Row {
    std::string text;
    std::string mistakes;
  };
  for (const Row& row :
       {Row{"", "1:1 empty-file"},
        Row{"\n\r\n", "1:1 empty-file"},
        Row{"\xef\xbb\xbf", "1:1 empty-file"},
        Row{"\xff\xfek\0i\0", "1:1 not-utf8"},
        Row{header + "back,loa\"der,2026-01-01,,,\n", "2:9 bare-quote"},
        Row{header + "back,\"loader\"s,2026-01-01,,,\n", "2:14 text-after-quote"},
        Row{header + "back,\"loader,2026-01-01,,,\n", "2:6 unclosed-quote"},
        Row{header + "back,\"loader,2026-01-01,,,\nback,pump,2026-13-01,,,\n", "2:6 unclosed-quote, 3:11 bad-value"},
        Row{header + "back,loader,2026-01-01,,\n", "2:1 ragged-row"},
        Row{header + "back,loader,2026-01-01,,,,x\n", "2:1 ragged-row"},
        Row{header + "back,caf\xc3\xa9,2026-02-30,,,\n", "2:11 bad-value"},
        Row{header + "back,loader,2026-01-01,,,\nback,\xff,2026-01-01,,,\n", "3:6 bad-text"},
        Row{header + "back,\xed\xa0\x80,2026-01-01,,,\n", "2:6 bad-text"},
        Row{header + "back,a\x01,2026-01-01,,,\n", "2:6 bad-text"},
        Row{header + "back,a\xc2\x85,2026-01-01,,,\n", "2:6 bad-text"},
        Row{header + "back,\"a\nb\",2026-01-01,,,\n", "2:6 bad-text"},
        Row{header + "back,\"a\tb\",2026-01-01,,,\n", "2:6 bad-text"},
        Row{header + "back,loader,2026-01-01,,,a\rb\n", "2:26 bad-text"},
        Row{header + "back," + std::string(10'001, 'x') + ",2026-01-01,,,\n", "2:6 bad-text"},
        Row{"kind,machin,on\n", "1:6 unknown-column"},
        Row{"kind,machine,on,machine\n", "1:17 duplicate-column"},
        Row{"kind,,on\n", "1:6 unknown-column"},
        Row{"kind,machine,on,colour,Remark\n", "1:17 unknown-column, 1:24 unknown-column"},
        Row{"machine,on\nloader,2026-01-01\n", "2:1 missing-value"},
        Row{"kind,machine,on,at\nreadin,loader,2026-01-01,1\n", "2:1 bad-value"}}) {
    CAPTURE(row.text);
    CHECK(mistakes_of(read(row.text)) == row.mistakes);
  }
}

TEST_CASE("a text of exactly 10000 bytes is taken") {
  const auto rows = facts_of(read(header + "back," + std::string(10'000, 'x') + ",2026-01-01,,,\n"));
  REQUIRE(rows.size() == 1);
  CHECK(rows[0].machine.size() == 10'000);
}

TEST_CASE("every bad row is told in one run, and the good ones are read") {
  std::string text = header;
  for (int i = 2; i <= 1000; ++i) {
    text += i % 3 == 0 ? "reading,loader,2026-01-01,x,,\n" : "reading,loader,2026-01-01,1,,\n";
  }
  const FactsRead rows = read(text);
  CHECK(rows.diagnostics.size() == 333);
  CHECK(rows.rows.size() == 666);
  CHECK(rows.diagnostics.back().place->line == 999);
}

TEST_CASE("refused rows are kept as they were written, with their header") {
  const FactsRead rows = read(
      "\xef\xbb\xbfkind,machine,on,note\r\n"
      "back,a,2026-01-01,\r\nback,b,x,\"1\r\n2\"\r\nback,c\r\n");
  CHECK(rows.header == "kind,machine,on,note");
  REQUIRE(rows.rejected.size() == 2);
  CHECK(rows.rejected[0].raw == "back,b,x,\"1\r\n2\"");
  CHECK(rows.rejected[1].raw == "back,c");
}

TEST_CASE("an unknown column and an unknown kind get the nearest known one") {
  CHECK(read("kind,machin\n").diagnostics[0].hint.find("`machine`") != std::string::npos);
  CHECK(read("kind,machine\nreadin,x\n").diagnostics[0].message.find("`reading`") != std::string::npos);
}

TEST_CASE("rows of a find-out list that nobody filled in are counted and skipped") {
  const FactsRead rows = read(header + "service,loader,,,oil,\nreading,loader,,,,\nservice,loader,2009,,coolant,\n");
  CHECK(mistakes_of(rows) == "");
  CHECK(rows.blanks == 2);
  CHECK(rows.rows.size() == 1);
  // Whoever wrote something forgot the day.
  CHECK(mistakes_of(read(header + "service,loader,,1250,oil,\n")) == "2:1 missing-value");
  CHECK(mistakes_of(read(header + "service,loader,,,oil,done last year\n")) == "2:1 missing-value");
}

TEST_CASE("what says how a fact came into the book comes whole or not at all") {
  const std::string id = to_text(record_test::fact_id(1, 2));
  const std::string batch = to_text(record_test::command(1));
  const std::string columns = "kind,machine,on,id,entered,entered-by,origin,batch\n";
  const auto row = [&](const std::string& rest) {
    return mistakes_of(read(columns + "back,loader,2026-01-01," + rest + "\n"));
  };
  CHECK(row(id + ",2026-01-01T00:00:00.001Z,ann,back," + batch) == "");
  CHECK(row(id + ",2026-01-01T00:00:00.001Z,,,") == "");
  CHECK(row(id + ",,ann,back," + batch) == "2:1 missing-value");
  CHECK(row(",2026-01-01T00:00:00.001Z,,,") == "2:25 entry-without-id");
  CHECK(row(",,ann,,") == "2:26 entry-without-id");
  CHECK(row(",,,back,") == "2:27 entry-without-id");
  CHECK(row(",,,," + batch) == "2:28 entry-without-id");
  CHECK(row(id + "x,2026-01-01T00:00:00.001Z,,,") == "2:24 bad-value");
  CHECK(row(id + ",2026-01-01T00:00:00.001Z,,," + to_text(record_test::command(2))) == "2:80 bad-value");
}

TEST_CASE("a moment is written in one way only") {
  const std::string start =
      "kind,machine,on,id,entered\nback,loader,2026-01-01," + to_text(record_test::fact_id(1, 2)) + ",";
  const FactsRead good = read(start + "2026-01-01T23:59:59.999Z\n");
  REQUIRE(good.rows.size() == 1);
  CHECK(good.rows[0].fact.entered == record_test::some_time + 86'399'999);
  for (const std::string bad :
       {"2026-01-01", "2026-01-01T00:00:00Z", "2026-01-01T00:00:00.000", "2026-01-01T24:00:00.000Z",
        "2026-01-01T00:60:00.000Z", "2026-01-01T00:00:60.000Z", "2026-01-01 00:00:00.000Z", "2026-01-01T00:00:00.00xZ",
        "2026-01-01T00:00:00,000Z", "2026-02-30T00:00:00.000Z", "1969-12-31T23:59:59.999Z", "2026-01-01T00:00:00.0000Z",
        "2026-01-01T-1:00:00.000Z", "2026-01-01T00:00:00.000z"}) {
    CAPTURE(bad);
    CHECK(read(start + bad + "\n").diagnostics.size() == 1);
  }
}

TEST_CASE("a strike that has an id names an earlier fact by its full id") {
  const std::string start = "kind,strikes,id,entered\nstrike,";
  const std::string end = "," + to_text(record_test::fact_id(5, 1)) + ",2026-01-01T00:00:00.005Z\n";
  CHECK(mistakes_of(read(start + to_text(record_test::fact_id(4, 9)) + end)) == "");
  CHECK(mistakes_of(read(start + to_text(record_test::fact_id(5, 1)) + end)) == "2:8 early-strike");
  CHECK(mistakes_of(read(start + to_text(record_test::fact_id(6, 1)) + end)) == "2:8 early-strike");
  CHECK(mistakes_of(read(start + short_text(record_test::fact_id(4, 9)) + end)) == "2:8 bad-value");
}
