#include "kept_texts.h"

#include <fcntl.h>
#include <unistd.h>

#include <cerrno>
#include <cstdlib>
#include <utility>

#include "service/base.h"

namespace cli {
namespace {

// A file that nobody else can open. Negative: none.
int file_without_name(const std::filesystem::path& folder) {
  std::string name = (folder / "whichever-XXXXXX").string();
  const int file = ::mkostemp(name.data(), O_CLOEXEC);
  if (file >= 0) ::unlink(name.c_str());
  return file;
}

}  // namespace

KeptTexts::KeptTexts(std::optional<std::filesystem::path> folder, std::size_t most_in_memory)
    : folder_(std::move(folder)), most_in_memory_(most_in_memory) {}

KeptTexts::~KeptTexts() {
  if (file_ >= 0) ::close(file_);
}

KeptTexts::Place KeptTexts::add(std::string_view text) {
  if (folder_ && !in_memory_.empty() && in_memory_.size() + text.size() > most_in_memory_) {
    if (!moved_to_file()) folder_.reset();
  }
  const Place place{in_file_ + in_memory_.size(), static_cast<std::uint32_t>(text.size())};
  in_memory_ += text;
  return place;
}

// What was written of it before there was no more room stays behind the end of what counts.
bool KeptTexts::moved_to_file() {
  if (file_ < 0) file_ = file_without_name(*folder_);
  if (file_ < 0) return false;
  for (std::size_t done = 0; done < in_memory_.size();) {
    const ssize_t written =
        ::pwrite(file_, in_memory_.data() + done, in_memory_.size() - done, static_cast<off_t>(in_file_ + done));
    if (written < 0 && errno == EINTR) continue;
    if (written <= 0) return false;
    done += static_cast<std::size_t>(written);
  }
  in_file_ += in_memory_.size();
  in_memory_.clear();
  return true;
}

std::string_view KeptTexts::at(Place place) {
  if (place.begin >= in_file_) return std::string_view(in_memory_).substr(place.begin - in_file_, place.size);
  read_.resize(place.size);
  for (std::size_t have = 0; have < read_.size();) {
    const ssize_t got =
        ::pread(file_, read_.data() + have, read_.size() - have, static_cast<off_t>(place.begin + have));
    if (got < 0 && errno == EINTR) continue;
    if (got <= 0) {
      throw service::Failure(service::FailureKind::io,
                             {"cannot-read", "a file in the folder of temporary files cannot be read back",
                              "name another folder in the variable TMPDIR"});
    }
    have += static_cast<std::size_t>(got);
  }
  return read_;
}

}  // namespace cli
