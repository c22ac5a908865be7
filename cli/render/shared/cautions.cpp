#include "render/shared/cautions.h"

#include <fmt/format.h>

#include "render/shared/headings.h"
#include "render/shared/markdown.h"
#include "service/cautions.h"
#include "terminal/wrap.h"

namespace cli {

std::size_t columns_of(const Look& look) { return static_cast<std::size_t>(look.columns == 0 ? 80 : look.columns); }

std::string steps_before(const Look& look) {
  const service::BaseCautions& base = service::base_cautions();
  const std::size_t columns = columns_of(look);
  std::string text = heading(look, "Before you touch a machine");
  int number = 0;
  for (const std::string_view step : base.steps) text += wrapped(fmt::format("  {}. ", ++number), step, columns, 5);
  return text;
}

std::string all_steps(const Look& look) { return steps_before(look) + afterwards("  ", columns_of(look)); }

std::string afterwards(std::string_view indent, std::size_t columns) {
  return wrapped(indent, fmt::format("Afterwards: {}.", service::base_cautions().afterwards), columns,
                 indent.size() + 2);
}

std::string steps_in_lines() {
  const service::BaseCautions& base = service::base_cautions();
  std::string text = "Before you touch it:\n";
  int number = 0;
  for (const std::string_view step : base.steps) text += fmt::format("{}. {}\n", ++number, step);
  return text + fmt::format("Afterwards: {}.", base.afterwards);
}

std::string cautions_in_lines(const std::vector<std::string>& cautions) {
  std::string text;
  for (const std::string& written : cautions) text += fmt::format("Mind: {}\n", service::caution_sentence(written));
  return text;
}

std::string in_a_line(const Look& look) { return wrapped("", service::base_cautions().in_a_line, columns_of(look), 0); }

std::string foot_of_list(const Look& look) { return '\n' + in_a_line(look); }

std::string foot_of_markdown() { return '\n' + markdown_cell(service::base_cautions().in_a_line) + '\n'; }

std::string mind_words(const std::vector<std::string>& cautions) {
  if (cautions.empty()) return "";
  return "mind: " + service::cleaned(fmt::format("{}", fmt::join(cautions, ", ")));
}

std::string caution_in_full(const std::string& written) {
  const service::Caution* const named = service::caution(written);
  const std::string sentence = service::cleaned(service::caution_sentence(written));
  return named == nullptr ? sentence : fmt::format("{}: {}.", named->name, sentence);
}

std::string cautions_in_full(const std::vector<std::string>& cautions, std::string_view indent, std::size_t columns) {
  std::string text;
  for (const std::string& written : cautions) {
    text += wrapped(indent, caution_in_full(written), columns, indent.size() + 2);
  }
  return text;
}

std::string what_to_mind(const std::vector<std::string>& cautions, const Look& look) {
  if (cautions.empty()) return "";
  return '\n' + heading(look, "What to mind") + cautions_in_full(cautions, "  ", columns_of(look));
}

std::vector<std::string> marks_of(const service::Point& point) {
  std::vector<std::string> marks;
  if (is_safety(point)) marks.emplace_back("safety");
  if (by_competent_person(point)) marks.emplace_back("by a competent person");
  return marks;
}

}  // namespace cli
