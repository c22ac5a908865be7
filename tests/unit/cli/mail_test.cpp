// `mail` in process: who gets what, through which mailer, and what is remembered of it. With a real mail server:
// tests/mail.
#include <doctest/doctest.h>

#include <algorithm>
#include <chrono>
#include <filesystem>
#include <string>

#include "mailer.h"
#include "terminal/width.h"
#include "unit/cli/asking.h"

using cli_test::must;
using cli_test::Place;

namespace {

namespace fs = std::filesystem;

// Of its pump no service is known.
std::string small_fleet_with_old_pump() {
  std::string text = cli_test::small_fleet;
  return text.replace(text.find("in-service: {on: 2025-01-10"), 11, "bought: ");
}

constexpr const char* mail_line = "mail: {to: [office@skarvey.example], from: whichever@skarvey.example}\n";

void furnish(Place& place) {
  place.furnish();
  place.write("fleet.yaml", mail_line + std::string(cli_test::small_fleet));
}

// All well and all known as of 2026-06-16, a Tuesday.
void make_well(Place& place) {
  must(place, "done loader engine-oil tyre hoses --at 100 --on 2026-06-10 --checked");
  must(place, "done pump gland --at 10 --on 2026-06-10");
}

// The same, and the hoses of its tractor are for safety. `more`: of them.
void furnish_safe_hoses(Place& place, const std::string& more = "") {
  furnish(place);
  std::string schedule = cli_test::tractor_schedule;
  schedule.insert(schedule.find("    every: {years: 6"), "    safety: true\n" + more);
  place.write("schedules/tractor.yaml", schedule);
  make_well(place);
}

// A mailer that keeps what it is given, in files 1, 2, ..., and ends so.
std::string mailer(Place& place, const std::string& ending = "exit 0") {
  const std::string folder = place.folder.string();
  place.write("mailer.sh", "mkdir -p " + folder + "/sent\nn=$(ls " + folder + "/sent | wc -l)\ncat > " + folder +
                               "/sent/$((n + 1))\necho \"$*\" > " + folder + "/told\n" + ending + '\n');
  return "/bin/sh " + folder + "/mailer.sh";
}

std::size_t sent(const Place& place) {
  std::error_code none;
  std::size_t count = 0;
  for (fs::directory_iterator each(place.folder / "sent", none), end; !none && each != end; ++each) ++count;
  return count;
}

// Soft breaks taken out: enough to look for words in.
std::string letter(const std::string& bytes) {
  std::string text = bytes;
  for (std::size_t at = text.find("=\r\n"); at != std::string::npos; at = text.find("=\r\n", at)) text.erase(at, 3);
  std::erase(text, '\r');
  return text;
}

bool holds(const std::string& text, std::string_view words) {
  return Place::unfolded(letter(text)).find(words) != std::string::npos;
}

std::string subject(const std::string& bytes) {
  const std::size_t from = bytes.find("\r\nSubject: ") + 11;
  std::string text = bytes.substr(from, bytes.find("\r\nMessage-ID") - from);
  for (std::size_t at = text.find("\r\n"); at != std::string::npos; at = text.find("\r\n")) text.erase(at, 2);
  return text;
}

std::vector<std::string> with_mailer(const std::string& line, const std::string& mailer) {
  std::istringstream stream(line);
  std::vector<std::string> words{std::istream_iterator<std::string>(stream), {}};
  words.insert(words.end(), {"--mailer", mailer});
  return words;
}

}  // namespace

TEST_CASE("silence when all is well and all is known, and the mailer is not run") {
  Place place;
  furnish(place);
  make_well(place);
  CHECK(place.run("mail --as-of 2026-06-16") == 0);
  CHECK(place.out.empty());
  CHECK(place.err.empty());
  CHECK_FALSE(fs::exists(place.folder / ".mailed"));
  CHECK(place.run_words(with_mailer("mail --as-of 2026-06-16", mailer(place))) == 0);
  CHECK(place.run_words(with_mailer("mail --changed --as-of 2026-06-16", mailer(place))) == 0);
  CHECK(place.out.empty());
  CHECK(place.err.empty());
  CHECK(sent(place) == 0);
}

TEST_CASE("on its weekday a word comes all the same, with what is next and how old things are") {
  Place place;
  furnish(place);
  make_well(place);
  REQUIRE(place.run("mail --as-of 2026-06-22") == 0);
  CHECK(subject(place.out) == "All is well, 2 machines: Skarvey estate");
  CHECK(holds(place.out, "Next due: "));
  CHECK(holds(place.out, "Newest reading: 2026-06-10, 12 days ago."));
  CHECK(holds(place.out, "No backup of the record is known; to make one: whichever --fleet " + place.folder.string() +
                             " backup FILE"));
  CHECK(holds(place.out, "comes every Monday"));
  must(place, "backup copy.db");
  REQUIRE(place.run("mail --as-of 2026-06-22") == 0);
  CHECK(holds(place.out, "Last backup of the record: 2026-06-15, 7 days ago."));
  place.write(".backed-up", "nonsense");
  REQUIRE(place.run("mail --as-of 2026-06-22") == 0);
  CHECK(holds(place.out, "No backup of the record is known"));
}

TEST_CASE("who gets it, and what it is about") {
  Place place;
  furnish(place);
  REQUIRE(place.run("mail --as-of 2026-06-16") == 0);
  CHECK(
      place.out.starts_with("Date: Tue, 16 Jun 2026 00:00:00 +0000\r\nFrom: whichever@skarvey.example\r\n"
                            "To: office@skarvey.example\r\nSubject: "));
  CHECK(holds(place.out, "Before you touch a machine 1. park level, brake on"));
  // Without a sender it comes from the first who gets it.
  place.write("fleet.yaml",
              std::string("mail: {to: [office@skarvey.example, yard@skarvey.example]}\n") + cli_test::small_fleet);
  REQUIRE(place.run("mail --as-of 2026-06-16") == 0);
  CHECK(place.out.find("From: office@skarvey.example\r\nTo: office@skarvey.example, yard@skarvey.example\r\n") !=
        std::string::npos);
  // By the clocks of the fleet.
  place.write("fleet.yaml", std::string("time-zone: Europe/Oslo\n") + mail_line + cli_test::small_fleet);
  REQUIRE(place.run("mail --as-of 2026-06-16") == 0);
  CHECK(place.out.starts_with("Date: Tue, 16 Jun 2026 00:00:00 +0200\r\n"));
  REQUIRE(place.run("mail --as-of 2026-12-16") == 0);
  CHECK(place.out.starts_with("Date: Wed, 16 Dec 2026 00:00:00 +0100\r\n"));
}

