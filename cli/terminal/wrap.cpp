#include "terminal/wrap.h"

#include <algorithm>

#include "terminal/width.h"

namespace cli {
namespace {

// Behind `whichever`, and behind the fleet that it names, in quotes or not.
std::size_t end_of_fleet(std::string_view text) {
  constexpr std::string_view named = "whichever --fleet ";
  if (!text.starts_with(named)) return std::min(text.find(' '), text.size());
  const bool in_quotes = text.substr(named.size()).starts_with('\'');
  const std::size_t end = in_quotes ? text.find("' ", named.size() + 1) : text.find(' ', named.size());
  return end == std::string_view::npos ? text.size() : end + (in_quotes ? 1 : 0);
}

// Where the first word ends, with all that it has in quotes: a line that breaks there gives another command.
std::size_t end_of_word(std::string_view text) {
  char quote = 0;
  for (std::size_t i = 0; i < text.size(); ++i) {
    const char c = text[i];
    const bool may_open = i == 0 || text[i - 1] == '=' || text[i - 1] == '\'';
    if (quote != 0) {
      if (c == quote) quote = 0;
    } else if ((c == '"' || c == '\'') && may_open) {
      quote = c;
    } else if (c == '\\') {
      ++i;
    } else if (c == ' ') {
      return i;
    }
  }
  return quote == 0 ? std::string_view::npos : text.find(' ');  // never closed: no quote of a command
}

// The same behind a blank.
std::size_t end_of_next_word(std::string_view text, std::size_t blank) {
  const std::size_t from = std::min(blank + 1, text.size());
  const std::size_t end = end_of_word(text.substr(from));
  return end == std::string_view::npos ? end : from + end;
}

constexpr std::string_view ends_command = ";,.)";

// Where a command ends that the text names: before what is said after it, as long as that is in sight.
std::size_t end_of_command(std::string_view text) {
  const std::size_t begun = end_of_fleet(text);
  const std::size_t longest = begun + 39;
  std::size_t end = begun;
  while (end != std::string_view::npos && ends_command.find(text[end - 1]) == std::string_view::npos) {
    const std::size_t next = end_of_next_word(text, end);
    if (std::min(next, text.size()) > longest) return end_of_next_word(text, begun);  // with its first word
    end = next;
  }
  return end;
}

// Where the next piece ends that no line may break: a word, a number with the word that it counts, or a command that
// somebody may want to copy.
std::size_t end_of_piece(std::string_view text) {
  if (text.starts_with("whichever ")) return end_of_command(text);
  const auto end = text.find(' ');
  if (end == std::string_view::npos || text.substr(0, end).find_first_not_of("0123456789.") != std::string_view::npos) {
    return end;
  }
  return text.find(' ', end + 1);
}

// Knows whether the pieces before it began a command that goes on.
class Pieces {
 public:
  std::size_t end_of_next(std::string_view text) {
    const bool begins = text.starts_with("whichever ");
    const bool has_quotes = in_command_ && end_of_word(text) != text.find(' ');
    const std::size_t end = has_quotes ? end_of_word(text) : end_of_piece(text);
    const std::string_view piece = text.substr(0, end);
    in_command_ =
        (in_command_ || begins) && !piece.empty() && ends_command.find(piece.back()) == std::string_view::npos;
    return end;
  }

 private:
  bool in_command_ = false;
};

}  // namespace

std::vector<std::string> wrapped_lines(std::string_view text, std::size_t columns) {
  std::vector<std::string> lines;
  std::size_t used = 0;
  Pieces pieces;
  while (!text.empty()) {
    const auto end = pieces.end_of_next(text);
    const std::string_view word = text.substr(0, end);
    const std::size_t needs = width(word);
    if (lines.empty() || (columns != 0 && used + 1 + needs > columns)) {
      lines.emplace_back(word);
      used = needs;
    } else {
      lines.back() += ' ';
      lines.back() += word;
      used += 1 + needs;
    }
    text.remove_prefix(end == std::string_view::npos ? text.size() : end + 1);
  }
  return lines;
}

std::string wrapped(std::string_view head, std::string_view text, std::size_t columns, std::size_t indent) {
  const std::size_t taken = std::max(width(head), indent);
  const auto lines = wrapped_lines(text, columns == 0 ? 0 : columns > taken + 20 ? columns - taken : 20);
  std::string out(head);
  for (std::size_t i = 0; i < lines.size(); ++i) out += (i == 0 ? "" : '\n' + std::string(indent, ' ')) + lines[i];
  return out + '\n';
}

}  // namespace cli
