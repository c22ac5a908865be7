// The only place of the fleet room that touches the disk: the folder's files into memory.
#include <fmt/format.h>

#include <algorithm>
#include <cerrno>
#include <cstdio>
#include <memory>
#include <system_error>

#include "base/pending_file.h"
#include "fleet/diagnostics.h"
#include "fleet/guard.h"
#include "fleet/travel_table.h"
#include "service/fleet.h"

namespace service {
namespace fleet {
namespace {

namespace fs = std::filesystem;

std::string reason_of(const std::error_code& problem) {
  if (problem == std::errc::permission_denied) return "you may not";
  if (problem == std::errc::not_a_directory) return "a part of its path is no folder";
  if (problem == std::errc::too_many_symbolic_link_levels) return "its links lead in a circle";
  if (problem == std::errc::no_such_file_or_directory) return "a link leads nowhere";
  if (problem == std::errc::io_error) return "the device reports an error";
  return "system error " + std::to_string(problem.value());
}

std::string reason_of(int error) { return reason_of(std::error_code(error, std::generic_category())); }

[[noreturn]] void fail_to_read(const fs::path& file, std::string_view reason) {
  throw Failure(
      FailureKind::io,
      Diagnostic{code::unreadable_file, fmt::format("{} cannot be read: {}", cleaned(file.generic_string()), reason),
                 "check that it is a file and that you may read it"});
}

// Reads at most one byte more than the limit: enough for the reader to see that it is too large.
std::string text_of(const fs::path& file, std::size_t limit) {
  std::error_code problem;
  const fs::file_status status = fs::status(file, problem);
  if (problem) fail_to_read(file, reason_of(problem));
  // Anything else might never end, or end the program's patience: a pipe, a device, a folder.
  if (!fs::is_regular_file(status)) fail_to_read(file, "it is not a file");
  const std::unique_ptr<std::FILE, int (*)(std::FILE*)> stream(std::fopen(file.c_str(), "rb"), std::fclose);
  if (!stream) fail_to_read(file, reason_of(errno));
  std::setbuf(stream.get(), nullptr);  // it is read in one piece
  // One byte more than it is said to hold, to see its end; a file that grows meanwhile takes another turn.
  std::uintmax_t told = fs::file_size(file, problem);
  if (problem) told = 0;
  std::string text;
  std::size_t have = 0;
  do {
    const std::size_t most = limit + 1 - have;
    text.resize(have + std::min<std::uintmax_t>(std::max<std::uintmax_t>(told, 4095) + 1, most));
    const std::size_t got = std::fread(text.data() + have, 1, text.size() - have, stream.get());
    have += got;
    if (got == 0) break;
  } while (have <= limit && have == text.size());
  text.resize(have);
  if (std::ferror(stream.get()) != 0) fail_to_read(file, reason_of(errno));
  return text;
}

bool is_there(const fs::path& path) {
  std::error_code problem;
  const fs::file_status status =
      fs::symlink_status(path, problem);  // a link that leads nowhere is there, and unreadable
  if (problem && status.type() != fs::file_type::not_found) fail_to_read(path, reason_of(problem));
  return status.type() != fs::file_type::not_found;
}

bool is_schedule_file(const fs::path& name) {
  std::string suffix = name.extension().string();
  std::transform(suffix.begin(), suffix.end(), suffix.begin(),
                 [](char c) { return c >= 'A' && c <= 'Z' ? static_cast<char>(c - 'A' + 'a') : c; });
  // A name that begins with a dot is an editor's, not ours.
  return (suffix == ".yaml" || suffix == ".yml") && !name.string().starts_with('.');
}

void load_schedules(const fs::path& folder, FleetFiles& files) {
  const fs::path schedules = folder / "schedules";
  if (!is_there(schedules)) return;
  std::error_code problem;
  fs::directory_iterator entries(schedules, problem);
  if (problem) fail_to_read(schedules, reason_of(problem));
  while (entries != fs::directory_iterator()) {
    const fs::path name = entries->path().filename();
    if (is_schedule_file(name)) {
      files.texts.emplace("schedules/" + name.string(), text_of(schedules / name, yaml_limit));
    }
    entries.increment(problem);
    if (problem) fail_to_read(schedules, reason_of(problem));
  }
}

constexpr const char* compiled_name = ".compiled-fleet";

// Never a reason to fail: without it, or with half of it, the files are parsed.
std::string compiled_text_in(const fs::path& folder) {
  std::error_code problem;
  if (fs::status(folder / compiled_name, problem).type() != fs::file_type::regular) return {};
  try {
    return text_of(folder / compiled_name, compiled_limit);
  } catch (const Failure&) {
    return {};
  }
}

}  // namespace
}  // namespace fleet

FleetFiles load_fleet_files(const std::filesystem::path& folder) {
  std::error_code problem;
  const std::string shown = cleaned(folder.generic_string());
  if (!std::filesystem::is_directory(folder, problem)) {
    if (problem && problem != std::errc::no_such_file_or_directory && problem != std::errc::not_a_directory) {
      fleet::fail_to_read(folder, fleet::reason_of(problem));
    }
    throw Failure(FailureKind::not_found, Diagnostic{fleet::code::no_such_folder,
                                                     fmt::format("there is no folder {}", shown),
                                                     "check the path",
                                                     std::nullopt,
                                                     Severity::error,
                                                     {{CureKind::make_fleet}}});
  }
  if (!fleet::is_there(folder / "fleet.yaml")) {
    Diagnostic none{fleet::code::no_fleet_file, fmt::format("there is no fleet.yaml in {}", shown), ""};
    if (fleet::is_there(folder / "fleet.yml")) {
      none.hint = "rename fleet.yml to fleet.yaml";
    } else {
      none.cures = {{CureKind::make_fleet}};
    }
    throw Failure(FailureKind::not_found, std::move(none));
  }
  FleetFiles files;
  files.folder = folder;
  files.texts.emplace("fleet.yaml", fleet::text_of(folder / "fleet.yaml", fleet::yaml_limit));
  if (fleet::is_there(folder / "register.csv")) {
    files.texts.emplace("register.csv", fleet::text_of(folder / "register.csv", fleet::register_limit));
  }
  // A name that leads out of the folder is not followed; reading the fleet says what is wrong with it.
  if (const std::string table = fleet::travel_table_of(files.texts["fleet.yaml"]);
      !table.empty() && fleet::is_there(folder / table)) {
    files.texts.emplace(table, fleet::text_of(folder / table, fleet::register_limit));
  }
  fleet::load_schedules(folder, files);
  files.compiled = fleet::compiled_text_in(folder);
  return files;
}

void keep_compiled(const std::filesystem::path& folder, const FleetFiles& files, const Fleet& fleet) noexcept {
  try {
    if (is_compiled(files)) return;
    const std::string text = compile_fleet(files, fleet);
    if (text.empty()) return;
    constexpr unsigned for_its_owner_alone = 0600;  // as the record is
    PendingFile pending(folder / fleet::compiled_name, for_its_owner_alone);
    pending.claim();
    pending.remove_leftovers();
    // Nobody waits for the disk: what a power cut leaves of it does not agree with its checksum, and is not used.
    if (pending.error() == 0 && pending.write(text) == 0) pending.take_name(IfThere::replace);
  } catch (const std::exception&) {  // no memory, say: the next reading parses
  }
}

}  // namespace service
