// `new`: a starter fleet and its empty record. What exists is left alone.
#include "render/new/new.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <system_error>

#include "answering.h"
#include "commands/commands.h"
#include "commands/starter.h"
#include "output.h"
#include "schemas.gen.h"
#include "service/record.h"
#include "session.h"
#include "today.h"

namespace cli {
namespace {

namespace fs = std::filesystem;

[[noreturn]] void refuse(std::string code, std::string message, std::string hint) {
  throw service::Failure(service::FailureKind::bad_data, {std::move(code), std::move(message), std::move(hint)});
}

void make_folder(const fs::path& folder) {
  std::error_code error;
  if (fs::is_directory(folder, error)) return;
  if (const fs::path above = folder.parent_path(); !above.empty() && above != folder) make_folder(above);
  fs::create_directory(folder, error);
  if (error) {
    throw service::Failure(service::FailureKind::io,
                           {"cannot-write", fmt::format("the folder {} cannot be made", folder.string()),
                            "choose a place where you may write"});
  }
  sync_folder(folder_of(folder));
}

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

constexpr std::array<StarterFile, 3> beside_the_fleet{{
    {"schedules/example.yaml", starter_schedule},
    {".schemas/fleet.schema.json", fleet_schema},
    {".schemas/schedule.schema.json", schedule_schema},
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
    refuse("not-empty", fmt::format("{} holds other files and no fleet.yaml; nothing was written", folder.string()),
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
