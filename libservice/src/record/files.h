// Files that are made here: readable by their owner alone, never in place of another, and on the disk before we say so.
#pragma once

#include <filesystem>

namespace service::record {

// An empty file that was not there before. Unless it is kept, it is removed again, with any journal beside it.
class NewFile {
 public:
  explicit NewFile(const std::filesystem::path& file);
  ~NewFile();
  NewFile(const NewFile&) = delete;
  NewFile& operator=(const NewFile&) = delete;

  // Returns when file and folder are on the disk.
  void keep();

  // The same under another name, in the same folder.
  void keep_as(const std::filesystem::path& name);

 private:
  void remove() noexcept;

  std::filesystem::path file_;
  int descriptor_ = -1;
  bool kept_ = false;
};

// Fails with bad_data where there is anything of that name.
void refuse_existing(const std::filesystem::path& file);

// Makes the names in a folder durable.
void sync_folder_of(const std::filesystem::path& file);

}  // namespace service::record
