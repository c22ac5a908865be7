#include "output.h"

#include <fcntl.h>
#include <fmt/format.h>
#include <sys/stat.h>
#include <unistd.h>

#include <array>
#include <cerrno>
#include <optional>
#include <string>

#include "service/base.h"
#include "service/calendar.h"
#include "service/overdue_news.h"

namespace cli {
namespace {

using service::Failure;
using service::FailureKind;

class File {
 public:
  explicit File(int number) : number_(number) {}
  File(const File&) = delete;
  File& operator=(const File&) = delete;
  ~File() {
    if (number_ >= 0) ::close(number_);
  }
  int number() const { return number_; }

 private:
  int number_;
};

}  // namespace

void write_out(const World& world, const Pieces& pieces, std::string_view hint) {
  int error = 0;
  pieces([&](std::string_view piece) {
    if (error == 0 && !piece.empty()) error = world.write_output(piece);
  });
  if (error == 0 || error == EPIPE) return;
  throw Failure(FailureKind::io,
                {"cannot-write",
                 fmt::format("the answer cannot be written to standard output: {}", service::reason_not_written(error)),
                 std::string(hint)});
}

namespace {

// The files that people write for a fleet, and those that the program keeps beside them.
bool belongs_to_a_fleet(const std::filesystem::path& file) {
  const std::string name = file.filename().string();
  const std::string folder = folder_of(std::filesystem::absolute(file).lexically_normal()).filename().string();
  const bool yaml = name.ends_with(".yaml") || name.ends_with(".yml");
  return name == "fleet.yaml" || name == "register.csv" || name == "travel.csv" || name.starts_with("record.db") ||
         name == ".compiled-fleet" || name == service::event_numbers_file || name.starts_with(service::handed_file) ||
         name == service::backed_up_file || folder == ".schemas" || (folder == "schedules" && yaml);
}

// Up to so many bytes; fewer at the end of the file. Null: it cannot be read.
std::optional<std::size_t> read_block(int file, char* block, std::size_t most) {
  std::size_t have = 0;
  while (have < most) {
    const ssize_t got = ::read(file, block + have, most - have);
    if (got < 0 && errno == EINTR) continue;
    if (got < 0) return std::nullopt;
    if (got == 0) break;
    have += static_cast<std::size_t>(got);
  }
  return have;
}

// Whether it is that text and nothing more. One that cannot be read is to be replaced.
bool holds(const std::filesystem::path& file, const Pieces& pieces) {
  const File opened(::open(file.c_str(), O_RDONLY | O_CLOEXEC));
  if (opened.number() < 0) return false;
  bool same = true;
  std::string there;
  pieces([&](std::string_view piece) {
    if (!same) return;
    there.resize(piece.size());
    same = read_block(opened.number(), there.data(), there.size()) == piece.size() && there == piece;
  });
  there.resize(1);
  return same && read_block(opened.number(), there.data(), there.size()) == 0;
}

}  // namespace

void insist_replaceable(const std::filesystem::path& file) {
  if (belongs_to_a_fleet(file)) {
    throw Failure(FailureKind::usage,
                  {"own-file", fmt::format("{} belongs to a fleet and is not overwritten", file.string()),
                   "choose another name for the answer"});
  }
  struct stat there {};
  if (::lstat(file.c_str(), &there) == 0 && !S_ISREG(there.st_mode)) {
    throw Failure(FailureKind::usage,
                  {"not-a-file", fmt::format("{} is not a plain file, so it is not replaced", file.string()),
                   "name the file itself, or send standard output there with >"});
  }
}

void write_replacing(const std::filesystem::path& file, const Pieces& pieces, std::string_view hint) {
  insist_replaceable(file);
  struct stat before {};
  const bool exists = ::lstat(file.c_str(), &before) == 0;
  // Whoever watches the file, or serves it, sees no change where there is none.
  if (exists && holds(file, pieces)) return;
  // What machines need is their owner's business, so a new file is for him alone.
  service::write_file(file, pieces, exists ? before.st_mode & 0777U : 0600U, service::IfThere::replace, hint);
}

std::filesystem::path temporary_folder(const World& world) {
  const auto named = world.variable("TMPDIR");
  return named && !named->empty() ? *named : "/tmp";
}

void write_new(const std::filesystem::path& file, std::string_view text, std::string_view hint, unsigned mode) {
  service::write_file(file, text, mode, service::IfThere::refuse, hint);
}

bool begins_with(const std::filesystem::path& file, std::string_view text) {
  const File opened(::open(file.c_str(), O_RDONLY | O_CLOEXEC | O_NONBLOCK));
  std::string begun(text.size(), '\0');
  const ssize_t got = opened.number() < 0 ? -1 : ::read(opened.number(), begun.data(), begun.size());
  // Who reads the file next says that it is not there, is a folder, or has nothing to give yet.
  const bool left_to_others = got >= 0 || errno == ENOENT || errno == ENOTDIR || errno == EISDIR || errno == EAGAIN;
  if (!left_to_others) {
    throw Failure(
        FailureKind::io,
        {"cannot-read", fmt::format("{} cannot be read: {}", file.string(), service::reason_not_written(errno)), ""});
  }
  return got == static_cast<ssize_t>(text.size()) && begun == text;
}

std::string read_file(const std::filesystem::path& file) {
  const File opened(::open(file.c_str(), O_RDONLY | O_CLOEXEC));
  if (opened.number() < 0) {
    const bool missing = errno == ENOENT || errno == ENOTDIR;
    throw Failure(
        missing ? FailureKind::not_found : FailureKind::io,
        {missing ? "no-file" : "cannot-read",
         missing ? fmt::format("there is no file {}", file.string()) : fmt::format("{} cannot be read", file.string()),
         ""});
  }
  struct stat status {};
  if (::fstat(opened.number(), &status) == 0 && S_ISDIR(status.st_mode)) {
    throw Failure(FailureKind::bad_data,
                  {"is-folder", fmt::format("{} is a folder", file.string()), "name a file in it"});
  }
  std::string text;
  std::array<char, 65536> block{};
  for (;;) {
    if (text.size() > largest_input) {
      throw Failure(FailureKind::bad_data,
                    {"file-too-large", fmt::format("{} is larger than {} MiB", file.string(), largest_input >> 20U),
                     "check that it is the right file; a large one can be read in parts"});
    }
    const ssize_t got = ::read(opened.number(), block.data(), block.size());
    if (got < 0 && errno == EINTR) continue;
    if (got < 0) throw Failure(FailureKind::io, {"cannot-read", fmt::format("{} cannot be read", file.string()), ""});
    if (got == 0) return text;
    text.append(block.data(), static_cast<std::size_t>(got));
  }
}

}  // namespace cli
