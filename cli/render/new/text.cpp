#include <fmt/format.h>

#include "render/new/new.h"
#include "render/new/taken.h"
#include "terminal/wrap.h"

namespace cli {

std::string made_as_text(const MadeAnswer& made, const Look& look) {
  const auto columns = static_cast<std::size_t>(look.columns);
  const std::string list = fmt::format("{}: {}", service::cleaned(made.folder), fmt::join(made.files, ", "));
  if (made.taken) {
    return taken_in_words(*made.taken, columns) +
           wrapped("", (made.dry_run ? "Would be made in " : "Made in ") + list, columns, 0) +
           (made.dry_run ? "" : next_after_taking(*made.taken, made.folder, columns));
  }
  std::string text = "Made in " + list + '\n';
  if (made.files.size() > 1) {
    text +=
        "Next: open fleet.yaml and put your own machines in. Every value in schedules/example.yaml is\n"
        "invented; take yours from the operator's manual.\n";
  }
  return text +
         fmt::format("Then write down what the meters show: {} reading MACHINE VALUE\n", command_about(made.folder));
}

}  // namespace cli
