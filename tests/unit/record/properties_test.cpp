// Whatever a fact holds, it survives every way it can be kept: CSV, JSON Lines, the store, and the union of copies.
#include <doctest/doctest.h>
#include <rapidcheck.h>

#include <algorithm>

#include "unit/record/support.h"

using namespace service;

namespace {

// Texts of pieces that are hard on quoting, guarding and sorting.
std::string a_text(bool is_note, int least) {
  static const std::vector<std::string> pieces = {"a",
                                                  "Z",
                                                  "9",
                                                  "'",
                                                  "''",
                                                  "=",
                                                  "+",
                                                  "-",
                                                  "@",
                                                  "\"",
                                                  ",",
                                                  ";",
                                                  " ",
                                                  "\\",
                                                  "/",
                                                  "{",
                                                  "caf\xc3\xa9",
                                                  "\xef\xbc\x9d",
                                                  "\xef\xbc\xa0",
                                                  "\xf0\x9f\x9a\x9c",
                                                  "\xc2\xa0",
                                                  "null",
                                                  "0x10",
                                                  "\n",
                                                  "\t"};
  const int count = *rc::gen::inRange(least, 6);
  std::string text;
  for (int i = 0; i < count; ++i) {
    text += pieces[*rc::gen::inRange<std::size_t>(0, pieces.size() - (is_note ? 0 : 2))];
  }
  return text;
}

std::string a_name() { return a_text(false, 1); }
std::string maybe_text() { return a_text(false, 0); }

Day a_day() { return day_of(1900, 1, 1) + std::chrono::days{*rc::gen::inRange(0, 109'572)}; }

DaySpan a_span() {
  const auto read = parse_day_span(to_text(a_day()).substr(0, *rc::gen::element<std::size_t>(4, 7, 10)));
  return *read;
}

Amount an_amount() { return {*rc::gen::inRange<std::int64_t>(0, 100'000'000'001)}; }

Measure a_measure(bool may_be_negative) {
  const std::int64_t most = 1'000'000'000'000'000;
  return {*rc::gen::inRange<std::int64_t>(may_be_negative ? -most : 0, most + 1)};
}

bool maybe() { return *rc::gen::arbitrary<bool>(); }

// All columns that the kind may have, some of them empty.
void fill(Fact& fact) {
  fact.on = a_span();
  if (fact.kind != FactKind::count && fact.kind != FactKind::strike) fact.machine = a_name();
  switch (fact.kind) {
    case FactKind::reading:
      fact.on = a_day();
      fact.at = an_amount();
      fact.meter = maybe_text();
      fact.sure = maybe();
      break;
    case FactKind::service:
      fact.task = a_name();
      if (maybe()) fact.at = an_amount();
      fact.meter = maybe_text();
      fact.position = maybe_text();
      if (maybe()) fact.found = *rc::gen::element(Found::good, Found::worn, Found::failed);
      fact.by = maybe_text();
      fact.note = a_text(true, 0);
      fact.sure = maybe();
      fact.history = maybe();
      break;
    case FactKind::looked_at:
      fact.name = a_name();
      fact.note = a_text(true, 1);
      if (maybe()) fact.found = *rc::gen::element(Found::good, Found::worn, Found::failed);
      fact.by = maybe_text();
      break;
    case FactKind::sign:
      fact.name = a_name();
      fact.note = a_text(true, 0);
      break;
    case FactKind::measurement:
      fact.on = a_day();
      fact.name = a_name();
      fact.value = a_measure(true);
      fact.unit = maybe_text();
      fact.position = maybe_text();
      break;
    case FactKind::meter_change:
      fact.on = a_day();
      fact.last = an_amount();
      fact.first = an_amount();
      fact.meter = maybe_text();
      fact.sure = maybe();
      break;
    case FactKind::put_off:
      fact.task = a_name();
      if (maybe()) fact.until = a_day();
      if (!fact.until || maybe()) fact.at = an_amount();
      fact.position = maybe_text();
      fact.by = maybe_text();
      fact.note = a_text(true, 0);
      break;
    case FactKind::laid_up:
      if (maybe()) fact.until = a_day();
      fact.note = a_text(true, 0);
      break;
    case FactKind::out_of_use:
    case FactKind::back:
      fact.note = a_text(true, 0);
      break;
    case FactKind::count:
      fact.part = a_name();
      fact.value = a_measure(false);
      break;
    case FactKind::strike:
      if (maybe()) fact.on = DaySpan{};
      fact.strikes = record_test::fact_id(*rc::gen::inRange(-100, 0), *rc::gen::inRange(1, 2'147'483'647));
      fact.note = a_text(true, 0);
      break;
  }
}

// Facts of some commands, several each.
std::vector<Fact> some_facts(int least_commands) {
  std::vector<Fact> facts;
  const int commands = *rc::gen::inRange(least_commands, 5);
  for (int c = 0; c < commands; ++c) {
    Fact entry;
    entry.id.command = record_test::command(c, *rc::gen::arbitrary<std::uint8_t>());
    entry.entered = *rc::gen::inRange<std::int64_t>(0, 7'258'118'400'000);
    entry.entered_by = maybe_text();
    entry.origin = maybe_text();
    const int count = *rc::gen::inRange(1, 5);
    for (int n = 1; n <= count; ++n) {
      Fact fact = entry;
      fact.id.number = n;
      fact.kind = static_cast<FactKind>(*rc::gen::inRange(0, static_cast<int>(kind_count)));
      fill(fact);
      facts.push_back(fact);
    }
  }
  return facts;
}

bool same(const std::vector<Fact>& a, const std::vector<Fact>& b) {
  return std::equal(a.begin(), a.end(), b.begin(), b.end(), [](const Fact& x, const Fact& y) {
    return same_content(x, y) && x.id == y.id && x.entered == y.entered && x.entered_by == y.entered_by &&
           x.origin == y.origin;
  });
}

bool survives_text(const std::string& text, const std::vector<Fact>& facts) {
  const FactsRead read = read_facts(text, "facts");
  if (!read.diagnostics.empty()) RC_LOG() << read.diagnostics.front().message << "\n" << text;
  return read.diagnostics.empty() && read.blanks == 0 && same(record_test::facts_of(read), facts);
}

}  // namespace

TEST_CASE("random facts survive CSV and JSON Lines") {
  CHECK(rc::check("a file of facts reads as those facts", [] {
    const std::vector<Fact> facts = some_facts(1);
    return survives_text(facts_to_csv(facts), facts) && survives_text(facts_to_json_lines(facts), facts);
  }));
}

TEST_CASE("random facts survive the store and the union of two copies, in either order") {
  CHECK(rc::check("the union of two copies is the whole book", [] {
    const std::vector<Fact> facts = some_facts(0);
    std::vector<Fact> halves[2];
    for (const Fact& fact : facts) {
      const int where = *rc::gen::inRange(0, 3);
      if (where != 1) halves[0].push_back(fact);
      if (where != 0) halves[1].push_back(fact);
    }
    std::vector<Fact> in_order = facts;
    std::sort(in_order.begin(), in_order.end(), before);
    const record_test::Folder folder;
    const std::filesystem::path file = folder / "record.db";
    Record::create(file);
    auto record = Record::open(file, Access::write);
    const int first = *rc::gen::inRange(0, 2);
    const auto added =
        record_test::add(record, halves[first]).size() + record_test::add(record, halves[1 - first]).size();
    if (added != facts.size() || !same(record.facts(), in_order)) return false;
    for (const std::string& machine : record.machines()) {
      std::vector<Fact> expected;
      std::copy_if(in_order.begin(), in_order.end(), std::back_inserter(expected),
                   [&](const Fact& fact) { return fact.machine == machine || fact.machine.empty(); });
      if (!same(record.facts(Scope{{{machine}}}), expected)) return false;
    }
    return true;
  }));
}

TEST_CASE("no bytes make the reader of files fail otherwise than by mistakes with a place") {
  CHECK(rc::check("random bytes behind a good header", [](const std::string& bytes) {
    for (const std::string& text : {"kind,machine,on,note\n" + bytes, "{\"kind\":\"back\"}\n" + bytes, bytes}) {
      const FactsRead read = read_facts(text, "facts");
      for (const Diagnostic& mistake : read.diagnostics) {
        if (!mistake.place || mistake.place->line < 1 || mistake.place->column < 1) return false;
      }
    }
    return true;
  }));
}
