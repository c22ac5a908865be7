#include "render/overdue/words.h"

#include <fmt/format.h>

#include <cstdint>

#include "render/shared/headings.h"

namespace cli {

using service::OverdueHeading;

std::string_view title_of(OverdueHeading heading) {
  switch (heading) {
    case OverdueHeading::out_of_use:
      return out_of_use_title;
    case OverdueHeading::do_not_run:
      return "Not to be run before what is due is mended";
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
    case OverdueHeading::do_not_run:
      return "not to be run";
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

std::string not_to_run_words(std::size_t machines) { return fmt::format("{} not to be run", machines); }

std::string counted_under(OverdueHeading heading, std::size_t lines) {
  switch (heading) {
    case OverdueHeading::out_of_use:
    case OverdueHeading::do_not_run:
      return not_to_run_words(lines);
    case OverdueHeading::overdue:
      return fmt::format("{} overdue", lines);
    case OverdueHeading::seen:
      return fmt::format("{} seen", lines);
    case OverdueHeading::read_the_meter:
      return service::counted(static_cast<std::int64_t>(lines), "meter to read", "meters to read");
    case OverdueHeading::find_out:
      return fmt::format("{} to find out", lines);
    case OverdueHeading::put_off:
      return fmt::format("{} put off", lines);
    case OverdueHeading::laid_up:
      return fmt::format("{} laid up", lines);
  }
  return "";
}

std::vector<std::string> words_of(const service::OverdueCounts& counts) {
  std::vector<std::string> words;
  if (counts.not_to_run > 0) words.push_back(not_to_run_words(counts.not_to_run));
  for (const service::HeadingCount& count : counts.others) words.push_back(counted_under(count.heading, count.lines));
  return words;
}

}  // namespace cli
