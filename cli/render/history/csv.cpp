#include "render/history/history.h"
#include "render/shared/csv_line.h"

namespace cli {
namespace {

// The head of the facts, or the row of one, as `export` writes it, without its line end.
std::string head_of_facts() {
  std::string head = service::facts_to_csv({});
  head.pop_back();
  return head;
}

std::string row_of(const service::Fact& fact) {
  std::string text = service::facts_to_csv({fact});
  text.pop_back();
  return text.substr(head_of_facts().size() + 1);
}

}  // namespace

std::string history_as_csv(const service::Book& book) {
  std::string text = head_of_facts() + ',' + csv_line({"meter_unit", "usage", "struck", "struck_because"});
  for (const service::BookLine& line : book.lines) {
    text += row_of(line.fact) + ',';
    text += csv_line(
        {csv_text(line.meter_unit), figure(line.usage), yes_or_no(line.struck), csv_text(line.struck_because)});
  }
  return text;
}

}  // namespace cli
