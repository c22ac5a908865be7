// What lines of a text take off a list: by a service or a look, or by a measurement that brings a value back.
#pragma once

#include <map>
#include <string>
#include <utility>

#include "entry/healed.h"
#include "entry/message_beside.h"

namespace service::entry {

class Clearing {
 public:
  explicit Clearing(TextBesideBook& text) : text_(text) {}

  // Which new measurements bring a value back within its limit, by their lines. Anew whenever fewer lines are taken.
  void find_what_heals();

  bool clears_at(const Draft& draft, std::size_t which) const;
  bool clears_anything(const Draft& draft) const;
  bool clears_safety(const Draft& draft) const;  // something of it never waits

  // What is worn does not heal: of what never waits both values are told, and somebody has to say what is so. Whether
  // it was refused.
  bool refuse_what_heals(Draft& draft);

  // A check puts nothing in: done at a value at its limit, or at a sign of what never waits, it was renewed or put
  // right, or only looked at. Whether any line was refused.
  bool refuse_what_ends();

 private:
  struct Heals {
    Healed what;
    Fact was;
  };

  void find_what_heals(const std::string& machine);
  bool refuse_service(int number, Diagnostic why);  // of this line, where it is taken; false: it is none
  bool is_of_safety(const Fact& fact) const;

  TextBesideBook& text_;
  std::map<std::pair<int, std::size_t>, Heals> heals_;  // by line, and which of its facts
};

// Tells of each line that is taken which signs that stand it answers.
void tell_what_is_cleared(TextBesideBook& text);

}  // namespace service::entry
