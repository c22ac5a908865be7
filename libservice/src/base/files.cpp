#include "service/files.h"

#include <fcntl.h>
#include <unistd.h>

#include <cerrno>

#include "base/pending_file.h"
#include "service/base.h"

namespace service {

void write_file(const std::filesystem::path& file, std::string_view text, unsigned mode, IfThere if_there,
                std::string_view hint) {
  write_file(
      file, [&](const Put& put) { put(text); }, mode, if_there, hint);
}

void write_file(const std::filesystem::path& file, const Pieces& pieces, unsigned mode, IfThere if_there,
                std::string_view hint) {
  PendingFile pending(file, mode);
  int error = pending.error();
  if (error == 0) {
    pieces([&](std::string_view piece) {
      if (error == 0) error = pending.write(piece);
    });
  }
  if (error == 0) error = pending.keep(if_there);
  if (error == 0) return;
  throw Failure(FailureKind::io, {"cannot-write", file.string() + " cannot be written: " + reason_not_written(error),
                                  std::string(hint)});
}

std::filesystem::path folder_of(const std::filesystem::path& file) {
  return file.has_parent_path() ? file.parent_path() : std::filesystem::path{"."};
}

int sync_folder(const std::filesystem::path& folder) {
  const int descriptor = ::open(folder.c_str(), O_RDONLY | O_DIRECTORY | O_CLOEXEC);
  if (descriptor < 0) return errno == EACCES ? 0 : errno;  // may be written and not read: the system does it in time
  const int error = ::fsync(descriptor) == 0 || errno == EINVAL ? 0 : errno;
  ::close(descriptor);
  return error;
}

std::string reason_not_written(int error) {
  switch (error) {
    case ENOSPC:
    case EDQUOT:
      return "the disk is full";
    case EFBIG:
      return "the file would be too large";
    case EBADF:
      return "it is closed";
    case EACCES:
    case EPERM:
    case EROFS:
      return "writing is not allowed there";
    case ENOENT:
    case ENOTDIR:
      return "there is no such folder";
    case EISDIR:
      return "there is a folder of that name";
    case EEXIST:
      return "it exists already";
    case EIO:
      return "the device reports an error";
    default:
      return "system error " + std::to_string(error);
  }
}

}  // namespace service
