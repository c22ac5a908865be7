// The new facts of the lines that stand, and what the judge lets through of them.
#pragma once

#include <vector>

#include "entry/message_beside.h"

namespace service::entry {

class ProposedLines {
 public:
  explicit ProposedLines(TextBesideBook& text) : text_(text) {}

  // Of the lines that stand now.
  std::vector<Proposal> proposed();

  // Judges what was proposed last. False where a line was refused, so that others may stand otherwise.
  bool judge_all(const std::vector<Proposal>& proposals);

 private:
  // A line has no options: what a command says with one, it says in words.
  Diagnostic in_words_of_messages(Diagnostic wrong, const Fact& fact) const;

  // What the book alone speaks against is not mended by another line of the text.
  Diagnostic beside_the_book(const Diagnostic& refused, const Proposal& proposal) const;

  TextBesideBook& text_;
  std::vector<Draft*> of_;  // the line of each proposal
};

}  // namespace service::entry
