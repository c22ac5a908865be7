// An answer is written in the format that was asked for.
#pragma once

#include <string>

#include "render/shared/formats.h"
#include "run.h"

namespace cli {

// Says on standard error how many rows --first left off.
void tell_left_off(Context& context, std::size_t left_off);

template <class Formats, class Answer>
void put_answer(Context& context, const Formats& formats, const Answer& answer, std::size_t left_off = 0) {
  const std::string format = context.arguments.value("format").value_or("");
  context.out = written_as(format, formats, answer, context.look);
  // The other formats have room for it.
  if ((format == "csv" || format == "ics") && left_off > 0) tell_left_off(context, left_off);
}

}  // namespace cli
