// What is kept of a book, as bytes: the same again, and nothing else.
#include "standing/packed.h"

#include <doctest/doctest.h>

#include <random>

#include "base/checksum.h"
#include "support/world.h"

namespace {

using test::World;

// A machine of which there is something of every sort.
World full_world() {
  World world(
      "  oil: {do: Oil, every: {hours: 250, months: 12}, follow-up: {leaks: {do: Look, within: {hours: 1}}}}\n"
      "  brakes: {do: Brakes, safety: true, positions: [left, right], every: {months: 12, signs: [squeal]}}\n"
      "  tyres: {do: Tyres, every: {measured: {tread: {below: 4, unit: mm}}}}\n"
      "  annual: {do: Look, every: {years: 1}, counts-from: due}\n",
      "in-service: {on: 2020-03-02, at: 12.5}", "",
      "meters: {engine: {unit: h, rolls-over-at: 10000}, pto: {unit: h}}\n");
  for (int year = 2020; year < 2026; ++year) {
    for (int month = 1; month <= 12; ++month) {
      if (year == 2020 && month < 4) continue;
      const std::string on = std::to_string(year) + (month < 10 ? "-0" : "-") + std::to_string(month) + "-07";
      world.reading(on, std::to_string(30 + (year - 2020) * 480 + month * 40) + ".25");
    }
    world.done("oil", std::to_string(year) + "-11", "", "", "").note = "by the month alone";
    world.done("annual", std::to_string(year) + "-11-20");
  }
  world.done("oil", "2025-03-20", "2560");
  world.done("oil", "2025-06-20", "2690");
  world.done("oil", "2025-12-01", "2975", "", "engine").by = "ann";
  world.done("brakes", "2025-12-02", "", "left").found = service::Found::failed;
  world.done("gone", "2024-05-05");
  world.measured("tread", "6.5", "2025-12-03", "mm");
  world.measured("oil-heat", "110", "2025-12-03", "C");
  world.sign("squeal", "2025-12-04").note = "only when cold\nand wet";
  world.sign("something odd", "2025-12");
  world.put_off("annual", "2025-12-05", "2026-01-09", "3100");
  world.state(service::FactKind::laid_up, "2025-12-06", "2026-02-01").note = "barn";
  world.meter_change("2025-12-07", "2990.5", "3");
  world.reading("2025-12-08", "2000");  // hard to believe
  world.reading("2025-12-09", "1");     // and another that contradicts it
  return world;
}

service::Condensed condensed_of(const World& world) {
  const auto snapshot = world.snapshot("2026-01-01");
  return service::condensed(world.fleet(), *world.fleet().machine("m"), snapshot.facts_of("m"));
}

// Some bytes with a checksum that agrees.
std::string sealed(const std::string& body) {
  std::string bytes(1, '\1');
  const std::uint64_t sum = service::checksum_of(body);
  for (unsigned shift = 0; shift < 64; shift += 8) bytes += static_cast<char>(sum >> shift & 0xFFU);
  return bytes + body;
}

}  // namespace

TEST_CASE("a book that was packed is the same again") {
  const World world = full_world();
  const service::Machine& machine = *world.fleet().machine("m");
  const auto book = condensed_of(world);
  const std::string bytes = service::packed(book);
  const auto again = service::unpacked(bytes, machine);
  REQUIRE(again.has_value());
  REQUIRE(again->facts.size() == book.facts.size());
  CHECK(book.facts.size() < world.facts().size() / 2);
  for (std::size_t i = 0; i < book.facts.size(); ++i) {
    CHECK(same_content(again->facts[i], book.facts[i]));
    CHECK((again->facts[i].id == book.facts[i].id));
    CHECK(again->facts[i].entered == book.facts[i].entered);
    CHECK(again->facts[i].entered_by == book.facts[i].entered_by);
    CHECK(again->facts[i].origin == book.facts[i].origin);
    CHECK(again->facts[i].from_copy == book.facts[i].from_copy);
  }
  for (const service::Meter& meter : machine.meters) {
    CHECK((again->derived.histories.at(meter.name).parts() == book.derived.histories.at(meter.name).parts()));
    CHECK((again->derived.doubts.at(meter.name) == book.derived.doubts.at(meter.name)));
    CHECK((again->derived.lateness.at(meter.name) == book.derived.lateness.at(meter.name)));
  }
  CHECK(again->derived.recorded);
  CHECK(again->derived.serviced);
  CHECK_FALSE(book.derived.doubts.at("engine").empty());
  CHECK_FALSE(book.derived.histories.at("engine").contradictions().empty());
  CHECK_FALSE(book.derived.lateness.at("engine").empty());
  CHECK(service::packed(*again) == bytes);
}

TEST_CASE("a book of nothing is a book") {
  const World world("  oil: {do: Oil, every: {months: 12}}\n");
  const auto again = service::unpacked(service::packed(condensed_of(world)), *world.fleet().machine("m"));
  REQUIRE(again.has_value());
  CHECK(again->facts.empty());
  CHECK_FALSE(again->derived.recorded);
}

TEST_CASE("bytes that are cut short, longer or of another format are no book, nor is one of other meters") {
  const World world = full_world();
  const service::Machine& machine = *world.fleet().machine("m");
  const std::string bytes = service::packed(condensed_of(world));
  for (std::size_t size = 0; size < bytes.size(); ++size) {
    REQUIRE_FALSE(service::unpacked(std::string_view(bytes).substr(0, size), machine).has_value());
  }
  CHECK_FALSE(service::unpacked(bytes + '\0', machine).has_value());
  std::string other = bytes;
  ++other.front();
  CHECK_FALSE(service::unpacked(other, machine).has_value());
  service::Machine with_more = machine;
  with_more.meters.push_back(machine.meters.front());
  with_more.meters.back().name = "third";
  CHECK_FALSE(service::unpacked(bytes, with_more).has_value());
}

TEST_CASE("a flipped bit is always noticed") {
  const World world = full_world();
  const service::Machine& machine = *world.fleet().machine("m");
  std::string bytes = service::packed(condensed_of(world));
  for (std::size_t bit = 0; bit < bytes.size() * 8; ++bit) {
    const char flip = static_cast<char>(1 << bit % 8);
    bytes[bit / 8] = static_cast<char>(bytes[bit / 8] ^ flip);
    REQUIRE_FALSE(service::unpacked(bytes, machine).has_value());
    bytes[bit / 8] = static_cast<char>(bytes[bit / 8] ^ flip);
  }
  CHECK(service::unpacked(bytes, machine).has_value());
}

TEST_CASE("bytes by lot harm nobody, whether their checksum agrees or not") {
  const World world = full_world();
  const service::Machine& machine = *world.fleet().machine("m");
  const std::string whole = service::packed(condensed_of(world)).substr(9);
  std::mt19937_64 luck(20'260'301);
  int read = 0;
  for (int i = 0; i < 30'000; ++i) {
    std::string body;
    if (i % 3 == 0) {
      for (std::size_t size = luck() % 200; body.size() < size;) body += static_cast<char>(luck());
    } else {
      body = whole;
      for (std::size_t times = luck() % 4 + 1; times > 0; --times)
        body[luck() % body.size()] = static_cast<char>(luck());
      if (i % 3 == 2) body.resize(luck() % body.size());
    }
    CHECK_FALSE(service::unpacked(std::string(1, '\1') + std::string(8, '\0') + body, machine).has_value());
    // A checksum that agrees: it may be read as something, and what is read can be packed again.
    if (const auto book = service::unpacked(sealed(body), machine)) {
      ++read;
      (void)service::packed(*book);
    }
  }
  CHECK(read > 100);
}
