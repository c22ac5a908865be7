#include "render/check/check.h"
#include "render/shared/json_parts.h"

namespace cli {

std::string check_as_json(const Checked& checked, const std::string& command) {
  Json json{{"machines", checked.machines ? Json(*checked.machines) : Json(nullptr)}, {"facts", checked.facts}};
  json["findings"] = array_of(checked.findings, [&](const service::Diagnostic& diagnostic) {
    Json part = diagnostic_as_json(diagnostic, command);
    part["severity"] = diagnostic.severity == service::Severity::error ? "error" : "remark";
    return part;
  });
  json["odd_books"] = array_of(checked.odd_books, [](const service::OddBook& book) {
    return Json{{"machine", book.machine}, {"why", to_text(book.why)}};
  });
  json["odd_kinds"] = array_of(checked.odd_kinds, [](const service::OddKind& kind) {
    return Json{{"schedule", kind.schedule}, {"why", to_text(kind.why)}};
  });
  return dumped(json);
}

}  // namespace cli
