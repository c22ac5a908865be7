#include <fmt/format.h>

#include <algorithm>

#include "render/due/due.h"
#include "render/overdue/words.h"
#include "render/report/report.h"
#include "render/report/words.h"
#include "render/shared/cautions.h"
#include "render/shared/headings.h"
#include "render/shared/words.h"
#include "terminal/wrap.h"

namespace cli {

std::string report_as_text(const service::Report& report, const Look& look) {
  const auto columns = static_cast<std::size_t>(look.columns);
  std::string text =
      heading(look, fmt::format("{}, {}: report", whose_list(*report.fleet, report.scope), to_text(report.as_of)));
  text += wrapped("", known_words(report), columns, 0) + '\n';
  const auto say = [&](std::string_view what, const std::string& words) {
    text += wrapped(fmt::format("{:<13}", what), words, columns, 13);
  };
  if (const std::string names = not_to_run_names(report); !names.empty()) say("do not run", names);
  say("overdue list", overdue_counts(report));
  if (const std::string soon = soon_counts(report); !soon.empty()) say("safety soon", soon);
  say("due", due_counts(report));
  say("season", season_counts(report));
  say("work ahead", workload_counts(report));
  say("parts", parts_counts(report));
  say("machines", machines_counts(report));
  text +=
      '\n' +
      wrapped("", fmt::format("The page with all of it: {} {} --output report.html", look.command, asked_words(report)),
              columns, 0);
  return report.due.points.empty() ? text : text + foot_of_list(look);
}

}  // namespace cli
