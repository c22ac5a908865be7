// A copy of a fleet folder, with a record that the library itself made of the folder's facts.csv; gone when the program
// ends. The examples work on it, so that whatever they enter, the fleet that was copied stays as it is.
#pragma once

#include <stdlib.h>  // mkdtemp, on Linux

#include <algorithm>
#include <array>
#include <chrono>
#include <cstdint>
#include <filesystem>
#include <fstream>
#include <iterator>
#include <memory>
#include <random>
#include <stdexcept>
#include <string>
#include <system_error>

#include "service/entry.h"
#include "service/fleet.h"
#include "service/record.h"

namespace example {

// The day on which the examples ask. A real program would take today's date, in the fleet's time zone.
inline constexpr service::Day today = service::day_of(2026, 6, 15);

// Who writes. The library has no clock and no chance of its own, so whoever enters facts lends it both. A clock of
// milliseconds can stand still between two entries, and then their order would be left to chance: this one never does.
inline service::Writer writer() {
  return {"example",
          [last = std::int64_t{0}]() mutable {
            using namespace std::chrono;
            last = std::max(last + 1,
                            std::int64_t{duration_cast<milliseconds>(system_clock::now().time_since_epoch()).count()});
            return last;
          },
          [] {
            std::random_device random;
            std::array<std::uint8_t, 10> bytes{};
            for (auto& byte : bytes) byte = static_cast<std::uint8_t>(random() & 0xff);
            return bytes;
          }};
}

class TemporaryFolder {
 public:
  TemporaryFolder() {
    std::string made = (std::filesystem::temp_directory_path() / "example-XXXXXX").string();
    if (::mkdtemp(made.data()) == nullptr) throw std::runtime_error("no folder can be made for the copy");
    path_ = made;
  }
  ~TemporaryFolder() {
    std::error_code ignored;
    std::filesystem::remove_all(path_, ignored);
  }
  TemporaryFolder(const TemporaryFolder&) = delete;
  TemporaryFolder& operator=(const TemporaryFolder&) = delete;
  const std::filesystem::path& path() const { return path_; }

 private:
  std::filesystem::path path_;
};

class SampleCopy {
 public:
  explicit SampleCopy(const std::filesystem::path& sample) {
    for (const char* name : {"fleet.yaml", "register.csv", "schedules"}) {
      std::filesystem::copy(sample / name, folder() / name);
    }
    make_record(sample / "facts.csv");
  }

  const std::filesystem::path& folder() const { return folder_.path(); }
  std::filesystem::path record() const { return folder() / "record.db"; }

 private:
  // Facts that were kept in a spreadsheet become the book: read, judged as a whole, and stored in one transaction.
  void make_record(const std::filesystem::path& facts) const {
    std::ifstream in(facts, std::ios::binary);
    const std::string text{std::istreambuf_iterator<char>(in), {}};
    const service::FactsRead read = service::read_facts(text, facts.filename().string());
    const auto fleet = std::make_shared<const service::Fleet>(service::read_fleet(service::load_fleet_files(folder())));
    service::Record::create(record());
    service::Record book = service::Record::open(record(), service::Access::write);
    service::enter(fleet, book, service::entry_of_file(read, "import facts.csv", today, true, false), writer());
  }

  TemporaryFolder folder_;
};

}  // namespace example