TEST_CASE("without somebody to write to it fails, with the place") {
  Place place;
  place.furnish();
  CHECK(place.run("mail --as-of 2026-06-16") == 78);
  CHECK(place.out.empty());
  CHECK(place.complains("fleet.yaml: error: `mail` needs somebody to write to"));
  CHECK(place.complains("mail: {to: [office@skarvey.example]}"));
  place.write("fleet.yaml", std::string("mail: {from: a@b}\n") + cli_test::small_fleet);
  CHECK(place.run("mail --as-of 2026-06-16") == 78);
  CHECK(place.out.empty());
  CHECK(place.complains("fleet.yaml:1:1: error: `mail` needs `to`"));
}

TEST_CASE("options that would make its silence mean something else are refused") {
  Place place;
  furnish(place);
  for (const char* line : {"mail --format json", "mail --format=text", "mail --mailer= ", "mail loader",
                           "mail --mailer true --output x.eml"}) {
    CAPTURE(std::string(line));
    CHECK(place.run(line) == 64);
    CHECK(place.out.empty());
    CHECK_FALSE(place.err.empty());
  }
  CHECK(place.run_words({"mail", "--mailer", "  "}) == 64);
  CHECK(place.run("mail --as-of 2026-06-16 --output m.eml") == 0);
  CHECK(place.out.empty());
  CHECK(place.read("m.eml").starts_with("Date: Tue, 16 Jun 2026"));
}

TEST_CASE("a mailer that fails gives 74, its own number is said, and nothing is remembered") {
  Place place;
  furnish(place);
  const auto tried = [&](const std::string& mailer, std::string_view said) {
    CAPTURE(mailer);
    CHECK(place.run_words(with_mailer("mail --changed --as-of 2026-06-16", mailer)) == 74);
    CHECK(place.out.empty());
    CHECK(place.complains(said));
    CHECK_FALSE(fs::exists(place.folder / ".mailed"));
  };
  tried(mailer(place, "exit 75"), "failed with 75");
  tried(mailer(place, "kill -9 $$"), "was ended by signal 9");
  tried("/nonsense/mailer -t", "`/nonsense/mailer` is not there");
  tried(place.folder.string(), "may not be run");
  // The message went to it all the same: words are words, and no shell reads them.
  CHECK(sent(place) == 2);
  CHECK(place.run_words(with_mailer("mail --as-of 2026-06-16", mailer(place) + " $HOME ; exit 9")) == 0);
  CHECK(place.read("told") == "$HOME ; exit 9\n");
}

TEST_CASE("a mailer that ends with 0 and did not take all was given no message") {
  Place place;
  furnish(place);
  // Larger than any pipe: so many machines without record.
  std::string fleet = std::string(mail_line) + cli_test::small_fleet;
  for (int i = 0; i < 2000; ++i) fleet += "  spare-" + std::to_string(i) + ": {schedule: pump}\n";
  place.write("fleet.yaml", fleet);
  CHECK(place.run_words(with_mailer("mail --changed --as-of 2026-06-16", "/bin/true")) == 74);
  CHECK(place.complains("did not read the whole message"));
  CHECK_FALSE(fs::exists(place.folder / ".mailed"));
}

TEST_CASE("only what is new, and how much is still overdue") {
  Place place;
  furnish(place);
  make_well(place);
  must(place, "saw loader leak --on 2026-06-12");
  const std::string by = mailer(place);
  const auto day = [&](const std::string& as_of) {
    REQUIRE(place.run_words(with_mailer("mail --changed --as-of " + as_of, by)) == 0);
    CHECK(place.out.empty());
    return sent(place);
  };
  CHECK(day("2026-06-16") == 1);
  CHECK(holds(place.read("sent/1"), "loader: hoses"));
  // The first of all says of nothing that it was said before.
  CHECK(subject(place.read("sent/1")) == "1 overdue: Skarvey estate");
  CHECK_FALSE(holds(place.read("sent/1"), "Said before"));
  CHECK_FALSE(holds(place.read("sent/1"), "New since"));
  CHECK(day("2026-06-16") == 1);
  CHECK(day("2026-06-17") == 1);
  must(place, "saw pump rattling --as-of 2026-06-18");
  CHECK(day("2026-06-18") == 2);
  CHECK(holds(place.read("sent/2"), "rattling"));
  CHECK_FALSE(holds(place.read("sent/2"), "hoses"));
  CHECK(holds(place.read("sent/2"), "Said before, and not again here: 1 still overdue\n"));
  CHECK(day("2026-06-19") == 2);
  // On its weekday all of it comes.
  CHECK(day("2026-06-22") == 3);
  CHECK(holds(place.read("sent/3"), "rattling"));
  CHECK(holds(place.read("sent/3"), "loader: hoses"));
  CHECK(holds(place.read("sent/3"), "comes every Monday"));
  CHECK_FALSE(holds(place.read("sent/3"), "still overdue"));
}

TEST_CASE("what a full message told is not told again by one of what is new") {
  Place place;
  furnish(place);
  make_well(place);
  must(place, "saw loader leak --on 2026-06-12");
  const std::string by = mailer(place);
  const auto sent_by = [&](const std::string& line) {
    CHECK(place.run_words(with_mailer(line, by)) == 0);
    return sent(place);
  };
  CHECK(sent_by("mail --as-of 2026-06-16") == 1);
  CHECK(sent_by("mail --changed --as-of 2026-06-17") == 1);
  CHECK(sent_by("mail --as-of 2026-06-17") == 2);  // full ones hold it each time
  must(place, "saw pump strange smell --as-of 2026-06-17");
  CHECK(sent_by("mail --changed --as-of 2026-06-18") == 3);
  CHECK(subject(place.read("sent/3")) == "New or worse: 1 seen: Skarvey estate");
  CHECK(holds(place.read("sent/3"), "Said before: 1 still overdue, 0 not to be run."));
  // What was answered is forgotten by a full message as well, and by a morning without any.
  must(place, "looked pump strange smell --note nothing --as-of 2026-06-18");
  CHECK(sent_by("mail --as-of 2026-06-18") == 4);
  CHECK(place.read(".mailed").find("strange smell") == std::string::npos);
  must(place, "done loader hoses --as-of 2026-06-18");
  CHECK(sent_by("mail --as-of 2026-06-18") == 4);
  CHECK(place.read(".mailed").find("hoses") == std::string::npos);
}

