#include "render/overdue/words.h"

#include "render/shared/headings.h"

namespace cli {

using service::OverdueHeading;

std::string_view title_of(OverdueHeading heading) {
  switch (heading) {
    case OverdueHeading::out_of_use:
      return out_of_use_title;
    case OverdueHeading::overdue:
      return "Overdue";
    case OverdueHeading::seen:
      return "Seen, not looked at yet";
    case OverdueHeading::read_the_meter:
      return "Read the meter: overdue by estimate";
    case OverdueHeading::find_out:
      return "Find out";
    case OverdueHeading::put_off:
      return "Put off";
    case OverdueHeading::laid_up:
      return "Laid up: before it goes back to work";
  }
  return "";
}

std::string_view short_title_of(OverdueHeading heading) {
  switch (heading) {
    case OverdueHeading::out_of_use:
      return "out of use";
    case OverdueHeading::overdue:
      return "overdue";
    case OverdueHeading::seen:
      return "seen and not looked at";
    case OverdueHeading::read_the_meter:
      return "overdue by estimate";
    case OverdueHeading::find_out:
      return "to find out";
    case OverdueHeading::put_off:
      return "put off";
    case OverdueHeading::laid_up:
      return "laid up";
  }
  return "";
}

}  // namespace cli
