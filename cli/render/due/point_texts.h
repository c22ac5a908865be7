// The points of a due list as texts of a format for programs: written as soon as each machine's points are made, and
// told in the order of the whole list, which may be longer than memory.
#pragma once

#include <cstddef>
#include <cstdint>
#include <filesystem>
#include <map>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "kept_texts.h"
#include "service/due_list.h"
#include "service/files.h"
#include "service/not_to_run.h"

namespace cli {

class PointTexts {
 public:
  using Write = std::string (*)(const service::Point&, const service::Fleet&, const service::NotToRun&);

  // `first`: only so many of each standing (`DueShow`). The rest as of `KeptTexts`.
  PointTexts(Write write, std::optional<std::size_t> first, const std::optional<std::filesystem::path>& folder = {},
             std::size_t most_in_memory = KeptTexts::usual_memory);

  // Points of any machines; what nobody may run of these machines is in the list, too.
  void add(const service::DueList& list);

  // After the last.
  void put_in_order();

  bool empty() const { return rows_.empty(); }
  std::size_t left_off() const { return left_off_; }
  // As `cautions_of` the points that are told.
  std::vector<std::string> cautions() const;
  void each(const service::Put& put);

 private:
  // There may be millions.
  struct Row {
    std::uint64_t rank;
    std::uint64_t begin;  // of its text, which grows from row to row; and
    std::uint32_t size;
    std::uint32_t machine;
    std::uint32_t cautions;
    service::Standing standing;
  };

  std::uint32_t known(const std::vector<std::string>& cautions);

  Write write_;
  std::optional<std::size_t> first_;
  KeptTexts texts_;
  std::vector<Row> rows_;
  std::size_t left_off_ = 0;
  std::map<std::vector<std::string>, std::uint32_t> numbers_;  // of lists of cautions; tasks have few different ones
  std::vector<const std::vector<std::string>*> cautions_;      // by number
};

// Passes on what it is given in large blocks, the rest when `flush` is called.
class InBlocks {
 public:
  explicit InBlocks(const service::Put& put) : put_(put) {}
  void operator()(std::string_view piece) {
    block_ += piece;
    if (block_.size() >= size) flush();
  }
  void flush() {
    put_(block_);
    block_.clear();
  }

 private:
  static constexpr std::size_t size = std::size_t{256} << 10U;
  const service::Put& put_;
  std::string block_;
};

}  // namespace cli