TEST_CASE("without a weekly word, too") {
  Place place;
  furnish(place);
  place.write("fleet.yaml",
              "mail: {to: [office@skarvey.example], weekly-word: off}\n" + std::string(cli_test::small_fleet));
  make_well(place);
  must(place, "saw loader leak --on 2026-06-12");
  const std::string by = mailer(place);
  fs::create_directories(place.folder / ".mailed" / "inside");
  CHECK(place.run_words(with_mailer("mail --as-of 2026-06-16", by)) == 74);
  CHECK(place.complains(".mailed cannot be written: there is a folder of that name"));
  fs::remove_all(place.folder / ".mailed");
  CHECK(place.run_words(with_mailer("mail --as-of 2026-06-16", by)) == 0);
  CHECK(place.err.empty());
  CHECK(place.read(".mailed").find("\nword") == std::string::npos);  // none is owed
  CHECK(place.run_words(with_mailer("mail --changed --as-of 2026-06-17", by)) == 0);
  CHECK(sent(place) == 2);
}

TEST_CASE("a machine goes back into use with what put it out of use not mended, and that is told") {
  Place place;
  furnish(place);
  make_well(place);
  must(place, "saw loader leak --on 2026-06-12");
  must(place, "saw loader steering loose --on 2026-06-12");
  must(place, "out-of-use loader --as-of 2026-06-16");
  const std::string by = mailer(place);
  const auto day = [&](const std::string& as_of) {
    REQUIRE(place.run_words(with_mailer("mail --changed --as-of " + as_of, by)) == 0);
    return sent(place);
  };
  CHECK(day("2026-06-16") == 1);
  must(place, "back loader --as-of 2026-06-17");
  REQUIRE(day("2026-06-17") == 2);
  const std::string second = place.read("sent/2");
  CHECK(subject(second) == "New or worse: 1 overdue, 1 seen: Skarvey estate");
  CHECK(holds(second, "Must not wait:"));
  CHECK(holds(second, "back in use: loader: hoses overdue; steering loose"));
  CHECK(holds(second, "loader: hoses (yard) the machine was out of use when last said, and is back since 2026-06-17"));
  CHECK(day("2026-06-18") == 2);
}

TEST_CASE("how far over something was by estimate is said as an estimate, in whole units") {
  Place place;
  furnish(place);
  // By use alone, and nobody reads it on.
  place.write("schedules/pump.yaml",
              "schedule: pump\nmeters: {engine: {unit: h}}\ntasks:\n  gland: {do: Repack it, every: {hours: 20}}\n");
  must(place, "done loader engine-oil tyre hoses --at 100 --on 2026-06-10 --checked");
  must(place, "done pump gland --at 500 --on 2026-06-10");
  const std::string by = mailer(place);
  std::string last;
  std::size_t messages = 0;
  for (int i = 0; i < 60 && last.find("by estimate when last said") == std::string::npos; ++i) {
    const std::string on = service::to_text(*service::parse_day("2026-06-23") + std::chrono::days{i});
    REQUIRE(place.run_words(with_mailer("mail --changed --as-of " + on, by)) == 0);
    if (const std::size_t now = sent(place); now > messages) {
      messages = now;
      last = letter(place.read("sent/" + std::to_string(messages)));
    }
  }
  std::replace(last.begin(), last.end(), '\n', ' ');
  const std::size_t at = last.find("worse: about ");
  REQUIRE_MESSAGE(at != std::string::npos, last);
  std::size_t end = at + 13;
  while (end < last.size() && last[end] >= '0' && last[end] <= '9') ++end;
  CHECK(end > at + 13);
  CHECK(last.substr(end).starts_with(" h over by estimate"));
}

TEST_CASE("a machine without a site is in no message by site, and each of them says so") {
  Place place;
  furnish(place);
  make_well(place);
  must(place, "saw pump rattling --on 2026-06-12");
  REQUIRE(place.run("mail --site mere --as-of 2026-06-16") == 0);
  CHECK_FALSE(holds(place.out, "no site"));
  const std::string told = "has no site and is in no message by site: loader.";
  std::string text = place.read("fleet.yaml");
  text.erase(text.find("    site: yard\n"), 15);
  place.write("fleet.yaml", text);
  REQUIRE(place.run("mail --site mere --as-of 2026-06-16") == 0);
  CHECK(holds(place.out, "1 machine " + told));
  // Of the whole fleet in the word of the week alone, for it holds that machine.
  REQUIRE(place.run("mail --as-of 2026-06-16") == 0);
  CHECK_FALSE(holds(place.out, told));
  REQUIRE(place.run("mail --as-of 2026-06-22") == 0);
  CHECK(holds(place.out, "1 machine " + told));
  must(place, "looked pump rattling --note bolted --on 2026-06-16 --as-of 2026-06-16");
  for (const char* command : {"mail --as-of 2026-06-22", "mail --site mere --as-of 2026-06-22"}) {
    REQUIRE(place.run(command) == 0);
    CHECK(subject(place.out).starts_with("All is well"));
    CHECK(holds(place.out, "1 machine " + told));
  }
  // Many are counted, and the first of them named.
  for (int i = 1; i < 10; ++i) text += "  spare-" + std::to_string(i) + ": {schedule: pump}\n";
  place.write("fleet.yaml", text);
  REQUIRE(place.run("mail --site mere --as-of 2026-06-22") == 0);
  CHECK(holds(place.out, "10 machines have no site and are in no message by site: loader, spare-1,"));
  CHECK(holds(place.out, "spare-7 and 2 more."));
  CHECK(place.run("check --as-of 2026-06-22") == 0);
  CHECK(place.says("10 machines have no site"));
}

TEST_CASE("what is worse says how it stood when it was last said, and what is new does not") {
  Place place;
  furnish(place);
  make_well(place);
  must(place, "saw loader leak --on 2026-06-12");
  const std::string by = mailer(place);
  CHECK(place.run_words(with_mailer("mail --changed --as-of 2026-06-16", by)) == 0);
  must(place, "out-of-use pump --as-of 2026-06-20");
  CHECK(place.run_words(with_mailer("mail --changed --as-of 2026-06-20", by)) == 0);
  const std::string second = place.read("sent/2");
  CHECK(holds(second, "loader: hoses (yard) worse: 4 days over when last said"));
  CHECK_FALSE(holds(second, "pump: out of use since 2026-06-20 worse"));
  const std::string text = Place::unfolded(letter(second).substr(0, letter(second).find("text/html")));
  CHECK(text.find("when last said") == text.rfind("when last said"));
}

