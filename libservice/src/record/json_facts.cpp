// Facts from JSON Lines and to JSON Lines. Numbers keep the digits in which they are written: no `double` is between.
#include <fmt/format.h>

#include <algorithm>
#include <bitset>
#include <nlohmann/json.hpp>

#include "record/fact_files.h"
#include "record/fact_rows.h"

namespace service {
namespace record {
namespace {

using Json = nlohmann::json;

// Takes one flat object of texts and numbers apart. Each callback returns whether to go on.
class LineHandler final : public nlohmann::json_sax<Json> {
 public:
  struct KeyDiagnostic {
    std::string code;
    std::string message;
    std::string hint;
    std::string key;  // near which it is, where known
  };

  std::vector<std::pair<Column, std::string>> values;
  std::vector<KeyDiagnostic> diagnostics;
  std::size_t syntax_at = 0;  // bytes read when the syntax broke, from 1

  bool null() override { return wrong_value("null"); }
  bool boolean(bool value) override {
    if (column_ && is_flag(*column_)) return take(value ? "yes" : "no");
    return wrong_value("true or false");
  }
  bool number_integer(number_integer_t value) override { return take(std::to_string(value)); }
  bool number_unsigned(number_unsigned_t value) override { return take(std::to_string(value)); }

  bool number_float(number_float_t, const string_t& literal) override {
    std::string digits = literal;
    if (digits.find_first_of("eE") != std::string::npos) {
      diagnostics.push_back({"bad-value", fmt::format("`{}` is written with an exponent", key_),
                             "write all its digits, with a point before the decimals", key_});
      return true;
    }
    // The parser writes the point as the host program's locale would have it.
    std::replace_if(
        digits.begin(), digits.end(), [](char c) { return c != '-' && (c < '0' || c > '9'); }, '.');
    return take(digits);
  }

  bool string(string_t& value) override { return take(value); }
  bool binary(binary_t&) override { return wrong_value("binary"); }

  bool start_object(std::size_t) override {
    if (!inside_) return inside_ = true;
    return wrong_value("an object");
  }

  bool end_object() override { return true; }

  bool start_array(std::size_t) override { return wrong_value("a list"); }

  bool end_array() override { return true; }

  bool key(string_t& name) override {
    key_ = name;
    column_ = parse_column(name);
    if (!column_) {
      diagnostics.push_back({"unknown-column", fmt::format("unknown key `{}`", cleaned(name)),
                             nearest_column(name, "take it out; `export` shows the names of all keys"), name});
      return true;
    }
    if (seen_.test(index_of(*column_))) {
      diagnostics.push_back(
          {"duplicate-column", fmt::format("the key `{}` is there twice", name), "take one of the two out", name});
    }
    seen_.set(index_of(*column_));
    return true;
  }

  bool parse_error(std::size_t position, const std::string&, const nlohmann::detail::exception&) override {
    syntax_at = std::max<std::size_t>(position, 1);
    diagnostics.push_back({"bad-json",
                           "the line is not one whole JSON object",
                           "write one object a line, like {\"kind\": \"reading\", \"machine\": ...}",
                           {}});
    return false;
  }

 private:
  bool take(std::string text) {
    if (!inside_) return not_an_object();
    if (column_) values.emplace_back(*column_, std::move(text));
    return true;
  }

  bool not_an_object() {
    diagnostics.push_back({"not-an-object", "the line is not an object", "write one a line, like {\"kind\": ...}", {}});
    return false;
  }

  // What is nested cannot be read on past, the others can.
  bool wrong_value(const char* what) {
    if (!inside_) return not_an_object();
    const std::string value = what;
    diagnostics.push_back({"bad-value", fmt::format("`{}` is {}, and must be a text or a number", cleaned(key_), value),
                           "write the value as text, or leave the key out", key_});
    return value != "an object" && value != "a list";
  }

  bool inside_ = false;
  std::string key_;
  std::optional<Column> column_;
  std::bitset<column_count> seen_;
};

// Where the key stands in the line, or its beginning.
std::size_t offset_of_key(std::string_view line, const std::string& key) {
  const std::size_t at = key.empty() ? std::string_view::npos : line.find('"' + key + '"');
  return at == std::string_view::npos ? 0 : at;
}

bool read_line(std::string_view line, std::size_t from, const Places& places, FactsRead& read) {
  const auto tell = [&](std::size_t at, std::string code, std::string message, std::string hint) {
    read.diagnostics.push_back({std::move(code), std::move(message), std::move(hint), places.at(from + at)});
  };
  if (const auto bad = first_bad_utf8(line)) {
    tell(*bad, "not-utf8", "the line is not UTF-8 text", encoding_hint(line));
    return false;
  }
  LineHandler handler;
  Json::sax_parse(line, &handler);
  if (!handler.diagnostics.empty()) {
    for (LineHandler::KeyDiagnostic& diagnostic : handler.diagnostics) {
      const std::size_t at =
          diagnostic.code == "bad-json" ? handler.syntax_at - 1 : offset_of_key(line, diagnostic.key);
      tell(at, std::move(diagnostic.code), std::move(diagnostic.message), std::move(diagnostic.hint));
    }
    return false;
  }
  CellRow row;
  row.from = from;
  for (auto& [column, text] : handler.values) {
    row.cells[index_of(column)] = {std::move(text), from + offset_of_key(line, std::string(to_text(column)))};
  }
  return take_row(row, places, read);
}

}  // namespace

void read_json_lines(std::string_view text, std::size_t from, const Places& places, const Progress& progress,
                     FactsRead& read) {
  while (from < text.size()) {
    if (progress) progress(from, text.size());
    const std::size_t end = std::min(text.find('\n', from), text.size());
    std::string_view line = text.substr(from, end - from);
    if (line.ends_with('\r')) line.remove_suffix(1);
    const bool is_blank = line.find_first_not_of(" \t") == std::string_view::npos;
    if (!is_blank && !read_line(line, from, places, read)) {
      read.rejected.push_back({places.line_of(from), std::string(line)});
    } else if (!read.rows.empty() && read.rows.back().raw.empty()) {
      read.rows.back().raw = line;
    }
    from = end + 1;
  }
}

}  // namespace record

std::string facts_to_json_lines(const std::vector<Fact>& facts) {
  using namespace record;
  std::string lines;
  for (const Fact& fact : facts) {
    char before_key = '{';
    for (std::size_t i = 0; i < column_count; ++i) {
      const Column column = column_at(i);
      if (!has(fact, column)) continue;
      const std::string text = text_of(fact, column);
      lines += before_key;
      lines += '"';
      lines += to_text(column);
      lines += "\":";
      if (is_flag(column)) {
        lines += "true";
      } else {
        lines += is_number(column) ? text : Json(text).dump(-1, ' ', false, Json::error_handler_t::replace);
      }
      before_key = ',';
    }
    lines += "}\n";
  }
  return lines;
}

}  // namespace service
