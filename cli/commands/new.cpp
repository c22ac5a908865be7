// `new`: a starter fleet and its empty record. What exists is left alone.
#include "render/new/new.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <system_error>

#include "answering.h"
#include "commands/commands.h"
#include "commands/making.h"
#include "commands/starter.h"
#include "output.h"
#include "schemas.gen.h"
#include "service/record.h"
#include "session.h"
#include "today.h"

namespace cli {
namespace {

namespace fs = std::filesystem;

std::string fleet_begun_on(service::Day day) {
  constexpr std::string_view place_holder = "DAY";
  std::string text(starter_fleet);
  for (auto at = text.find(place_holder); at != std::string::npos; at = text.find(place_holder, at)) {
    text.replace(at, place_holder.size(), service::to_text(day));
  }
  return text;
}

// A starter fleet, fleet.yaml last: until that is there, a command that was cut short can simply be given again.
struct StarterFile {
  const char* name;
  std::string_view text;
};

const std::array<StarterFile, 3> beside_the_fleet{{
    {"schedules/example.yaml", starter_schedule},
    {fleet_schema_file, fleet_schema},
    {schedule_schema_file, schedule_schema},
}};

// A folder with other things in it is more likely a slip than a wish. What an earlier try left is no such thing.
void insist_on_empty(const fs::path& folder) {
  std::error_code error;
  for (fs::recursive_directory_iterator entry(folder, error), end; !error && entry != end; entry.increment(error)) {
    const std::string name = entry->path().lexically_relative(folder).generic_string();
    const bool ours = std::any_of(beside_the_fleet.begin(), beside_the_fleet.end(), [&](const StarterFile& file) {
      const std::string own = file.name;
      if (name == own.substr(0, own.find('/'))) return entry->is_directory();
      return name == own && entry->is_regular_file() && read_file(entry->path()) == file.text;
    });
    if (ours || is_temporary(entry->path().filename().string())) continue;
    refuse_to_make("not-empty",
                   fmt::format("{} holds other files and no fleet.yaml; nothing was written", folder.string()),
                   "name a new or empty folder");
  }
  if (error) {
    throw service::Failure(service::FailureKind::io,
                           {"cannot-read", fmt::format("the folder {} cannot be read", folder.string()), ""});
  }
}

std::vector<std::string> write_starter(const fs::path& folder, service::Day begun) {
  constexpr std::string_view hint = "make room or choose another place, then give the command again";
  std::vector<std::string> made{"fleet.yaml"};
  for (const StarterFile& file : beside_the_fleet) {
    make_folder((folder / file.name).parent_path());
    std::error_code error;
    if (!fs::exists(folder / file.name, error)) write_new(folder / file.name, file.text, hint, 0644);
    made.emplace_back(file.name);
  }
  write_new(folder / "fleet.yaml", fleet_begun_on(begun), hint, 0644);
  return made;
}

}  // namespace

int new_fleet(Context& context) {
  if (context.arguments.has("from")) return take_over_fleet(context);
  insist_on_from(context.arguments);
  const std::string& written = context.arguments.words[0];
  const fs::path folder = (context.world.folder / written).lexically_normal();
  std::error_code error;
  insist_on_folder(folder);
  if (fs::exists(fs::symlink_status(folder / "record.db", error))) {
    const bool whole = fs::exists(folder / "fleet.yaml", error);
    refuse_to_make("record-exists", fmt::format("{} has a record already; nothing was changed", folder.string()),
                   whole ? fmt::format("use it as it is: {} due", command_about(written))
                         : "it has no fleet.yaml: put that back; or where `new --from FILE` was cut short, give the "
                           "same command again");
  }
  std::vector<std::string> made;
  if (!fs::exists(folder / "fleet.yaml", error)) {
    make_folder(folder);
    insist_on_empty(folder);
    const service::Day today = day_option(context.arguments, "as-of", day_in_zone(context.world.milliseconds(), ""));
    made = write_starter(folder, service::add_months(today, -1));
  }
  service::Record::create(folder / "record.db");
  made.emplace_back("record.db");
  context.stored = true;
  put_answer(context, new_formats, MadeAnswer{written, made});
  return 0;
}

}  // namespace cli
