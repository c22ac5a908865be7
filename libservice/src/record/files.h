// Files that are made here: readable by their owner alone, never in place of another, and on the disk before we say so.
#pragma once

#include <filesystem>
#include <optional>

#include "base/pending_file.h"

namespace service::record {

// A file that was not there before. It is filled under another name beside its own, so that under its own it is whole
// or absent. Unless it is kept, it is removed again, with any journal beside it.
class NewFile {
 public:
  explicit NewFile(const std::filesystem::path& target);
  ~NewFile();
  NewFile(const NewFile&) = delete;
  NewFile& operator=(const NewFile&) = delete;

  // Where to fill it.
  const std::filesystem::path& path() const { return file_->path(); }

  // Gives it its name. Returns when file and folder are on the disk.
  void keep();

 private:
  std::filesystem::path target_;
  std::optional<PendingFile> file_;
  bool kept_ = false;
};

// Fails with bad_data where there is anything of that name.
void refuse_existing(const std::filesystem::path& file);

}  // namespace service::record