TEST_CASE("whatever somebody saw stands before the list, and of a long list what is left out is counted") {
  Place place;
  furnish(place);
  make_well(place);
  must(place, "saw loader strange brake --on 2026-06-15");
  REQUIRE(place.run("mail --as-of 2026-06-16") == 0);
  CHECK(holds(place.out, "Must not wait: loader: strange brake Before you touch"));
  for (int i = 0; i < 9; ++i) must(place, "saw loader odd noise " + std::to_string(i) + " --on 2026-06-15");
  must(place, "out-of-use pump --on 2026-06-15");
  REQUIRE(place.run("mail --as-of 2026-06-16") == 0);
  // A machine has one line, with all of it.
  const std::string loader =
      "loader: strange brake; odd noise 0; odd noise 1; odd noise 2; odd noise 3; odd noise 4; odd noise 5; odd noise "
      "6; odd noise 7; odd noise 8 ";
  CHECK(holds(place.out, "Must not wait: do not run: pump: out of use " + loader + "Before you touch"));
  std::string fleet = place.read("fleet.yaml");
  for (int i = 1; i < 10; ++i) fleet += "  spare-" + std::to_string(i) + ": {schedule: pump}\n";
  place.write("fleet.yaml", fleet);
  for (int i = 1; i < 10; ++i) must(place, "saw spare-" + std::to_string(i) + " knocking --on 2026-06-15");
  REQUIRE(place.run("mail --as-of 2026-06-16") == 0);
  CHECK(holds(place.out, loader + "spare-1: knocking spare-2: knocking"));
  CHECK(holds(place.out, "spare-6: knocking and 3 machines more, below: 3 seen Before you touch"));
}

TEST_CASE("what is mailed names the fleet by its whole path, however it was found") {
  Place place;
  furnish(place);
  place.write("fleet.yaml", mail_line + small_fleet_with_old_pump());
  const std::string whole = "whichever --fleet " + place.folder.string() + " find-out pump";
  REQUIRE(place.run("mail --as-of 2026-06-16") == 0);
  CHECK(holds(place.out, whole));
  REQUIRE(place.run("--fleet . mail --as-of 2026-06-16") == 0);
  CHECK(holds(place.out, whole));
  place.variables["WHICHEVER_FLEET"] = "schedules/..";
  REQUIRE(place.run("mail --as-of 2026-06-16") == 0);
  CHECK(holds(place.out, whole));
  place.write("fleet.yaml", place.read("fleet.yaml") + "nonsense: 1\n");
  CHECK(place.run("--fleet . mail --as-of 2026-06-16") == 78);
  CHECK(holds(place.out, "To see it again: whichever --fleet " + place.folder.string() + " check"));
  CHECK(holds(place.out, (place.folder / "fleet.yaml").string() + ":"));
}

TEST_CASE("the line of a new fleet that says who gets it needs only its mark taken out") {
  Place place;
  must(place, "new f");
  std::string fleet = place.read("f/fleet.yaml");
  const std::size_t line = fleet.find("\n# mail: {to: [");
  REQUIRE(bool(line != std::string::npos));
  place.write("f/fleet.yaml", fleet.erase(line + 1, 2));
  REQUIRE(place.run("--fleet f mail --as-of 2026-06-16") == 0);
  CHECK(place.out.find("To: office@farm.example") != std::string::npos);
}

TEST_CASE("a mailer that cron does not find is asked for by its full path") {
  Place place;
  furnish(place);
  CHECK(place.run_words(with_mailer("mail --as-of 2026-06-16", "no-such-mailer -t -i")) == 74);
  CHECK(place.complains("give its full path, such as /usr/sbin/sendmail"));
  CHECK(place.run_words(with_mailer("mail --as-of 2026-06-16", "/no/such-mailer -t -i")) == 74);
  CHECK_FALSE(place.complains("full path"));
}

TEST_CASE("a late weekly word says which days were missed") {
  Place place;
  furnish(place);
  make_well(place);
  const std::string by = mailer(place);
  const auto on = [&](const std::string& day, const std::string& with) {
    place.run_words(with_mailer("mail --changed --as-of " + day, with));
    const auto count = sent(place);
    return count == 0 ? "" : place.read("sent/" + std::to_string(count));
  };
  CHECK_FALSE(holds(on("2026-06-22", by), "handed over on its day"));
  REQUIRE(sent(place) == 1);
  on("2026-06-29", "/bin/false");
  const std::string late = on("2026-06-30", by);
  REQUIRE(sent(place) == 2);
  CHECK(holds(late, "The word of Monday, 2026-06-29, was not handed over on its day."));
  const std::string later = on("2026-07-15", by);
  REQUIRE(sent(place) == 3);
  CHECK(holds(later, "The words of 2 Mondays, 2026-07-06 to 2026-07-13, were not handed over on their days."));
  // With a list below it too.
  must(place, "saw loader leak --on 2026-07-15 --as-of 2026-07-15");
  const std::string list = on("2026-07-21", by);
  REQUIRE(sent(place) == 4);
  CHECK(holds(list, "loader: hoses"));
  CHECK(holds(list, "The word of Monday, 2026-07-20, was not handed over on its day."));
}

TEST_CASE("of one site: the message says which, and goes to the same people") {
  Place place;
  furnish(place);
  make_well(place);
  must(place, "saw loader leak --on 2026-06-12");
  must(place, "saw pump rattling --on 2026-06-12");
  REQUIRE(place.run("mail --site mere --as-of 2026-06-16") == 0);
  CHECK(subject(place.out) == "1 seen: Skarvey estate, site mere");
  CHECK(place.out.find("\r\nTo: office@skarvey.example\r\n") != std::string::npos);
  CHECK(holds(place.out, "Skarvey estate, site mere, 2026-06-16"));
  CHECK(holds(place.out, "This is of site mere alone; nothing is said of the others."));
  CHECK(holds(place.out, "rattling"));
  CHECK_FALSE(holds(place.out, "hoses"));
  // By its name too; and one that is not there is no silence.
  REQUIRE(place.run_words({"mail", "--site", "Home yard", "--as-of", "2026-06-16"}) == 0);
  CHECK(subject(place.out) == "1 overdue: Skarvey estate, site yard");
  CHECK(place.run("mail --site nowhere --as-of 2026-06-16") == 64);
  CHECK(place.complains("no site `nowhere`"));
  CHECK(place.out.empty());
  CHECK(place.run("mail --as-of 2026-06-16") == 0);
  CHECK_FALSE(holds(place.out, "alone"));
  // Well alone, on the day of the word.
  must(place, "looked pump rattling --note bolted --on 2026-06-16 --as-of 2026-06-16");
  REQUIRE(place.run("mail --site mere --as-of 2026-06-22") == 0);
  CHECK(subject(place.out) == "All is well, 1 machine: Skarvey estate, site mere");
  CHECK(holds(place.out, "This is of site mere alone"));
  CHECK(place.run("mail --site mere --as-of 2026-06-23") == 0);
  CHECK(place.out.empty());
}

