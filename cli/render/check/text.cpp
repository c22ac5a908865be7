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
  if (checked.findings.empty()) return text + "Nothing is wrong.\n";
  return text + fmt::format("{}, {}.\n", service::counted(errors, "error", "errors"),
                            service::counted(remarks, "remark", "remarks"));
}

}  // namespace cli
