#include "fleet/guard.h"

#include <fmt/format.h>

namespace service::fleet {
namespace {

// The YAML scanner holds a line's tokens in memory until the line ends: a line of brackets alone would take gigabytes.
constexpr std::size_t longest_line = std::size_t{256} << 10U;

}  // namespace

std::optional<ControlCharacter> first_control_character(std::string_view text) {
  for (std::size_t i = 0; i < text.size(); ++i) {
    const auto c = static_cast<unsigned char>(text[i]);
    const bool line_end = c == '\n' || (c == '\r' && i + 1 < text.size() && text[i + 1] == '\n');
    if ((c < 0x20 && c != '\t' && !line_end) || c == 0x7F) return ControlCharacter{i, c};
    if (c == 0xC2 && i + 1 < text.size()) {
      const auto next = static_cast<unsigned char>(text[i + 1]);
      if (next < 0xA0) return ControlCharacter{i, next};  // U+0080 to U+009F
    }
  }
  return std::nullopt;
}

bool fit_to_read(const Source& source, std::size_t limit, Diagnostics& diagnostics) {
  const std::string_view text = source.text();
  if (text.size() > limit) {
    diagnostics.error(code::file_too_large, {&source, whole_file},
                      fmt::format("the file is larger than {} MiB", limit >> 20U),
                      "check that it is the right file; large fleets are best listed in register.csv");
    return false;
  }
  if (const auto bad = first_bad_utf8(text)) {
    diagnostics.error(code::not_utf8, {&source, source.span_at(*bad)}, "the text is not UTF-8 from here on",
                      encoding_hint(text));
    return false;
  }
  if (const auto control = first_control_character(text)) {
    diagnostics.error(code::control_character, {&source, source.span_at(control->offset)},
                      fmt::format("a control character (U+{:04X}) stands here", control->value),
                      control->value == '\r' ? "end the lines with LF or CR LF" : "delete it");
    return false;
  }
  for (int i = 0; i < source.lines(); ++i) {
    if (source.line(i).size() > longest_line) {
      diagnostics.error(code::line_too_long, {&source, {i, 0, 1}},
                        fmt::format("the line is longer than {} KiB", longest_line >> 10U),
                        "break it into several lines");
      return false;
    }
  }
  return true;
}

}  // namespace service::fleet