TEST_CASE("what is told of one site and what is told of the fleet are remembered each by itself") {
  Place place;
  furnish(place);
  make_well(place);
  must(place, "saw pump rattling --on 2026-06-12");
  const std::string by = mailer(place);
  const auto sent_by = [&](const std::string& line) {
    REQUIRE(place.run_words(with_mailer(line, by)) == 0);
    return sent(place);
  };
  CHECK(sent_by("mail --changed --site mere --as-of 2026-06-16") == 1);
  CHECK(fs::exists(place.folder / ".mailed-mere"));
  CHECK_FALSE(fs::exists(place.folder / ".mailed"));
  CHECK(sent_by("mail --changed --site mere --as-of 2026-06-16") == 1);
  CHECK(sent_by("mail --changed --as-of 2026-06-16") == 2);
  CHECK(holds(place.read("sent/2"), "rattling"));
  CHECK(sent_by("mail --changed --site yard --as-of 2026-06-16") == 2);
  // The word of the one is not the word of the other.
  CHECK(sent_by("mail --changed --site mere --as-of 2026-06-22") == 3);
  CHECK(sent_by("mail --changed --as-of 2026-06-23") == 4);
  CHECK(holds(place.read("sent/4"), "The word of Monday, 2026-06-22, was not handed over on its day."));
  // Damaged, it is said by its own name.
  place.write(".mailed-mere", "nonsense\n");
  CHECK(sent_by("mail --changed --site mere --as-of 2026-06-24") == 5);
  CHECK(place.complains(".mailed-mere is "));
  CHECK(holds(place.read("sent/5"), ".mailed-mere is"));
}

TEST_CASE("what was remembered and cannot be read is said, and all is told again") {
  Place place;
  furnish(place);
  make_well(place);
  must(place, "saw loader leak --on 2026-06-12");
  const std::string by = mailer(place);
  const auto words = with_mailer("mail --changed --as-of 2026-06-16", by);
  REQUIRE(place.run_words(words) == 0);
  const std::string kept = place.read(".mailed");
  std::size_t count = 1;
  for (const std::string& spoilt : {std::string("nonsense\n"), kept.substr(0, 40), std::string()}) {
    place.write(".mailed", spoilt);
    CHECK(place.run_words(words) == 0);
    CHECK(place.complains(".mailed is "));
    CHECK(place.complains("so all is mailed again"));
    CHECK(sent(place) == ++count);
    CHECK(holds(place.read("sent/" + std::to_string(count)), "What was mailed before is not known"));
    CHECK(place.read(".mailed") == kept);  // replaced once that was handed over
  }
  // Something else of that name is not ours to replace: the message went out, and the failure is said.
  fs::remove(place.folder / ".mailed");
  fs::create_directories(place.folder / ".mailed" / "inside");
  CHECK(place.run_words(words) == 74);
  CHECK(place.complains("the message was handed over"));
  CHECK(sent(place) == ++count);
}

TEST_CASE("what keeps the list from being made is mailed as such, and gives the status that it always gives") {
  Place place;
  furnish(place);
  const std::string by = mailer(place);
  std::size_t count = 0;
  const auto mailed = [&](int status, std::string_view subject_begins, std::string_view said) {
    CAPTURE(std::string(said));
    CHECK(place.run("mail --as-of 2026-06-16") == status);
    CHECK(subject(place.out).starts_with(subject_begins));
    CHECK(holds(place.out, said));
    CHECK(holds(place.out, "This does not mean that all is well"));
    CHECK_FALSE(place.err.empty());
    const std::string shown = place.out;
    CHECK(place.run_words(with_mailer("mail --changed --as-of 2026-06-16", by)) == status);
    CHECK(place.out.empty());
    CHECK_FALSE(place.err.empty());
    CHECK(place.read("sent/" + std::to_string(++count)) == shown);
    CHECK_FALSE(fs::exists(place.folder / ".mailed"));
  };
  const std::string fine = place.read("fleet.yaml");
  place.write("fleet.yaml", fine + "nonsense: 1\nmore: 2\n");
  mailed(78, "No list: 2 mistakes in fleet files: Skarvey estate", "has no key `nonsense`");
  place.write("fleet.yaml", fine + "sites: \"\n");
  mailed(78, "No list: 1 mistake in fleet files: Skarvey estate", "fleet.yaml");
  // Without a day that is told, the clock is asked.
  place.write("fleet.yaml", "time-zone: Europe/Nowhere\n" + fine);
  CHECK(place.run("mail") == 78);
  CHECK(place.out.starts_with("Date: Mon, 15 Jun 2026 12:00:"));
  CHECK(holds(place.out, "fleet.yaml:1:12"));
  CHECK(subject(place.out).starts_with("No list: 1 mistake in fleet files"));
  // Nor is a day that is told one of a place that is not there.
  CHECK(place.run("mail --as-of 2026-06-16") == 78);
  CHECK(holds(place.out, "does not know the time zone `Europe/Nowhere`"));
  place.write("fleet.yaml", fine);
  fs::rename(place.folder / "schedules/pump.yaml", place.folder / "pump.yaml");
  mailed(78, "No list: 1 mistake in fleet files", "no schedule `pump`");
  fs::create_directory(place.folder / "schedules/pump.yaml");
  mailed(74, "No list: a fleet file cannot be read: Skarvey estate", "schedules/pump.yaml cannot be read");
  fs::remove(place.folder / "schedules/pump.yaml");
  fs::rename(place.folder / "pump.yaml", place.folder / "schedules/pump.yaml");
  const std::string record = place.read("record.db");
  fs::remove(place.folder / "record.db");
  mailed(66, "No list: there is no record: Skarvey estate", "there is no record");
  const std::string hint = "put back a backup: copy it to " + (place.folder / "record.db").string() +
                           "; only where there never was a record, start one: whichever new";
  CHECK(place.complains("hint: " + hint));
  CHECK(holds(place.read("sent/" + std::to_string(count)), hint));
  place.write("record.db", "");
  mailed(65, "No list: the record cannot be trusted", "is an empty file");
  place.write("record.db", record.substr(0, 9000));
  mailed(65, "No list: the record cannot be trusted", "damaged");
  place.write("record.db", record);
  // Of a mailer that fails as well both are said.
  fs::remove(place.folder / "record.db");
  CHECK(place.run_words(with_mailer("mail --as-of 2026-06-16", "/bin/false")) == 74);
  CHECK(place.complains("failed with 1"));
  CHECK(place.complains("there is no record"));
  // A mistake on the command line is whoever's who wrote it.
  CHECK(place.run("mail --as-of yestreday") == 64);
  CHECK(place.out.empty());
}

