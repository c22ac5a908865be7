#include "record/files.h"

#include <fmt/format.h>

#include <cerrno>

#include "record/errors.h"

namespace service::record {
namespace {

namespace fs = std::filesystem;

[[noreturn]] void fail_to_make(const fs::path& file, int error) {
  const std::string name = name_of(file);
  switch (error) {
    case EEXIST:
      throw Failure(FailureKind::bad_data, {"file-exists", fmt::format("{} exists already", name),
                                            "it is left as it is; give another name, or move it away first"});
    case ENOENT:
    case ENOTDIR:
      throw Failure(FailureKind::not_found,
                    {"no-folder", fmt::format("there is no folder to hold {}", name), "make the folder first"});
    case ENOSPC:
    case EDQUOT:
      throw Failure(FailureKind::io, {"disk-full", fmt::format("there is no room left on the disk of {}", name),
                                      "make room, then try again"});
    case EIO:
      throw Failure(FailureKind::io, {"disk-error", fmt::format("the disk would not confirm that it holds {}", name),
                                      "look at the disk, then try again"});
    default:
      throw Failure(FailureKind::io,
                    {"cannot-create", fmt::format("{} cannot be made", name), "look at the permissions of its folder"});
  }
}

}  // namespace

NewFile::NewFile(const fs::path& target) : target_(target) {
  refuse_existing(target);
  constexpr unsigned for_its_owner_alone = 0600;
  file_.emplace(target, for_its_owner_alone);
  if (file_->error() != 0) fail_to_make(target, file_->error());
}

NewFile::~NewFile() {
  std::error_code ignored;
  if (!kept_) fs::remove(fs::path(file_->path()) += "-journal", ignored);
}

void NewFile::keep() {
  if (const int error = file_->keep(IfThere::refuse); error != 0) fail_to_make(target_, error);
  kept_ = true;
}

void refuse_existing(const fs::path& file) {
  std::error_code error;
  if (fs::exists(fs::symlink_status(file, error))) fail_to_make(file, EEXIST);
}

}  // namespace service::record
