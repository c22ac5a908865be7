// A fleet that is being made: all its files, or none.
#pragma once

#include <filesystem>
#include <functional>
#include <string>
#include <string_view>
#include <vector>

#include "run.h"

namespace cli {

inline constexpr const char* fleet_schema_file = ".schemas/fleet.schema.json";
inline constexpr const char* schedule_schema_file = ".schemas/schedule.schema.json";

// Fails with bad_data.
[[noreturn]] void refuse_to_make(std::string code, std::string message, std::string hint);

// Something else than a folder has that name: bad_data.
void insist_on_folder(const std::filesystem::path& folder);

// With the folders above it, and on the disk. Fails with io.
void make_folder(const std::filesystem::path& folder);

// Takes back what it made, unless it is kept.
class Making {
 public:
  explicit Making(std::filesystem::path folder);
  ~Making();
  Making(const Making&) = delete;
  Making& operator=(const Making&) = delete;

  void file(const std::string& name, std::string_view text);
  void record(const std::function<void(const std::filesystem::path& record)>& make);
  void keep();  // and clears away what tries left that were killed

  const std::vector<std::string>& made() const { return made_; }  // files, in the order of making

 private:
  void make_folders(const std::filesystem::path& folder);

  std::filesystem::path folder_;
  std::vector<std::filesystem::path> folders_;
  std::vector<std::string> made_;
  bool kept_ = false;
};

// `new DIR --from FILE`.
int take_over_fleet(Context& context);

// Options that belong to --from, without it: usage.
void insist_on_from(const Arguments& arguments);

}  // namespace cli
