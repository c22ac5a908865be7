// What `check` looked at and found.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "render/shared/formats.h"
#include "service/base.h"
#include "service/kept_books.h"

namespace cli {

struct Checked {
  std::optional<int> machines;  // none: the fleet files cannot be read
  int facts = 0;
  std::vector<service::Diagnostic> findings;
  std::vector<service::OddBook> odd_books;  // that are not what would be worked out now
  std::vector<service::OddKind> odd_kinds;
};

std::string check_as_text(const Checked& checked, const std::string& command);
std::string check_as_json(const Checked& checked, const std::string& command);

inline constexpr Format<Checked> check_formats[] = {{"text", check_as_text}, {"json", check_as_json}};

}  // namespace cli
