// `find-out`: what is not known, as a list with blanks.
#include "render/find_out/find_out.h"

#include "asking.h"
#include "commands/commands.h"

namespace cli {

int find_out(Context& context) {
  Asking asking(context);
  // No odds are asked, so nothing need be learnt.
  asking.write(find_out_formats,
               due_list(asking.snapshot(), {asking.today(), {}, service::Detail::standings}, service::straight_line()));
  return 0;
}

}  // namespace cli
