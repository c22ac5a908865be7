// What a line of a text that is taken says that may speak against another one, which clears something.
#pragma once

#include <map>
#include <string>
#include <vector>

#include "entry/message_beside.h"
#include "entry/message_overheard.h"
#include "service/snapshot.h"

namespace service::entry {

// Whether the first was seen before the second, by their days or by their lines.
bool is_earlier(const Fact& sign, const Draft& its, const Fact& answer, const Draft& line);

class SaidAgainst {
 public:
  enum class Against { nothing, own_words, sign };

  explicit SaidAgainst(const TextBesideBook& text) : text_(text) {}

  // `said` by the line `its`, about what `answer` of `line` clears.
  Against speaks_against(const Fact& said, const Draft& its, const Fact& answer, const Draft& line) const;

  Diagnostic why_against(Against against, const Fact& said, const Draft& its, const Fact& answer,
                         const Draft& line) const;

  // The words of what is cleared: the work and all that it includes, where, and what was seen or measured.
  const std::vector<std::string>& things_of(const Draft& cleared) const;

 private:
  std::vector<std::string> things_of(const Machine& machine, const std::vector<Fact>& facts) const;

  // Somebody's own words about a machine, in a line that is taken: what is no name that is known.
  std::string own_words_of(const Fact& said) const;

  // They may be meant of another machine too, which they name, or the work on it.
  bool mentions(const Fact& said, const Fact& answer, const Draft& its) const;

  bool is_sign_in_own_words(const Fact& said) const;
  bool is_listed(const Machine& machine, const std::string& sign) const;

  const TextBesideBook& text_;
  mutable std::map<int, std::vector<std::string>> things_;  // by line
  mutable std::map<std::string, Overheard> own_words_;
  mutable std::map<std::string, KeptAsSeen> listed_;  // by machine, as far as it was asked
};

}  // namespace service::entry
