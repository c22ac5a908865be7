// Texts that wait for their turn: in memory while they are few, else in a file without a name, which goes with the
// process. Where there is no room for one they stay in memory.
#pragma once

#include <cstddef>
#include <cstdint>
#include <filesystem>
#include <optional>
#include <string>
#include <string_view>

namespace cli {

class KeptTexts {
 public:
  struct Place {
    std::uint64_t begin = 0;
    std::uint32_t size = 0;
  };

  static constexpr std::size_t usual_memory = std::size_t{16} << 20U;

  // `folder`: where that file may be made; none: all stays in memory.
  explicit KeptTexts(std::optional<std::filesystem::path> folder, std::size_t most_in_memory = usual_memory);
  KeptTexts(const KeptTexts&) = delete;
  KeptTexts& operator=(const KeptTexts&) = delete;
  ~KeptTexts();

  Place add(std::string_view text);

  // Valid until the next call. Fails with io where the file cannot be read.
  std::string_view at(Place place);

 private:
  bool moved_to_file();

  std::optional<std::filesystem::path> folder_;
  std::size_t most_in_memory_;
  std::string in_memory_;      // what is not in the file yet
  std::uint64_t in_file_ = 0;  // bytes
  int file_ = -1;
  std::string read_;
};

}  // namespace cli
