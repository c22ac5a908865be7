#include "base/pending_file.h"

#include <fcntl.h>
#include <sys/file.h>
#include <sys/stat.h>
#include <unistd.h>

#include <cerrno>
#include <cstdio>
#include <cstdlib>
#include <string>

namespace service {
namespace {

namespace fs = std::filesystem;

constexpr std::string_view temporary_end = ".new";
constexpr std::string_view made_up_end = ".XXXXXX";
constexpr std::size_t random_letters = made_up_end.size() - 1;

}  // namespace

bool is_temporary(std::string_view name) {
  constexpr std::string_view journal = "-journal";  // of a record that was being made
  if (name.ends_with(journal)) name.remove_suffix(journal.size());
  return name.starts_with('.') && name.ends_with(temporary_end);
}

PendingFile::PendingFile(fs::path target, unsigned mode) : target_(std::move(target)) {
  const std::string name = target_.filename().string();
  std::string made_up =
      (folder_of(target_) / ((name.starts_with('.') ? "" : ".") + name + std::string(made_up_end))).string();
  made_up += temporary_end;
  descriptor_ = ::mkostemps(made_up.data(), static_cast<int>(temporary_end.size()), O_CLOEXEC);
  if (descriptor_ < 0) {
    error_ = errno;
    return;
  }
  file_ = made_up;
  // Gives back what a strange umask took away. A file system without permissions refuses, and has none to give.
  if (::fchmod(descriptor_, mode) != 0 && errno != EPERM && errno != ENOTSUP) error_ = errno;
}

// The descriptor is closed last: closing it earlier would drop locks that others of this process hold on the file.
PendingFile::~PendingFile() {
  if (descriptor_ < 0) return;
  if (!named_) ::unlink(file_.c_str());
  ::close(descriptor_);
}

int PendingFile::write(std::string_view text) {
  while (!text.empty()) {
    const ssize_t written = ::write(descriptor_, text.data(), text.size());
    if (written < 0 && errno == EINTR) continue;
    if (written < 0) return errno;
    text.remove_prefix(static_cast<std::size_t>(written));
  }
  return 0;
}

void PendingFile::claim() const { ::flock(descriptor_, LOCK_EX | LOCK_NB); }

// The lock of whoever was killed went with him.
void PendingFile::remove_leftovers() const {
  const std::string mine = fs::path(file_).filename().string();
  if (mine.empty()) return;
  const std::size_t told = mine.size() - temporary_end.size() - random_letters;
  std::error_code ignored;
  for (fs::directory_iterator each(folder_of(target_), ignored), end; !ignored && each != end;
       each.increment(ignored)) {
    const std::string name = each->path().filename().string();
    if (name.size() != mine.size() || name == mine) continue;
    if (name.compare(0, told, mine, 0, told) != 0 || !is_temporary(name)) continue;
    const int other = ::open(each->path().c_str(), O_RDONLY | O_NOFOLLOW | O_NONBLOCK | O_CLOEXEC);
    if (other < 0) continue;
    if (::flock(other, LOCK_SH | LOCK_NB) == 0) ::unlink(each->path().c_str());
    ::close(other);
  }
}

int PendingFile::keep(IfThere if_there) {
  if (::fsync(descriptor_) != 0) return errno;
  if (const int error = take_name(if_there); error != 0) return error;
  const int error = sync_folder(folder_of(target_));
  if (error != 0 && if_there == IfThere::refuse) ::unlink(target_.c_str());
  return error;
}

int PendingFile::take_name(IfThere if_there) {
  if (if_there == IfThere::refuse) {
    // In one step, and never over another file.
    named_ = ::renameat2(AT_FDCWD, file_.c_str(), AT_FDCWD, target_.c_str(), RENAME_NOREPLACE) == 0;
    if (named_) return 0;
    if (errno != EINVAL && errno != ENOSYS) return errno;
    // A file system that cannot do both at once: look first.
    struct stat there {};
    if (::lstat(target_.c_str(), &there) == 0) return EEXIST;
  }
  named_ = ::rename(file_.c_str(), target_.c_str()) == 0;
  return named_ ? 0 : errno;
}

}  // namespace service
