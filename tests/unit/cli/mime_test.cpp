// Messages by the letter of the standards. Values that are published stand beside their source.
#include "render/mail/mime.h"

#include <doctest/doctest.h>

#include <sstream>
#include <string>
#include <vector>

using cli::encoded_words;
using cli::quoted_printable;

namespace {

std::vector<std::string> lines_of(const std::string& bytes) {
  std::vector<std::string> lines;
  std::size_t from = 0;
  for (std::size_t end = bytes.find("\r\n"); end != std::string::npos; end = bytes.find("\r\n", from)) {
    lines.push_back(bytes.substr(from, end - from));
    from = end + 2;
  }
  if (from < bytes.size()) lines.push_back(bytes.substr(from));
  return lines;
}

std::string repeated(const std::string& text, int times) {
  std::string all;
  for (int i = 0; i < times; ++i) all += text;
  return all;
}

cli::Message message(const std::string& subject) {
  return {"whichever@skarvey.example",
          {"office@skarvey.example"},
          subject,
          service::day_of(2026, 6, 15),
          service::day_of(2026, 6, 15),
          std::chrono::seconds{0},
          std::chrono::minutes{120},
          "All is well.\n",
          "<p>All is well.</p>\n"};
}

std::string head_of(const std::string& bytes) { return bytes.substr(0, bytes.find("\r\n\r\n") + 2); }

}  // namespace

TEST_CASE("base64 as in RFC 4648, 10 (read there)") {
  CHECK(cli::base64("").empty());
  CHECK(cli::base64("f") == "Zg==");
  CHECK(cli::base64("fo") == "Zm8=");
  CHECK(cli::base64("foo") == "Zm9v");
  CHECK(cli::base64("foob") == "Zm9vYg==");
  CHECK(cli::base64("fooba") == "Zm9vYmE=");
  CHECK(cli::base64("foobar") == "Zm9vYmFy");
}

TEST_CASE("FNV-1a, 64 bits, of the texts in its authors' list (from memory)") {
  CHECK(cli::fnv1a("") == 0xcbf29ce484222325);
  CHECK(cli::fnv1a("a") == 0xaf63dc4c8601ec8c);
  CHECK(cli::fnv1a("foobar") == 0x85944171f73967e8);
}

TEST_CASE("encoded words: by the rules of RFC 2047 and 2045, computed") {
  CHECK(encoded_words("\xC3\x96lwechsel f\xC3\xA4llig", 75) == "=?UTF-8?B?w5Zsd2VjaHNlbCBmw6RsbGln?=");
  // At most 75 characters, delimiters included: 45 octets; several are parted by CR LF and a blank (RFC 2047, 2).
  CHECK(encoded_words(repeated("x", 45), 75).size() == 72);
  CHECK(lines_of(encoded_words(repeated("x", 45), 75)).size() == 1);
  const auto two = lines_of(encoded_words(repeated("x", 46), 75));
  REQUIRE(two.size() == 2);
  CHECK(two[1] == " =?UTF-8?B?eA==?=");
  // No character is cut in two: 45 octets hold 22 letters of two.
  const auto letters = lines_of(encoded_words(repeated("\xC3\xA4", 23), 75));
  REQUIRE(letters.size() == 2);
  CHECK(letters[1] == " =?UTF-8?B?w6Q=?=");
  for (const int count : {1, 2, 30, 31, 200, 1000}) {
    for (const std::string& line : lines_of(encoded_words(repeated("\xE2\x82\xAC", count), 60))) {
      CHECK(line.size() <= 76);
    }
  }
}

TEST_CASE("quoted-printable: the rules of RFC 2045, 6.7 (from memory), and an example computed from them") {
  CHECK(quoted_printable("\xC3\x96lwechsel f\xC3\xA4llig") == "=C3=96lwechsel f=C3=A4llig");
  CHECK(quoted_printable("a=b\n") == "a=3Db\r\n");
  // A line has at most 76 characters; the sign that it goes on is one of them.
  CHECK(quoted_printable(repeated("x", 76)) == repeated("x", 76));
  CHECK(quoted_printable(repeated("x", 77)) == repeated("x", 75) + "=\r\nxx");
  CHECK(quoted_printable(repeated("x", 76) + "\n") == repeated("x", 76) + "\r\n");
  for (const std::string& text : {repeated("\xC3\xA4", 100), repeated("x\xE2\x82\xAC ", 99), repeated("=", 77)}) {
    for (const std::string& line : lines_of(quoted_printable(text))) CHECK(line.size() <= 76);
  }
  // Blanks at the end of a line would be taken off on the way.
  CHECK(quoted_printable("a \nb\t") == "a=20\r\nb=09");
  CHECK(quoted_printable("a b") == "a b");
}

