#include "entry/clauses.h"

#include <algorithm>
#include <array>
#include <cstddef>

namespace service::entry {
namespace {

constexpr auto dashes = std::to_array<std::string_view>({"\u2013", "\u2014", "\u2012", "\u2015", "\u2026"});
constexpr std::string_view marks = ",;:.!?()";

bool is_digit(char c) { return c >= '0' && c <= '9'; }

// How many bytes at this place part two clauses; 0: none does.
std::size_t mark_at(std::string_view text, std::size_t at) {
  for (const std::string_view dash : dashes) {
    if (text.substr(at).starts_with(dash)) return dash.size();
  }
  const char before = at == 0 ? ' ' : text[at - 1];
  const char behind = at + 1 < text.size() ? text[at + 1] : ' ';
  if (text[at] == '-') return before == ' ' || behind == ' ' ? 1 : 0;
  if (marks.find(text[at]) == std::string_view::npos) return 0;
  return is_digit(before) && is_digit(behind) ? 0 : 1;
}

// How many bytes of a mark the text ends with. The stop of an abbreviation (M.T.) belongs to it.
std::size_t mark_at_end(std::string_view text) {
  constexpr std::size_t initial = 3;
  if (text.ends_with('.') && text.size() > initial && text[text.size() - initial] == '.') return 0;
  if (text.ends_with('-') || (!text.empty() && marks.find(text.back()) != std::string_view::npos)) return 1;
  const auto dash = std::find_if(dashes.begin(), dashes.end(), [&](auto one) { return text.ends_with(one); });
  return dash == dashes.end() ? 0 : dash->size();
}

std::string_view without_blanks(std::string_view text) {
  while (text.starts_with(' ')) text.remove_prefix(1);
  while (text.ends_with(' ')) text.remove_suffix(1);
  return text;
}

}  // namespace

std::vector<std::string_view> clauses_of(std::string_view text) {
  std::vector<std::string_view> clauses;
  const auto take = [&](std::string_view clause) {
    clause = without_blanks(clause);
    if (!clause.empty()) clauses.push_back(clause);
  };
  std::size_t from = 0;
  for (std::size_t at = 0; at < text.size();) {
    const std::size_t mark = mark_at(text, at);
    if (mark == 0) {
      ++at;
      continue;
    }
    take(text.substr(from, at - from));
    at += mark;
    from = at;
  }
  take(text.substr(from));
  return clauses;
}

std::string_view without_marks(std::string_view text) {
  for (std::size_t left = text.size() + 1; text.size() < left;) {
    left = text.size();
    text = without_blanks(text);
    const bool closes = text.ends_with(')') && text.rfind('(') != std::string_view::npos && text.rfind('(') > 0;
    if (!closes) text.remove_suffix(mark_at_end(text));
    text = without_blanks(text);
    const bool opens = text.starts_with('(') && text.find(')') < text.size() - 1;
    if (!text.empty() && !opens) text.remove_prefix(mark_at(text, 0));
  }
  return text;
}

}  // namespace service::entry
