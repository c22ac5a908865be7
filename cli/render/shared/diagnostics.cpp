#include "render/shared/diagnostics.h"

#include <fmt/format.h>

#include <algorithm>

#include "render/shared/cures.h"
#include "terminal/width.h"

namespace cli {
namespace {

constexpr std::size_t widest_line = 100;  // columns of a source line that are shown
constexpr std::size_t lead_in = 40;       // of which before the marked place, where the line is cut
constexpr std::string_view cut = "...";

bool begins_character(char c) { return (static_cast<unsigned char>(c) & 0xC0U) != 0x80; }

// The first so many characters.
std::string_view first_characters(std::string_view text, std::size_t count) {
  std::size_t end = 0;
  while (end < text.size() && (count > 0 || !begins_character(text[end]))) {
    if (begins_character(text[end])) --count;
    ++end;
  }
  return text.substr(0, end);
}

// As many characters from the start (or up to the end) as fit into so many columns.
std::string_view fitting_start(std::string_view text, std::size_t columns) {
  std::size_t end = 0;
  std::size_t used = 0;
  while (end < text.size()) {
    const std::string_view one = first_characters(text.substr(end), 1);
    used += width(service::cleaned(one));
    if (used > columns) break;
    end += one.size();
  }
  return text.substr(0, end);
}

std::string_view fitting_end(std::string_view text, std::size_t columns) {
  std::size_t start = text.size();
  std::size_t used = 0;
  while (start > 0) {
    std::size_t one = start - 1;
    while (one > 0 && !begins_character(text[one])) --one;
    used += width(service::cleaned(text.substr(one, start - one)));
    if (used > columns) break;
    start = one;
  }
  return text.substr(start);
}

// The source line and, below it, carets under the marked characters. Of a long line only what is around them.
std::string excerpt(const service::Place& place) {
  const std::string_view line = place.text;
  std::string_view before = first_characters(line, static_cast<std::size_t>(std::max(1, place.column)) - 1);
  std::string_view rest = line.substr(before.size());
  std::string_view start;
  std::string_view end;
  if (width(service::cleaned(line)) > widest_line) {
    const std::string_view near = fitting_end(before, lead_in);
    if (near.size() < before.size()) start = cut;
    before = near;
    const std::string_view shown = fitting_start(rest, widest_line - width(service::cleaned(before)));
    if (shown.size() < rest.size()) end = cut;
    rest = shown;
  }
  const std::string_view marked = first_characters(rest, static_cast<std::size_t>(std::max(1, place.width)));
  const std::string lead = fmt::format("{}{}", start, service::cleaned(before));
  const std::string number = std::to_string(place.line);
  return fmt::format(" {} | {}{}{}\n {} | {}{}\n", number, lead, service::cleaned(rest), end,
                     std::string(number.size(), ' '), std::string(width(lead), ' '),
                     std::string(std::max<std::size_t>(1, width(service::cleaned(marked))), '^'));
}

// `fleet.yaml:14:16: `, `fleet.yaml: ` for a file as a whole, or nothing.
std::string where(const service::Diagnostic& diagnostic) {
  if (!diagnostic.place) return {};
  const service::Place& place = *diagnostic.place;
  if (place.line == 0) return service::cleaned(place.file) + ": ";
  return fmt::format("{}:{}:{}: ", service::cleaned(place.file), place.line, place.column);
}

std::string as_text(const service::Diagnostic& diagnostic, const std::string& command) {
  const bool error = diagnostic.severity == service::Severity::error;
  std::string text =
      fmt::format("{}{}: {}\n", where(diagnostic), error ? "error" : "remark", service::cleaned(diagnostic.message));
  if (diagnostic.place && diagnostic.place->line > 0 && !diagnostic.place->text.empty())
    text += excerpt(*diagnostic.place);
  if (const std::string hint = hint_of(diagnostic, command); !hint.empty()) {
    text += fmt::format("hint: {}\n", service::cleaned(hint));
  }
  return text;
}

}  // namespace

std::string diagnostics_to_text(std::span<const service::Diagnostic> diagnostics, const std::string& command) {
  std::string text;
  for (const service::Diagnostic& diagnostic : diagnostics) {
    if (!text.empty()) text += '\n';
    text += as_text(diagnostic, command);
  }
  return text;
}

}  // namespace cli