TEST_CASE("the first list after a message that there is none is whole, and one that is empty is said as well") {
  Place place;
  furnish(place);
  make_well(place);
  must(place, "saw loader leak --on 2026-06-12");
  const std::string by = mailer(place);
  const auto morning = [&](const std::string& day, const std::string& options = "--changed") {
    const int status = place.run_words(with_mailer("mail " + options + " --as-of " + day, by));
    return std::to_string(status) + ' ' + std::to_string(sent(place));
  };
  CHECK(morning("2026-06-16") == "0 1");
  CHECK(morning("2026-06-17") == "0 1");
  const std::string fine = place.read("fleet.yaml");
  place.write("fleet.yaml", fine + "nonsense: 1\n");
  // A look is no message.
  CHECK(place.run("mail --changed --as-of 2026-06-17") == 78);
  place.write("fleet.yaml", fine);
  CHECK(morning("2026-06-17") == "0 1");
  place.write("fleet.yaml", fine + "nonsense: 1\n");
  CHECK(morning("2026-06-18") == "78 2");
  CHECK(subject(place.read("sent/2")).starts_with("No list"));
  place.write("fleet.yaml", fine);
  CHECK(place.run_words(with_mailer("mail --changed --as-of 2026-06-18", "/bin/false")) == 74);  // it stays owed
  CHECK(morning("2026-06-19") == "0 3");
  CHECK(subject(place.read("sent/3")) == "1 overdue: Skarvey estate");
  CHECK(holds(place.read("sent/3"), "There is a list again: a message of 2026-06-18 said that there was none."));
  CHECK(holds(place.read("sent/3"), "loader: hoses"));
  CHECK(morning("2026-06-20") == "0 3");
  // Where all is well by then, that is said once; a site's message is owed by itself.
  place.write("fleet.yaml", fine + "nonsense: 1\n");
  CHECK(morning("2026-06-20") == "78 4");
  place.write("fleet.yaml", fine);
  must(place, "done loader hoses --at 100 --on 2026-06-20 --checked --as-of 2026-06-20");
  CHECK(morning("2026-06-21") == "0 5");
  CHECK(subject(place.read("sent/5")) == "There is a list again, nothing overdue: Skarvey estate");
  CHECK(holds(place.read("sent/5"), "Nothing is overdue, and all is known, of 2 machines."));
  CHECK(morning("2026-06-21") == "0 5");
  CHECK(morning("2026-06-21", "--changed --site yard") == "0 6");
  CHECK(morning("2026-06-21", "--changed --site yard") == "0 6");
}

TEST_CASE("what forbids to run a machine is in every message until it is mended, at its head and never cut") {
  Place place;
  furnish_safe_hoses(place, "    grace: {days: 30}\n");
  must(place, "saw loader leak --on 2026-06-16 --as-of 2026-06-16");
  REQUIRE(place.run("due --overdue --as-of 2026-06-16") == 0);
  CHECK(holds(place.out, "Not to be run before what is due is mended"));
  CHECK(holds(place.out, "do not run it before this is mended"));
  REQUIRE(place.run("mail --changed --as-of 2026-06-16") == 0);
  CHECK(subject(place.out) == "1 not to be run: Skarvey estate");
  CHECK(holds(place.out, "Must not wait: do not run: loader: hoses, leak seen"));
  for (int i = 0; i < 9; ++i) must(place, "saw pump odd noise " + std::to_string(i) + " --on 2026-06-15");
  must(place, "saw loader strange knock --on 2026-06-16 --as-of 2026-06-16");
  REQUIRE(place.run("mail --as-of 2026-06-16") == 0);
  CHECK(holds(place.out,
              "do not run: loader: hoses, leak seen; also: strange knock pump: odd noise 0; odd noise 1; odd noise 2"));
  // Where only the knock is told, what forbids it is said all the same, and the knock is no reason.
  const std::string by = mailer(place);
  REQUIRE(place.run_words(with_mailer("mail --changed --as-of 2026-06-16", by)) == 0);
  must(place, "saw loader strange hum --on 2026-06-17 --as-of 2026-06-17");
  REQUIRE(place.run_words(with_mailer("mail --changed --as-of 2026-06-17", by)) == 0);
  const std::string changed = place.read("sent/" + std::to_string(sent(place)));
  CHECK(holds(changed, "do not run: loader: hoses, leak seen; also: strange hum"));
  // What else stands of that machine says why, as it does in a list on a terminal.
  for (const char* asked : {"due --overdue", "due --overdue --format md", "mail"}) {
    REQUIRE(place.run(std::string(asked) + " --as-of 2027-09-01") == 0);
    CHECK(holds(place.out, "do not run it before this is mended: hoses, leak seen 2026-06-16"));
  }
  REQUIRE(place.run("mail --as-of 2026-06-22") == 0);  // with the word of the week
  CHECK_FALSE(holds(place.out, "all is known, of"));
}

TEST_CASE("machines not to be run are one count, in the subject, in what was said before, and where one is laid up") {
  Place place;
  furnish_safe_hoses(place);
  must(place, "saw loader leak --on 2026-06-15 --as-of 2026-06-15");
  must(place, "out-of-use pump --note cracked --on 2026-06-15 --as-of 2026-06-15");
  const std::string by = mailer(place);
  const auto morning = [&](const std::string& day) {
    REQUIRE(place.run_words(with_mailer("mail --changed --as-of " + day, by)) == 0);
    return place.read("sent/" + std::to_string(sent(place)));
  };
  const std::string first = morning("2026-06-16");
  CHECK(subject(first) == "2 not to be run, 1 overdue: Skarvey estate");
  CHECK(holds(first, "Must not wait: do not run: pump: out of use do not run: loader: hoses, leak seen"));
  must(place, "lay-up loader --on 2026-06-16 --as-of 2026-06-16");
  must(place, "mail --as-of 2026-06-16");
  CHECK(subject(place.out) == "2 not to be run, 1 laid up: Skarvey estate");
  must(place, "report --as-of 2026-06-16 --format text");
  CHECK(holds(place.out, "overdue list 2 not to be run, 1 thing to do on what is laid up"));
  must(place, "due --overdue --format ics --as-of 2026-06-16");
  CHECK(place.out.find("SUMMARY:Skarvey estate: 2 not to be run\\, 1 laid up") != std::string::npos);
  must(place, "saw pump odd noise --as-of 2026-06-17");
  const std::string second = morning("2026-06-17");
  CHECK(holds(second, "not to be run."));
  CHECK(subject(second).starts_with("New or worse: "));
}

TEST_CASE("what is said anew of a machine that is out of use already says so") {
  Place place;
  furnish(place);
  make_well(place);
  must(place, "out-of-use loader --note brakes --on 2026-06-12");
  const std::string by = mailer(place);
  REQUIRE(place.run_words(with_mailer("mail --changed --as-of 2026-06-16", by)) == 0);
  must(place, "out-of-use loader --note steering --as-of 2026-06-17");
  REQUIRE(place.run_words(with_mailer("mail --changed --as-of 2026-06-17", by)) == 0);
  CHECK(holds(place.read("sent/2"), "out of use already when last said; said since: 2026-06-17: steering"));
}

