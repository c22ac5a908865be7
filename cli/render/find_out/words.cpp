#include "render/find_out/words.h"

#include <fmt/format.h>

#include "render/shared/cautions.h"
#include "render/shared/label_words.h"
#include "render/shared/words.h"

namespace cli {

using service::FactKind;
using service::Question;

std::string asked_for(const Question& question) {
  if (question.kind == FactKind::reading) return "meter " + service::cleaned(question.meter);
  if (question.kind == FactKind::measurement) {
    return service::point_label(question.name, question.point->position);
  }
  return task_of(*question.point);
}

std::string blanks(const Question& question) {
  const std::string unit = question.unit.empty() ? "" : ' ' + service::cleaned(question.unit);
  if (question.kind != FactKind::service) return fmt::format("{}{} on {}", blank_value, unit, blank_day);
  std::string text = fmt::format("done {}", blank_day);
  if (!question.meter.empty()) text += fmt::format(" at {}{}", blank_value, unit);
  return text;
}

// Why it is asked, or what the task is: the second half of a line.
std::string about(const Question& question) {
  if (question.kind == FactKind::reading) {
    return question.gap->kind == service::GapKind::nothing_recorded ? "" : service::cleaned(question.gap->say);
  }
  std::string text = service::cleaned(question.point->follow_up != nullptr ? question.point->follow_up->doing
                                                                           : question.point->task->doing);
  const auto& fitted = question.point->fitted;
  if (question.kind == FactKind::measurement) {
    text = "measure it: " + text;
  } else if (fitted && !fitted->at) {
    text += fmt::format(" (done {}, at what value?)", to_text(fitted->on));
  }
  for (const std::string& word : marks_of(*question.point)) text += "; " + word;
  if (const std::string mind = mind_words(question.point->task->all_cautions); !mind.empty()) text += "; " + mind;
  return text;
}

std::string look_first_words(const service::MachineQuestions& asked) {
  std::string text = look_first_words(asked.seen);
  for (const service::Point* point : asked.signs) {
    for (const service::LimbStanding& limb : point->limbs) {
      if (limb.open_sign() == nullptr) continue;
      text += text.empty() ? "Look before it runs: " : "; ";
      text += fmt::format("{}, {}", task_of(*point), words_of(limb, *point));
    }
  }
  return text;
}

}  // namespace cli
