#include "record/csv.h"

#include <algorithm>
#include <array>

#include "service/base.h"

namespace service::record {
namespace {

bool starts_formula(std::string_view text) {
  constexpr std::array<std::string_view, 11> starts = {"=",  "+",      "-",      "@",      "\t",    "\r",
                                                       "\n", "\uff1d", "\uff0b", "\uff0d", "\uff20"};
  return std::any_of(starts.begin(), starts.end(), [&](std::string_view start) { return text.starts_with(start); });
}

std::size_t apostrophes(std::string_view text) {
  const std::size_t first_other = text.find_first_not_of('\'');
  return first_other == std::string_view::npos ? text.size() : first_other;
}

}  // namespace

CsvReader::CsvReader(std::string_view text, std::size_t from) : text_(text), at_(from) {
  separator_ = csv_separator(text.substr(from, text.find('\n', from) - from));
}

bool CsvReader::at_line_end() const {
  return at_ >= text_.size() || text_[at_] == '\n' || text_.substr(at_, 2) == "\r\n";
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
    row.to = at_;
    if (at_line_end()) break;
    ++at_;  // the separator
  }
  skip_line_end();
}

void CsvReader::read_field(CsvRow& row, CsvField& field) {
  if (at_ < text_.size() && text_[at_] == '"') read_quoted(row, field);
  bool told = false;
  while (!at_line_end() && text_[at_] != separator_) {
    if (text_[at_] == '"' && !told && row.problems.empty()) {
      row.problems.push_back({"bare-quote", "a quote stands inside a field that does not begin with one",
                              "put quotes around the whole field, and write a quote inside it twice", at_});
      told = true;
    }
    field.text += text_[at_++];
  }
}

void CsvReader::read_quoted(CsvRow& row, CsvField& field) {
  const std::size_t opened = at_++;
  while (at_ < text_.size()) {
    const std::size_t quote = text_.find('"', at_);
    if (quote == std::string_view::npos) break;
    field.text += text_.substr(at_, quote - at_);
    at_ = quote + 1;
    if (at_ >= text_.size() || text_[at_] != '"') {
      if (!at_line_end() && text_[at_] != separator_) {
        // A field over several lines is mostly a quote that was opened by mistake.
        const std::size_t place = field.text.find('\n') == std::string::npos ? at_ : opened;
        row.problems.push_back({"text-after-quote", "text follows the quote that closes this field",
                                "write a quote inside a quoted field twice", place});
      }
      return;
    }
    field.text += '"';
    ++at_;
  }
  row.problems.push_back({"unclosed-quote", "this quote is never closed", "close the field with a quote", opened});
  // Once, what follows is tried as rows again, so that their mistakes are told in the same run. Not more than once: a
  // file of such quotes would be read over and over.
  const std::size_t line_end = gave_up_ ? std::string_view::npos : text_.find('\n', opened);
  at_ = std::min(line_end, text_.size());
  if (at_ > opened + 1 && at_ < text_.size() && text_[at_ - 1] == '\r') --at_;
  field.text = text_.substr(opened, at_ - opened);
  gave_up_ = true;
}

std::string csv_field(std::string_view text) {
  if (text.find_first_of(",\"\r\n") == std::string_view::npos) return std::string(text);
  std::string quoted = "\"";
  for (const char c : text) {
    if (c == '"') quoted += '"';
    quoted += c;
  }
  return quoted + '"';
}

std::string guarded_text(std::string_view text) {
  return starts_formula(text.substr(apostrophes(text))) ? "'" + std::string(text) : std::string(text);
}

std::string_view unguarded_text(std::string_view text) {
  const bool is_guarded = text.starts_with('\'') && starts_formula(text.substr(apostrophes(text)));
  return is_guarded ? text.substr(1) : text;
}

}  // namespace service::record
