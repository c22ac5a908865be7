#include "entry/message_two_lines.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <vector>

#include "entry/message_tail.h"
#include "entry/others_figures.h"

namespace service::entry::message {
namespace {

constexpr auto units = std::to_array<std::string_view>({"h", "hr", "hrs", "hour", "hours"});

bool is_value(std::string_view text) { return is_number(text) || is_number(figure_of(text).number); }

bool has_comma(const std::string& text) { return text.size() > 1 && (text.ends_with(',') || text.ends_with(';')); }

std::string without_comma(const std::string& text) { return text.substr(0, text.size() - (has_comma(text) ? 1 : 0)); }

// What a line says that begins with a value.
struct Parted {
  std::string value;  // with the unit behind it
  Words rest;
  bool comma = false;
};

Parted parted(Words words) {
  Parted is{without_comma(words[0].text), words.subspan(1), has_comma(words[0].text)};
  if (!is.comma && !is.rest.empty() && is_one_of(is.rest[0], units)) {
    is.value += ' ' + without_comma(is.rest[0].text);
    is.comma = has_comma(is.rest[0].text);
    is.rest = is.rest.subspan(1);
  }
  constexpr auto between = std::to_array<std::string_view>({"and", "&", "+", "/", "|", "", "then"});
  while (!is.rest.empty() && !is.rest[0].quoted && is_one_of(is.rest[0], between)) is.rest = is.rest.subspan(1);
  return is;
}

// Of a reading: a day, a name, a meter, with a comma too many before it.
bool may_stand_behind(const Told& told, const Machine& machine, const Parted& is) {
  std::vector<Word> all = words_of(is.value);
  all.insert(all.end(), is.rest.begin(), is.rest.end());
  try {
    tail_in(told, machine, Verb::reading, all);
    return true;
  } catch (const Failure&) {
    return false;
  }
}

[[noreturn]] void say_each_alone(const Told& told, const Machine& machine, const Parted& is) {
  std::string other = joined(is.rest);
  const auto verb = verb_of(is.rest);
  if (verb && machines_in(told.fleet, other).empty()) {
    const std::size_t count = verb->second;
    other = fmt::format("{} {} {}", joined(is.rest.first(count)), machine.key, joined(is.rest.subspan(count)));
  }
  wrong("not-understood", fmt::format("`{}` stands behind the value, which is not taken either", joined(is.rest)),
        fmt::format("say each in a line of its own: {} {}; and {}", machine.key, is.value, other));
}

}  // namespace

bool value_ends_at_comma(Words words) {
  return !words[0].quoted && has_comma(words[0].text) && is_value(without_comma(words[0].text));
}

void ask_for_two_lines(const Told& told, const Machine& machine, Words words) {
  if (words.empty() || words[0].quoted || !is_value(without_comma(words[0].text))) return;
  const Parted is = parted(words);
  if (is.rest.empty()) return;
  if (begins_a_message(told.fleet, joined(is.rest))) say_each_alone(told, machine, is);
  constexpr auto unsure =
      std::to_array<std::string_view>({"sure", "unsure", "approx", "approximately", "about", "roughly", "maybe",
                                       "perhaps", "guess", "guessed", "estimated", "ish"});
  if (std::any_of(is.rest.begin(), is.rest.end(), [&](const Word& word) { return is_one_of(word, unsure); }) &&
      !may_stand_behind(told, machine, is)) {
    wrong("in-doubt", fmt::format("`{}` behind the value may say that it is not sure", joined(is.rest)),
          "say the value alone, once it is sure");
  }
  if (!is.comma) return;
  if (may_stand_behind(told, machine, is)) {
    wrong("not-understood", fmt::format("a mark stands behind the value `{}`", is.value),
          fmt::format("send it without that: {} {} {}", machine.key, is.value, joined(is.rest)));
  }
  const std::string last = without_stop(is.rest.back().text);
  if (!is_number(last)) ask_what_it_is(machine, joined(is.rest), is.value);
  if (is.rest.size() == 1) return;
  wrong("not-understood", fmt::format("`{}` behind the value is not understood, and neither is taken", joined(is.rest)),
        fmt::format(
            "say {} {} alone, and in a line of its own what `{}` is: MACHINE VALUE; or what was seen, saw {} SIGN",
            machine.key, is.value, joined(is.rest), machine.key));
}

}  // namespace service::entry::message
