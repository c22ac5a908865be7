// A file entered without a second copy of it does what the same file does with one.
#include "service/file_entry.h"

#include <doctest/doctest.h>

#include "office.h"

using namespace entry_test;

namespace {

const std::string text =
    "kind,machine,on,at\nreading,loader,2026-06-01,400\nreading,loader,2026-06-99,410\nreading,loader,2026-06-10,300\n"
    "reading,pump,2026-06-01,9\n";

std::string csv_without_ids(std::vector<service::Fact> facts) {
  for (service::Fact& fact : facts) fact.id = {};
  return service::facts_to_csv(facts);
}

}  // namespace

TEST_CASE("a file whose facts are taken out is judged, stored and handed back as one that is copied") {
  Office copied;
  Office taken;
  const auto kept = service::read_facts(text, "list.csv");
  auto given = service::read_facts(text, "list.csv");
  const auto of_copy = copied.enter(service::entry_of_file(kept, "import list.csv", day("2026-06-15"), true, true));
  const auto of_taken =
      taken.enter(service::take_entry_of_file(given, "import list.csv", day("2026-06-15"), true, true));

  CHECK(of_taken.added.size() == 2);
  CHECK(csv_without_ids(of_taken.added) == csv_without_ids(of_copy.added));
  REQUIRE(of_taken.refused.size() == of_copy.refused.size());
  for (std::size_t i = 0; i < of_copy.refused.size(); ++i) {
    CHECK(of_taken.refused[i].code == of_copy.refused[i].code);
    CHECK(of_taken.refused[i].message == of_copy.refused[i].message);
    CHECK(of_taken.refused[i].place->line == of_copy.refused[i].place->line);
    CHECK(of_taken.refused[i].place->text == of_copy.refused[i].place->text);
  }
  CHECK(service::rejects_of(given, of_taken.refused_rows) ==
        "kind,machine,on,at\nreading,loader,2026-06-99,410\nreading,loader,2026-06-10,300\n");
}

TEST_CASE("a file that was refused names its rows though its facts were taken out") {
  Office office;
  auto read = service::read_facts(text, "list.csv");
  CHECK(office.failure(service::take_entry_of_file(read, "import list.csv", day("2026-06-15"), true, false)) ==
        "65 bad-value");
  CHECK(office.record.facts().empty());
}

TEST_CASE("a file whose facts were taken out is not entered again as an empty one") {
  Office office;
  auto read = service::read_facts("kind,machine,on,at\nreading,loader,2026-06-01,400\n", "list.csv");
  const auto request = service::take_entry_of_file(read, "import list.csv", day("2026-06-15"), true, false);
  CHECK(office.enter(request).added.size() == 1);
  CHECK(office.failure(request) == "70 entered-twice");
  CHECK(office.record.facts().size() == 1);
}
