#include "standing/kept_lines.h"

#include <fmt/format.h>

#include <algorithm>
#include <utility>

#include "base/checksum.h"

namespace service {
namespace {

constexpr std::string_view checksum_key = "checksum\t";

std::string checksum_line(std::string_view text) { return fmt::format("{}{:016x}\n", checksum_key, checksum_of(text)); }

}  // namespace

std::vector<std::string_view> split(std::string_view text, char mark) {
  std::vector<std::string_view> parts;
  for (;;) {
    const std::size_t end = text.find(mark);
    parts.push_back(text.substr(0, end));
    if (end == std::string_view::npos) return parts;
    text.remove_prefix(end + 1);
  }
}

std::string sealed(std::string text) {
  text += checksum_line(text);
  return text;
}

Parsed<std::vector<std::string_view>> unsealed(std::string_view text, std::string_view first_line) {
  if (!text.starts_with(first_line)) return {{}, "is not what this program keeps"};
  const std::size_t last = text.rfind(checksum_key);
  if (last == std::string_view::npos || text[last - 1] != '\n') return {{}, is_damaged};
  const std::string_view told = text.substr(0, last);
  if (text.substr(last) != checksum_line(told)) return {{}, is_damaged};
  auto lines = split(told.substr(first_line.size()), '\n');
  std::erase(lines, std::string_view{});
  return {std::move(lines), {}};
}

}  // namespace service