TEST_CASE("no name makes a header, and none stands in a subject") {
  Place place;
  furnish(place);
  place.write("fleet.yaml", "fleet: \"x\\r\\nBcc: a@b\"\n" + std::string(mail_line) +
                                "machines:\n  pump: {name: \"y\\r\\nBcc: a@b\", schedule: pump}\n");
  must(place, "saw pump strange\r\nBcc:a@b\r\n\r\nknock");
  REQUIRE(place.run("mail --as-of 2026-06-16") == 0);
  const std::string head = place.out.substr(0, place.out.find("\r\n\r\n"));
  CHECK(head.find("\r\nBcc") == std::string::npos);
  CHECK(head.find("knock") == std::string::npos);
  CHECK(place.out.find("\r\nBcc") == std::string::npos);
  CHECK(place.out.find("knock") != std::string::npos);
  // A key that is no name is a mistake, and mailed as one.
  place.write("fleet.yaml",
              std::string("fleet: x\n") + mail_line + "machines:\n  \"x\\r\\nBcc: a@b\": {schedule: pump}\n");
  CHECK(place.run("mail --as-of 2026-06-16") == 78);
  CHECK(subject(place.out) == "No list: 1 mistake in fleet files: x");
  CHECK(place.out.find("\r\nBcc") == std::string::npos);
}

TEST_CASE("its text keeps to 78 columns, whatever stands in it") {
  Place place;
  furnish(place);
  must(place, "saw pump " + std::string(300, 'x'));
  must(place, "saw pump " + std::string(50, 'w') + " \xE6\xB0\xB4\xE6\xB0\xB4 " + std::string(70, 'v'));
  fs::create_directories(place.folder / std::string(90, 'f'));
  for (const char* file : {"fleet.yaml", "record.db"}) {
    fs::copy_file(place.folder / file, place.folder / std::string(90, 'f') / file);
  }
  fs::copy(place.folder / "schedules", place.folder / std::string(90, 'f') / "schedules");
  for (const std::string& line :
       {std::string("mail --as-of 2026-06-22"), "mail --as-of 2026-06-22 --fleet " + std::string(90, 'f')}) {
    REQUIRE(place.run(line) == 0);
    std::istringstream lines(letter(place.out.substr(0, place.out.find("text/html"))));
    for (std::string one; std::getline(lines, one);) {
      if (!one.starts_with("Content-Type")) CHECK(cli::width(one) <= 78);
    }
  }
}

TEST_CASE("the status that is asked for is that of the due list") {
  Place place;
  furnish(place);
  CHECK(place.run("mail --as-of 2026-06-16 --exit-code") == 1);
  make_well(place);
  CHECK(place.run("mail --as-of 2026-06-16 --exit-code") == 0);
  CHECK(place.run("mail --as-of 2026-06-22 --exit-code") == 0);
}

TEST_CASE("the weekly word is owed until a mailer took it, all the list or only what is new") {
  for (const std::string only : {"", "--changed "}) {
    CAPTURE(only);
    Place place;
    furnish(place);
    make_well(place);
    const std::string by = mailer(place);
    const auto sent_on = [&](const std::string& day, bool works = true) {
      const std::string line = "mail " + only + "--as-of " + day;
      CHECK(place.run_words(with_mailer(line, works ? by : "/bin/false")) == (works ? 0 : 74));
      return sent(place);
    };
    CHECK(sent_on("2026-06-22", false) == 0);  // a Monday, and the first run of all
    CHECK(sent_on("2026-06-23", false) == 0);
    CHECK(sent_on("2026-06-24") == 1);
    CHECK(subject(place.read("sent/1")) == "All is well, 2 machines: Skarvey estate");
    CHECK(sent_on("2026-06-25") == 1);
    CHECK(sent_on("2026-06-30") == 2);  // Monday was slept through
    CHECK(sent_on("2026-07-05") == 2);
    CHECK(sent_on("2026-07-06", false) == 2);
    CHECK(sent_on("2026-07-07") == 3);
    CHECK(sent_on("2026-07-12") == 3);
    CHECK(sent_on("2026-07-13") == 4);
    CHECK(sent_on("2026-07-13") == 4);
    // It may be owed where what was kept cannot be read.
    place.write(".mailed", "nonsense\n");
    CHECK(sent_on("2026-07-14") == 5);
    CHECK(holds(place.read("sent/5"), "What was mailed before is not known"));
    CHECK(sent_on("2026-07-15") == 5);
  }
}

TEST_CASE("before the first message of all nothing is owed; from then on a word that was slept through is") {
  Place place;
  furnish(place);
  make_well(place);
  const std::string by = mailer(place);
  const auto sent_on = [&](const std::string& day) {
    REQUIRE(place.run_words(with_mailer("mail --changed --as-of " + day, by)) == 0);
    return sent(place);
  };
  CHECK(sent_on("2026-06-16") == 0);
  CHECK(sent_on("2026-06-23") == 1);
  // Nothing tells whether what is printed went out: then the weekday decides.
  fs::remove(place.folder / ".mailed");
  CHECK(place.run("mail --as-of 2026-06-23") == 0);
  CHECK(place.out.empty());
}

TEST_CASE("a mailer that ends with 0 and reads nothing was given no message, however short that is") {
  Place place;
  furnish(place);
  make_well(place);
  CHECK(place.run_words(with_mailer("mail --as-of 2026-06-22", "/bin/true")) == 74);
  CHECK(place.complains("did not read the whole message"));
  CHECK_THROWS_AS(cli::hand_over({"/bin/true"}, "x"), service::Failure);
  CHECK_THROWS_AS(cli::hand_over({"/bin/sh", "-c", "head -c 1 >/dev/null"}, "xy"), service::Failure);
  CHECK_NOTHROW(cli::hand_over({"/bin/sh", "-c", "cat >/dev/null"}, std::string(1'000'000, 'x')));
}

TEST_CASE("a mailer that hangs is stopped") {
  const auto begun = std::chrono::steady_clock::now();
  for (const std::size_t size : {1, 1'000'000}) {
    try {
      cli::hand_over({"/bin/sh", "-c", "sleep 100"}, std::string(size, 'x'), std::chrono::milliseconds{200});
      FAIL("it was handed over");
    } catch (const service::Failure& failure) {
      CHECK(failure.kind() == service::FailureKind::io);
      CHECK(failure.diagnostics().front().message == "the mailer `/bin/sh` did not end within 200 ms and was stopped");
    }
  }
  // Also one that will not be asked.
  CHECK_THROWS_AS(
      cli::hand_over({"/bin/sh", "-c", "trap '' TERM; while :; do sleep 1; done"}, "x", std::chrono::milliseconds{200}),
      service::Failure);
  CHECK(std::chrono::steady_clock::now() - begun < std::chrono::seconds{50});
}

