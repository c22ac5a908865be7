// What was seen, measured and looked at, and what must not run: the worker's own words.
#include <fmt/format.h>

#include <algorithm>

#include "entry/message_others.h"
#include "entry/message_signs.h"
#include "entry/message_stop.h"
#include "entry/message_tail.h"
#include "entry/message_tasks.h"
#include "entry/message_verbs.h"
#include "entry/message_who.h"
#include "service/telling.h"
#include "service/text.h"
#include "service/typed.h"

namespace service::entry::message {
namespace {

constexpr std::string_view form_of_sign = "saw {} SIGN";

// A day at the end, and the options with dashes; the rest is the worker's own words. `since yesterday` is part of them.
struct OwnWords {
  std::vector<std::string> words;
  std::optional<DaySpan> on;
  bool day_counts = false;  // from when it was sent
  std::string note;
  std::string by;  // told at the end, of a sign: `by M.T.`
  std::string unit;
  std::string position;
};

bool belongs_to_next(const Word& word) {
  constexpr std::array<std::string_view, 9> words{"since", "until", "till", "from", "before",
                                                  "after", "than",  "like", "as"};
  return std::any_of(words.begin(), words.end(), [&](std::string_view one) { return is_word(word, one); });
}

bool is_whole_day(const std::string& text) {
  constexpr std::ptrdiff_t two = 2;
  return counts_from_today(text) || (is_like_a_day(text) && (std::count(text.begin(), text.end(), '.') == two ||
                                                             std::count(text.begin(), text.end(), '/') == two ||
                                                             std::count(text.begin(), text.end(), '-') == two));
}

// How many words at the end are a day: `yesterday`, `on 12.06.2026`; 0: none.
std::size_t day_at_end(Verb verb, Words words) {
  if (words.empty() || words.back().quoted || !is_whole_day(words.back().text)) return 0;
  if (words.size() == 1) return verb == Verb::out_of_use ? 1 : 0;  // of a sign something is to be left
  const Word& before = words[words.size() - 2];
  if (belongs_to_next(before)) return 0;
  return words.size() > 2 && is_word(before, "on") ? 2 : 1;
}

// `by M.T.` at the end; empty: nobody for certain.
std::string who_at_end(const Told& told, Words words) {
  for (std::size_t at = words.size(); at-- > 1;) {
    if (!is_word(words[at], "by")) continue;
    if (at + 1 < words.size() && who_if_certain(told, words.subspan(at + 1))) return joined(words.subspan(at));
  }
  return "";
}

OwnWords own_words(const Told& told, const Machine& machine, Verb verb, Words words) {
  OwnWords own;
  const auto day_of = [&](Words day) {
    if (own.on) wrong("said-twice", "the line says two days", "say one of them");
    const Tail tail = tail_in(told, machine, verb, day);
    own.on = tail.on;
    own.day_counts = tail.day_counts;
  };
  const auto first_option =
      std::find_if(words.begin(), words.end(), [](const Word& word) { return !option_of(word).empty(); });
  Words plain = words.first(static_cast<std::size_t>(first_option - words.begin()));
  for (Words rest = words.subspan(plain.size()); !rest.empty();) {
    std::size_t end = 1;
    while (end < rest.size() && option_of(rest[end]).empty()) ++end;
    const std::string option = option_of(rest[0]);
    const Words value = rest.subspan(1, end - 1);
    const bool takes_value = option != "new";
    if (takes_value == value.empty()) {
      wrong("no-value", fmt::format("{} stands behind `{}`", takes_value ? "nothing" : joined(value), option),
            "say what it is");
    }
    if (option == "on" && value.size() == 1) {
      day_of(value);
    } else if (option == "note") {
      own.note = joined(value);
    } else if (option == "unit" && verb == Verb::saw) {
      own.unit = joined(value);
    } else if (option == "position" && verb == Verb::saw) {
      own.position = joined(value);
    } else if (option != "new" || verb != Verb::saw) {
      wrong("not-understood", fmt::format("`{}` is not understood there", joined(rest.first(end))), "");
    }
    rest = rest.subspan(end);
  }
  // At its end stand a day and who saw it, in any order.
  while (true) {
    if (const std::size_t count = day_at_end(verb, plain); count > 0) {
      day_of(plain.last(1));
      plain = plain.first(plain.size() - count);
    } else if (auto who = who_at_end(told, plain); own.by.empty() && !who.empty()) {
      own.by = std::move(who);
      plain = plain.first(plain.size() - words_of(own.by).size());
    } else {
      break;
    }
  }
  for (const Word& word : plain) own.words.push_back(word.text);
  return own;
}

// What was measured where, with what, and at which position: `tread-depth@rear-left=31 mm`, `tread depth = 31 mm at
// rear left`.
struct MeasuredWords {
  Fact said;  // name and value
  std::string unit;
  std::string position;
  bool at_all = false;                  // at all positions, in so many words
  const MeasuredName* limit = nullptr;  // none: no task has a limit for it
  std::vector<std::string> near;        // then: the positions of the limit that is near to it
};

// A position, behind `at`, `position` or the mark for it, or alone. Empty words are no position and no mistake.
bool take_position(MeasuredWords& measured, std::string_view text) {
  for (const std::string_view before : {"@", " ", "at ", "position "}) {
    if (text.starts_with(before)) text.remove_prefix(before.size());
  }
  if (text.empty()) return true;
  const auto& positions = measured.limit != nullptr ? measured.limit->positions : measured.near;
  if (positions.empty()) return false;
  measured.at_all = measured.limit != nullptr && all_told(text, positions.size());
  if (measured.at_all) return true;
  const auto position = name_written(text, positions);
  if (position && measured.position.empty()) measured.position = *position;
  return position && measured.position == *position;
}

// The name, with a position behind it or without.
void take_name(MeasuredWords& measured, const std::vector<MeasuredName>& all) {
  std::vector<std::string> names;
  for (const MeasuredName& one : all) names.push_back(one.name);
  const std::string written = measured.said.name;
  for (std::size_t end = written.size(); end > 0; end = written.find_last_of(" @", end - 1)) {
    if (end == std::string::npos) break;
    std::string_view name = std::string_view(written).substr(0, end);
    while (name.ends_with(' ')) name.remove_suffix(1);
    const auto known = name_written(name, names);
    if (!known) continue;
    measured.limit =
        &*std::find_if(all.begin(), all.end(), [&](const MeasuredName& one) { return one.name == *known; });
    measured.said.name = *known;
    if (take_position(measured, std::string_view(written).substr(end))) return;
    wrong("unknown-position", fmt::format("`{}` is not measured at a position `{}`", *known, written.substr(end + 1)),
          names_instead(written.substr(end + 1), measured.limit->positions,
                        "it is measured at no position in particular; leave the position out"));
  }
}

// Behind the value: a unit, and a position. False where something else stands there.
bool take_rest(MeasuredWords& measured, std::string_view rest) {
  if (rest.starts_with(' ')) rest.remove_prefix(1);
  if (take_position(measured, rest)) return true;
  const auto end = std::min(rest.find_first_of(" @"), rest.size());
  measured.unit = rest.substr(0, end);
  return take_position(measured, rest.substr(end)) && measured.unit.find('=') == std::string::npos;
}

bool is_below_nothing(const Told& told, const Machine& machine, const MeasuredWords& measured) {
  if (measured.said.value->millionths >= 0) return false;
  bool has_limit = false;
  for (const MachineTask& task : tasks_of(told.fleet, machine)) {
    for (const LimbChoice& choice : task.every) {
      for (const Limb& limb : choice.candidates) {
        const auto* one = std::get_if<MeasuredLimb>(&limb);
        if (one == nullptr || one->name != measured.said.name) continue;
        if (one->limit.millionths < 0) return false;
        has_limit = true;
      }
    }
  }
  return has_limit;
}

MeasuredWords measured_words(const Told& told, const Machine& machine, const OwnWords& own,
                             const std::vector<MeasuredName>& all) {
  std::string text;
  for (const std::string& word : own.words) text += (text.empty() ? "" : " ") + word;
  const auto equals = text.find('=');
  const auto from = std::min(text.find_first_not_of(' ', equals + 1), text.size());
  const auto end = std::min(text.find_first_not_of("0123456789.,-", from), text.size());
  MeasuredWords measured;
  measured.said = measurement_told(std::string_view(text).substr(0, end));
  take_name(measured, all);
  if (measured.limit == nullptr) {
    const auto near = near_name(told.fleet, machine, FactKind::measurement, measured.said.name);
    if (near) measured.near = near->positions;
  }
  const bool is_understood = take_rest(measured, std::string_view(text).substr(end));
  if (!is_understood || (!measured.unit.empty() && !own.unit.empty())) {
    wrong("not-understood", fmt::format("`{}` is not understood behind the value", text.substr(end)),
          measured.limit == nullptr || measured.limit->positions.empty()
              ? "say one measurement in a line, with its unit: NAME=VALUE UNIT"
              : "say where: " + forms_at_positions(measured.said.name, measured.limit->positions));
  }
  if (is_below_nothing(told, machine, measured)) {
    wrong("below-nothing",
          fmt::format("the value of `{}` is less than nothing, and its limit is not", measured.said.name),
          fmt::format("say it anew, without the minus where that was a dash: {}=VALUE", measured.said.name));
  }
  return measured;
}

// `restriction=6.2`, with the unit behind it: `restriction = 6,2 kPa`. At which position is not guessed.
Said measured(const Told& told, const Machine& machine, const OwnWords& own) {
  const auto all = measured_names(told.fleet, machine);
  const MeasuredWords words = measured_words(told, machine, own, all);
  if (!own.note.empty()) wrong("no-note", "a measurement has no note", "say what else was seen in a line of its own");
  Fact fact = fact_about(told, FactKind::measurement, machine, own.on);
  fact.name = words.said.name;
  fact.value = words.said.value;
  fact.unit = own.unit.empty() ? words.unit : own.unit;
  fact.position = own.position.empty() ? words.position : own.position;
  if (words.limit != nullptr) {
    const MeasuredName& limit = *words.limit;
    if (fact.unit.empty()) fact.unit = limit.units.front();
    if (const auto same = name_written(fact.unit, limit.units)) fact.unit = *same;
    if (const auto where = name_written(fact.position, limit.positions); !fact.position.empty() && where)
      fact.position = *where;
    if (fact.position.empty() && !words.at_all && !limit.positions.empty()) {
      wrong("needs-position",
            fmt::format("`{}` of {} is measured at positions, and none is named", fact.name, machine.key),
            fmt::format("say which: {}, behind them =VALUE", forms_at_positions(fact.name, limit.positions)));
    }
  }
  return {{fact}, own.on.has_value(), own.day_counts};
}

// Where the note begins: behind a colon, or the word for it.
std::pair<Words, Words> parted_at_note(Words words) {
  for (std::size_t i = 0; i < words.size(); ++i) {
    if (words[i].quoted) continue;
    if (words[i].text.ends_with(':')) return {words.first(i + 1), words.subspan(i + 1)};
    if (is_word(words[i], "note") || option_of(words[i]) == "note") return {words.first(i), words.subspan(i + 1)};
  }
  return {words, {}};
}

struct FoundInNote {
  std::optional<Found> found;
  std::string note;  // without it, where anything else is said
};

bool ends_part(const Word& word) {
  return word.text.ends_with(',') || word.text.ends_with('.') || word.text.ends_with(';') || word.text.ends_with(':');
}

std::optional<Found> found_at(Words words, std::size_t at) {
  if (at + 1 >= words.size() || !is_word(words[at], "found")) return std::nullopt;
  std::string how = folded_name(words[at + 1].text);
  if (ends_part(words[at + 1])) how.pop_back();
  return parse_found(how);
}

// `found good` at the beginning of what is said behind the colon, or as a part of its own at the end. Within other
// words it may mean the opposite: `not found good`.
FoundInNote found_in(Words note) {
  FoundInNote in{std::nullopt, joined(note)};
  constexpr std::size_t words = 2;
  if (const auto first = found_at(note, 0);
      first && (note.size() == words || ends_part(note[1]) || is_word(note[words], "-"))) {
    const bool dash = note.size() > words && is_word(note[words], "-");
    const Words rest = note.subspan(words + (dash ? 1 : 0));
    in.found = first;
    if (!rest.empty()) in.note = joined(rest);
  } else if (note.size() > words && ends_part(note[note.size() - words - 1])) {
    in.found = found_at(note, note.size() - words);
  }
  return in;
}

// The clauses of a look, parted at `found good`: before it the sign, behind it what may stand there, else a note.
struct LookWords {
  std::vector<Word> before;
  std::vector<Word> clauses;  // `found good`, and who and when behind it
  std::string note;
  std::optional<Found> found;
};

LookWords look_words(const Told& told, const Machine& machine, Words words) {
  const auto [parted, note] = parted_at_note(words);
  std::vector<Word> head(parted.begin(), parted.end());
  if (!head.empty() && !head.back().quoted && head.back().text.ends_with(':')) head.back().text.pop_back();
  if (!head.empty() && head.back().text.empty()) head.pop_back();
  const FoundInNote in_note = found_in(note);
  LookWords look{head, {}, in_note.note, in_note.found};
  if (in_note.found && note.size() == 2) look.note.clear();
  // The last one: what a service found bad is looked at by such words too, `brakes found failed`.
  for (std::size_t at = head.size(); !in_note.found && at-- > 1;) {
    if (!found_at(head, at)) continue;
    const Words behind = Words(head).subspan(at + 2);
    look.clauses.assign(head.begin() + static_cast<std::ptrdiff_t>(at),
                        head.begin() + static_cast<std::ptrdiff_t>(at + 2));
    std::string& how = look.clauses.back().text;
    while (ends_part(look.clauses.back())) how.pop_back();
    try {
      tail_in(told, machine, Verb::looked, behind);
      look.clauses.insert(look.clauses.end(), behind.begin(), behind.end());
    } catch (const Failure& failure) {
      if (failure.diagnostics().front().code != "not-understood") throw;
      look.note = joined(behind) + (look.note.empty() ? "" : " " + look.note);
    }
    look.before.resize(at);
    break;
  }
  return look;
}

// Only a good look clears anything, and words beside it may mean that it is not: nobody reads them.
void insist_on_no_words(const Fact& look) {
  if (*look.found != Found::good || look.note.empty()) return;
  throw AskedBack({"good-with-words", fmt::format("it is found good, and `{}` may say that it is not", look.note),
                   fmt::format("where it is good, send it without that: looked {} {}{} found good; else say found worn "
                               "or found failed",
                               look.machine, look.name, look.by.empty() ? "" : " by " + look.by)},
                  {look});
}

// `not any more`, or `no` alone, may say that it is in use again; `no brakes` says why it is not.
void insist_on_no_denial(const Machine& machine, const std::vector<std::string>& words) {
  constexpr auto denials = std::to_array<std::string_view>({"not", "no", "nope", "never", "isn't", "isn\u2019t"});
  constexpr auto longer = std::to_array<std::string_view>({"more", "longer"});
  if (words.empty() || !is_one_of({words[0]}, denials)) return;
  const bool says_why = folded_name(words[0]) == "no" && words.size() > 1 && !is_one_of({words[1]}, longer);
  if (says_why) return;
  wrong("out-of-use-or-not", fmt::format("`{}` may say that it is in use", fmt::join(words, " ")),
        fmt::format("where it must not run, say so without that: out-of-use {}; that it may run again is decided and "
                    "entered by whoever keeps the record",
                    machine.key));
}

}  // namespace

Said saw_in(const Told& told, const Machine& machine, Words words) {
  const OwnWords own = own_words(told, machine, Verb::saw, words);
  const bool is_measured = std::any_of(own.words.begin(), own.words.end(),
                                       [](const std::string& word) { return word.find('=') != std::string::npos; });
  if (is_measured) {
    Said said = measured(told, machine, own);
    const Fact& fact = said.facts.front();
    const auto all = measured_names(told.fleet, machine);
    const bool known =
        std::any_of(all.begin(), all.end(), [&](const MeasuredName& one) { return one.name == fact.name; });
    insist_on_one_machine(told, machine, words, known ? fact.unit : fact.name + ' ' + fact.unit, form_of_sign);
    return said;
  }
  if (!own.unit.empty() || !own.position.empty()) {
    wrong("no-measurement", "a unit or a position belongs to a measurement, and none is told",
          "say a measurement as NAME=VALUE");
  }
  const auto listed = sign_names(told.fleet, machine);
  const StopSaid stop = stop_said(told, machine, words, own.words, own.note);
  SignsTold signs = signs_in(told, machine, stop.others);
  const auto and_by = [&](std::string note) {
    for (const std::string* more : {&own.note, &own.by}) {
      if (!more->empty()) note += (note.empty() ? "" : "; ") + *more;
    }
    return note;
  };
  Fact fact = fact_about(told, FactKind::sign, machine, own.on);
  std::vector<Fact> facts;
  std::string unknown = own.note + ' ' + own.by;
  for (SignNoted& sign : signs.signs) {
    const bool is_listed = std::find(listed.begin(), listed.end(), sign.name) != listed.end();
    unknown += ' ' + sign.note + (is_listed ? "" : ' ' + sign.name);
    fact.name = std::move(sign.name);
    fact.note = and_by(std::move(sign.note));
    facts.push_back(fact);
  }
  insist_on_one_machine(told, machine, words, unknown, form_of_sign);
  Said said{std::move(facts), own.on.has_value(), own.day_counts, signs.with_words};
  add_stop(said, stop, and_by(stop.told.why));
  return said;
}

Said looked_in(const Told& told, const Machine& machine, Words words) {
  const LookWords look = look_words(told, machine, words);
  std::vector<Word> said = look.before;
  const std::size_t most = said.size();  // words that may be the sign
  said.insert(said.end(), look.clauses.begin(), look.clauses.end());
  const Words all(said);
  std::vector<std::string> names = sign_names(told.fleet, machine);
  const std::vector<std::string> seen = told.seen(machine);
  names.insert(names.end(), seen.begin(), seen.end());
  // The sign ends where what stands behind it can stand there; where that is not clear, a sign that was seen decides.
  struct Way {
    Fact fact;
    bool is_known = false;
    bool names_day = false;
    bool day_counts = false;
  };
  std::vector<Way> ways;
  std::optional<Diagnostic> tail_is;
  for (std::size_t count = 1; count <= most; ++count) {
    Tail tail;
    try {
      tail = tail_in(told, machine, Verb::looked, all.subspan(count));
    } catch (const Failure& failure) {
      if (failure.diagnostics().front().code != "not-understood") tail_is = failure.diagnostics().front();
      continue;
    }
    Fact fact = fact_about(told, FactKind::looked_at, machine, tail.on);
    const auto known = name_written(joined(all.first(count)), names);
    fact.name = known.value_or(joined(all.first(count)));
    fact.note = look.note;
    fact.found = tail.found;
    fact.by = tail.by.empty() ? told.by : tail.by;
    ways.push_back({std::move(fact), known.has_value(), tail.on.has_value(), tail.day_counts});
  }
  const auto known = std::count_if(ways.begin(), ways.end(), [](const Way& way) { return way.is_known; });
  if (known == 0 && tail_is) throw Failure(FailureKind::usage, std::move(*tail_is));
  if (ways.empty()) sign_told({});
  if (known > 1)
    wrong("several-names", fmt::format("`{}` may mean several signs", joined(look.before)), "put the sign into quotes");
  auto way =
      known == 1 ? std::find_if(ways.begin(), ways.end(), [](const Way& one) { return one.is_known; }) : ways.begin();
  Fact& fact = way->fact;
  insist_on_one_machine(told, machine, words, look.note + ' ' + (way->is_known ? "" : fact.name),
                        "looked {} SIGN found HOW");
  if (fact.found && look.found && *fact.found != *look.found) {
    wrong("said-twice", "the line says twice how it was found, and not the same", "say one of them");
  }
  if (!fact.found) fact.found = look.found;
  if (!fact.found) {
    const std::string line =
        fmt::format("looked {} {}{}", machine.key, fact.name, fact.by.empty() ? "" : " by " + fact.by);
    wrong(
        "needs-found", "whether it was found good is not said, and only that takes it off the list",
        fmt::format("say which: {0} found good, and nothing behind that; {0} found worn: WHAT IT WAS; or found failed, "
                    "where it must not be used",
                    line));
  }
  insist_on_no_words(fact);
  if (fact.note.empty()) fact.note = fmt::format("found {}", to_text(*fact.found));
  Said result{{fact}, way->names_day, way->day_counts};
  if (found_bad(fact)) {
    const StopSaid stop = stop_said(told, machine, words, {}, fact.note);
    add_stop(result, stop, fact.name + (stop.told.why.empty() ? "" : ": " + stop.told.why));
  }
  return result;
}

Said out_of_use_in(const Told& told, const Machine& machine, Words words) {
  const OwnWords own = own_words(told, machine, Verb::out_of_use, words);
  for (const std::string& word : own.words) {
    if (!names_no_certain_day({word})) continue;
    wrong("bad-day", fmt::format("of `{}` nobody can tell the day", word),
          fmt::format("where it must not run now, say so without it: out-of-use {} WHY; else say its day once it has "
                      "come",
                      machine.key));
  }
  for (const std::string& word : own.words) {
    if (!makes_a_condition({word})) continue;
    wrong("not-certain", fmt::format("`{}` makes it hang on something that is not known yet", word),
          fmt::format("where it must not run now, say so without that: out-of-use {0} WHY; what was seen: saw {0} SIGN",
                      machine.key));
  }
  insist_on_no_denial(machine, own.words);
  insist_on_one_machine(told, machine, words, joined(words), "out-of-use {} WHY");
  Fact fact = fact_about(told, FactKind::out_of_use, machine, own.on);
  for (const std::string& word : own.words) fact.note += (fact.note.empty() ? "" : " ") + word;
  for (const std::string* more : {&own.note, &own.by}) {
    if (!more->empty()) fact.note += (fact.note.empty() ? "" : "; ") + *more;
  }
  return {{fact}, own.on.has_value(), own.day_counts};
}

}  // namespace service::entry::message
