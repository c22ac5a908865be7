// What the machines of a kind (of one schedule) teach about the use of their meters, and what each of them has taught
// about itself, as bytes: of one machine it can be read without the others.
#pragma once

#include <functional>
#include <memory>
#include <string>
#include <string_view>
#include <vector>

#include "service/fleet.h"
#include "service/machine_book.h"

#pragma GCC visibility push(default)

namespace service {

namespace usage {
struct LearntUse;
}

// A value, which threads may share.
class LearntKind {
 public:
  // Learns from the books of the kind's machines, each of all its facts or condensed: they teach the same, to the bit.
  // What is learnt depends on these books and on what the fleet says of the machines, and on no day.
  static std::shared_ptr<const LearntKind> from(
      const Fleet& fleet, const std::string& schedule,
      const std::function<std::shared_ptr<const MachineBook>(const Machine&)>& book_of);

  // Null where the bytes are none that `bytes` of such a value gave. Bytes of any kind may be given.
  static std::shared_ptr<const LearntKind> read(std::string bytes);

  LearntKind(const LearntKind&) = delete;
  LearntKind& operator=(const LearntKind&) = delete;

  // The same where the same was learnt.
  const std::string& bytes() const { return bytes_; }

  // What there is of a meter of a machine; for those who make forecasts.
  usage::LearntUse of(std::string_view machine, std::string_view meter) const;

 private:
  struct OfMeter;
  explicit LearntKind(std::string bytes);

  std::string bytes_;
  std::shared_ptr<const std::vector<OfMeter>> meters_;  // places in the bytes; null: they are none of ours
};

}  // namespace service

#pragma GCC visibility pop
