#include "fleet/findings.h"

#include <algorithm>
#include <tuple>

namespace service::fleet {

void Findings::error(const char* code, const Spot& spot, std::string message, std::string hint) {
  add(Severity::error, code, spot, std::move(message), std::move(hint));
}

void Findings::remark(const char* code, const Spot& spot, std::string message, std::string hint) {
  add(Severity::remark, code, spot, std::move(message), std::move(hint));
}

void Findings::add(Severity severity, const char* code, const Spot& spot, std::string message, std::string hint) {
  Diagnostic diagnostic{code, std::move(message), std::move(hint), std::nullopt, severity};
  if (spot.source->is_file()) {
    diagnostic.place = place_of(spot);
  } else {
    diagnostic.message = spot.source->name() + ": " + diagnostic.message;
  }
  found_.push_back({spot.source->rank(), std::move(diagnostic)});
}

// A line of a quarter of a megabyte may hold thousands of mistakes. It is shown and counted through for the first ones;
// for the rest the place is told in bytes, and the line is not shown.
Place Findings::place_of(const Spot& spot) {
  constexpr std::size_t long_line = 4000;
  constexpr int shown = 50;
  if (spot.source->line(spot.span.line).size() <= long_line || ++in_long_lines_ <= shown) return spot.place();
  return {spot.source->name(), spot.span.line + 1, spot.span.column + 1, 1, {}};
}

std::vector<Diagnostic> Findings::sorted(Severity severity) const {
  std::vector<const Finding*> order;
  for (const Finding& finding : found_) {
    if (finding.diagnostic.severity == severity) order.push_back(&finding);
  }
  const auto position = [](const Finding* finding) {
    const auto& place = finding->diagnostic.place;
    return std::tuple(finding->rank, place ? place->line : 0, place ? place->column : 0);
  };
  std::stable_sort(order.begin(), order.end(),
                   [&](const Finding* a, const Finding* b) { return position(a) < position(b); });
  std::vector<Diagnostic> diagnostics;
  diagnostics.reserve(order.size());
  for (const Finding* finding : order) diagnostics.push_back(finding->diagnostic);
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
