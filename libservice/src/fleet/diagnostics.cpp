#include "fleet/diagnostics.h"

#include <algorithm>
#include <tuple>

namespace service::fleet {

void Diagnostics::error(const char* code, const Spot& spot, std::string message, std::string hint) {
  add(Severity::error, code, spot, std::move(message), std::move(hint));
}

void Diagnostics::remark(const char* code, const Spot& spot, std::string message, std::string hint) {
  add(Severity::remark, code, spot, std::move(message), std::move(hint));
}

void Diagnostics::add(Severity severity, const char* code, const Spot& spot, std::string message, std::string hint) {
  Diagnostic diagnostic{code, std::move(message), std::move(hint), std::nullopt, severity};
  if (spot.source->is_file()) {
    diagnostic.place = place_of(spot);
  } else {
    diagnostic.message = spot.source->name() + ": " + diagnostic.message;
  }
  found_.push_back({spot.source->rank(), std::move(diagnostic)});
}

// A line of a quarter of a megabyte may hold thousands of errors. It is shown and counted through for the first ones;
// for the rest the place is told in bytes, and the line is not shown.
Place Diagnostics::place_of(const Spot& spot) {
  constexpr std::size_t long_line = 4000;
  constexpr int shown = 50;
  if (spot.source->line(spot.span.line).size() <= long_line || ++in_long_lines_ <= shown) return spot.place();
  return {spot.source->name(), spot.span.line + 1, spot.span.column + 1, 1, {}};
}

std::vector<Diagnostic> Diagnostics::sorted(Severity severity) const {
  std::vector<const Ranked*> order;
  for (const Ranked& ranked : found_) {
    if (ranked.diagnostic.severity == severity) order.push_back(&ranked);
  }
  const auto position = [](const Ranked* ranked) {
    const auto& place = ranked->diagnostic.place;
    return std::tuple(ranked->rank, place ? place->line : 0, place ? place->column : 0);
  };
  std::stable_sort(order.begin(), order.end(),
                   [&](const Ranked* a, const Ranked* b) { return position(a) < position(b); });
  std::vector<Diagnostic> diagnostics;
  diagnostics.reserve(order.size());
  for (const Ranked* ranked : order) diagnostics.push_back(ranked->diagnostic);
  return diagnostics;
}

std::string in_quotes(std::string_view text) {
  constexpr std::size_t longest = 60;
  std::string shown(text.substr(0, longest));
  if (text.size() > longest) {
    // Not half a character before the dots.
    while (!shown.empty() && first_bad_utf8(shown)) shown.pop_back();
    shown += "...";
  }
  return '"' + cleaned(shown) + '"';
}

std::string listed(const std::vector<std::string>& names, std::string_view last_link) {
  std::string text;
  for (std::size_t i = 0; i < names.size(); ++i) {
    if (i > 0) text += i + 1 == names.size() ? ' ' + std::string(last_link) + ' ' : ", ";
    text += '`' + cleaned(names[i]) + '`';
  }
  return text;
}

}  // namespace service::fleet
