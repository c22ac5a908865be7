#include "service/base.h"

namespace service {
namespace {

std::string summary(const std::vector<Diagnostic>& diagnostics) {
  return diagnostics.empty() ? "failed" : diagnostics.front().message;
}

}  // namespace

Failure::Failure(Trouble trouble, std::vector<Diagnostic> diagnostics)
    : std::runtime_error(summary(diagnostics)), trouble_(trouble), diagnostics_(std::move(diagnostics)) {}

Failure::Failure(Trouble trouble, Diagnostic diagnostic)
    : Failure(trouble, std::vector<Diagnostic>{std::move(diagnostic)}) {}

}  // namespace service
