#include "mistakes.h"

#include "service/base.h"

namespace cli {

void wrong(std::string code, std::string message, std::string hint) {
  throw service::Failure(service::FailureKind::usage, {std::move(code), std::move(message), std::move(hint)});
}

}  // namespace cli
