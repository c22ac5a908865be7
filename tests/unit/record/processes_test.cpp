// Several processes write at once. Nothing is asserted in a child: its exit status tells.
#include <doctest/doctest.h>
#include <sys/wait.h>
#include <unistd.h>

#include "unit/record/support.h"

using namespace service;
using record_test::Folder;

namespace {

constexpr int processes = 8;
constexpr int appends = 50;

int write_many(const std::filesystem::path& file, int process) {
  try {
    auto record = Record::open(file, Access::write, std::chrono::seconds(60));
    for (int i = 1; i <= appends; ++i) {
      const auto added = record.append({{{"loader"}}}, false, [&](const std::vector<Fact>& known) {
        // The reading follows from what is known, so an append that did not see all before it repeats one.
        const auto next = static_cast<std::int64_t>(known.size()) + 1;
        return std::vector<Fact>{
            record_test::reading("loader", day_of(2026, 1, 1), next, i, 1, static_cast<std::uint8_t>(process))};
      });
      if (added.size() != 1) return 2;
    }
    return 0;
  } catch (const Failure&) {
    return 1;
  }
}

}  // namespace

TEST_CASE("eight processes that append at once lose nothing and see each other") {
  const Folder folder;
  const std::filesystem::path file = folder / "record.db";
  Record::create(file);
  std::vector<pid_t> children;
  for (int process = 0; process < processes; ++process) {
    const pid_t child = ::fork();
    REQUIRE(child >= 0);
    if (child == 0) ::_exit(write_many(file, process));
    children.push_back(child);
  }
  for (const pid_t child : children) {
    int status = -1;
    CHECK(::waitpid(child, &status, 0) == child);
    CHECK(WIFEXITED(status));
    CHECK(WEXITSTATUS(status) == 0);
  }
  const auto facts = Record::open(file, Access::read).facts();
  CHECK(facts.size() == processes * appends);
  std::vector<bool> seen(processes * appends + 1, false);
  int different = 0;
  for (const Fact& fact : facts) {
    const auto value = static_cast<std::size_t>(fact.at->hundredths / 100);
    if (value < seen.size() && !seen[value]) ++different;
    if (value < seen.size()) seen[value] = true;
  }
  CHECK(different == processes * appends);
}

TEST_CASE("a process that dies in the middle of a write leaves the record as it was") {
  const Folder folder;
  const std::filesystem::path file = folder / "record.db";
  Record::create(file);
  {
    auto record = Record::open(file, Access::write);
    record_test::add(record, {record_test::reading("loader", day_of(2026, 1, 1), 1, 1)});
  }
  const pid_t child = ::fork();
  REQUIRE(child >= 0);
  if (child == 0) {
    auto record = Record::open(file, Access::write);
    record.append({}, false, [](const std::vector<Fact>&) -> std::vector<Fact> { ::_exit(7); });
    ::_exit(0);
  }
  int status = -1;
  REQUIRE(::waitpid(child, &status, 0) == child);
  CHECK(WEXITSTATUS(status) == 7);
  auto record = Record::open(file, Access::write);
  CHECK(record.facts().size() == 1);
  CHECK(record_test::add(record, {record_test::reading("loader", day_of(2026, 1, 1), 2, 2)}).size() == 1);
}
