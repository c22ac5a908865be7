#include "fleet/source.h"

#include <algorithm>

namespace service::fleet {
namespace {

int characters(std::string_view text) {
  return static_cast<int>(
      std::count_if(text.begin(), text.end(), [](char c) { return (static_cast<unsigned char>(c) & 0xC0U) != 0x80; }));
}

}  // namespace

Source::Source(std::string name, int rank, std::string_view text) : name_(std::move(name)), rank_(rank), text_(text) {
  starts_.push_back(0);
  for (std::size_t i = text_.find('\n'); i != std::string_view::npos; i = text_.find('\n', i + 1)) {
    starts_.push_back(i + 1);
  }
}

Source Source::in_code(std::string whose, int rank) {
  Source source(std::move(whose), rank, {});
  source.is_file_ = false;
  return source;
}

std::string_view Source::line(int number) const {
  if (number < 0 || number >= lines()) return {};
  const auto index = static_cast<std::size_t>(number);
  const std::size_t from = starts_[index];
  const std::size_t to = index + 1 < starts_.size() ? starts_[index + 1] - 1 : text_.size();
  std::string_view text = text_.substr(from, to - from);
  if (text.ends_with('\r')) text.remove_suffix(1);
  return text;
}

Span Source::span_at(std::size_t offset) const {
  const auto after = std::upper_bound(starts_.begin(), starts_.end(), offset);
  const auto line = static_cast<std::size_t>(after - starts_.begin()) - 1;
  return {static_cast<int>(line), static_cast<int>(offset - starts_[line]), 1};
}

Place Source::place(Span span) const {
  if (span.line < 0) return {name_, 0, 0, 0, {}};
  const std::string_view text = line(span.line);
  const auto column = std::min(static_cast<std::size_t>(span.column), text.size());
  const std::string_view marked = text.substr(column, static_cast<std::size_t>(span.width));
  return {name_, span.line + 1, characters(text.substr(0, column)) + 1, std::max(1, characters(marked)),
          std::string(text)};
}

std::string Spot::where() const {
  if (!source->is_file()) return {};
  const Place at = place();
  return " at " + at.file + ':' + std::to_string(at.line) + ':' + std::to_string(at.column);
}

std::string_view without_bom(std::string_view text) { return text.starts_with("\xEF\xBB\xBF") ? text.substr(3) : text; }

}  // namespace service::fleet
