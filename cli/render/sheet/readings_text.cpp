// The meters to read on a walk round, as plain text.
#include <fmt/format.h>

#include "render/shared/cautions.h"
#include "render/shared/headings.h"
#include "render/shared/point_rows.h"
#include "render/shared/stopped_first.h"
#include "render/shared/words.h"
#include "render/sheet/sheet.h"
#include "render/sheet/words.h"
#include "terminal/table.h"
#include "terminal/wrap.h"

namespace cli {
namespace {

using service::cleaned;

std::string heading_of(const service::RoundSite& site) {
  return site.site == nullptr ? "Without a site" : site_of(*site.site);
}

}  // namespace

std::string readings_as_text(const service::ReadingRound& round, const Look& look) {
  const service::DueList& list = *round.list;
  const std::size_t columns = columns_of(look);
  std::string text =
      heading(look, fmt::format("{}, meters to read, {}", whose_list(*list.fleet, list.scope), to_text(list.as_of)));
  text += stopped_first(run_bans(list), look);
  if (round.meters() == 0) text += "\nNo machine here has a meter.\n";
  for (const service::RoundSite& site : round.sites) {
    text += '\n' + heading(look, heading_of(site));
    if (site.site != nullptr && !site.site->access.empty()) {
      text += wrapped("  Access: ", cleaned(site.site->access), columns, 4);
    }
    if (site.site != nullptr && !site.site->contact.empty()) {
      text += wrapped("  Contact: ", cleaned(site.site->contact), columns, 4);
    }
    std::vector<Row> rows;
    std::vector<std::string> below;  // of each row
    for (const service::RoundMachine& machine : site.machines) {
      std::string said;
      for (const std::string& line : stands_words(machine)) said += wrapped("     ", line, columns, 5);
      for (const service::SheetMeter& meter : machine.meters) {
        rows.push_back(
            {cleaned(machine.machine->key), cleaned(meter.meter->name), last_words(meter), blank_words(meter)});
        for (const MeterDoubt& doubt : doubts_of(meter, look.command)) {
          said += wrapped(
              "  !  ", fmt::format("{} {}: {}", cleaned(machine.machine->key), cleaned(meter.meter->name), doubt.say),
              columns, 5);
          if (!doubt.if_less.empty()) said += wrapped("     ", doubt.if_less, columns, 5);
        }
        below.push_back(std::move(said));
        said.clear();
      }
    }
    const std::vector<std::string> lines = table_rows(rows, "  ", columns);
    for (std::size_t i = 0; i < rows.size(); ++i) {
      // Room to write above the next one.
      text += lines[i] + below[i] + (i + 1 < rows.size() ? "\n" : "");
    }
  }
  std::vector<const service::Gap*> gaps;
  for (const service::Gap& gap : list.gaps) gaps.push_back(&gap);
  text += not_known(gaps, look);
  if (!round.without_meters.empty()) {
    std::vector<std::string> keys;
    for (const service::Machine* machine : round.without_meters) keys.push_back(machine->key);
    text += '\n' + wrapped("Without meters: ", listed(keys, "and"), columns, 2);
  }
  if (round.meters() == 0) return text;
  text += fmt::format("\nRead by ______________________  day ____-__-__. To type one in: {} reading MACHINE VALUE\n",
                      look.command);
  return text + foot_of_list(look);
}

}  // namespace cli
