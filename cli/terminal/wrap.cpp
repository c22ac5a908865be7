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

// Where a command ends that the text names: before what is said after it, as long as that is in sight.
std::size_t end_of_command(std::string_view text) {
  const std::size_t begun = end_of_fleet(text);
  const std::size_t longest = begun + 39;
  constexpr std::string_view ends = ";,.)";
  std::size_t end = begun;
  while (end != std::string_view::npos && ends.find(text[end - 1]) == std::string_view::npos) {
    const std::size_t next = text.find(' ', end + 1);
    if (std::min(next, text.size()) > longest) return text.find(' ', begun + 1);  // with its first word
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

}  // namespace

std::vector<std::string> wrapped_lines(std::string_view text, std::size_t columns) {
  std::vector<std::string> lines;
  std::size_t used = 0;
  while (!text.empty()) {
    const auto end = end_of_piece(text);
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
