#include "render/csv.h"

#include "render/answers.h"
#include "render/shared/csv_line.h"

namespace cli {

std::string history_as_csv(const Book& book) {
  std::string text = csv_line({"on", "kind", "what", "value", "usage", "id", "struck", "struck_because", "note"});
  for (const BookLine& entry : book.lines) {
    text += csv_line({to_text(entry.fact.on), std::string(to_text(entry.fact.kind)), csv_text(entry.what),
                      csv_text(entry.value), figure(entry.usage), to_text(entry.fact.id), entry.struck ? "yes" : "no",
                      csv_text(entry.struck_because), csv_text(entry.fact.note)});
  }
  return text;
}

}  // namespace cli
