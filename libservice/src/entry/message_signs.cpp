#include "entry/message_signs.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <utility>

#include "entry/message_who.h"
#include "entry/others_figures.h"
#include "service/snapshot.h"
#include "service/telling.h"
#include "service/text.h"

namespace service::entry::message {
namespace {

// The words of signs that are listed, one or several with commas between them; nothing where any of it is another.
std::vector<std::string> listed_in(const std::vector<std::string>& words, const std::vector<std::string>& names) {
  std::vector<std::string> listed;
  std::string text;
  const auto take = [&] {
    const auto name = name_written(without_cries(text), names);
    text.clear();
    if (name && std::find(listed.begin(), listed.end(), *name) == listed.end()) listed.push_back(*name);
    return name.has_value();
  };
  for (const std::string& word : words) {
    const std::string folded = folded_name(word);
    const bool parts = folded == "and" || folded == "&" || folded == "+" || folded == "," || folded == "/";
    const bool comma = word.size() > 1 && (word.ends_with(',') || word.ends_with(';'));
    if (!parts) text += (text.empty() ? "" : " ") + (comma ? word.substr(0, word.size() - 1) : word);
    if ((parts || comma) && !text.empty() && !take()) return {};
  }
  if (!text.empty() && !take()) return {};
  return listed;
}

// Words around listed signs that take nothing back: how bad, that it is not the first time, in which part of a day or
// of a week, who saw it. Which day `last night` or `Friday` is nobody can tell; that it was seen is certain.
struct WithUsualWords {
  std::vector<std::string> words;  // without them
  std::string aside;               // those that say anything
};

bool is_usual_word(const Told& told, const std::string& word) {
  constexpr auto usual = std::to_array<std::string_view>(
      {"again", "still", "badly", "bad", "worse", "really", "very", "now", "please", "urgent", "urgently", "today"});
  if (without_pictures(word).empty() || is_one_of({word}, usual) || names_no_certain_day({word})) return true;
  if (!word.starts_with('(') || !word.ends_with(')')) return false;
  const std::string inside = word.substr(1, word.size() - 2);
  const Word one{inside};
  return who_if_certain(told, Words(&one, 1)).has_value();
}

// Words with a stroke between them are several: `leak/squeal`.
std::vector<std::string> parted_at_strokes(const std::vector<std::string>& words) {
  std::vector<std::string> parted;
  for (const std::string& word : words) {
    std::string_view rest = word;
    for (auto at = rest.find('/'); at != std::string_view::npos; at = rest.find('/')) {
      if (at > 0) parted.emplace_back(rest.substr(0, at));
      parted.emplace_back("/");
      rest.remove_prefix(at + 1);
    }
    if (!rest.empty()) parted.emplace_back(rest);
  }
  return parted;
}

WithUsualWords without_usual_words(const Told& told, const std::vector<std::string>& written) {
  constexpr auto before_days = std::to_array<std::string_view>({"on", "this", "last"});
  WithUsualWords is{parted_at_strokes(written), ""};
  std::vector<std::string>& words = is.words;
  std::vector<std::string> aside;
  bool day = false;
  while (words.size() > 1 && (is_usual_word(told, words.back()) || (day && is_one_of({words.back()}, before_days)))) {
    day = names_no_certain_day({words.back()});
    if (!without_pictures(words.back()).empty()) aside.insert(aside.begin(), words.back());
    words.pop_back();
  }
  while (words.size() > 1 &&
         (without_pictures(words[0]).empty() || is_one_of({words[0]}, std::array{std::string_view("still")}))) {
    if (!without_pictures(words[0]).empty()) aside.insert(aside.begin(), words[0]);
    words.erase(words.begin());
  }
  for (std::string* end : {&words.front(), &words.back()}) {
    if (const auto plain = without_pictures(*end); !plain.empty()) *end = std::string(plain);
  }
  is.aside = fmt::format("{}", fmt::join(aside, " "));
  return is;
}

// A listed sign with a value of the meter behind it, which stays beside it: `brake-pull 2081.5 h`.
std::size_t value_at_end(const std::vector<std::string>& words) {
  const auto is_value = [](const std::string& word) { return is_number(word) || is_number(figure_of(word).number); };
  if (words.size() > 1 && is_value(words.back())) return 1;
  const bool unit = words.size() > 2 && folded_name(words.back()) == "h" && is_number(words[words.size() - 2]);
  return unit ? 2 : 0;
}

std::vector<SignNoted> noted(std::vector<std::string> names, const std::string& note) {
  std::vector<SignNoted> signs;
  for (std::string& name : names) signs.push_back({std::move(name), note});
  return signs;
}

// Listed signs and nothing else but a value of the meter, or words that take nothing back: those are their note.
std::vector<SignNoted> listed_alone(const Told& told, const std::vector<std::string>& words,
                                    const std::vector<std::string>& names) {
  if (words.empty()) return {};
  if (auto listed = listed_in(words, names); !listed.empty()) return noted(std::move(listed), "");
  if (const std::size_t count = value_at_end(words); count > 0) {
    const auto end = words.end() - static_cast<std::ptrdiff_t>(count);
    auto listed = listed_in({words.begin(), end}, names);
    if (!listed.empty()) return noted(std::move(listed), fmt::format("{}", fmt::join(end, words.end(), " ")));
  }
  const WithUsualWords usual = without_usual_words(told, words);
  return noted(listed_in(usual.words, names), usual.aside);
}

}  // namespace

std::vector<std::string> sign_names(const Fleet& fleet, const Machine& machine) {
  std::vector<std::string> names;
  for (const ListedSign& sign : listed_signs(fleet, machine)) names.push_back(sign.name);
  return names;
}

SignsTold signs_in(const Told& told, const Machine& machine, const std::vector<std::string>& words) {
  const auto names = sign_names(told.fleet, machine);
  if (auto listed = listed_alone(told, words, names); !listed.empty()) return {std::move(listed), false};
  return signs_told(told.fleet, machine, sign_told(words), [&](std::string_view clause) {
    std::vector<std::string> its;
    for (const Word& word : words_of(clause)) its.push_back(word.text);
    return listed_alone(told, its, names);
  });
}

}  // namespace service::entry::message
