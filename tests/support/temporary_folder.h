// A folder of its own for one test, gone afterwards.
#pragma once

#include <stdlib.h>  // mkdtemp, on Linux

#include <filesystem>
#include <stdexcept>
#include <string>

namespace test {

class TemporaryFolder {
 public:
  TemporaryFolder() {
    std::string made = (std::filesystem::temp_directory_path() / "service-test-XXXXXX").string();
    if (::mkdtemp(made.data()) == nullptr) throw std::runtime_error("no temporary folder");
    path_ = made;
  }
  TemporaryFolder(const TemporaryFolder&) = delete;
  TemporaryFolder& operator=(const TemporaryFolder&) = delete;
  ~TemporaryFolder() {
    std::error_code ignored;
    std::filesystem::remove_all(path_, ignored);
  }

  std::filesystem::path operator/(const char* name) const { return path_ / name; }
  const std::filesystem::path& path() const { return path_; }

 private:
  std::filesystem::path path_;
};

}  // namespace test
