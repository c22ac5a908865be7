#include "entry/message_overheard.h"

#include <algorithm>
#include <array>

#include "entry/message_denial.h"
#include "entry/message_line.h"
#include "service/text.h"

namespace service::entry {
namespace {

using View = std::string_view;

template <std::size_t Count>
bool is_among(const std::array<View, Count>& words, View word) {
  return std::find(words.begin(), words.end(), word) != words.end();
}

// What goes against what was said, or on beyond it, and is no denial.
constexpr auto of_objection = std::to_array<View>({"unsafe", "undo", "only", "except", "but", "forgot", "forgotten",
                                                   "instead", "again", "worse", "stop", "danger", "dangerous"});

// What people say who say nothing of any machine.
constexpr auto of_small_talk = std::to_array<View>(
    {"ok",    "okay",    "k",       "thanks",  "thank",   "you",      "thx",     "ty",        "ta",       "cheers",
     "great", "good",    "nice",    "well",    "perfect", "super",    "lovely",  "brilliant", "yes",      "yep",
     "yeah",  "aye",     "sure",    "roger",   "noted",   "received", "got",     "it",        "that",     "hello",
     "hi",    "hey",     "morning", "evening", "night",   "bye",      "goodbye", "see",       "everyone", "everybody",
     "lads",  "guys",    "folks",   "mate",    "so",      "much",     "very",    "many",      "for",      "the",
     "info",  "message", "help",    "a",       "lot",     "and",      "to",      "all",       "both"});

// Where or how large, and no kind of machine.
constexpr auto of_places = std::to_array<View>({"big",   "small", "large",  "old",   "new",   "main", "left", "right",
                                                "north", "south", "east",   "west",  "front", "rear", "back", "upper",
                                                "lower", "first", "second", "third", "spare", "home", "one",  "two"});

constexpr auto of_grammar = std::to_array<View>(
    {"the", "and", "for", "was", "not", "has", "its", "all", "off", "out", "are", "but", "you", "with"});

bool is_figure(View word) { return word.find_first_not_of("0123456789") == View::npos; }

// Enough of a word to tell anything by itself.
bool tells(View word) {
  constexpr std::size_t least = 3;
  return word.size() >= least && !is_among(of_grammar, word);
}

// The same, in number or by a slip. Slips leave the first letter.
bool is_near(const std::string& written, const std::string& name) {
  constexpr std::size_t least = 4;
  if (written == name) return true;
  if (written.front() != name.front() || is_figure(name)) return false;
  if (written + 's' == name || written == name + 's' || written + "es" == name || written == name + "es") return true;
  if (written.size() < least || name.size() < least) return false;
  return written.starts_with(name) || !nearest(written, std::span(&name, 1)).empty();
}

// The same, for certain: a slip only in a name that is long enough to be no other word.
bool is_it(const std::string& written, const std::string& name) {
  constexpr std::size_t least = 6;
  const bool is_one_of_several = written == name + 's' || written == name + "es";
  return written == name || is_one_of_several || (name.size() >= least && is_near(written, name));
}

bool speaks_against(View word) { return is_denial(word) || is_among(of_objection, word); }

// Where these words stand side by side, in any order.
std::vector<std::vector<bool>> places_of(const std::vector<std::string>& name, const std::vector<std::string>& words,
                                         bool (&is_same)(const std::string&, const std::string&)) {
  std::vector<std::vector<bool>> places;
  for (std::size_t from = 0; !name.empty() && from + name.size() <= words.size(); ++from) {
    const auto begin = words.begin() + static_cast<std::ptrdiff_t>(from);
    const auto end = begin + static_cast<std::ptrdiff_t>(name.size());
    const bool is_here = std::all_of(name.begin(), name.end(), [&](const std::string& part) {
      return std::any_of(begin, end, [&](const std::string& word) { return is_same(word, part); });
    });
    if (!is_here) continue;
    std::vector<bool> place(words.size(), false);
    std::fill_n(place.begin() + static_cast<std::ptrdiff_t>(from), name.size(), true);
    places.push_back(std::move(place));
  }
  return places;
}

bool is_within(const std::vector<bool>& place, const std::vector<bool>& all) {
  for (std::size_t i = 0; i < place.size(); ++i) {
    if (place[i] && !all[i]) return false;
  }
  return true;
}

bool has_any(const std::vector<bool>& places) { return std::find(places.begin(), places.end(), true) != places.end(); }

}  // namespace

std::vector<std::string> plain_words(View text) {
  std::string plain = in_plain_letters(folded_name(text));
  constexpr View curly = "\u2019";
  for (auto at = plain.find(curly); at != std::string::npos; at = plain.find(curly))
    plain.replace(at, curly.size(), "'");
  std::vector<std::string> words(1);
  for (const char letter : plain) {
    const auto byte = static_cast<unsigned char>(letter);
    const bool is_part = (letter >= 'a' && letter <= 'z') || (letter >= '0' && letter <= '9') || letter == '\'';
    if (is_part || byte >= 0x80) {
      words.back() += letter;
    } else if (!words.back().empty()) {
      words.emplace_back();
    }
  }
  for (std::string& word : words) {
    if (word.ends_with("'s")) word.erase(word.size() - 2);
    while (word.starts_with('\'')) word.erase(0, 1);
    while (word.ends_with('\'')) word.pop_back();
  }
  std::erase_if(words, [](const std::string& word) { return word.empty(); });
  return words;
}

bool denies(View text) {
  const auto words = plain_words(text);
  return std::any_of(words.begin(), words.end(), speaks_against);
}

bool may_deny(View text) {
  const auto words = plain_words(text);
  return std::any_of(words.begin(), words.end(),
                     [](const std::string& word) { return speaks_against(word) || is_foreign_denial(word); });
}

Overheard::Overheard(const Fleet& fleet, View text) : fleet_(fleet), words_(plain_words(text)) {
  denies_ = std::any_of(words_.begin(), words_.end(), speaks_against);
  // What it asks may be whether it is so.
  const auto talk = plain_words(message::without_pictures(text));
  small_talk_ = text.find('?') == View::npos &&
                std::all_of(talk.begin(), talk.end(), [](const std::string& w) { return is_among(of_small_talk, w); });
  for (const Machine& machine : fleet.machines) calls_.push_back(call_of(machine));
}

Overheard::Call Overheard::call_of(const Machine& machine) const {
  Call call;
  call.any.assign(words_.size(), false);
  const std::vector<std::string> of_site =
      machine.site.empty() ? std::vector<std::string>{} : plain_words(machine.site);
  for (const std::vector<std::string>& name : {plain_words(machine.key), plain_words(machine.name)}) {
    for (auto& place : places_of(name, words_, is_near)) call.whole.push_back(std::move(place));
    for (const std::string& part : name) {
      if (!tells(part)) continue;
      const bool is_kind = !is_among(of_places, part) && !is_figure(part) &&
                           std::find(of_site.begin(), of_site.end(), part) == of_site.end();
      for (std::size_t i = 0; i < words_.size(); ++i) {
        if (!is_near(words_[i], part)) continue;
        call.any[i] = true;
        call.in_part = call.in_part || is_kind;
      }
    }
  }
  for (const auto& place : call.whole) {
    for (std::size_t i = 0; i < place.size(); ++i) call.any[i] = call.any[i] || place[i];
  }
  return call;
}

Overheard::Named Overheard::named(const Machine& machine) const {
  const auto known = named_.find(machine.key);
  if (known != named_.end()) return known->second.named;
  return named_.emplace(machine.key, Found{find_named(machine)}).first->second.named;
}

std::size_t Overheard::place_of(const Machine& machine) const {
  return static_cast<std::size_t>(std::find_if(fleet_.machines.begin(), fleet_.machines.end(),
                                               [&](const Machine& m) { return m.key == machine.key; }) -
                                  fleet_.machines.begin());
}

std::vector<const Machine*> Overheard::others(const Machine& machine) const {
  const std::size_t at = place_of(machine);
  const auto& own = calls_[at].whole;
  std::vector<const Machine*> found;
  const auto is_another = [&](const std::vector<bool>& place) {
    return std::none_of(own.begin(), own.end(), [&](const auto& mine) { return is_within(place, mine); });
  };
  for (std::size_t i = 0; i < calls_.size(); ++i) {
    const Machine& other = fleet_.machines[i];
    if (i == at || std::none_of(calls_[i].whole.begin(), calls_[i].whole.end(), is_another)) continue;
    auto places = places_of(plain_words(other.key), words_, is_it);
    for (auto& place : places_of(plain_words(other.name), words_, is_it)) places.push_back(std::move(place));
    if (std::any_of(places.begin(), places.end(), is_another)) found.push_back(&other);
  }
  return found;
}

bool Overheard::mentions(const Machine& machine, std::span<const std::string> things) const {
  if (may_name(machine)) return true;
  return std::any_of(words_.begin(), words_.end(), [&](const std::string& word) {
    return std::any_of(things.begin(), things.end(), [&](const std::string& thing) {
      return tells(thing) && !is_among(of_places, thing) && is_near(word, thing);
    });
  });
}

Overheard::Named Overheard::find_named(const Machine& machine) const {
  const std::size_t at = place_of(machine);
  std::vector<bool> left = calls_[at].any;
  bool other = false;
  bool in_part = false;
  for (std::size_t i = 0; i < calls_.size(); ++i) {
    if (i == at) continue;
    in_part = in_part || calls_[i].in_part;
    for (const auto& place : calls_[i].whole) {
      other = true;
      // Where not all of another's name is of this one's too, those words are the other's.
      const bool is_all_mine = is_within(place, calls_[at].any);
      for (std::size_t k = 0; k < place.size() && !is_all_mine; ++k) left[k] = left[k] && !place[k];
    }
  }
  if (has_any(left)) return Named::it;
  if (other) return Named::other;
  return in_part ? Named::other_in_part : Named::none;
}

SpeaksOf Overheard::speaks_of(const Machine& machine, std::span<const std::string> things) const {
  const Named name = named(machine);
  if (name == Named::it) return SpeaksOf::it;
  if (name == Named::other) return SpeaksOf::other;
  const bool is_thing = std::any_of(words_.begin(), words_.end(), [&](const std::string& word) {
    return std::any_of(things.begin(), things.end(),
                       [&](const std::string& thing) { return tells(thing) && is_near(word, thing); });
  });
  if (is_thing) return SpeaksOf::it;
  if (name == Named::other_in_part) return SpeaksOf::other;
  if (denies_) return SpeaksOf::it;
  return small_talk_ ? SpeaksOf::talk : SpeaksOf::anything;
}

}  // namespace service::entry