TEST_CASE("no line begins so that a program on the way takes it for more than text") {
  CHECK(quoted_printable(".\n") == "=2E\r\n");
  CHECK(quoted_printable("..x\n.y") == "=2E.x\r\n=2Ey");
  CHECK(quoted_printable("From here\n") == "=46rom here\r\n");
  CHECK(quoted_printable("Fro\n") == "Fro\r\n");
  for (int before = 60; before < 80; ++before) {
    for (const char* start : {".", "From there"}) {
      for (const std::string& line : lines_of(quoted_printable(repeated("x", before) + start + repeated("y", 9)))) {
        CHECK_FALSE(line.starts_with('.'));
        CHECK_FALSE(line.starts_with("From "));
      }
    }
  }
}

TEST_CASE("the date of a message is a moment by the clocks there") {
  using std::chrono::minutes;
  using std::chrono::seconds;
  CHECK(cli::date_header(service::day_of(2026, 6, 15), seconds{0}, minutes{120}) == "Mon, 15 Jun 2026 00:00:00 +0200");
  CHECK(cli::date_header(service::day_of(2026, 3, 1), seconds{21602}, {}) == "Sun, 1 Mar 2026 06:00:02 +0000");
  CHECK(cli::date_header(service::day_of(2026, 12, 31), seconds{86399}, minutes{-210}) ==
        "Thu, 31 Dec 2026 23:59:59 -0330");
}

TEST_CASE("the same said later is the same message at another moment") {
  cli::Message later = message("All is well");
  later.since_midnight = std::chrono::seconds{60};
  const auto id = [](const std::string& all) { return all.substr(all.find("Message-ID"), 60); };
  CHECK(id(message_bytes(message("All is well"))) == id(message_bytes(later)));
  CHECK(message_bytes(later).starts_with("Date: Mon, 15 Jun 2026 00:01:00 +0200\r\n"));
}

TEST_CASE("the same message is the same bytes, and another one has another name") {
  const std::string bytes = cli::message_bytes(message("Two overdue"));
  CHECK(bytes == cli::message_bytes(message("Two overdue")));
  const auto id = [](const std::string& all) { return all.substr(all.find("Message-ID"), 60); };
  CHECK(id(bytes) != id(cli::message_bytes(message("Three overdue"))));
  CHECK(bytes.find("Auto-Submitted: auto-generated\r\n") != std::string::npos);
  CHECK(bytes.find('\n') == bytes.find("\r\n") + 1);
}

TEST_CASE("no header is longer than 78 characters, and a subject that is plain stays readable") {
  for (const std::string& subject :
       {std::string("Two overdue: Skarvey"), repeated("overdue ", 40) + "x", repeated("x", 300), std::string("a  b"),
        std::string("=?UTF-8?B?eA==?="), repeated("\xC3\xA4 ", 90)}) {
    CAPTURE(subject);
    for (const std::string& line : lines_of(head_of(cli::message_bytes(message(subject))))) CHECK(line.size() <= 78);
  }
  auto many = message("x");
  many.to.assign(40, "workshop@skarvey.example");
  for (const std::string& line : lines_of(head_of(cli::message_bytes(many)))) CHECK(line.size() <= 78);
  CHECK(cli::message_bytes(message("Two overdue")).find("\r\nSubject: Two overdue\r\n") != std::string::npos);
  CHECK(cli::message_bytes(message("=?UTF-8?B?eA==?=")).find("Subject: =?UTF-8?B?PT9") != std::string::npos);
}

TEST_CASE("whatever a subject holds, the head has the headers that it had") {
  const auto names = [](const std::string& bytes) {
    std::string all;
    for (const std::string& line : lines_of(head_of(bytes))) {
      if (!line.starts_with(' ')) all += line.substr(0, line.find(':')) + ' ';
    }
    return all;
  };
  const std::string usual = names(cli::message_bytes(message("x")));
  CHECK(usual == "Date From To Subject Message-ID Auto-Submitted MIME-Version Content-Type ");
  for (const char* subject : {"x\r\nBcc: a@b", "x\nBcc: a@b", "x\rBcc: a@b", "\r\n\r\nx", "x\x0b\x1b[2J", ""}) {
    CHECK(names(cli::message_bytes(message(subject))) == usual);
    CHECK(cli::message_bytes(message(subject)).find("\r\nBcc") == std::string::npos);
  }
}
