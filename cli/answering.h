// An answer is written in the format that was asked for.
#pragma once

#include "render/shared/formats.h"
#include "run.h"

namespace cli {

template <class Formats, class Answer>
void put_answer(Context& context, const Formats& formats, const Answer& answer) {
  context.out = written_as(context.arguments.value("format").value_or(""), formats, answer, context.look);
}

}  // namespace cli
