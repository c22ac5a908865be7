#include "service/base.h"

namespace service {
namespace {

std::string summary(const std::vector<Diagnostic>& diagnostics) {
  return diagnostics.empty() ? "failed" : diagnostics.front().message;
}

}  // namespace

Failure::Failure(FailureKind kind, std::vector<Diagnostic> diagnostics)
    : std::runtime_error(summary(diagnostics)), kind_(kind), diagnostics_(std::move(diagnostics)) {}

Failure::Failure(FailureKind kind, Diagnostic diagnostic)
    : Failure(kind, std::vector<Diagnostic>{std::move(diagnostic)}) {}

}  // namespace service
