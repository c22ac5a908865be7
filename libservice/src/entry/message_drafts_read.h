// A pasted text as drafts of its lines, each with what is known of when and by whom it was sent.
#pragma once

#include <functional>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "entry/message_draft.h"

namespace service::entry {

class DraftReader {
 public:
  using Somebody = std::function<std::optional<std::string>(std::string_view)>;

  DraftReader(const Fleet& fleet, const MessagesAsk& ask, Somebody somebody)
      : fleet_(fleet), ask_(ask), somebody_(std::move(somebody)) {}

  // In the order in which they were sent.
  std::vector<Draft> read() const;

  bool is_plain_name(std::string_view sender) const;

  // What a line says, read beside what the book knows of its machine.
  void understand(Draft& draft, const std::function<std::vector<std::string>(const Machine&)>& seen) const;

 private:
  // A message about a machine, in which no other day stands.
  bool may_be_of_day_sent(const Draft& draft) const;

  // A stamp holds for the lines below it, up to the next. A time alone is of the day above it, else of the one that was
  // told for all, as long as times only rise: behind midnight nobody knows how many days have passed. Below what nobody
  // understood no day is known, and least of all that of an older stamp.
  void share_stamps(std::vector<Draft>& drafts, std::optional<bool> day_comes_first,
                    const std::vector<std::size_t>& not_understood) const;

  // Of two days that a stamp may be, the one that was told for all.
  void take_day(Draft& above, std::optional<bool> day_comes_first) const;
  void take_time(Draft& above, const std::optional<Stamped>& time) const;

  const Fleet& fleet_;
  const MessagesAsk& ask_;
  Somebody somebody_;
};

}  // namespace service::entry
