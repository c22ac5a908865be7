// Text as spreadsheets save it: encodings, headings, and how numbers and days are written in a whole file.
#pragma once

#include <cstddef>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "service/cures.h"

#pragma GCC visibility push(default)

namespace service {

// UTF-16 with a byte order mark as UTF-8, and any other text as it is. Nothing where the UTF-16 is broken.
std::optional<std::string> from_utf16(std::string_view bytes);
bool is_utf16(std::string_view bytes);

// Text in Windows-1252, as spreadsheets save it, as UTF-8. Nothing where a byte stands for no letter in it.
std::optional<std::string> from_windows_1252(std::string_view bytes);

// What to do about text that is not UTF-8; says which encoding it looks like.
std::string encoding_hint(std::string_view text);

// A heading as people write it (`Machine `, `IN-SERVICE`) as the name of a column.
std::string column_name(std::string_view heading);

enum class DecimalMark { point, comma };
enum class DateOrder { day_first, month_first };

// How the numbers and days of one file are written. Nothing: no field of the file needs it.
struct Dialect {
  std::optional<DecimalMark> decimal;
  std::optional<DateOrder> dates;
};

// `1.250,5` as `1250.5`, `03/04/2025` as `2025-04-03`: the form that the strict readers take. What is no number or day
// in this dialect comes back as it is.
std::string plain_number(std::string_view text, const Dialect& dialect);
std::string plain_day(std::string_view text, const Dialect& dialect);

// Finds the dialect of a file from all its numbers and days together, for one field alone often does not tell: `1.250`
// is 1250 or 1.25. It never guesses: where the whole file allows two readings, or contradicts itself, that is a
// diagnostic.
class DialectSurvey {
 public:
  explicit DialectSurvey(Dialect told = {}) : told_(told) {}  // what its user says about the file

  // `at` is handed back with what is found about the field.
  void number(std::string_view text, std::size_t at);
  void day(std::string_view text, std::size_t at);

  struct FieldDiagnostic {
    std::size_t at = 0;
    std::string code;  // `two-readings`, `mixed-dialect`
    std::string message;
    std::string hint;
    std::vector<Cure> cures = {};
  };
  std::vector<FieldDiagnostic> diagnostics() const;

  // What holds where there are no diagnostics.
  Dialect dialect() const;

  // The field that settled it: `1250,5`. Empty where it was told, or where nothing needed settling.
  const std::string& number_settled_by() const { return numbers_.settled_by(); }
  const std::string& dates_settled_by() const { return days_.settled_by(); }

 private:
  // One question with two possible answers, asked of many fields.
  class Choice {
   public:
    void see(std::string_view text, std::size_t at, const std::optional<std::string>& first,
             const std::optional<std::string>& second);
    std::optional<bool> is_second(std::optional<bool> told) const;
    const std::string& settled_by() const;

    struct Field {
      std::string text;
      std::size_t at = 0;
      std::string first;
      std::string second;
    };
    std::optional<Field> only_first;
    std::optional<Field> only_second;
    std::optional<Field> either;
  };

  Dialect told_;
  Choice numbers_;
  Choice days_;
};

}  // namespace service

#pragma GCC visibility pop
