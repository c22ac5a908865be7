#include "render/mail/mime.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>

#include "service/text.h"

namespace cli {
namespace {

constexpr std::string_view line_end = "\r\n";
constexpr std::string_view word_begins = "=?UTF-8?B?";
constexpr std::string_view word_ends = "?=";
constexpr std::size_t longest_word = 75;    // RFC 2047, 2
constexpr std::size_t longest_header = 78;  // RFC 5322, 2.1.1
constexpr std::size_t longest_coded = 76;   // RFC 2045, 6.7, and of lines with encoded words

bool continues(char c) { return (static_cast<unsigned char>(c) & 0xC0U) == 0x80; }

// As many whole characters as fit into so many octets; at least one.
std::size_t characters_within(std::string_view text, std::size_t octets) {
  if (text.size() <= octets) return text.size();
  std::size_t end = octets;
  while (end > 0 && continues(text[end])) --end;
  if (end > 0) return end;
  end = 1;
  while (end < text.size() && continues(text[end])) ++end;
  return end;
}

// Words that stand in a header as they are: printable ASCII, with single blanks, none too long for a line.
bool is_plain(std::string_view text) {
  constexpr std::size_t longest = 60;
  std::size_t length = 0;
  for (const char c : text) {
    if (c < ' ' || c > '~') return false;
    length = c == ' ' ? 0 : length + 1;
    if (length > longest) return false;
  }
  return text.find("  ") == std::string_view::npos && text.find("=?") == std::string_view::npos &&
         !text.starts_with(' ') && !text.ends_with(' ');
}

// Words behind each other; where a line would be too long, it goes on in the next.
std::string folded_header(std::string_view name, const std::vector<std::string>& words) {
  std::string text = fmt::format("{}:", name);
  std::size_t length = text.size();
  for (const std::string& word : words) {
    const bool first = length == text.size() && text.size() == name.size() + 1;
    if (!first && length + 1 + word.size() > longest_header) {
      text += line_end;
      length = 0;
    }
    text += ' ' + word;
    length += 1 + word.size();
  }
  return text + std::string(line_end);
}

std::vector<std::string> words_of(std::string_view text) {
  std::vector<std::string> words;
  while (!text.empty()) {
    const std::string_view word = text.substr(0, text.find(' '));
    words.emplace_back(word);
    text.remove_prefix(std::min(text.size(), word.size() + 1));
  }
  return words;
}

std::string subject_header(std::string_view subject) {
  constexpr std::string_view name = "Subject";
  if (is_plain(subject)) return folded_header(name, words_of(subject));
  return fmt::format("{}: {}{}", name, encoded_words(subject, longest_coded - name.size() - 2), line_end);
}

std::string to_header(const std::vector<std::string>& addresses) {
  std::vector<std::string> words;
  for (const std::string& address : addresses) words.push_back(address + (&address == &addresses.back() ? "" : ","));
  return folded_header("To", words);
}

std::string part(std::string_view boundary, std::string_view type, std::string_view text) {
  return fmt::format(
      "--{}\r\nContent-Type: {}; charset=utf-8\r\nContent-Transfer-Encoding: quoted-printable\r\n\r\n{}\r\n", boundary,
      type, quoted_printable(text));
}

// What cannot stand in a header is no part of one: a name that came another way than from a fleet file.
std::string in_header(std::string_view text) {
  std::string kept;
  std::copy_if(text.begin(), text.end(), std::back_inserter(kept),
               [](char c) { return static_cast<unsigned char>(c) >= ' ' && c != '\x7f'; });
  return kept;
}

}  // namespace

std::string base64(std::string_view bytes) {
  constexpr std::string_view digits = "ABCDEFGHIJKLMNOPQRSTUVWXYZabcdefghijklmnopqrstuvwxyz0123456789+/";
  std::string text;
  for (std::size_t i = 0; i < bytes.size(); i += 3) {
    const std::string_view group = bytes.substr(i, 3);
    std::uint32_t bits = 0;
    for (std::size_t j = 0; j < 3; ++j) {
      bits = bits << 8U | (j < group.size() ? static_cast<unsigned char>(group[j]) : 0U);
    }
    for (std::size_t j = 0; j < 4; ++j) {
      text += j <= group.size() ? digits[bits >> (18U - 6U * static_cast<unsigned>(j)) & 0x3FU] : '=';
    }
  }
  return text;
}

std::string encoded_words(std::string_view text, std::size_t first_room) {
  const auto octets_in = [](std::size_t room) { return (room - word_begins.size() - word_ends.size()) / 4 * 3; };
  std::string words;
  std::size_t room = std::min(first_room, longest_word);
  while (!text.empty()) {
    const std::size_t taken = characters_within(text, octets_in(room));
    if (!words.empty()) words += "\r\n ";
    words += fmt::format("{}{}{}", word_begins, base64(text.substr(0, taken)), word_ends);
    text.remove_prefix(taken);
    room = longest_word;
  }
  return words;
}

std::string quoted_printable(std::string_view text) {
  std::string out;
  std::size_t length = 0;
  const auto add = [&](const std::string& unit, bool last) {
    // Before the last one of a line there is room for it; before another also for the sign that the line goes on.
    if (length + unit.size() > longest_coded - (last ? 0 : 1)) {
      out += "=\r\n";
      length = 0;
    }
    out += unit;
    length += unit.size();
  };
  for (std::size_t i = 0; i < text.size(); ++i) {
    const char c = text[i];
    if (c == '\n') {
      out += line_end;
      length = 0;
      continue;
    }
    const bool last = i + 1 == text.size() || text[i + 1] == '\n';
    const bool plain = (c > ' ' && c <= '~' && c != '=') || (c == ' ' && !last);
    const bool at_start = length == 0 || length + 1 > longest_coded - (last ? 0 : 1);
    const bool awkward = at_start && (c == '.' || (c == 'F' && text.substr(i).starts_with("From ")));
    add(plain && !awkward ? std::string(1, c) : fmt::format("={:02X}", static_cast<unsigned char>(c)), last);
  }
  return out;
}

std::string date_header(service::Day on, std::chrono::seconds since_midnight, std::chrono::minutes ahead_of_utc) {
  constexpr std::array days{"Sun", "Mon", "Tue", "Wed", "Thu", "Fri", "Sat"};
  constexpr std::array months{"Jan", "Feb", "Mar", "Apr", "May", "Jun", "Jul", "Aug", "Sep", "Oct", "Nov", "Dec"};
  const std::chrono::year_month_day date{on};
  const auto ahead = ahead_of_utc.count();
  const auto minutes = ahead < 0 ? -ahead : ahead;
  const auto seconds = since_midnight.count();
  return fmt::format("{}, {} {} {:04} {:02}:{:02}:{:02} {}{:02}{:02}", days.at(std::chrono::weekday(on).c_encoding()),
                     static_cast<unsigned>(date.day()), months.at(static_cast<unsigned>(date.month()) - 1),
                     static_cast<int>(date.year()), seconds / 3600, seconds / 60 % 60, seconds % 60,
                     ahead < 0 ? '-' : '+', minutes / 60, minutes % 60);
}

std::uint64_t fnv1a(std::string_view bytes) {
  constexpr std::uint64_t basis = 0xcbf29ce484222325;
  constexpr std::uint64_t prime = 0x100000001b3;
  std::uint64_t hash = basis;
  for (const char c : bytes) hash = (hash ^ static_cast<unsigned char>(c)) * prime;
  return hash;
}

std::string message_bytes(const Message& message) {
  const std::string from = in_header(message.from);
  std::vector<std::string> to;
  for (const std::string& address : message.to) to.push_back(in_header(address));
  const std::string subject = in_header(message.subject);
  const std::string date = date_header(message.written_on, message.since_midnight, message.ahead_of_utc);
  const std::string name =
      fmt::format("{:016x}", fnv1a(fmt::format("{}\n{}\n{}\n{}\n{}\n{}", service::to_text(message.on), from,
                                               fmt::join(to, ","), subject, message.text, message.html)));
  std::string day = service::to_text(message.on);
  std::erase(day, '-');
  // No quoted-printable line holds "=_".
  const std::string boundary = "=_" + name;
  std::string bytes = fmt::format("Date: {}\r\nFrom: {}\r\n", date, from);
  bytes += to_header(to);
  bytes += subject_header(subject);
  bytes += fmt::format("Message-ID: <{}.{}@{}>\r\n", day, name, from.substr(from.find('@') + 1));
  bytes += "Auto-Submitted: auto-generated\r\nMIME-Version: 1.0\r\n";
  bytes += fmt::format("Content-Type: multipart/alternative; boundary=\"{}\"\r\n\r\n", boundary);
  bytes += part(boundary, "text/plain", message.text);
  bytes += part(boundary, "text/html", message.html);
  return bytes + fmt::format("--{}--\r\n", boundary);
}

}  // namespace cli
