// `find-out`: what is not known, as a list with blanks.
#include "render/find_out/find_out.h"

#include "asking.h"
#include "commands/commands.h"

namespace cli {

int find_out(Context& context) {
  Asking asking(context);
  // No odds are asked, so nothing need be learnt.
  const auto first = first_option(context.arguments);
  service::DueAsk ask{asking.today(), {}, service::Detail::standings};
  ask.keep = service::Keep::to_find_out;
  const auto list = asking.due_list(ask, service::straight_line());
  FindOutAnswer answer{list, service::find_out(list)};
  const std::size_t all = answer.questions();
  answer.left_off = service::keep_first(answer.machines, first);
  answer.beside = service::told_beside(list, answer.machines);
  asking.write(find_out_formats, answer, all - answer.questions());
  return 0;
}

}  // namespace cli
