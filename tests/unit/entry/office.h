// A small estate with a record of its own, and somebody who enters facts by a clock that a test sets. Only the library.
#pragma once

#include <doctest/doctest.h>

#include <filesystem>
#include <string>
#include <string_view>
#include <vector>

#include "service/entry.h"
#include "support/temporary_folder.h"
#include "support/world.h"

namespace doctest {

template <>
struct StringMaker<service::CureKind> {
  static String convert(service::CureKind kind) { return std::string(service::to_text(kind)).c_str(); }
};
template <>
struct StringMaker<service::Severity> {
  static String convert(service::Severity severity) {
    return severity == service::Severity::error ? "error" : "remark";
  }
};
template <>
struct StringMaker<service::UseProblem> {
  static String convert(service::UseProblem problem) { return std::to_string(static_cast<int>(problem)).c_str(); }
};
template <>
struct StringMaker<service::UndoVerdict> {
  static String convert(service::UndoVerdict verdict) { return std::to_string(static_cast<int>(verdict)).c_str(); }
};
template <>
struct StringMaker<service::UndoReason> {
  static String convert(service::UndoReason reason) { return std::to_string(static_cast<int>(reason)).c_str(); }
};

}  // namespace doctest

namespace entry_test {

using service::Day;
using service::Fact;
using service::FactKind;
using test::amount;
using test::day;
using test::span;

inline service::FleetFiles estate() {
  service::FleetFiles files;
  files.texts["fleet.yaml"] =
      "fleet: Test\nmachines:\n"
      "  loader: {schedule: tractor, in-service: {on: 2024-03-02, at: 0}}\n"
      "  other: {schedule: tractor, in-service: {on: 2024-03-02, at: 0}}\n"
      "  pump: {schedule: pump, in-service: {on: 2025-01-10, at: 0}}\n";
  files.texts["schedules/tractor.yaml"] =
      "schedule: tractor\nmeters: {engine: {unit: h, rolls-over-at: 10000}}\ntasks:\n"
      "  oil: {do: Oil, every: {hours: 250, months: 12}, follow-up: {leaks: {do: Look, within: {hours: 1}}}}\n"
      "  hoses: {do: Hoses, every: {years: 6, signs: [leak]}}\n";
  files.texts["schedules/pump.yaml"] =
      "schedule: pump\nmeters: {engine: {unit: h}}\ntasks:\n  gland: {do: Gland, every: {months: 36}}\n";
  return files;
}

class Office {
 public:
  explicit Office(const service::FleetFiles& files = estate())
      : fleet(std::make_shared<const service::Fleet>(service::read_fleet(files))), record(made(folder_.path())) {}

  service::Writer writer() {
    return {who, [this] { return now += 1000; },
            [this] {
              std::array<std::uint8_t, 10> bytes{};
              ++drawn_;
              for (std::size_t i = 0; i < bytes.size(); ++i) bytes[i] = static_cast<std::uint8_t>(drawn_ * 37 + i);
              return bytes;
            }};
  }

  service::Entered enter(service::EntryRequest request) { return service::enter(fleet, record, request, writer()); }
  service::Entered enter(const std::vector<Fact>& facts, std::string_view today = "2026-06-15") {
    return enter(service::entry_of("test", facts, day(today), true));
  }

  // The status and the first code of what entering fails with; `none` where it is stored.
  template <class What>
  std::string failure(What&& what) {
    try {
      enter(std::forward<What>(what));
    } catch (const service::Failure& failure) {
      return std::to_string(static_cast<int>(failure.kind())) + " " + failure.diagnostics().front().code;
    }
    return "none";
  }

  service::Snapshot snapshot(std::string_view as_of = "2026-06-15") const {
    return service::take_snapshot(fleet, record, day(as_of), true);
  }

 private:
  static service::Record made(const std::filesystem::path& folder) {
    service::Record::create(folder / "record.db");
    return service::Record::open(folder / "record.db", service::Access::write);
  }
  test::TemporaryFolder folder_;
  unsigned drawn_ = 0;

 public:
  std::shared_ptr<const service::Fleet> fleet;
  service::Record record;
  std::string who = "ann";
  std::int64_t now = 1'781'500'000'000;  // 2026-06-15
};

inline Fact reading(std::string_view machine, std::string_view on, std::string_view at) {
  Fact fact;
  fact.kind = FactKind::reading;
  fact.machine = machine;
  fact.on = day(on);
  fact.at = amount(at);
  return fact;
}

inline Fact done(std::string_view machine, std::string_view task, std::string_view on, std::string_view at = "") {
  Fact fact;
  fact.kind = FactKind::service;
  fact.machine = machine;
  fact.task = task;
  fact.on = span(on);
  if (!at.empty()) fact.at = amount(at);
  return fact;
}

inline Fact use(FactKind kind, std::string_view machine, std::string_view on) {
  Fact fact;
  fact.kind = kind;
  fact.machine = machine;
  fact.on = day(on);
  return fact;
}

}  // namespace entry_test
