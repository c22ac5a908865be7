#include "record/files.h"

#include <fcntl.h>
#include <fmt/format.h>
#include <sys/stat.h>
#include <unistd.h>

#include <cerrno>
#include <cstdio>
#include <cstdlib>

#include "record/errors.h"

namespace service::record {
namespace {

namespace fs = std::filesystem;

[[noreturn]] void fail_to_make(const fs::path& file, int error) {
  const std::string name = name_of(file);
  switch (error) {
    case EEXIST:
      throw Failure(Trouble::bad_data, {"file-exists", fmt::format("{} exists already", name),
                                        "it is left as it is; give another name, or move it away first"});
    case ENOENT:
    case ENOTDIR:
      throw Failure(Trouble::not_found,
                    {"no-folder", fmt::format("there is no folder to hold {}", name), "make the folder first"});
    case ENOSPC:
    case EDQUOT:
      throw Failure(Trouble::io, {"disk-full", fmt::format("there is no room left on the disk of {}", name),
                                  "make room, then try again"});
    default:
      throw Failure(Trouble::io,
                    {"cannot-create", fmt::format("{} cannot be made", name), "look at the permissions of its folder"});
  }
}

[[noreturn]] void fail_to_sync(const fs::path& file) {
  throw Failure(Trouble::io, {"disk-error", fmt::format("the disk would not confirm that it holds {}", name_of(file)),
                              "look at the disk, then try again"});
}

// In one step, and never over another file.
void rename_to_new(const fs::path& from, const fs::path& to) {
  if (::renameat2(AT_FDCWD, from.c_str(), AT_FDCWD, to.c_str(), RENAME_NOREPLACE) == 0) return;
  if (errno != EINVAL && errno != ENOSYS) fail_to_make(to, errno);
  // A file system that cannot do both at once: look first.
  refuse_existing(to);
  if (::rename(from.c_str(), to.c_str()) != 0) fail_to_make(to, errno);
}

}  // namespace

NewFile::NewFile(const fs::path& target) : target_(target) {
  refuse_existing(target);
  // Under a name that nobody has: what a killed command left lying does not stand in the way of the next one.
  std::string name = target.string() + ".part-XXXXXX";
  descriptor_ = ::mkostemp(name.data(), O_CLOEXEC);
  if (descriptor_ < 0) fail_to_make(target, errno);
  file_ = name;
  // Gives back what a strange umask took away. A file system without permissions refuses, and has none to give.
  if (::fchmod(descriptor_, S_IRUSR | S_IWUSR) != 0 && errno != EPERM && errno != ENOTSUP) {
    const int error = errno;
    remove();
    fail_to_make(target, error);
  }
}

NewFile::~NewFile() {
  if (!kept_) remove();
}

// The descriptor is closed last: closing it earlier would drop locks that others of this process hold on the file.
void NewFile::remove() noexcept {
  std::error_code ignored;
  fs::remove(fs::path(file_) += "-journal", ignored);
  fs::remove(file_, ignored);
  if (descriptor_ >= 0) ::close(descriptor_);
  descriptor_ = -1;
}

void NewFile::keep() {
  if (::fsync(descriptor_) != 0) fail_to_sync(target_);
  rename_to_new(file_, target_);
  file_ = target_;
  sync_folder_of(file_);
  ::close(descriptor_);
  descriptor_ = -1;
  kept_ = true;
}

void refuse_existing(const fs::path& file) {
  std::error_code error;
  if (fs::exists(fs::symlink_status(file, error))) fail_to_make(file, EEXIST);
}

void sync_folder_of(const fs::path& file) {
  const fs::path folder = file.has_parent_path() ? file.parent_path() : fs::path(".");
  const int descriptor = ::open(folder.c_str(), O_RDONLY | O_DIRECTORY | O_CLOEXEC);
  if (descriptor < 0) fail_to_sync(file);
  const bool synced = ::fsync(descriptor) == 0 || errno == EINVAL;  // EINVAL: no such thing on this file system
  ::close(descriptor);
  if (!synced) fail_to_sync(file);
}

}  // namespace service::record
