#include "base/csv_reader.h"

#include <algorithm>

namespace service {

CsvReader::CsvReader(std::string_view text, std::size_t from, CsvLines lines, std::optional<char> separator)
    : text_(text), at_(from + separator_line(text.substr(from))), lines_(lines) {
  separator_ = separator ? *separator : csv_separator(text.substr(at_, text.find('\n', at_) - at_));
}

std::size_t CsvReader::line_end(std::size_t from) const {
  const std::size_t end = std::min(text_.find('\n', from), text_.size());
  return end > from && end < text_.size() && text_[end - 1] == '\r' ? end - 1 : end;
}

bool CsvReader::at_line_end() const {
  if (at_ >= text_.size() || text_[at_] == '\n') return true;
  return text_[at_] == '\r' && at_ + 1 < text_.size() && text_[at_ + 1] == '\n';
}

void CsvReader::skip_line_end() {
  if (at_ < text_.size()) at_ += text_[at_] == '\r' ? 2 : 1;
}

bool CsvReader::next(CsvRow& row) {
  while (at_ < text_.size() && at_line_end()) skip_line_end();
  if (at_ >= text_.size()) return false;
  row.fields.clear();
  row.problems.clear();
  row.from = at_;
  read_row(row);
  return true;
}

void CsvReader::read_row(CsvRow& row) {
  while (true) {
    row.fields.emplace_back();
    row.fields.back().from = at_;
    read_field(row, row.fields.back());
    row.fields.back().to = row.to = at_;
    if (at_line_end()) break;
    ++at_;  // the separator
  }
  skip_line_end();
}

void CsvReader::read_field(CsvRow& row, CsvField& field) {
  if (at_ < text_.size() && text_[at_] == '"') read_quoted(row, field);
  const std::size_t from = at_;
  for (; !at_line_end() && text_[at_] != separator_; ++at_) {
    if (text_[at_] == '"' && row.problems.empty()) row.problems.push_back({CsvProblemKind::bare_quote, at_});
  }
  field.text += text_.substr(from, at_ - from);
}

void CsvReader::read_quoted(CsvRow& row, CsvField& field) {
  const std::size_t opened = at_++;
  const std::string_view text = lines_ == CsvLines::one_a_row ? text_.substr(0, line_end(opened)) : text_;
  while (at_ < text.size()) {
    const std::size_t quote = text.find('"', at_);
    if (quote == std::string_view::npos) break;
    field.text += text.substr(at_, quote - at_);
    at_ = quote + 1;
    if (at_ >= text.size() || text[at_] != '"') {
      if (!at_line_end() && text_[at_] != separator_) {
        // A field over several lines is mostly a quote that was opened by mistake.
        const std::size_t place = field.text.find('\n') == std::string::npos ? at_ : opened;
        row.problems.push_back({CsvProblemKind::text_after_quote, place});
      }
      return;
    }
    field.text += '"';
    ++at_;
  }
  row.problems.push_back({CsvProblemKind::unclosed_quote, opened});
  // Once, what follows is tried as rows again, so that what is wrong with them is told in the same run. Not more than
  // once: a file of such quotes would be read over and over.
  at_ = gave_up_ ? text.size() : line_end(opened);
  field.text = text_.substr(opened, at_ - opened);
  gave_up_ = lines_ == CsvLines::many_a_field;
}

char csv_separator(std::string_view header) {
  bool quoted = false;
  for (const char c : header) {
    if (c == '"') quoted = !quoted;
    if (!quoted && (c == ',' || c == ';' || c == '\t')) return c;
  }
  return ',';
}

std::size_t separator_line(std::string_view text) {
  if (!text.starts_with("sep=") || text.size() < 6 || (text[5] != '\n' && text.substr(5, 2) != "\r\n")) return 0;
  return text[5] == '\n' ? 6 : 7;
}

}  // namespace service
