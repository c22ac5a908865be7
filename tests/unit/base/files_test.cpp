// Files that appear whole or not at all.
#include "service/files.h"

#include <doctest/doctest.h>
#include <sys/resource.h>
#include <sys/stat.h>
#include <sys/wait.h>
#include <unistd.h>

#include <csignal>

#include "service/base.h"
#include "unit/record/support.h"

using record_test::bytes_of;
using record_test::failure_of;
using record_test::Folder;
using service::IfThere;
using service::write_file;

namespace {

unsigned mode_of(const std::filesystem::path& file) {
  struct stat status {};
  REQUIRE(::stat(file.c_str(), &status) == 0);
  return status.st_mode & 0777U;
}

}  // namespace

TEST_CASE("a file is written with its mode, whatever the umask, and leaves nothing beside it") {
  const Folder folder;
  const mode_t before = ::umask(0777);
  write_file(folder / "new.txt", "one", 0640, IfThere::refuse, "");
  ::umask(before);
  CHECK(bytes_of(folder / "new.txt") == "one");
  CHECK(mode_of(folder / "new.txt") == 0640);
  write_file(folder / ".hidden", "", 0600, IfThere::refuse, "");
  CHECK(bytes_of(folder / ".hidden").empty());
  CHECK(folder.files() == 2);
}

TEST_CASE("a file that is there is replaced, or left alone, as it was asked for") {
  const Folder folder;
  write_file(folder / "a.txt", "old", 0600, IfThere::replace, "");
  CHECK(failure_of([&] { write_file(folder / "a.txt", "new", 0600, IfThere::refuse, ""); }) == "74 cannot-write");
  CHECK(bytes_of(folder / "a.txt") == "old");
  write_file(folder / "a.txt", "new", 0644, IfThere::replace, "");
  CHECK(bytes_of(folder / "a.txt") == "new");
  CHECK(mode_of(folder / "a.txt") == 0644);
  std::filesystem::create_symlink("nowhere", folder / "link");
  CHECK(failure_of([&] { write_file(folder / "link", "new", 0600, IfThere::refuse, ""); }) == "74 cannot-write");
  CHECK(folder.files() == 2);
}

TEST_CASE("what cannot be written says why and what to do") {
  const Folder folder;
  try {
    write_file(folder / "no" / "a.txt", "x", 0600, IfThere::replace, "make the folder");
    FAIL("written");
  } catch (const service::Failure& failure) {
    CHECK(failure.diagnostics().front().message ==
          (folder / "no" / "a.txt").string() + " cannot be written: there is no such folder");
    CHECK(failure.diagnostics().front().hint == "make the folder");
  }
  CHECK(folder.files() == 0);
}

TEST_CASE("a disk that takes no more leaves the old file whole and nothing half-written") {
  const Folder folder;
  write_file(folder / "a.txt", "old", 0600, IfThere::replace, "");
  const pid_t child = ::fork();  // the limit holds for a whole process
  REQUIRE(child >= 0);
  if (child == 0) {
    std::signal(SIGXFSZ, SIG_IGN);
    const rlimit limit{1000, 1000};
    int status = ::setrlimit(RLIMIT_FSIZE, &limit) == 0 ? 0 : 100;
    try {
      if (status == 0) write_file(folder / "a.txt", std::string(5000, 'x'), 0600, IfThere::replace, "");
    } catch (const service::Failure& failure) {
      status = static_cast<int>(failure.kind());
    }
    ::_exit(status);
  }
  int status = -1;
  REQUIRE(::waitpid(child, &status, 0) == child);
  CHECK(WIFEXITED(status));
  CHECK(WEXITSTATUS(status) == 74);
  CHECK(bytes_of(folder / "a.txt") == "old");
  CHECK(folder.files() == 1);
}

TEST_CASE("what a killed command left is told by its name") {
  CHECK(service::is_temporary(".due.txt.Ab3dEf.new"));
  CHECK(service::is_temporary(".record.db.Ab3dEf.new-journal"));
  CHECK_FALSE(service::is_temporary("record.db-journal"));
  CHECK_FALSE(service::is_temporary("due.txt.new"));
  CHECK_FALSE(service::is_temporary(".hidden"));
}
