// Messages that tell of two machines, or of one in the words about another.
#include <doctest/doctest.h>

#include <string>

#include "unit/cli/voices.h"

using cli_test::at;
using cli_test::Field;
using cli_test::Voices;

TEST_CASE("a second machine in the words about the first is asked back, and not lost in them") {
  Field field;
  for (const char* text :
       {"out-of-use combine and loader", "out-of-use combine, loader", "out-of-use combine loader brakes gone",
        "out-of-use combine & Loader tractor: no brakes", "out-of-use combine and loaders", "out-of-use combine laoder",
        "out-of-use pump-3 and pump", "saw combine and loader long-pedal", "saw pump and combine smoke",
        "saw loader leak/combine smokes", "saw loader leak --note combine too", "saw combine heat=90 loader",
        "looked combine and loader leak found worn", "looked loader leak found worn: combine too",
        "looked combine and loader leak by M.T. found good", "out-of-use combine and gate"}) {
    CHECK_MESSAGE(field.refused(text) == "several-machines", text);
    CHECK_MESSAGE(field.says("in a line of its own"), text);
  }
  field.refused("out-of-use combine and loader");
  CHECK(field.says("its words name `loader` too"));
  CHECK(field.says("out-of-use combine WHY; out-of-use loader WHY"));
  // Each of them alone is taken, and so is what stands in quotes.
  CHECK(field.taken("out-of-use combine no brakes") == "out-of-use combine 2026-06-15 no brakes");
  CHECK(field.taken("saw combine \"hit by the loader\"") == "sign combine 2026-06-15 hit by the loader");
  CHECK(field.taken("out-of-use combine \"hit by the loader\"") == "out-of-use combine 2026-06-15 hit by the loader");
  // Its own names are no other machine.
  CHECK(field.taken("saw pump-3 pump 3 smokes") == "sign pump-3 2026-06-15 pump 3 smokes");
  CHECK(field.taken("saw north gate latch bent") == "sign north 2026-06-15 gate latch bent");
  CHECK(field.taken("out-of-use loader tractor pulls") == "out-of-use loader 2026-06-15 pulls");
  // What is not taken holds what clears something.
  Voices voices;
  CHECK(voices.fates("done loader brakes by M.T.\nsaw combine and loader long-pedal\n") == "untaken-beside refused");
}

TEST_CASE("words about another machine hold what they name, though their line is taken") {
  Voices field;
  const std::string did = "done loader brakes by M.T.";
  const auto far = [&](const std::string& said) {
    return field.fates(at("07:00", "A: " + did) + at("07:02", "A: pump 20") + at("07:05", "B: " + said));
  };
  // The machine by a part of its name or in quotes, its task, its sign.
  for (const char* said :
       {"saw combine as bad as that tractor", "saw combine \"and loader, too\"", "saw combine brakes not done",
        "out-of-use combine brake gone", "saw combine the pedal is long", "saw combine rattles --note brakes, too"}) {
    CHECK_MESSAGE(far(said) == "own-words-beside taken taken", said);
    CHECK(field.says("of combine in its own words"));
  }
  for (const char* said : {"saw combine rattles", "saw combine does not start", "out-of-use combine smokes"}) {
    CHECK_MESSAGE(far(said) == "taken taken taken", said);
  }
  // What the line says in known words is said of its machine alone.
  CHECK(field.fates(at("07:00", "A: " + did) + at("07:05", "B: done combine oil") + at("07:06", "B: combine 80 h")) ==
        "taken taken taken");
}
