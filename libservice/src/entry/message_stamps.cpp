#include "entry/message_stamps.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <chrono>
#include <span>
#include <utility>

#include "service/text.h"
#include "service/typed.h"

namespace service::entry {
namespace {

using View = std::string_view;

constexpr auto months_of_year = std::to_array<View>({"january", "february", "march", "april", "may", "june", "july",
                                                     "august", "september", "october", "november", "december"});
constexpr auto days_of_week =
    std::to_array<View>({"monday", "tuesday", "wednesday", "thursday", "friday", "saturday", "sunday"});

bool only_digits(View text) {
  return !text.empty() && std::all_of(text.begin(), text.end(), [](char c) { return c >= '0' && c <= '9'; });
}

int number_of(View digits) {
  int number = 0;
  constexpr int ten = 10;
  for (const char digit : digits) number = number * ten + (digit - '0');
  return number;
}

bool is_digit(char c) { return c >= '0' && c <= '9'; }

// In `2026-06-14T19:43`, the letter between day and time; else the end.
std::size_t letter_of_time(View word) {
  for (std::size_t at = 1; at + 1 < word.size(); ++at) {
    if (word[at] == 'T' && is_digit(word[at - 1]) && is_digit(word[at + 1])) return at;
  }
  return word.size();
}

std::vector<View> stamp_words(View text) {
  std::vector<View> words;
  while (!text.empty()) {
    std::size_t end = std::min(text.find_first_of(" ,"), text.size());
    end = letter_of_time(text.substr(0, end));
    if (end > 0) words.push_back(text.substr(0, end));
    text.remove_prefix(std::min(text.size(), end + 1));
  }
  return words;
}

// Whole or in three letters and more: `Jun`, `Sept.`; from 1.
std::size_t place_in(View word, std::span<const View> names) {
  constexpr std::size_t shortest = 3;
  std::string folded = folded_name(word);
  if (folded.ends_with('.')) folded.pop_back();
  if (folded.size() < shortest) return 0;
  const auto at = std::find_if(names.begin(), names.end(), [&](View name) { return name.starts_with(folded); });
  return at == names.end() ? 0 : static_cast<std::size_t>(at - names.begin()) + 1;
}

bool is_half_of_day(View text) {
  const std::string folded = folded_name(text);
  return folded == "am" || folded == "pm" || folded == "a.m." || folded == "p.m.";
}

bool is_afternoon(View text) { return folded_name(text).front() == 'p'; }

// `8:15`, `08:15:32`, `8:15am`: its hour, minute and second, as they are written.
struct Time {
  int hour = 0;
  int second = 0;  // of the hour
  bool has_half = false;
  bool afternoon = false;
};

std::optional<Time> time_in(View text) {
  const std::string folded = folded_name(text);
  View rest = folded;
  Time time;
  for (const View half : {"am", "pm"}) {
    if (!rest.ends_with(half)) continue;
    rest.remove_suffix(half.size());
    time.has_half = true;
    time.afternoon = half == "pm";
  }
  std::vector<int> parts;
  while (true) {
    const auto colon = rest.find(':');
    const View part = rest.substr(0, colon);
    if (!only_digits(part) || part.size() > 2 || (!parts.empty() && part.size() != 2)) return std::nullopt;
    parts.push_back(number_of(part));
    if (colon == View::npos) break;
    rest.remove_prefix(colon + 1);
  }
  constexpr int sixty = 60;
  constexpr std::size_t with_seconds = 3;
  if (parts.size() != 2 && parts.size() != with_seconds) return std::nullopt;
  time.hour = parts[0];
  time.second = parts[1] * sixty + (parts.size() == with_seconds ? parts[2] : 0);
  return time;
}

int second_of_day(const Time& time) {
  constexpr int half = 12;
  constexpr int hour = 3600;
  const int hours = time.has_half ? time.hour % half + (time.afternoon ? half : 0) : time.hour;
  return hours * hour + time.second;
}

// Two digits are of this century.
std::optional<int> year_in(View text) {
  constexpr std::size_t whole = 4;
  constexpr int century = 2000;
  if (!only_digits(text) || (text.size() != 2 && text.size() != whole)) return std::nullopt;
  return number_of(text) + (text.size() == 2 ? century : 0);
}

std::optional<Day> day_from(int year, int month, int day) {
  auto read = parse_day_span(fmt::format("{:04}-{:02}-{:02}", year, month, day));
  return read && read.value->whole_day() ? std::optional(read.value->first) : std::nullopt;
}

// Three numbers between equal marks.
std::optional<std::array<View, 3>> three_numbers(View text) {
  const auto first = text.find_first_of("./-");
  if (first == View::npos) return std::nullopt;
  const auto second = text.find(text[first], first + 1);
  if (second == View::npos) return std::nullopt;
  const std::array<View, 3> parts{text.substr(0, first), text.substr(first + 1, second - first - 1),
                                  text.substr(second + 1)};
  const bool numbers =
      std::all_of(parts.begin(), parts.end(), [](View part) { return only_digits(part) && part.size() <= 4; });
  return numbers ? std::optional(parts) : std::nullopt;
}

// False where it is no day in figures at all.
bool take_figures(Stamped& stamp, View word, Day today) {
  const auto parts = three_numbers(word);
  if (!parts) return false;
  const auto [a, b, c] = *parts;
  constexpr std::size_t whole = 4;
  const char mark = word[a.size()];
  stamp.names_day = true;
  if (a.size() == whole) {
    stamp.day_first = stamp.month_first = day_from(number_of(a), number_of(b), number_of(c));
    return true;
  }
  const auto year = year_in(c);
  // `26-06-15` may have its year first.
  stamp.year_unknown = mark == '-' && a.size() == 2 && b.size() == 2 && c.size() == 2;
  if (!year || a.size() > 2 || b.size() > 2 || (mark == '-' && c.size() == 2)) return true;
  stamp.day_first = day_from(*year, number_of(b), number_of(a));
  stamp.month_first = mark == '.' ? stamp.day_first : day_from(*year, number_of(a), number_of(b));
  // No message is that old: its two digits are no year.
  constexpr auto oldest = std::chrono::days{3653};
  for (auto* day : {&stamp.day_first, &stamp.month_first}) {
    if (c.size() == 2 && *day && **day < today - oldest) day->reset();
  }
  stamp.settles_order = mark != '.' && stamp.day_first.has_value() != stamp.month_first.has_value();
  return true;
}

// `15 Jun 2026`, `June 15, 2026`: how many words it takes; 0: none.
std::size_t take_named(Stamped& stamp, std::span<const View> words) {
  constexpr std::size_t parts = 3;
  if (words.size() < parts) return 0;
  const std::size_t named = place_in(words[0], months_of_year) > 0 ? 0 : 1;
  const std::size_t month = place_in(words[named], months_of_year);
  View day = words[1 - named];
  for (const View behind : {".", "st", "nd", "rd", "th"}) {
    if (day.ends_with(behind)) day.remove_suffix(behind.size());
  }
  const auto year = year_in(words[2]);
  if (month == 0 || !only_digits(day) || day.size() > 2 || !year) return 0;
  stamp.names_day = true;
  stamp.day_first = stamp.month_first = day_from(*year, static_cast<int>(month), number_of(day));
  return parts;
}

// `yesterday`.
bool take_word(Stamped& stamp, View word, Day today) {
  if (!counts_from_today(word) || word.front() == '-') return false;
  stamp.names_day = stamp.counts = true;
  stamp.day_first = stamp.month_first = *typed_day(word, today);
  return true;
}

// What of these words is a stamp, from the first on.
struct Taken {
  Stamped stamp;
  std::optional<Time> time;
  std::size_t words = 0;
};

Taken taken_from(std::span<const View> words, Day today) {
  Taken taken;
  while (taken.words < words.size()) {
    const View word = words[taken.words];
    if (!taken.time) {
      if (const auto time = time_in(word)) {
        taken.time = time;
        ++taken.words;
        continue;
      }
    } else if (is_half_of_day(word) && !taken.time->has_half) {
      taken.time->has_half = true;
      taken.time->afternoon = is_afternoon(word);
      ++taken.words;
      continue;
    }
    if (taken.stamp.names_day) break;
    const bool names_week_day = place_in(word, days_of_week) > 0 && taken.words + 1 < words.size();  // the day follows
    if (names_week_day || take_word(taken.stamp, word, today) || take_figures(taken.stamp, word, today)) {
      ++taken.words;
    } else if (const std::size_t named = take_named(taken.stamp, words.subspan(taken.words)); named > 0) {
      taken.words += named;
    } else {
      break;
    }
  }
  if (taken.time) taken.stamp.second = second_of_day(*taken.time);
  return taken;
}

// `8:15`, `15.06.`, `15/6/26`: part of a stamp, if not a whole one.
bool is_like_part(View word) {
  while (!word.empty() && View("[](),.-").find(word.front()) != View::npos) word.remove_prefix(1);
  while (!word.empty() && View("[](),.-").find(word.back()) != View::npos) word.remove_suffix(1);
  if (time_in(word) || place_in(word, months_of_year) > 0) return true;
  constexpr std::size_t most_digits = 2;
  const auto mark = word.find_first_of("./-");
  if (mark > most_digits + 2 || !only_digits(word.substr(0, mark))) return false;
  const View rest = word.substr(mark + 1);
  const auto second = rest.find(word[mark]);
  if (second != View::npos) return only_digits(rest.substr(0, second));
  return mark <= most_digits && only_digits(rest) && rest.size() <= most_digits &&
         number_of(word.substr(0, mark)) <= 31 && number_of(rest) <= 12;
}

}  // namespace

std::optional<Stamped> stamped_in(View text, Day today) {
  const std::vector<View> words = stamp_words(text);
  Taken taken = taken_from(words, today);
  const bool says_anything = taken.stamp.names_day || taken.stamp.second;
  if (!says_anything || taken.words < words.size()) return std::nullopt;
  taken.stamp.text = text;
  return std::move(taken.stamp);
}

std::optional<StampBefore> stamp_before(View text, Day today) {
  const std::vector<View> words = stamp_words(text);
  Taken taken = taken_from(words, today);
  if (!taken.stamp.names_day || !taken.stamp.second || taken.words == words.size()) return std::nullopt;
  StampBefore before{std::move(taken.stamp), static_cast<std::size_t>(words[taken.words].data() - text.data())};
  before.stamp.text = text.substr(0, before.letters);
  while (before.stamp.text.ends_with(' ') || before.stamp.text.ends_with(',')) before.stamp.text.pop_back();
  return before;
}

bool begins_like_a_stamp(View text) {
  constexpr std::size_t far_enough = 6;
  std::vector<View> words = stamp_words(text);
  if (words.empty()) return false;
  if (words.size() > far_enough) words.resize(far_enough);
  const View first = words.front();
  const char begin = first.front();
  const bool by_name = place_in(first, days_of_week) > 0 || place_in(first, months_of_year) > 0 ||
                       (counts_from_today(first) && begin != '-');
  const bool may_begin = by_name || (begin >= '0' && begin <= '9') || begin == '[' || begin == '(';
  if (!may_begin) return false;
  if (by_name && words.size() == 1) return true;
  return std::any_of(words.begin() + (by_name ? 1 : 0), words.end(), is_like_part) ||
         (by_name && words[1].find_first_not_of("0123456789.") == View::npos);
}

bool has_part_of_a_stamp(View text) {
  const auto words = stamp_words(text);
  return std::any_of(words.begin(), words.end(), [](View word) {
    View plain = word;
    while (!plain.empty() && View("[](),.:;!?-").find(plain.back()) != View::npos) plain.remove_suffix(1);
    constexpr std::size_t year = 4;
    const bool is_year = plain.size() == year && only_digits(plain) && plain >= "1990" && plain <= "2199";
    return is_like_part(word) || is_year || place_in(plain, days_of_week) > 0 ||
           (counts_from_today(plain) && plain.front() != '-');
  });
}

bool looks_like_a_header(View text) {
  if (text.empty()) return false;
  const bool letter_first = is_digit(text.front()) || static_cast<unsigned char>(text.front()) >= 0x80 ||
                            (text.front() >= 'a' && text.front() <= 'z') ||
                            (text.front() >= 'A' && text.front() <= 'Z') ||
                            View("\"'").find(text.front()) != View::npos;
  const auto lines = std::to_array<View>(
      {"\u2010", "\u2011", "\u2012", "\u2013", "\u2014", "\u2015", "\u2022", "\u2500", "\u2501", "\u2550"});
  const bool divides = std::any_of(lines.begin(), lines.end(), [&](View line) { return text.starts_with(line); });
  return !letter_first || divides || text.ends_with(':') || has_part_of_a_stamp(text);
}

std::optional<bool> day_comes_first(const std::vector<Stamped>& stamps) {
  std::optional<bool> first;
  for (const Stamped& stamp : stamps) {
    if (!stamp.settles_order) continue;
    const bool this_one = stamp.day_first.has_value();
    if (first && *first != this_one) return std::nullopt;
    first = this_one;
  }
  return first;
}

Parsed<Day> day_of(const Stamped& stamp, std::optional<bool> day_comes_first) {
  const auto& [text, counts, names_day, day_first, month_first, year_unknown, settles, second] = stamp;
  if (year_unknown) return {{}, fmt::format("the stamp `{}` does not say which of its numbers is the year", text)};
  if (!day_first && !month_first) return {{}, fmt::format("the stamp `{}` is no day of the calendar", text)};
  if (!day_first || !month_first || *day_first == *month_first) return {day_first ? *day_first : *month_first, {}};
  if (day_comes_first) return {*day_comes_first ? *day_first : *month_first, {}};
  return {{},
          fmt::format("the stamp `{}` could be of {} or {}, and no other of this text says which", text,
                      to_text(*day_first), to_text(*month_first))};
}

}  // namespace service::entry
