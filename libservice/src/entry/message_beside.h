// A text of messages beside the book: what the one tells and the other holds.
#pragma once

#include <cstddef>
#include <map>
#include <memory>
#include <string>
#include <vector>

#include "entry/message_draft.h"
#include "entry/message_drafts_read.h"
#include "service/entry.h"

namespace service::entry {

class TextBesideBook {
 public:
  // `known`: what the book holds of the machines of the text.
  TextBesideBook(std::shared_ptr<const Fleet> fleet, const MessagesAsk& ask, const Writer& writer,
                 const DraftReader& reader, const Extract& known, std::vector<Draft>& drafts);

  const std::shared_ptr<const Fleet>& fleet_ptr() const { return fleet_; }
  const Fleet& fleet() const { return *fleet_; }
  const MessagesAsk& ask() const { return ask_; }
  const Extract& known() const { return known_; }
  std::vector<Draft>& drafts() { return drafts_; }
  const std::vector<Draft>& drafts() const { return drafts_; }
  const std::map<std::string, std::vector<Fact>>& book() const { return by_machine_; }

  const Machine& machine_of(const Fact& fact) const { return *fleet_->machine(fact.machine); }

  // The book's unstruck facts of a machine, in their order.
  const std::vector<Fact>& book_of(const std::string& machine) const;

  // The draft with that number, which there is.
  const Draft& line(int number) const;

  Stamp stamp_of(const std::vector<Proposal>& proposals) const;

  // What was seen of a machine, in the book or in the text, by the names that a look may answer.
  std::vector<std::string> seen_names(const Machine& machine) const;

  bool told_by_this_text(const Fact& fact) const;

  bool is_plainly_sent(const Draft& draft) const;

  // For something in itself. One that says the same as such a line is none either.
  bool is_untaken(const Draft& draft) const;

  // A look at a sign of work that never waits.
  bool is_look_of_safety(const Fact& fact) const;

  // A sign that this may answer, seen the same day: it stands in the book, and this text does not tell of it. Null:
  // there is none.
  const Fact* sign_in_book(const Fact& answer) const;

  // The facts of a machine as they are with what is taken of the text, in the one order.
  struct Together {
    std::vector<Fact> facts;
    std::vector<std::pair<int, std::size_t>> places;  // of each, in the text; of no line: in the book
  };
  Together together(const std::string& machine) const;

 private:
  bool would_answer(const Fact& answer, const Fact& raised) const;

  std::shared_ptr<const Fleet> fleet_;
  const MessagesAsk& ask_;
  const Writer& writer_;
  const DraftReader& reader_;
  const Extract& known_;
  std::vector<Draft>& drafts_;
  std::map<std::string, std::vector<Fact>> by_machine_;
};

}  // namespace service::entry
