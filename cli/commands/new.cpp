// `new`: a starter fleet and its empty record. What exists is left alone.
#include <fmt/format.h>

#include <system_error>

#include "commands/commands.h"
#include "commands/starter.h"
#include "output.h"
#include "render/json.h"
#include "render/words.h"
#include "service/record.h"
#include "session.h"
#include "today.h"

namespace cli {
namespace {

namespace fs = std::filesystem;

[[noreturn]] void refuse(std::string code, std::string message, std::string hint) {
  throw service::Failure(service::Trouble::bad_data, {std::move(code), std::move(message), std::move(hint)});
}

void make_folder(const fs::path& folder) {
  std::error_code error;
  fs::create_directories(folder, error);
  if (error) {
    throw service::Failure(service::Trouble::io,
                           {"cannot-write", fmt::format("the folder {} cannot be made", folder.string()),
                            "choose a place where you may write"});
  }
}

std::string fleet_begun_on(service::Day day) {
  constexpr std::string_view place_holder = "DAY";
  std::string text(starter_fleet);
  for (auto at = text.find(place_holder); at != std::string::npos; at = text.find(place_holder, at)) {
    text.replace(at, place_holder.size(), to_text(day));
  }
  return text;
}

// A folder with other things in it is more likely a slip than a wish.
void insist_on_empty(const fs::path& folder) {
  std::error_code error;
  const bool empty = fs::is_empty(folder, error);
  if (error) {
    throw service::Failure(service::Trouble::io,
                           {"cannot-read", fmt::format("the folder {} cannot be read", folder.string()), ""});
  }
  if (!empty) {
    refuse("not-empty", fmt::format("{} holds other files and no fleet.yaml; nothing was written", folder.string()),
           "name a new or empty folder");
  }
}

}  // namespace

int new_fleet(Context& context) {
  const std::string& written = context.arguments.words[0];
  const fs::path folder = (context.world.folder / written).lexically_normal();
  std::error_code error;
  const auto status = fs::status(folder, error);
  if (fs::exists(status) && !fs::is_directory(status)) {
    refuse("not-a-folder", fmt::format("{} is not a folder", folder.string()), "name a new or empty folder");
  }
  if (fs::exists(fs::symlink_status(folder / "record.db", error))) {
    refuse("record-exists", fmt::format("{} has a record already; nothing was changed", folder.string()),
           "use it as it is: whichever due");
  }
  std::vector<std::string> made;
  if (!fs::exists(folder / "fleet.yaml", error)) {
    make_folder(folder);
    insist_on_empty(folder);
    make_folder(folder / "schedules");
    write_new(folder / "schedules" / "example.yaml", starter_schedule);
    write_new(folder / "fleet.yaml",
              fleet_begun_on(service::add_months(day_in_zone(context.world.milliseconds(), ""), -1)));
    made = {"fleet.yaml", "schedules/example.yaml"};
  }
  service::Record::create(folder / "record.db");
  made.emplace_back("record.db");
  context.stored = true;
  if (context.arguments.value("format").value_or("text") == "json") {
    context.out = made_as_json(written, made);
    return 0;
  }
  context.out = fmt::format("Made in {}: {}\n", service::cleaned(written), fmt::join(made, ", "));
  if (made.size() > 1) {
    context.out +=
        "Next: open fleet.yaml and put your own machines in. Every value in schedules/example.yaml is\n"
        "invented; take yours from the operator's manual.\n";
  }
  context.out += "Then write down what the meters show: whichever reading MACHINE VALUE\n";
  return 0;
}

}  // namespace cli
