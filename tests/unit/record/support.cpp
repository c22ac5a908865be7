#include "unit/record/support.h"

namespace record_test {

using namespace service;

std::vector<Fact> hard_facts() {
  std::vector<Fact> facts;
  const auto fact = [&](FactKind kind) -> Fact& {
    Fact made;
    made.kind = kind;
    made.machine = "loader";
    made.on = day_of(2026, 3, 1);
    made.id = fact_id(5, static_cast<int>(facts.size()) + 1);
    made.entered = some_time + 5;
    made.entered_by = "=cmd";
    made.origin = "old, \"book\".csv";
    facts.push_back(made);
    return facts.back();
  };

  Fact& plain = fact(FactKind::reading);
  plain.at = Amount{125'050};
  plain.meter = "engine";

  Fact& service = fact(FactKind::service);
  service.on = {day_of(2009, 1, 1), day_of(2009, 12, 31)};
  service.task = "oil/check";
  service.at = Amount{1};
  service.meter = "\xef\xbc\x9dmeter";  // a full-width equals sign in front
  service.position = "-1+1";
  service.found = Found::worn;
  service.by = "@by";
  service.history = true;
  service.note = "two\nlines, \"quoted\"\tand a tab";

  Fact& sign = fact(FactKind::sign);
  sign.on = {day_of(2026, 2, 1), day_of(2026, 2, 28)};
  sign.name = "'=already guarded";
  sign.note = "\n=starts with a line break";

  Fact& looked = fact(FactKind::looked_at);
  looked.name = "leak";
  looked.note = "a hose clip, tightened";
  looked.found = Found::good;
  looked.by = "@M.T.";

  Fact& measurement = fact(FactKind::measurement);
  measurement.name = "''+two apostrophes";
  measurement.value = Measure{-1};
  measurement.unit =
      "\xc2\xb0"
      "C";
  measurement.position = "'plain apostrophe";

  Fact& meter_change = fact(FactKind::meter_change);
  meter_change.sure = true;
  meter_change.last = Amount{100'000'000'000};
  meter_change.first = Amount{0};
  meter_change.meter = "caf\xc3\xa9 \xe6\xbc\xa2\xf0\x9f\x9a\x9c";

  Fact& put_off = fact(FactKind::put_off);
  put_off.task = "a,b;c";
  put_off.until = day_of(2026, 12, 31);
  put_off.at = Amount{990};
  put_off.position = "\"";
  put_off.by = "\"\"";
  put_off.note = "\t=tab";

  Fact& laid_up = fact(FactKind::laid_up);
  laid_up.until = day_of(1970, 1, 1);
  laid_up.note = " blanks around ";

  fact(FactKind::out_of_use).note = "; drop table fact; --";
  fact(FactKind::back).machine = "'); drop table fact;--";

  Fact& count = fact(FactKind::count);
  count.machine.clear();
  count.part = "+49 filter";
  count.value = Measure{11'500'000};

  Fact& strike = fact(FactKind::strike);
  strike.machine.clear();
  strike.strikes = facts.front().id;
  strike.note = "typed wrong";

  Fact& dayless = fact(FactKind::strike);
  dayless.machine.clear();
  dayless.on = DaySpan{};
  dayless.strikes = fact_id(1, 1);
  return facts;
}

}  // namespace record_test
