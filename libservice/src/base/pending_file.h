// A file that is being made, under a name that nobody has.
#pragma once

#include <filesystem>
#include <string_view>

#include "service/files.h"

namespace service {

// Removed again, unless it took its name. What a killed command left lying does not stand in the way of the next one.
// Steps give the errno of what went wrong, or 0, for whoever asks words it.
class PendingFile {
 public:
  PendingFile(std::filesystem::path target, unsigned mode);
  ~PendingFile();
  PendingFile(const PendingFile&) = delete;
  PendingFile& operator=(const PendingFile&) = delete;

  int error() const { return error_; }  // of making it

  // Where it is until it has its name, for those who fill it by themselves.
  const std::filesystem::path& path() const { return file_; }

  int write(std::string_view text);

  // Where every maker of a target claims his file, leftovers are told from files that are still being made: those of
  // makers that were killed are removed.
  void claim() const;
  void remove_leftovers() const;

  // Gives it its name; then file and folder are on the disk. A new file that the disk would not confirm is taken away.
  int keep(IfThere if_there);

  // The same without waiting for the disk: for what can be made again.
  int take_name(IfThere if_there);

 private:
  std::filesystem::path target_;
  std::filesystem::path file_;
  int descriptor_ = -1;
  int error_ = 0;
  bool named_ = false;
};

}  // namespace service
