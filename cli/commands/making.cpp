#include "commands/making.h"

#include <fmt/format.h>

#include <system_error>
#include <utility>

#include "output.h"

namespace cli {

namespace fs = std::filesystem;

void refuse_to_make(std::string code, std::string message, std::string hint) {
  throw service::Failure(service::FailureKind::bad_data, {std::move(code), std::move(message), std::move(hint)});
}

void insist_on_folder(const fs::path& folder) {
  std::error_code error;
  const auto status = fs::status(folder, error);
  if (!fs::exists(status) || fs::is_directory(status)) return;
  refuse_to_make("not-a-folder", fmt::format("{} is not a folder", folder.string()), "name a new or empty folder");
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

Making::Making(fs::path folder) : folder_(std::move(folder)) { make_folders(folder_); }

Making::~Making() {
  if (kept_) return;
  std::error_code ignored;
  for (auto name = made_.rbegin(); name != made_.rend(); ++name) fs::remove(folder_ / *name, ignored);
  fs::remove(folder_ / "record.db-journal", ignored);
  for (auto made = folders_.rbegin(); made != folders_.rend(); ++made) fs::remove(*made, ignored);
}

void Making::make_folders(const fs::path& folder) {
  std::error_code error;
  if (folder.empty() || fs::is_directory(folder, error)) return;
  if (const fs::path above = folder.parent_path(); above != folder) make_folders(above);
  folders_.push_back(folder);
  make_folder(folder);
}

void Making::file(const std::string& name, std::string_view text) {
  make_folders((folder_ / name).parent_path());
  write_new(folder_ / name, text, "make room or choose another place, then give the command again", 0644);
  made_.push_back(name);
}

service::Record Making::record() {
  service::Record::create(folder_ / "record.db");
  made_.emplace_back("record.db");
  return service::Record::open(folder_ / "record.db", service::Access::write);
}

}  // namespace cli
