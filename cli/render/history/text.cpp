#include <fmt/format.h>

#include "render/history/history.h"
#include "render/shared/fact_words.h"
#include "render/shared/words.h"
#include "terminal/table.h"

namespace cli {

std::string history_as_text(const service::Book& book, const Look& look) {
  const service::Machine* machine = book.fleet->machine(book.machine);
  const bool named = machine != nullptr && !machine->name.empty();
  std::string text = service::cleaned(named ? book.machine + ", " + machine->name : book.machine);
  text += fmt::format(", up to {}\n", to_text(book.as_of));
  if (book.state.kind != service::UseKind::in_use || !book.state.ran.empty()) text += words_of(book.state) + '\n';
  if (book.lines.empty()) return text + "Nothing is written down.\n";
  std::vector<Row> rows;
  for (const service::BookLine& line : book.lines) {
    rows.push_back({to_text(line.fact.on), std::string(to_text(line.fact.kind)), what_of(line.fact),
                    value_of(line.fact, *book.fleet, line.shown), short_text(line.fact.id), rest_of(line)});
  }
  text += table(rows, "", static_cast<std::size_t>(look.columns));
  if (book.left_off > 0) text += fmt::format("\nAnd {} more, left off by --first.\n", book.left_off);
  return text;
}

}  // namespace cli
