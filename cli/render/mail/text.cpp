// The letter as plain lines. Nothing stands in columns, for many programs show mail in letters of unequal width.
#include <fmt/format.h>

#include "render/mail/letter.h"
#include "render/shared/cautions.h"
#include "terminal/width.h"
#include "terminal/wrap.h"

namespace cli {
namespace {

bool begins_character(char c) { return (static_cast<unsigned char>(c) & 0xC0U) != 0x80; }

// Words that are wider than a line, such as long paths, are broken where the line ends.
std::string within_columns(std::string_view text) {
  std::string out;
  std::size_t line = 0;  // where it begins in `out`
  for (std::size_t i = 0; i < text.size();) {
    std::size_t next = i + 1;
    while (next < text.size() && !begins_character(text[next])) ++next;
    const std::string_view one = text.substr(i, next - i);
    // Counted only where it may be too wide: a character has one byte at least, and no more columns than bytes.
    const bool too_wide = one != "\n" && out.size() - line + one.size() > mail_columns &&
                          width(std::string_view(out).substr(line)) + width(one) > mail_columns;
    if (too_wide) {
      const std::size_t blank = out.find_last_of(' ');
      const bool has_blank = blank != std::string::npos && blank > line && out.find_first_not_of(' ', line) < blank &&
                             blank + 1 < out.size();
      const std::string indent(std::min(out.find_first_not_of(' ', line), out.size()) - line, ' ');
      const std::string rest = has_blank ? out.substr(blank + 1) : "";
      if (has_blank) out.erase(blank);
      out += '\n';
      line = out.size();
      out += indent + rest;
    }
    out += one;
    if (one == "\n") line = out.size();
    i = next;
  }
  return out;
}

void add_sentences(std::string& text, const std::vector<std::string>& sentences) {
  if (sentences.empty()) return;
  if (!text.empty()) text += '\n';
  for (const std::string& sentence : sentences) text += wrapped("", sentence, mail_columns, 0);
}

void add_part(std::string& text, const LetterPart& part) {
  if (!text.empty()) text += '\n';
  text += part.title + '\n';
  constexpr std::size_t indent = 3;
  for (const LetterItem& item : part.items) {
    text += wrapped(padded(item.mark, indent), item.head, mail_columns, indent);
    for (const std::string& line : item.below) text += wrapped("     ", line, mail_columns, indent + 2);
  }
}

}  // namespace

std::string letter_as_text(const Letter& letter) {
  std::string text;
  if (!letter.counts.empty()) text += wrapped("", letter.counts, head_columns, 0) + '\n';
  if (!letter.first.empty()) {
    text += "Must not wait:\n";
    for (const std::string& line : letter.first) text += wrapped("", line, head_columns, 2);
    text += "Before you touch a machine: the steps below.\n\n";
  }
  text += letter.title + '\n';
  add_sentences(text, letter.opening);
  for (const LetterPart& part : letter.parts) add_part(text, part);
  add_sentences(text, letter.word);
  add_sentences(text, letter.closing);
  if (letter.sends_people) {
    Look look;
    look.columns = mail_columns;
    text += '\n' + all_steps(look) + what_to_mind(letter.cautions, look);
  }
  if (!letter.last.empty()) text += '\n' + wrapped("", letter.last, mail_columns, 0);
  return within_columns(text);
}

}  // namespace cli
