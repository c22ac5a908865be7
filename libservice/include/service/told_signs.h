// What somebody saw at a machine, out of his own words, understood in one way wherever they come from: listed signs
// with more said behind them (`brake-pull, pulls left`), and whether the machine must not run (`fire, out of use`).
//
// Nothing here fails.
#pragma once

#include <functional>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "service/fleet.h"
#include "service/record.h"
#include "service/snapshot.h"

#pragma GCC visibility push(default)

namespace service {

// Whether words say that a machine must not run.
enum class MustNotRun {
  not_said,
  may_be_said,  // `wipers do not run`, `out of use tomorrow`: of the machine, perhaps, or perhaps not now
  said,         // one of the usual ways to say it, and nothing else, in a clause of its own
};

struct StopTold {
  MustNotRun says = MustNotRun::not_said;
  std::string why;  // what else is said, in the same words: where it is `said` all of it, else what stands before it
};

// No list has the words of all languages: what is not said in any that is known is left to whoever reads it.
StopTold stop_told(std::string_view words);

// Of a sign, as it was written, with a note. What a listed sign is called says nothing more.
StopTold stop_told(const Fleet& fleet, const Machine& machine, std::string_view sign, std::string_view note);

// That its machine is out of use, of the day of what was seen.
Fact out_of_use_beside(const Fact& seen, std::string note);

// A sign, as it is listed or in somebody's own words, and what is said of it.
struct SignNoted {
  std::string name;
  std::string note;
};

struct SignsTold {
  std::vector<SignNoted> signs;  // at least one, in the order in which they are told
  bool with_words = false;       // beside a listed one anything is said in somebody's own words
};

// What is near to a sign or a measurement in somebody's own words: to all of them, else to their first clause
// (`brak-pull, left side`).
std::optional<NearName> near_told(const Fleet& fleet, const Machine& machine, const Fact& seen);

// The listed signs that a clause is, and nothing else; empty: it is none.
using ListedIn = std::function<std::vector<SignNoted>(std::string_view clause)>;

// A listed sign that stands in a clause of its own is that sign, and what is said behind it is its note, but for
// what holds the name of another one: that is kept in its own words. Without a listed sign, or where another clause may
// take it back (`brake-pull (fixed)`), all of it is one sign in its own words.
SignsTold signs_told(const Fleet& fleet, const Machine& machine, std::string_view written, const ListedIn& listed_in);
SignsTold signs_told(const Fleet& fleet, const Machine& machine, std::string_view written);

}  // namespace service

#pragma GCC visibility pop
