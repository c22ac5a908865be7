// The names of what people see and measure on which a machine's tasks come due, and names that are near to one.
#include <algorithm>
#include <variant>

#include "base/encodings.h"
#include "service/snapshot.h"
#include "service/typed.h"

namespace service {
namespace {

// The named thing of a list, made where it is not there yet.
template <class Thing>
Thing& named(std::vector<Thing>& things, const std::string& name) {
  const auto known = std::find_if(things.begin(), things.end(), [&](const Thing& thing) { return thing.name == name; });
  if (known != things.end()) return *known;
  things.emplace_back().name = name;
  return things.back();
}

template <class Thing>
void by_name(std::vector<Thing>& things) {
  std::sort(things.begin(), things.end(), [](const Thing& a, const Thing& b) { return a.name < b.name; });
}

template <class Thing>
std::vector<std::string> names_of(const std::vector<Thing>& things) {
  std::vector<std::string> names;
  for (const Thing& thing : things) names.push_back(thing.name);
  return names;
}

// Every limb of this kind in all intervals of a machine's tasks.
template <class Kind, class Use>
void each_limb(const Fleet& fleet, const Machine& machine, Use use) {
  for (const MachineTask& task : tasks_of(fleet, machine)) {
    for (const auto* choices : {&task.every, &task.first}) {
      for (const LimbChoice& choice : *choices) {
        if (const auto* limb = std::get_if<Kind>(&choice.candidates.front())) use(task, *limb);
      }
    }
  }
}

void add_each_once(std::vector<std::string>& list, const std::string& word) {
  if (std::find(list.begin(), list.end(), word) == list.end()) list.push_back(word);
}

// `brakes` is the `brake` of a name, and the other way round.
bool same_word(std::string_view a, std::string_view b) {
  const auto is_plural = [](std::string_view one, std::string_view many) {
    constexpr std::size_t short_word = 2;
    return one.size() > short_word && many.size() == one.size() + 1 && many.ends_with('s') && many.starts_with(one);
  };
  return a == b || is_plural(a, b) || is_plural(b, a);
}

// Marks of a sentence, and pictures. A stroke may be part of a unit (km/h), and parts signs all the same.
bool is_mark(char32_t code) {
  if (code < 0x80)
    return std::string_view("!\"#$&'()*,.:;<=>?@[\\]^_`{|}~").find(static_cast<char>(code)) != std::string_view::npos;
  const auto within = [code](char32_t first, char32_t last) { return code >= first && code <= last; };
  return code == 0xA1 || code == 0xAB || code == 0xB7 || code == 0xBB || code == 0xBF || within(0x2010, 0x205E) ||
         within(0x2190, 0x2BFF) || within(0x3001, 0x303F) || within(0xFE00, 0xFE0F) || within(0xFF01, 0xFF0F) ||
         code == 0xFF1A || code == 0xFF1B || code == 0xFF1F || within(0x1F000, 0x1FAFF);
}

// The words of what somebody wrote. A mark is no part of a word, but for the point of a number: `brake-pull, left`.
std::vector<std::string> plain_words(std::string_view written, bool parts_at_strokes = false) {
  const auto is_digit = [](char c) { return c >= '0' && c <= '9'; };
  std::string text;
  for (std::string_view rest = written; !rest.empty();) {
    const auto letter = first_letter(rest);
    const std::string_view bytes = rest.substr(0, letter ? letter->bytes : 1);
    rest.remove_prefix(bytes.size());
    const bool in_number = (bytes == "." || bytes == ",") && !text.empty() && is_digit(text.back()) && !rest.empty() &&
                           is_digit(rest.front());
    const bool parts = (letter && is_mark(letter->code) && !in_number) || (parts_at_strokes && bytes == "/");
    text += parts ? " " : bytes;
  }
  return folded_words(text);
}

std::string joined(const std::vector<std::string>& words) {
  std::string text;
  for (const std::string& word : words) text += (text.empty() ? "" : " ") + word;
  return text;
}

// The name whose words all stand among those that are written: the one of most words.
std::optional<std::string> among_words(std::string_view written, const std::vector<std::string>& names) {
  const auto words = plain_words(written, true);
  std::optional<std::string> found;
  std::size_t most = 0;
  for (const std::string& name : names) {
    const auto its = plain_words(name, true);
    const bool all = std::all_of(its.begin(), its.end(), [&](const std::string& word) {
      return std::any_of(words.begin(), words.end(), [&](const std::string& one) { return same_word(one, word); });
    });
    if (!all || its.size() <= most) continue;
    most = its.size();
    found = name;
  }
  return found;
}

std::optional<std::string> near_of(std::string_view written, const std::vector<std::string>& names) {
  if (auto among = among_words(written, names)) return among;
  const auto near = nearest(written, names);
  return near.empty() ? std::nullopt : std::optional(near.front());
}

// Takes these words out, one after the other where they stand so; false where they do not.
bool take_out(std::vector<std::string>& words, const std::vector<std::string>& these) {
  const auto at = std::search(words.begin(), words.end(), these.begin(), these.end());
  if (at == words.end() || these.empty()) return false;
  words.erase(at, at + static_cast<std::ptrdiff_t>(these.size()));
  return true;
}

// The words of a name, wherever they stand.
void take_out_each(std::vector<std::string>& words, std::string_view name) {
  for (const std::string& word : folded_words(name)) {
    const auto at =
        std::find_if(words.begin(), words.end(), [&](const std::string& one) { return same_word(one, word); });
    if (at != words.end()) words.erase(at);
  }
}

// The only position that these words name.
std::string position_in(std::vector<std::string>& words, const std::vector<std::string>& positions) {
  std::string only;
  std::vector<std::string> rest;
  for (const std::string& position : positions) {
    std::vector<std::string> without = words;
    if (!take_out(without, folded_words(position))) continue;
    if (!only.empty()) return "";
    only = position;
    rest = std::move(without);
  }
  if (!only.empty()) words = std::move(rest);
  return only;
}

struct ValueInWords {
  Measure value;
  std::string unit;  // empty: that of the limit
};

// The only number, with a unit of the limit in it or behind it, or with nothing behind it: `6.2`, `6.2 kPa`, `6.2kPa`.
// `50 mbar`, where the limit is in kPa, is no value that could be told.
std::optional<ValueInWords> value_in(const std::vector<std::string>& words, const MeasuredName& measured) {
  std::optional<ValueInWords> only;
  for (std::size_t i = 0; i < words.size(); ++i) {
    if (words[i].find_first_of("0123456789") == std::string::npos) continue;
    if (only) return std::nullopt;
    std::string number = words[i];
    std::string unit;
    for (const std::string& each : measured.units) {
      const std::string folded = folded_name(each);
      const bool within = !folded.empty() && number.size() > folded.size() && number.ends_with(folded);
      const bool behind = i + 1 < words.size() && words[i + 1] == folded;
      if (!within && !behind) continue;
      if (within) number.resize(number.size() - folded.size());
      unit = each;
      break;
    }
    const auto value = typed_measure(number);
    if (!value || (unit.empty() && i + 1 < words.size())) return std::nullopt;
    only = ValueInWords{*value, unit == measured.units.front() ? "" : unit};
  }
  return only;
}

// What is measured, in words and not as NAME=VALUE: `restriction 6.2`, `heel-wear 11 % left`, `restriction is high`.
std::optional<NearName> measured_in_words(std::string_view written, const std::vector<MeasuredName>& all) {
  std::vector<std::string> words = plain_words(written);
  const auto name = among_words(joined(words), names_of(all));
  if (!name) return std::nullopt;
  const MeasuredName& measured =
      *std::find_if(all.begin(), all.end(), [&](const MeasuredName& one) { return one.name == *name; });
  NearName near{*name, true, std::nullopt, "", measured.positions};
  take_out_each(words, *name);
  near.position = position_in(words, measured.positions);
  if (auto found = value_in(words, measured)) {
    near.value = found->value;
    near.unit = std::move(found->unit);
  }
  return near;
}

// A listed sign, and the others whose words stand beside its own.
NearName near_sign(std::string name, std::string_view written, const std::vector<std::string>& signs) {
  NearName near{std::move(name), false};
  for (const std::string& sign : signs) {
    if (sign != near.name && among_words(written, {sign})) near.also.push_back(sign);
  }
  return near;
}

}  // namespace

std::vector<ListedSign> listed_signs(const Fleet& fleet, const Machine& machine) {
  std::vector<ListedSign> signs;
  each_limb<SignLimb>(fleet, machine, [&](const MachineTask& task, const SignLimb& limb) {
    for (const std::string& name : limb.signs) {
      ListedSign& sign = named(signs, name);
      sign.safety = sign.safety || never_waits(*task.task, nullptr);
    }
  });
  by_name(signs);
  return signs;
}

std::vector<MeasuredName> measured_names(const Fleet& fleet, const Machine& machine) {
  std::vector<MeasuredName> all;
  each_limb<MeasuredLimb>(fleet, machine, [&](const MachineTask& task, const MeasuredLimb& limb) {
    MeasuredName& measured = named(all, limb.name);
    add_each_once(measured.units, limb.unit);
    for (const std::string& position : task.positions) add_each_once(measured.positions, position);
  });
  by_name(all);
  return all;
}

std::optional<NearName> near_name(const Fleet& fleet, const Machine& machine, FactKind kind, std::string_view written) {
  const auto signs = names_of(listed_signs(fleet, machine));
  const auto measured = measured_names(fleet, machine);
  if (kind == FactKind::measurement) {
    const auto names = names_of(measured);
    if (name_written(written, names)) return std::nullopt;
    if (auto in_words = measured_in_words(written, measured)) return in_words;
    if (auto near = near_of(written, names)) {
      const auto one =
          std::find_if(measured.begin(), measured.end(), [&](const MeasuredName& each) { return each.name == *near; });
      return NearName{*near, true, std::nullopt, "", one->positions};
    }
  } else if (name_written(written, signs) || name_written(written, names_of(measured))) {
    return std::nullopt;
  }
  const auto in_words = kind == FactKind::sign ? measured_in_words(written, measured) : std::nullopt;
  if (in_words && in_words->value) return in_words;
  if (auto near = near_of(written, signs)) return near_sign(std::move(*near), written, signs);
  return in_words;
}

}  // namespace service
