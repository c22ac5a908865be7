#include "render/shared/markdown.h"

#include "service/base.h"

namespace cli {

std::string markdown_cell(std::string_view text) {
  std::string out;
  for (const char c : service::cleaned(text)) {
    if (c == '<') {
      out += "&lt;";
    } else if (c == '&') {
      out += "&amp;";
    } else {
      if (std::string_view{"\\`*_[]|#"}.find(c) != std::string_view::npos) out += '\\';
      out += c;
    }
  }
  return out;
}

}  // namespace cli
