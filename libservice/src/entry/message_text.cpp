#include "entry/message_text.h"

#include <algorithm>

#include "base/encodings.h"
#include "service/text.h"
#include "service/typed.h"

namespace service::entry {
namespace {

constexpr std::size_t longest_line = 2000;

bool is_blank(char32_t code) {
  return code == ' ' || code == '\t' || code == 0xA0 || code == 0x1680 || (code >= 0x2000 && code <= 0x200A) ||
         code == 0x202F || code == 0x205F || code == 0x3000;
}

// What telephones put between letters and nobody sees: marks of direction, joiners of nothing, byte order marks.
bool is_unseen(char32_t code) {
  return code == 0x200B || code == 0x200E || code == 0x200F || (code >= 0x202A && code <= 0x202E) || code == 0x2060 ||
         (code >= 0x2066 && code <= 0x2069) || code == 0xFEFF;
}

bool is_control(char32_t code) { return code < 0x20 || (code >= 0x7F && code <= 0x9F); }

bool ends_line(char32_t code) {
  return code == '\n' || code == '\r' || code == 0x85 || code == 0x2028 || code == 0x2029;
}

PastedLine pasted(int number, std::string_view text) {
  PastedLine line{number, std::string(text), "", ""};
  if (first_bad_utf8(text)) {
    line.problem = "is not in UTF-8";
  } else if (text.size() > longest_line) {
    line.problem = "is too long for a message";
  }
  bool gap = false;
  while (!text.empty() && line.problem.empty()) {
    const auto letter = first_letter(text);
    const std::string_view bytes = text.substr(0, letter->bytes);
    text.remove_prefix(letter->bytes);
    if (is_blank(letter->code)) {
      gap = true;
    } else if (is_control(letter->code)) {
      line.problem = "holds a control character";
    } else if (!is_unseen(letter->code)) {
      if (gap && !line.plain.empty()) line.plain += ' ';
      gap = false;
      line.plain += bytes;
    }
  }
  // A messenger's own words, which change nothing of what was said.
  for (const std::string_view mark : {" <This message was edited>", " (edited)"}) {
    if (line.plain.ends_with(mark)) line.plain.erase(line.plain.size() - mark.size());
  }
  return line;
}

std::string trimmed(std::string_view text, std::string_view marks = " ") {
  const auto from = text.find_first_not_of(marks);
  return from == std::string_view::npos ? "" : std::string(text.substr(from, text.find_last_not_of(marks) - from + 1));
}

// What stands around a day that parts a text.
constexpr std::string_view dividing_marks = " -=_*~#|\u2013\u2014\u2015\u2500\u2501\u2022";

// The name before the first colon, where what stands there is not the beginning of a message itself.
void part_sender(Headed& line, const std::function<bool(std::string_view)>& says_something) {
  const auto colon = line.rest.find(':');
  const bool ends_word = colon != std::string::npos && (colon + 1 == line.rest.size() || line.rest[colon + 1] == ' ');
  if (!ends_word || says_something(std::string_view(line.rest).substr(0, colon))) return;
  line.sender = trimmed(line.rest.substr(0, colon));
  line.rest = trimmed(line.rest.substr(colon + 1));
}

}  // namespace

std::vector<PastedLine> pasted_lines(std::string_view text) {
  std::vector<PastedLine> lines;
  int number = 1;
  std::size_t begin = 0;
  std::size_t at = 0;
  const auto add = [&](std::size_t end) {
    PastedLine line = pasted(number++, text.substr(begin, end - begin));
    if (!line.plain.empty() || !line.problem.empty()) lines.push_back(std::move(line));
  };
  while (at < text.size()) {
    const auto letter = first_letter(text.substr(at));
    const std::size_t bytes = letter ? letter->bytes : 1;
    if (!letter || !ends_line(letter->code)) {
      at += bytes;
      continue;
    }
    add(at);
    at += bytes;
    if (letter->code == '\r' && at < text.size() && text[at] == '\n') ++at;
    begin = at;
  }
  if (begin < text.size()) add(text.size());
  return lines;
}

Headed headed(std::string_view plain, Day today, const std::function<bool(std::string_view)>& says_something) {
  Headed line{std::nullopt, false, false, "", std::string(plain)};
  if (auto alone = stamped_in(trimmed(plain, dividing_marks), today)) return {std::move(alone), false, false, "", ""};
  const auto open = plain.find('[');
  const auto close = plain.find(']', open == std::string_view::npos ? 0 : open);
  if (open == 0 && close != std::string_view::npos) {
    line.sent = stamped_in(plain.substr(1, close - 1), today);
    if (line.sent) line.rest = trimmed(plain.substr(close + 1));
  } else if (open != std::string_view::npos && close + 1 == plain.size()) {
    const std::string_view name = plain.substr(0, open);
    const std::string_view stamp = plain.substr(open + 1, close - open - 1);
    line.sent = says_something(name) ? std::nullopt : stamped_in(stamp, today);
    if (line.sent) return {std::move(line.sent), false, false, trimmed(name, " ,"), ""};
    line.not_understood = !says_something(name) && begins_like_a_stamp(stamp);
  } else if (open != std::string_view::npos && close != std::string_view::npos && plain.substr(close + 1, 2) == ": ") {
    const std::string_view name = plain.substr(0, open);
    line.sent = says_something(name) ? std::nullopt : stamped_in(plain.substr(open + 1, close - open - 1), today);
    if (line.sent) return {std::move(line.sent), false, false, trimmed(name, " ,"), trimmed(plain.substr(close + 2))};
  }
  for (const std::string_view dash : {" - ", " \u2013 "}) {
    const auto at = plain.find(dash);
    if (line.sent || at == std::string_view::npos) continue;
    line.sent = stamped_in(plain.substr(0, at), today);
    if (line.sent) line.rest = trimmed(plain.substr(at + dash.size()));
  }
  if (!line.sent) {
    if (auto before = stamp_before(plain, today)) {
      line.rest = trimmed(plain.substr(before->letters), " -");
      line.sent = std::move(before->stamp);
    }
  }
  if (line.sent) {
    part_sender(line, says_something);
  } else {
    const bool says = says_something(plain);
    line.not_understood = line.not_understood || (begins_like_a_stamp(plain) && !says);
    line.looks_like_a_header = !says && looks_like_a_header(plain);
  }
  return line;
}

}  // namespace service::entry
