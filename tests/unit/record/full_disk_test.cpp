// A disk that takes no more, by way of a limit on the size of files. The limit holds for a whole process, so each test
// has a child of its own, whose exit status tells.
#include <doctest/doctest.h>
#include <sys/resource.h>
#include <sys/wait.h>
#include <unistd.h>

#include <csignal>

#include "unit/record/support.h"

using namespace service;
using record_test::Folder;

namespace {

// The exit status of what the child did with files of at most so many bytes.
template <class Action>
int with_limit(rlim_t bytes, Action&& action) {
  const pid_t child = ::fork();
  REQUIRE(child >= 0);
  if (child == 0) {
    std::signal(SIGXFSZ, SIG_IGN);
    const rlimit limit{bytes, bytes};
    int status = 100;
    if (::setrlimit(RLIMIT_FSIZE, &limit) == 0) status = action();
    ::_exit(status);
  }
  int status = -1;
  REQUIRE(::waitpid(child, &status, 0) == child);
  return WIFEXITED(status) ? WEXITSTATUS(status) : -1;
}

// The status that the command would end with.
template <class Action>
int status_of(Action&& action) {
  try {
    action();
    return 0;
  } catch (const Failure& failure) {
    return static_cast<int>(failure.kind());
  } catch (...) {
    return 101;
  }
}

std::vector<Fact> many_facts() {
  std::vector<Fact> facts;
  for (int n = 1; n <= 2000; ++n) facts.push_back(record_test::reading("loader", day_of(2026, 1, 1), n, 2, n));
  return facts;
}

}  // namespace

TEST_CASE("a record that cannot be made whole is not made") {
  const Folder folder;
  CHECK(with_limit(20'000, [&] { return status_of([&] { Record::create(folder / "record.db"); }); }) == 74);
  CHECK(folder.files() == 0);
  CHECK(with_limit(1'000'000, [&] { return status_of([&] { Record::create(folder / "record.db"); }); }) == 0);
  CHECK(folder.files() == 1);
}

TEST_CASE("facts that do not fit leave the record as it was, byte for byte") {
  const Folder folder;
  const std::filesystem::path file = folder / "record.db";
  Record::create(file);
  {
    auto record = Record::open(file, Access::write);
    record_test::add(record, {record_test::reading("loader", day_of(2026, 1, 1), 1, 1)});
  }
  const std::string before = record_test::bytes_of(file);
  const auto add_many = [&] {
    return status_of([&] {
      auto record = Record::open(file, Access::write);
      record_test::add(record, many_facts());
    });
  };
  CHECK(with_limit(before.size() + 10'000, add_many) == 74);
  CHECK(Record::open(file, Access::read).facts().size() == 1);
  CHECK(record_test::bytes_of(file) == before);
  CHECK(folder.files() == 1);
  CHECK(with_limit(10'000'000, add_many) == 0);
  CHECK(Record::open(file, Access::read).facts().size() == 2001);
}

TEST_CASE("a backup that cannot be made whole is not made") {
  const Folder folder;
  const std::filesystem::path file = folder / "record.db";
  Record::create(file);
  const auto back_up = [&] { return status_of([&] { Record::open(file, Access::read).backup(folder / "copy.db"); }); };
  CHECK(with_limit(20'000, back_up) == 74);
  CHECK(folder.files() == 1);
  CHECK(with_limit(1'000'000, back_up) == 0);
  CHECK(folder.files() == 2);
}
