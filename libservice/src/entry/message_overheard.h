// What a line that nobody reads may speak of: the machine and the work that another line clears, something else, or
// whatever it be.
#pragma once

#include <map>
#include <span>
#include <string>
#include <string_view>
#include <vector>

#include "service/fleet.h"

namespace service::entry {

enum class SpeaksOf {
  it,        // it names the machine or the work, or says of no machine that something is not so
  anything,  // nobody can tell
  other,     // it names another machine
  talk       // it is such as thanks
};

// Whether the words say that something is not so, or not yet: `not`, `still`, `without`.
bool denies(std::string_view text);

// The same in other languages too, as far as those words are known: for a hint, which must not lead the wrong way.
bool may_deny(std::string_view text);

class Overheard {
 public:
  Overheard(const Fleet& fleet, std::string_view text);

  // One machine may be meant: by its key or its name, whole, in part, in any order, or nearly so.
  bool may_name(const Machine& machine) const { return named(machine) == Named::it; }

  // `things`: the words of the work, and of what was seen.
  SpeaksOf speaks_of(const Machine& machine, std::span<const std::string> things) const;

  // The same of words that are known to be said of another machine: that they name this one, or a thing of it.
  bool mentions(const Machine& machine, std::span<const std::string> things) const;

  // The machines whose key or name stands in it whole, in any order or number, a long one nearly so, but for this one.
  // What is part of its own name where that stands whole is no other's.
  std::vector<const Machine*> others(const Machine& machine) const;

 private:
  enum class Named { it, other, other_in_part, none };
  struct Call {
    std::vector<bool> any;                 // which words may be of its names
    std::vector<std::vector<bool>> whole;  // where one of its names stands whole
    bool in_part = false;                  // by a word that tells it from a place or a size
  };

  Call call_of(const Machine& machine) const;
  Named named(const Machine& machine) const;
  Named find_named(const Machine& machine) const;
  std::size_t place_of(const Machine& machine) const;

  const Fleet& fleet_;
  std::vector<std::string> words_;
  bool denies_ = false;
  bool small_talk_ = false;
  std::vector<Call> calls_;  // of each machine of the fleet
  struct Found {
    Named named = Named::none;
  };
  mutable std::map<std::string, Found> named_;  // of those asked about
};

// The words of a name or of a text, in plain small letters.
std::vector<std::string> plain_words(std::string_view text);

}  // namespace service::entry
