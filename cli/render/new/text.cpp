#include <fmt/format.h>

#include "render/new/new.h"
#include "service/base.h"

namespace cli {

std::string made_as_text(const MadeAnswer& made) {
  std::string text = fmt::format("Made in {}: {}\n", service::cleaned(made.folder), fmt::join(made.files, ", "));
  if (made.files.size() > 1) {
    text +=
        "Next: open fleet.yaml and put your own machines in. Every value in schedules/example.yaml is\n"
        "invented; take yours from the operator's manual.\n";
  }
  return text + "Then write down what the meters show: whichever reading MACHINE VALUE\n";
}

}  // namespace cli
