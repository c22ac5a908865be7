// What is not known, with blanks: to print and take round, or to fill in and import.
#pragma once

#include <cstddef>
#include <string>
#include <vector>

#include "render/shared/formats.h"
#include "service/due_list.h"

namespace cli {

// The questions point into the list.
struct FindOutAnswer {
  const service::DueList& list;
  std::vector<service::MachineQuestions> machines;
  std::size_t left_off = 0;  // machines
  // Of those that are not among them, what whoever goes there has to know; never cut.
  std::vector<service::MachineQuestions> beside = {};

  std::size_t questions() const {  // of those machines
    std::size_t count = 0;
    for (const service::MachineQuestions& asked : machines) count += asked.questions.size();
    return count;
  }
};

std::string find_out_as_text(const FindOutAnswer& answer, const Look& look);
// The columns that `import` reads, with blanks for day and value. A row left blank stays unknown.
std::string find_out_as_csv(const FindOutAnswer& answer);
std::string find_out_as_json(const FindOutAnswer& answer);

inline constexpr Format<FindOutAnswer> find_out_formats[] = {
    {"text", find_out_as_text}, {"csv", find_out_as_csv}, {"json", find_out_as_json}};

}  // namespace cli
