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

void Making::record(const std::function<void(const fs::path& record)>& make) {
  make(folder_ / "record.db");
  made_.emplace_back("record.db");
}

// Whoever makes the same fleet at the same time finds this one made, so nothing that he still needs is taken away.
void Making::keep() {
  kept_ = true;
  std::error_code ignored;
  for (const std::string& made : made_) {
    const fs::path file = folder_ / made;
    const std::string begins = '.' + file.filename().string() + '.';
    std::vector<fs::path> left;
    for (fs::directory_iterator each(folder_of(file), ignored), end; !ignored && each != end; each.increment(ignored)) {
      const std::string name = each->path().filename().string();
      if (name.starts_with(begins) && is_temporary(name)) left.push_back(each->path());
    }
    for (const fs::path& one : left) fs::remove(one, ignored);
  }
}

}  // namespace cli
