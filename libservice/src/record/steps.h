// Counts the steps of long work with the record and tells of them now and then.
#pragma once

#include <cstddef>

#include "service/progress.h"

namespace service::record {

class Steps {
 public:
  // `watch`: null, or empty, where nobody wants to know.
  Steps(const RecordProgress* watch, RecordWork work, std::size_t all) : watch_(watch), work_(work), all_(all) {}

  void next() {
    constexpr std::size_t now_and_then = 256;
    if (watch_ != nullptr && *watch_ && done_ % now_and_then == 0) (*watch_)(work_, done_, all_);
    ++done_;
  }

 private:
  const RecordProgress* watch_;
  RecordWork work_;
  std::size_t all_;
  std::size_t done_ = 0;
};

}  // namespace service::record
