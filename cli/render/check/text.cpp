#include <fmt/format.h>

#include <algorithm>

#include "render/check/check.h"
#include "render/shared/diagnostics.h"

namespace cli {

std::string check_as_text(const Checked& checked, const std::string& command) {
  std::string text = diagnostics_to_text(checked.findings, command);
  const auto errors = std::count_if(checked.findings.begin(), checked.findings.end(),
                                    [](const auto& finding) { return finding.severity == service::Severity::error; });
  const auto remarks = static_cast<std::int64_t>(checked.findings.size()) - errors;
  if (!text.empty()) text += '\n';
  text += "Checked: ";
  if (checked.machines) text += service::counted(*checked.machines, "machine", "machines") + ", ";
  text += service::counted(checked.facts, "fact", "facts") + ". ";
  text += checked.findings.empty() ? "Nothing is wrong.\n"
                                   : fmt::format("{}, {}.\n", service::counted(errors, "error", "errors"),
                                                 service::counted(remarks, "remark", "remarks"));
  const auto outdated = std::count_if(checked.odd_books.begin(), checked.odd_books.end(), [](const auto& book) {
    return book.why == service::OddBook::Why::missing || book.why == service::OddBook::Why::stale;
  });
  if (outdated == 0) return text;
  return text + fmt::format(
                    "Of {} lists read all facts until the next entry, for fleet files or this program have changed "
                    "since the last one; the answers are the same.\n",
                    service::counted(outdated, "machine", "machines"));
}

}  // namespace cli
