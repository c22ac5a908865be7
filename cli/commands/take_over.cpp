// `new DIR --from FILE`: a fleet out of a spreadsheet, all its files or none.
#include <fmt/format.h>

#include <algorithm>
#include <optional>
#include <system_error>

#include "answering.h"
#include "commands/commands.h"
#include "commands/making.h"
#include "commands/starter.h"
#include "commands/told_dialect.h"
#include "commands/writing.h"
#include "mistakes.h"
#include "output.h"
#include "render/new/new.h"
#include "schemas.gen.h"
#include "service/taking_over.h"
#include "session.h"
#include "today.h"

namespace cli {
namespace {

namespace fs = std::filesystem;

// `Maschine=name, Stunden=at`. A heading may hold a comma: what has no `=` yet goes on in the next piece.
std::vector<std::pair<std::string, std::string>> told_columns(const Arguments& arguments) {
  const auto trimmed = [](std::string text) {
    text.erase(0, std::min(text.find_first_not_of(' '), text.size()));
    while (text.ends_with(' ')) text.pop_back();
    return text;
  };
  std::vector<std::pair<std::string, std::string>> columns;
  for (const std::string& written : arguments.values("columns")) {
    std::string piece;
    for (std::size_t from = 0; from <= written.size();) {
      const std::size_t comma = std::min(written.find(',', from), written.size());
      piece += written.substr(from, comma - from);
      from = comma + 1;
      const std::size_t equals = piece.rfind('=');
      if (equals != std::string::npos) {
        columns.emplace_back(trimmed(piece.substr(0, equals)), trimmed(piece.substr(equals + 1)));
        piece.clear();
      } else {
        piece += ',';
      }
    }
    if (!piece.empty()) {
      wrong("bad-columns", fmt::format("`--columns {}` is not understood", written),
            "write heading and column: --columns \"Maschine=name, Stunden=at\"");
    }
  }
  return columns;
}

std::string starter_called_name() {
  constexpr std::string_view name = "schedule: example\n";
  std::string text(starter_schedule);
  return text.replace(text.find(name), name.size(), "schedule: NAME\n");
}

std::map<std::string, std::string> schedules_in(const fs::path& folder) {
  std::map<std::string, std::string> texts;
  std::error_code error;
  for (fs::directory_iterator entry(folder / "schedules", error), end; !error && entry != end; entry.increment(error)) {
    const std::string name = entry->path().filename().string();
    if (name.ends_with(".yaml") && !is_temporary(name)) texts["schedules/" + name] = read_file(entry->path());
  }
  return texts;
}

constexpr const char* record_file = "record.db";

// In the folder may stand schedules, the spreadsheet itself, and what a try left that was cut short.
void insist_on_room(const fs::path& folder, const fs::path& from, const service::TakenOver& taken) {
  std::error_code error;
  if (!fs::exists(fs::symlink_status(folder, error))) return;
  const auto may_stay = [&](const fs::directory_entry& entry) {
    const std::string name = entry.path().lexically_relative(folder).generic_string();
    if (is_temporary(entry.path().filename().string())) return true;
    if (entry.is_directory(error)) return name == "schedules" || name == ".schemas";
    if (!entry.is_regular_file(error)) return false;
    if (name == record_file) return service::holds_only_taken_over(entry.path());
    if (name == fleet_schema_file || name == schedule_schema_file) return true;
    if (name.starts_with("schedules/") && name.ends_with(".yaml")) return true;
    if (fs::equivalent(entry.path(), from, error)) return true;
    const auto file = taken.files.find(name);
    return file != taken.files.end() && read_file(entry.path()) == file->second;
  };
  for (fs::recursive_directory_iterator entry(folder, error), end; !error && entry != end; entry.increment(error)) {
    if (may_stay(*entry)) continue;
    refuse_to_make("not-empty",
                   fmt::format("{} holds {} and no fleet.yaml; nothing was written", folder.string(),
                               entry->path().lexically_relative(folder).generic_string()),
                   "name a new or empty folder; only the spreadsheet and schedules/ may be there before");
  }
  if (error) {
    throw service::Failure(service::FailureKind::io,
                           {"cannot-read", fmt::format("the folder {} cannot be read", folder.string()), ""});
  }
}

// Of a try that was cut short: until fleet.yaml is there nobody could write into its record but that try.
void clear_left_over(const fs::path& folder) {
  std::error_code error;
  if (fs::remove(folder / record_file, error)) sync_folder(folder);
}

service::TakeOverAsk ask_of(const Context& context, const fs::path& folder, const std::string& file) {
  const Arguments& arguments = context.arguments;
  service::TakeOverAsk ask;
  ask.file = file;
  std::error_code error;
  ask.fleet_name = (fs::absolute(folder, error).lexically_normal() / "").parent_path().filename().string();
  if (ask.fleet_name.empty()) ask.fleet_name = "My fleet";
  ask.columns = told_columns(arguments);
  ask.told = told_dialect(arguments);
  ask.today = day_option(arguments, "as-of", day_in_zone(context.world.milliseconds(), ""));
  if (arguments.has("on")) ask.read_on = day_option(arguments, "on", ask.today);
  ask.skip_bad = arguments.has("skip-bad");
  ask.schedules = schedules_in(folder);
  ask.starter = starter_called_name();
  if (const auto schedule = arguments.value("schedule")) {
    if (!service::is_name(*schedule)) {
      wrong("bad-name", fmt::format("`--schedule {}` is not a name", *schedule),
            "write lower-case letters, digits and hyphens, such as field-tractor");
    }
    ask.schedule = *schedule;
  }
  return ask;
}

// fleet.yaml last: until that is there, no question is answered from half a fleet, and the same command can be given
// again.
std::vector<std::string> make(Context& context, const fs::path& folder, const service::TakenOver& taken) {
  clear_left_over(folder);
  Making making(folder);
  std::error_code error;
  const auto write = [&](const std::string& name, std::string_view text) {
    if (!fs::exists(folder / name, error)) making.file(name, text);
  };
  for (const auto& [name, text] : taken.files) {
    if (name != "fleet.yaml") write(name, text);
  }
  write(fleet_schema_file, fleet_schema);
  write(schedule_schema_file, schedule_schema);
  making.record([&](const fs::path& record) {
    make_record(taken, record, {entered_by(context.world), context.world.milliseconds, context.world.draw});
  });
  making.file("fleet.yaml", taken.files.at("fleet.yaml"));
  making.keep();
  return making.made();
}

}  // namespace

void insist_on_from(const Arguments& arguments) {
  for (const char* option : {"columns", "schedule", "on", "decimal", "dates", "skip-bad", "dry-run"}) {
    if (arguments.has(option)) {
      wrong("options-clash", fmt::format("`--{}` belongs to `--from`", option), "give both, or neither");
    }
  }
}

int take_over_fleet(Context& context) {
  const std::string& written = context.arguments.words[0];
  const fs::path folder = (context.world.folder / written).lexically_normal();
  insist_on_folder(folder);
  std::error_code error;
  if (fs::exists(fs::symlink_status(folder / "fleet.yaml", error))) {
    refuse_to_make(
        "fleet-exists", fmt::format("{} has a fleet.yaml already; nothing was written", folder.string()),
        fmt::format("name a new folder; or add the machines to its register.csv by hand, and their readings with "
                    "`{} import FILE`",
                    command_about(written)));
  }
  const std::string from = context.arguments.value("from").value_or("");
  const bool from_input = std::string_view(from) == "-";
  const std::string text = from_input ? context.world.read_input() : read_file(context.world.folder / from);
  const service::TakeOverAsk ask = ask_of(context, folder, from_input ? "standard input" : from);
  MadeAnswer answer{written, {}, take_over(text, ask), context.arguments.has("dry-run")};
  insist_on_room(folder, context.world.folder / from, *answer.taken);
  if (answer.dry_run) {
    for (const auto& [name, unused] : answer.taken->files) answer.files.push_back(name);
    answer.files.emplace_back(record_file);
  } else {
    answer.files = make(context, folder, *answer.taken);
    context.stored = true;
  }
  put_answer(context, new_formats, answer);
  return 0;
}

}  // namespace cli