TEST_CASE("a sign that is seen again is news, with its newest day and note") {
  Place place;
  furnish(place);
  make_well(place);
  must(place, "saw loader leak --on 2026-06-12");
  must(place, "saw pump rattling --on 2026-06-12");
  const std::string by = mailer(place);
  const auto sent_on = [&](const std::string& day) {
    REQUIRE(place.run_words(with_mailer("mail --changed --as-of " + day, by)) == 0);
    return sent(place);
  };
  CHECK(sent_on("2026-06-16") == 1);
  CHECK(sent_on("2026-06-17") == 1);
  must(place, "saw loader leak --note gushing --as-of 2026-06-18");
  CHECK(sent_on("2026-06-18") == 2);
  CHECK(holds(place.read("sent/2"), "leak seen 2026-06-12, again 2026-06-18 (gushing)"));
  CHECK_FALSE(holds(place.read("sent/2"), "rattling"));
  CHECK(sent_on("2026-06-19") == 2);
  must(place, "saw pump rattling --note louder --as-of 2026-06-20");
  CHECK(sent_on("2026-06-20") == 3);
  CHECK(holds(place.read("sent/3"), "since last said: again 2026-06-20 (louder)"));
  CHECK(holds(place.read("sent/3"), "rattling, seen 2026-06-12, again 2026-06-20 (louder)"));
  CHECK_FALSE(holds(place.read("sent/3"), "gushing"));
  CHECK(sent_on("2026-06-21") == 3);
}

TEST_CASE("of a machine out of use every message says first that nobody may run it, and on its first lines how many") {
  Place place;
  furnish(place);
  make_well(place);
  must(place, "out-of-use loader --note brakes --on 2026-06-12");
  const std::string by = mailer(place);
  REQUIRE(place.run_words(with_mailer("mail --changed --as-of 2026-06-16", by)) == 0);
  must(place, "saw loader leak --on 2026-06-16 --as-of 2026-06-17");
  must(place, "saw loader strange noise --as-of 2026-06-17");
  REQUIRE(place.run_words(with_mailer("mail --changed --as-of 2026-06-17", by)) == 0);
  const std::string text = letter(place.read("sent/2"));
  CHECK(text.find("\n\nSaid before: 0 still overdue, 1 not to be\nrun.\n") != std::string::npos);
  CHECK(text.find("do not run: loader: hoses") != std::string::npos);
  CHECK(text.find("do not run: loader\n") != std::string::npos);  // the noise
  CHECK(text.find("\nloader") == std::string::npos);
  CHECK(text.find(" loader: hoses") == text.find("do not run: loader: hoses") + 11);
}

TEST_CASE("what must not wait of a machine out of use begins with that nobody may run it") {
  Place place;
  furnish_safe_hoses(place);
  must(place, "out-of-use loader --note brakes --on 2026-06-12");
  const std::string by = mailer(place);
  REQUIRE(place.run_words(with_mailer("mail --changed --as-of 2026-06-16", by)) == 0);
  must(place, "saw loader leak --on 2026-06-16 --as-of 2026-06-17");
  REQUIRE(place.run_words(with_mailer("mail --changed --as-of 2026-06-17", by)) == 0);
  CHECK(holds(place.read("sent/2"), "Must not wait: do not run: loader: out of use; hoses, leak seen"));
}

TEST_CASE("all is well only where nothing is due; else what is due is named, with its steps") {
  Place place;
  furnish(place);
  std::string schedule = cli_test::pump_schedule;
  schedule.replace(schedule.find("36"), 2, "12");
  place.write("schedules/pump.yaml", schedule);
  must(place, "done loader engine-oil tyre hoses --at 100 --on 2026-06-10 --checked");
  must(place, "done pump gland --at 10 --on 2025-06-20");
  must(place, "reading pump 12 --on 2026-06-10");
  REQUIRE(place.run("mail --as-of 2026-06-22") == 0);
  CHECK(subject(place.out) == "Nothing overdue, 1 due: Skarvey estate");
  CHECK(holds(place.out, "pump: gland (mere)"));
  CHECK(holds(place.out, "Before you touch a machine 1. park level, brake on"));
  CHECK_FALSE(holds(place.out, "ll is well"));
}

TEST_CASE("what would be new is shown, and nothing is remembered of a look") {
  Place place;
  furnish(place);
  make_well(place);
  must(place, "saw loader leak --on 2026-06-12");
  CHECK(place.run("mail --changed --as-of 2026-06-16") == 0);
  CHECK(subject(place.out) == "1 overdue: Skarvey estate");
  CHECK_FALSE(fs::exists(place.folder / ".mailed"));
  const std::string shown = place.out;
  REQUIRE(place.run_words(with_mailer("mail --changed --as-of 2026-06-16", mailer(place))) == 0);
  CHECK(place.read("sent/1") == shown);
  const std::string kept = place.read(".mailed");
  CHECK(place.run("mail --changed --as-of 2026-06-17") == 0);
  CHECK(place.out.empty());
  must(place, "saw pump rattling --as-of 2026-06-18");
  CHECK(place.run("mail --changed --as-of 2026-06-18 --output m.eml") == 0);
  CHECK(holds(place.read("m.eml"), "rattling"));
  CHECK(place.read(".mailed") == kept);
}

TEST_CASE("what was done and taken back between two messages is news") {
  Place place;
  furnish(place);
  make_well(place);
  must(place, "saw loader leak --on 2026-06-12");
  const std::string by = mailer(place);
  const auto sent_on = [&](const std::string& day) {
    REQUIRE(place.run_words(with_mailer("mail --changed --as-of " + day, by)) == 0);
    return sent(place);
  };
  CHECK(sent_on("2026-06-16") == 1);
  must(place, "done loader hoses --at 101 --on 2026-06-17 --as-of 2026-06-17");
  CHECK(sent_on("2026-06-17") == 1);
  must(place, "undo --as-of 2026-06-17");
  CHECK(sent_on("2026-06-18") == 2);
  CHECK(holds(place.read("sent/2"), "loader: hoses"));
}

TEST_CASE("a message is of the day that is asked about, else of the moment in which it was written") {
  Place place;
  place.furnish();
  place.write("fleet.yaml", std::string("time-zone: Europe/Oslo\n") + mail_line + cli_test::small_fleet);
  const auto name = [&] { return place.out.substr(place.out.find("Message-ID"), 60); };
  REQUIRE(place.run("mail") == 0);
  CHECK(place.out.starts_with("Date: Mon, 15 Jun 2026 14:00:"));
  CHECK(place.out.find(" +0200\r\n") < 50);
  const std::string first = place.out.substr(0, place.out.find("\r\n"));
  const std::string named = name();
  REQUIRE(place.run("mail") == 0);
  CHECK(place.out.substr(0, place.out.find("\r\n")) > first);
  CHECK(name() == named);
}
