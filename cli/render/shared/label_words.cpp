#include "render/shared/label_words.h"

#include <fmt/format.h>

#include "render/shared/words.h"
#include "service/text.h"

namespace cli {

std::string label_words(const service::ElementLabel& label) {
  std::string text = label.on ? to_text(*label.on) : std::string(blank_day);
  if (label.at) return text + " · " + with_unit(*label.at, label.unit);
  // Of what is done already nobody knows the value; of what is to be done it will be read.
  if (label.on || label.unit.empty()) return text;
  return text + fmt::format(" · {} {}", blank_value, service::cleaned(label.unit));
}

std::string due_again_words(const service::ElementDueAgain& again, service::Day done_on) {
  std::string text;
  if (again.more) {
    text = fmt::format("+ {} = {} {}", with_unit(*again.more, again.unit), blank_value, service::cleaned(again.unit));
  }
  if (again.on) {
    text += fmt::format("{}{} where done on {}", text.empty() ? "" : ", or ", to_text(*again.on), to_text(done_on));
  }
  return text;
}

}  // namespace cli
