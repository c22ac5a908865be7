// Where answers go: a file, standard output, and never over what is somebody's.
#include <doctest/doctest.h>
#include <sys/stat.h>

#include <cerrno>
#include <filesystem>
#include <string>

#include "unit/cli/place.h"

using cli_test::Place;

TEST_CASE("the answer goes to a file by replacing it") {
  Place place;
  place.furnish();
  REQUIRE(place.run("due") == 0);
  const std::string answer = place.out;
  place.write("due.txt", "old");
  ::chmod((place.folder / "due.txt").c_str(), 0640);
  REQUIRE(place.run("due --output due.txt") == 0);
  CHECK(place.out.empty());
  CHECK(place.read("due.txt") == answer);
  struct stat status {};
  REQUIRE(::stat((place.folder / "due.txt").c_str(), &status) == 0);
  CHECK((status.st_mode & 0777U) == 0640U);
  REQUIRE(place.run("due --output fresh.txt") == 0);
  REQUIRE(::stat((place.folder / "fresh.txt").c_str(), &status) == 0);
  CHECK((status.st_mode & 0777U) == 0600U);
  for (const auto& entry : std::filesystem::directory_iterator(place.folder)) {
    CHECK(entry.path().extension() != ".new");
  }
}

TEST_CASE("a dash is standard output") {
  Place place;
  place.furnish();
  REQUIRE(place.run("due --output -") == 0);
  CHECK(place.says("Skarvey estate"));
  CHECK_FALSE(std::filesystem::exists(place.folder / "-"));
}

TEST_CASE("a file that is not ours to replace is left alone") {
  Place place;
  place.furnish();
  place.write("target.txt", "precious");
  std::filesystem::create_symlink(place.folder / "target.txt", place.folder / "link.txt");
  CHECK(place.run("due --output link.txt") == 64);
  CHECK(place.read("target.txt") == "precious");
  CHECK(place.run("due --output schedules") == 64);
  CHECK(place.run("due --output record.db") == 64);
  CHECK(place.run("due --output fleet.yaml") == 64);
  CHECK(place.read("fleet.yaml") == cli_test::small_fleet);
  CHECK(place.run("due --output nowhere/due.txt") == 74);
}

TEST_CASE("an answer is never written over what people wrote for their fleet") {
  Place place;
  place.furnish();
  for (const char* file :
       {"schedules/pump.yaml", "schedules/new.yaml", "./schedules/../schedules/pump.yaml", "fleet.yaml", "register.csv",
        "record.db", ".compiled-fleet", ".mailed", ".mailed-yard", ".backed-up"}) {
    CAPTURE(std::string(file));
    CHECK(place.run(std::string("export --output ") + file) == 64);
    // Nor is anything stored before the name is refused.
    CHECK(place.run(std::string("saw loader leak --output ") + file) == 64);
  }
  CHECK(place.run("saw loader leak --output schedules") == 64);
  REQUIRE(place.run("export") == 0);
  CHECK(place.out.find("leak") == std::string::npos);
  CHECK(place.read("schedules/pump.yaml") == cli_test::pump_schedule);
  CHECK(place.run("export --output book.csv") == 0);
}

TEST_CASE("an answer that cannot be written is a failure, a reader gone is not") {
  Place place;
  place.furnish();
  for (const char* line : {"due", "--help", "--version", "help due", "history loader", "export"}) {
    CAPTURE(line);
    place.output_error = ENOSPC;
    CHECK(place.run(line) == 74);
    CHECK(place.complains("disk is full"));
    place.output_error = EBADF;
    CHECK(place.run(line) == 74);
    place.output_error = EPIPE;
    CHECK(place.run(line) == 0);
    CHECK(place.err.empty());
  }
  place.output_error = ENOSPC;
  CHECK(place.run("reading loader 100") == 74);
  CHECK(place.complains("stored"));  // nobody should enter it again
}

TEST_CASE("an answer in pieces leaves a file alone that holds it, and replaces one that does not") {
  Place place;
  place.furnish();
  for (const char* format : {"csv", "json"}) {
    CAPTURE(format);
    const std::string words = std::string("due --format ") + format;
    REQUIRE(place.run(words) == 0);
    const std::string answer = place.out;
    REQUIRE(answer.size() > 100);
    const auto inode_after = [&](const std::string& there) {
      place.write("due.out", there);
      struct stat before {};
      struct stat after {};
      REQUIRE(::stat((place.folder / "due.out").c_str(), &before) == 0);
      REQUIRE(place.run(words + " --output due.out") == 0);
      REQUIRE(::stat((place.folder / "due.out").c_str(), &after) == 0);
      CHECK(place.read("due.out") == answer);
      return before.st_ino == after.st_ino;
    };
    CHECK(inode_after(answer));
    CHECK_FALSE(inode_after(answer + "x"));
    CHECK_FALSE(inode_after(answer.substr(0, answer.size() - 1)));
    CHECK_FALSE(inode_after("x" + answer.substr(1)));
    place.output_error = ENOSPC;
    CHECK(place.run(words) == 74);
    place.output_error = EPIPE;
    CHECK(place.run(words) == 0);
    place.output_error = 0;
  }
}
