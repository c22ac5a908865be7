#include "entry/others_columns.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>

#include "entry/others_words.h"

namespace service {
namespace entry {
namespace {

using Column = TakenOver::Column;
using ToldColumn = std::pair<std::string, std::string>;

bool is_heading(const std::string& heading, const std::string& written) {
  return heading == written || (!heading_words(written).empty() && heading_words(heading) == heading_words(written));
}

bool names_machines(std::optional<TakenColumn> column) {
  return column == TakenColumn::machine || column == TakenColumn::name;
}

// Of figures and days two are one too many: nobody knows which is meant. Of texts the first will do.
bool is_text(TakenColumn column) {
  constexpr std::array texts{TakenColumn::machine, TakenColumn::name,   TakenColumn::schedule,
                             TakenColumn::site,    TakenColumn::serial, TakenColumn::notes};
  return std::find(texts.begin(), texts.end(), column) != texts.end();
}

class Understanding {
 public:
  Understanding(const Sheet& sheet, const TakeOverAsk& ask) : places_(sheet.text, ask.file), sheet_(sheet) {
    for (const SheetField& field : sheet.header.fields) {
      columns_.push_back({static_cast<int>(columns_.size()) + 1, field.text, std::nullopt, false});
    }
    for (const ToldColumn& told : ask.columns) take(told);
  }

  std::vector<Column> run() {
    for (Column& column : columns_) {
      if (!column.column) guess(column);
    }
    if (std::none_of(columns_.begin(), columns_.end(), [](const Column& c) { return names_machines(c.column); })) {
      fail_without_names();
    }
    return std::move(columns_);
  }

 private:
  [[noreturn]] void fail(std::size_t at, Diagnostic what) const {
    what.place = places_.at(at);
    what.cures.push_back({CureKind::tell_columns});
    throw Failure(FailureKind::bad_data, std::move(what));
  }

  // A line that holds figures is a machine's, and the file has no line of headings.
  bool is_line_of_machine() const {
    return std::any_of(columns_.begin(), columns_.end(), [](const Column& column) {
      return !column.heading.empty() && column.heading.front() >= '0' && column.heading.front() <= '9';
    });
  }

  [[noreturn]] void fail_without_names() const {
    Diagnostic what{"no-names", "no column is known to hold the names of the machines",
                    fmt::format("the columns are {}", headings())};
    what.place = places_.at(sheet_.header.from);
    if (is_line_of_machine()) {
      what.code = "no-header";
      what.message = "the file has no line of headings, so nobody knows what its columns hold";
      what.hint = "write one above all others, a heading for each column: Machine, Hours, Date";
    } else if (const auto bare = std::find_if(columns_.begin(), columns_.end(),
                                              [](const Column& column) { return column.heading.empty(); });
               bare != columns_.end()) {
      what.hint += fmt::format("; column {} has no heading: write one above each column", bare->number);
    }
    if (what.code == "no-names") what.cures.push_back({CureKind::tell_columns});
    throw Failure(FailureKind::bad_data, std::move(what));
  }

  std::string headings() const {
    std::vector<std::string> all;
    for (const Column& column : columns_) {
      if (!column.heading.empty()) all.push_back('`' + cleaned(column.heading) + '`');
    }
    return fmt::format("{}", fmt::join(all, ", "));
  }

  Column* holder(TakenColumn column) {
    const auto found =
        std::find_if(columns_.begin(), columns_.end(), [&](const Column& c) { return c.column == column; });
    return found == columns_.end() ? nullptr : &*found;
  }

  void take(const ToldColumn& told) {
    const auto& [heading, name] = told;
    const auto column = parse_taken_column(name);
    const auto usage = [](std::string code, std::string message, std::string hint) {
      throw Failure(FailureKind::usage, {std::move(code), std::move(message), std::move(hint)});
    };
    if (!column) {
      std::vector<std::string> names;
      for (int i = 0; i <= static_cast<int>(TakenColumn::notes); ++i)
        names.emplace_back(to_text(static_cast<TakenColumn>(i)));
      usage("unknown-column", fmt::format("there is no column `{}` in a register", cleaned(name)),
            nearest_or(name, names, fmt::format("the columns are {}", fmt::join(names, ", "))));
    }
    std::vector<Column*> meant;
    for (Column& one : columns_) {
      if (is_heading(one.heading, heading)) meant.push_back(&one);
    }
    if (meant.empty()) {
      usage("unknown-heading", fmt::format("no column is headed `{}`", cleaned(heading)),
            fmt::format("the columns are {}", headings()));
    }
    if (meant.size() > 1) {
      usage("two-headings", fmt::format("{} columns are headed `{}`", meant.size(), cleaned(heading)),
            "give them headings of their own in the file");
    }
    if (meant.front()->told || holder(*column) != nullptr) {
      usage("told-twice", fmt::format("`{}={}` contradicts what is told before it", cleaned(heading), name),
            "tell each column once");
    }
    meant.front()->column = column;
    meant.front()->told = true;
  }

  void guess(Column& column) {
    const auto guessed = guess_column(column.heading);
    if (!guessed) return;
    Column* const other = holder(*guessed);
    if (other == nullptr) {
      column.column = guessed;
    } else if (!other->told && *guessed == TakenColumn::machine && holder(TakenColumn::name) == nullptr) {
      // A short name and a long one.
      Column& longer = heading_words(other->heading) == "machine" ? *other : column;
      column.column = guessed;
      longer.column = TakenColumn::name;
    } else if (!other->told && !is_text(*guessed)) {
      const auto which = static_cast<std::size_t>(&column - columns_.data());
      fail(sheet_.header.fields[which].from, {"two-columns",
                                              fmt::format("`{}` and `{}` may both be `{}`", cleaned(other->heading),
                                                          cleaned(column.heading), to_text(*guessed)),
                                              "take one of them out of the file"});
    }
  }

  Places places_;
  const Sheet& sheet_;
  std::vector<Column> columns_;
};

}  // namespace

bool looks_like_header(const SheetRow& row, const std::vector<ToldColumn>& told) {
  std::size_t known = 0;
  bool names = false;
  for (const SheetField& field : row.fields) {
    std::optional<TakenColumn> column = guess_column(field.text);
    for (const auto& [heading, name] : told) {
      if (is_heading(field.text, heading)) column = parse_taken_column(name);
    }
    known += column ? 1U : 0U;
    names = names || names_machines(column);
  }
  return names && (known > 1 || row.fields.size() == 1);
}

std::vector<Column> understand_columns(const Sheet& sheet, const TakeOverAsk& ask) {
  return Understanding(sheet, ask).run();
}

}  // namespace entry

namespace {

// In the order of the enumerators.
constexpr std::array<std::string_view, 13> column_names{
    "machine", "name",      "schedule", "site", "serial",   "in-service", "in-service-at",
    "bought",  "bought-at", "at",       "on",   "per-year", "notes"};

}  // namespace

std::string_view to_text(TakenColumn column) { return column_names.at(static_cast<std::size_t>(column)); }

std::optional<TakenColumn> parse_taken_column(std::string_view name) {
  const auto* const found = std::find(column_names.begin(), column_names.end(), name);
  if (found == column_names.end()) return std::nullopt;
  return static_cast<TakenColumn>(found - column_names.begin());
}

std::string_view to_text(TextEncoding encoding) {
  constexpr std::array<std::string_view, 3> names{"UTF-8", "UTF-16", "Windows-1252"};
  return names.at(static_cast<std::size_t>(encoding));
}

}  // namespace service
