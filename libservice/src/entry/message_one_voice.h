// What clears something is taken only where no other line of the text may say otherwise.
#pragma once

#include <map>
#include <set>
#include <string>
#include <vector>

#include "entry/message_against.h"
#include "entry/message_beside.h"
#include "entry/message_clearing.h"
#include "entry/message_lists.h"
#include "entry/message_overheard.h"
#include "entry/message_voice.h"

namespace service::entry {

class OneVoice {
 public:
  OneVoice(TextBesideBook& text, Clearing& clearing, const SaidAgainst& against)
      : text_(text),
        clearing_(clearing),
        against_(against),
        lists_(text.fleet_ptr(), text.known(), text.ask().today, text.ask().day_is_given) {}

  // What is refused for that ends nothing any more, so the others are looked at again.
  void insist();

 private:
  // What stands where a sender does and is no plain name is not read either.
  std::vector<LineSent> lines_sent();
  const TakesOff& taken_off_by_reading(const Draft& draft);

  // What nobody reads of a line: what stands where its sender does too, where that is no plain name.
  std::vector<std::string> unread(const Draft& draft) const;
  const std::vector<Overheard>& overheard(const Draft& draft);
  SpeaksOf speaks_of(const Draft& cleared, const Draft& other);

  // A line that nobody reads may tell of a sign of it.
  bool may_be_named(const Machine& machine);

  // A line that is not taken may tell of a sign, of whatever time.
  std::set<std::string> machines_of_untaken() const;

  bool refuse_beside_a_sign(std::size_t at);

  // Nobody reads the words of a line that is not taken, and they may take back what the others say.
  bool refuse_beside(Draft& draft, const Draft& other, const std::set<std::string>& machines_of_untaken);

  TextBesideBook& text_;
  Clearing& clearing_;
  const SaidAgainst& against_;
  ListsOf lists_;
  std::map<int, std::vector<Overheard>> overheard_;  // by line
  std::map<int, TakesOff> off_by_reading_;           // by line
};

}  // namespace service::entry
