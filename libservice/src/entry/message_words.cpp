#include "entry/message_words.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <span>
#include <utility>

#include "base/encodings.h"
#include "entry/others_figures.h"
#include "service/telling.h"
#include "service/typed.h"

namespace service::entry {
namespace {

struct Word {
  std::string text;
  bool quoted = false;  // then it is no word of ours, whatever it says
};
using Words = std::span<const Word>;

[[noreturn]] void wrong(std::string code, std::string message, std::string hint) {
  throw Failure(FailureKind::usage, {std::move(code), std::move(message), std::move(hint)});
}

std::string joined(Words words) {
  std::string text;
  for (const Word& word : words) text += (text.empty() ? "" : " ") + word.text;
  return text;
}

// --- Letters -----------------------------------------------------------------------------------------------

constexpr std::array<std::string_view, 6> quotes{"\"", "\u201c", "\u201d", "\u201e", "\u00ab", "\u00bb"};

std::size_t quote_at(std::string_view text) {
  for (const std::string_view quote : quotes) {
    if (text.starts_with(quote)) return quote.size();
  }
  return 0;
}

// Words between blanks; what stands between quotes is one. A quote within a word (5" hose) is part of it.
std::vector<Word> words_of(std::string_view text) {
  std::vector<Word> words;
  while (!text.empty()) {
    if (text.front() == ' ') {
      text.remove_prefix(1);
      continue;
    }
    if (const std::size_t open = quote_at(text); open > 0) {
      std::size_t end = open;
      while (end < text.size() && quote_at(text.substr(end)) == 0) ++end;
      const std::size_t close = end < text.size() ? quote_at(text.substr(end)) : 0;
      if (close > 0 && (end + close == text.size() || text[end + close] == ' ')) {
        words.push_back({std::string(text.substr(open, end - open)), true});
        text.remove_prefix(end + close);
        continue;
      }
    }
    const std::size_t end = std::min(text.find(' '), text.size());
    words.push_back({std::string(text.substr(0, end)), false});
    text.remove_prefix(end);
  }
  return words;
}

// Small pictures that say no more than "so it is". What any other says, nobody knows.
bool is_nod(char32_t code) {
  constexpr std::array<char32_t, 13> nods{0x1F44D, 0x1F44C, 0x2705,  0x2714,  0x2713,  0x1F642, 0x1F60A,
                                          0x1F600, 0x1F69C, 0x1F527, 0x1F64F, 0x1F604, 0xFE0F};
  return std::find(nods.begin(), nods.end(), code) != nods.end() || (code >= 0x1F3FB && code <= 0x1F3FF);
}

std::string without_nods(std::string_view text) {
  while (!text.empty()) {
    std::size_t last = text.size() - 1;
    while (last > 0 && (static_cast<unsigned char>(text[last]) & 0xC0U) == 0x80U) --last;
    const auto letter = first_letter(text.substr(last));
    if (!letter || !is_nod(letter->code)) break;
    text = text.substr(0, last);
  }
  return std::string(text);
}

bool is_number(std::string_view text) { return typed_amount(text) && text.find('-') == std::string_view::npos; }

// The stop behind a sentence; that of an abbreviation (M.T.) belongs to it.
std::string without_stop(const std::string& text) {
  if (text.size() < 2 || (text.back() != '.' && text.back() != '!')) return text;
  std::string rest = text.substr(0, text.size() - 1);
  const bool abbreviates =
      rest.find('.') != std::string::npos && !is_number(rest) && rest.find_first_of("0123456789") == std::string::npos;
  return abbreviates || rest.back() == '.' ? text : rest;
}

void drop_last_nods(std::vector<Word>& words) {
  while (!words.empty() && !words.back().quoted) {
    words.back().text = without_nods(words.back().text);
    if (!words.back().text.empty()) break;
    words.pop_back();
  }
}

// A telephone makes one long dash of two.
std::string option_of(const Word& word) {
  if (word.quoted) return "";
  for (const std::string_view dashes : {"--", "\u2014", "\u2013"}) {
    if (word.text.starts_with(dashes) && word.text.size() > dashes.size()) {
      return folded_name(std::string_view(word.text).substr(dashes.size()));
    }
  }
  return "";
}

bool is_word(const Word& word, std::string_view text) { return !word.quoted && folded_name(word.text) == text; }

// --- Commands ----------------------------------------------------------------------------------------------

enum class Verb { reading, done, saw, looked, out_of_use };

constexpr std::array<std::pair<std::string_view, Verb>, 5> verbs{{{"reading", Verb::reading},
                                                                  {"done", Verb::done},
                                                                  {"saw", Verb::saw},
                                                                  {"looked", Verb::looked},
                                                                  {"out-of-use", Verb::out_of_use}}};
constexpr std::array<std::string_view, 7> not_taken{"put-off", "lay-up", "back", "meter-change",
                                                    "count",   "strike", "undo"};

// A word of ours, with a colon behind it or without.
bool is_verb(const Word& word, std::string_view text) {
  return is_word(word, text) ||
         (word.text.ends_with(':') && is_word({word.text.substr(0, word.text.size() - 1), word.quoted}, text));
}

// Which command these words begin with, and how many of them it takes.
std::optional<std::pair<Verb, std::size_t>> verb_of(Words words) {
  if (words.size() > 2 && is_word(words[0], "out") && is_word(words[1], "of") && is_verb(words[2], "use")) {
    return std::pair{Verb::out_of_use, std::size_t{3}};
  }
  for (const auto& [name, verb] : verbs) {
    if (!words.empty() && is_verb(words[0], name)) return std::pair{verb, std::size_t{1}};
  }
  return std::nullopt;
}

constexpr std::string_view forms =
    "say MACHINE VALUE, done MACHINE TASK, saw MACHINE SIGN, looked MACHINE SIGN: WHAT IT WAS, or out-of-use MACHINE";

// --- The machine -------------------------------------------------------------------------------------------

struct MachineFound {
  const Machine* machine = nullptr;  // null: none of these words begins with one
  std::size_t words = 0;
};

// By the most words: `pump 3 1200` is pump 3's, where there is one. A colon behind it is no part of it.
MachineFound machine_in(const Fleet& fleet, Words words) {
  constexpr std::size_t longest_name = 10;
  for (std::size_t count = std::min(words.size(), longest_name); count > 0; --count) {
    std::string text = joined(words.first(count));
    const bool ends = !words[count - 1].quoted && (text.ends_with(':') || text.ends_with(','));
    if (ends) text.pop_back();
    const auto named = machine_named(fleet, text);
    if (named.one != nullptr) return {named.one, count};
    if (!named.several.empty()) machine_told(fleet, text);  // says which
  }
  return {};
}

// --- What stands behind it ---------------------------------------------------------------------------------

struct Tail {
  std::optional<Amount> at;
  bool at_is_named = false;  // or has a unit behind it
  std::string at_text;
  std::optional<DaySpan> on;
  std::string meter;
  std::optional<Found> found;
  std::string by;
  std::string note;
  bool sure = false;
  bool checked = false;
};

bool is_unit_of_time(std::string_view unit) {
  constexpr std::array<std::string_view, 5> hours{"h", "hr", "hrs", "hour", "hours"};
  return std::find(hours.begin(), hours.end(), unit) != hours.end();
}

bool is_unit(const std::string& written, const std::string& unit) {
  const std::string folded = folded_name(written);
  return folded == folded_name(unit) || (unit == "h" && is_unit_of_time(folded));
}

// Two or three numbers between equal marks, or a word for a day; no number.
bool is_like_a_day(const std::string& text) {
  if (counts_from_today(text)) return true;
  if (typed_amount(text) || text.empty() || text.find_first_not_of("0123456789./-") != std::string::npos) return false;
  return text.find_first_of("./-", 1) != std::string::npos && text.front() >= '0' && text.front() <= '9';
}

constexpr std::array<std::string_view, 8> clause_names{"at", "on", "meter", "found", "by", "note", "sure", "checked"};

class TailReader {
 public:
  TailReader(const Told& told, const Machine& machine, Verb verb, Words words)
      : told_(told), machine_(machine), verb_(verb), words_(words) {}

  // Fails where these words are not wholly what may stand behind.
  Tail read() {
    while (at_ < words_.size()) clause();
    return std::move(tail_);
  }

 private:
  bool allows(std::string_view name) const {
    if (name == "at" || name == "meter" || name == "sure") return verb_ == Verb::reading || verb_ == Verb::done;
    if (name == "found" || name == "by") return verb_ == Verb::done || verb_ == Verb::looked;
    if (name == "note") return verb_ != Verb::reading;
    if (name == "checked") return verb_ == Verb::done;
    return name == "on";
  }

  // The clause that a word begins, with dashes or without.
  std::string clause_of(const Word& word) const {
    const std::string option = option_of(word);
    const std::string name = option.empty() && !word.quoted ? folded_name(word.text) : option;
    const bool known = std::find(clause_names.begin(), clause_names.end(), name) != clause_names.end();
    return known && allows(name) ? name : "";
  }

  const Word& value_of(const std::string& name) {
    if (at_ == words_.size()) wrong("no-value", fmt::format("nothing stands behind `{}`", name), "say what it is");
    return words_[at_++];
  }

  // All up to the next clause; of a note, up to the next one with dashes.
  std::string words_until_next(const std::string& name) {
    const std::size_t from = at_;
    while (at_ < words_.size() && (name == "note" ? option_of(words_[at_]) : clause_of(words_[at_])).empty()) ++at_;
    if (from == at_) value_of(name);
    return joined(words_.subspan(from, at_ - from));
  }

  void clause() {
    const Word& word = words_[at_];
    const std::string name = clause_of(word);
    if (!name.empty()) {
      ++at_;
      named(name);
    } else if (!word.quoted && is_like_a_day(word.text)) {
      ++at_;
      day(word.text);
    } else if (!word.quoted && value_in(word.text) && allows("at")) {
      ++at_;
      value(word.text, false);
    } else if (const auto meter = meter_in(word); meter && allows("meter")) {
      ++at_;
      once(tail_.meter.empty(), "two meters");
      tail_.meter = *meter;
    } else {
      wrong("not-understood", fmt::format("`{}` is not understood there", joined(words_.subspan(at_))), "");
    }
  }

  void named(const std::string& name) {
    if (name == "at") {
      value(value_of(name).text, true);
    } else if (name == "on") {
      day(value_of(name).text);
    } else if (name == "meter") {
      once(tail_.meter.empty(), "two meters");
      tail_.meter = meter_told(machine_, value_of(name).text);
    } else if (name == "found") {
      const std::string written = value_of(name).text;
      once(!tail_.found, "twice how it was found");
      tail_.found = parse_found(folded_name(written));
      if (!tail_.found)
        wrong("bad-found", fmt::format("`found {}` is not understood", written), "say found good, worn or failed");
    } else if (name == "by") {
      once(tail_.by.empty(), "twice who did it");
      tail_.by = words_until_next(name);
    } else if (name == "note") {
      once(tail_.note.empty(), "two notes");
      tail_.note = words_until_next(name);
    } else {
      (name == "sure" ? tail_.sure : tail_.checked) = true;
    }
  }

  static void once(bool is_first, std::string_view what) {
    if (!is_first) wrong("said-twice", fmt::format("the line says {}", what), "say one of them, or two lines");
  }

  static bool value_in(const std::string& text) { return is_number(text) || is_number(figure_of(text).number); }

  std::optional<std::string> meter_in(const Word& word) const {
    std::vector<std::string> names;
    for (const Meter& meter : machine_.meters) names.push_back(meter.name);
    return word.quoted ? std::nullopt : name_written(word.text, names);
  }

  void value(const std::string& text, bool is_named) {
    once(!tail_.at, "two values");
    Figure figure{text, ""};
    if (!is_number(text)) figure = figure_of(text);
    if (leaves_a_doubt(figure)) {
      wrong("in-doubt", fmt::format("somebody was not sure of `{}`", text), "say the value alone, once it is sure");
    }
    tail_.at = amount_told(figure.number, "the value");
    tail_.at_text = text;
    tail_.at_is_named = is_named;
    unit_ = figure.unit;
    const bool has_next = unit_.empty() && at_ < words_.size() && !words_[at_].quoted;
    if (has_next && is_some_unit(words_[at_].text)) unit_ = words_[at_++].text;
    if (unit_.empty()) return;
    tail_.at_is_named = true;
    const bool fits = std::any_of(machine_.meters.begin(), machine_.meters.end(),
                                  [&](const Meter& meter) { return is_unit(unit_, meter.unit); });
    if (!fits) {
      wrong("other-unit", fmt::format("no meter of {} counts in `{}`", machine_.key, unit_),
            "give the value as the meter shows it");
    }
  }

  bool is_some_unit(const std::string& text) const {
    if (is_unit_of_time(folded_name(text))) return true;
    return std::any_of(told_.fleet.machines.begin(), told_.fleet.machines.end(), [&](const Machine& machine) {
      return std::any_of(machine.meters.begin(), machine.meters.end(),
                         [&](const Meter& meter) { return is_unit(text, meter.unit); });
    });
  }

  void day(const std::string& text) {
    once(!tail_.on, "two days");
    if (!told_.counts_from_today && counts_from_today(text)) {
      wrong("bad-day", fmt::format("from which day `{}` counts is not known", text),
            "write the day itself, as 2026-03-01 or 15.06.2026");
    }
    const auto span = typed_day_span(text, told_.today);
    if (!span) wrong("bad-day", fmt::format("`{}` {}", text, span.problem), std::string(forms_of_days));
    if (verb_ != Verb::done && !span.value->whole_day()) {
      wrong("bad-day", fmt::format("`{}` is not a whole day", text), std::string(forms_of_days));
    }
    tail_.on = *span;
  }

 public:
  const std::string& unit() const { return unit_; }

 private:
  const Told& told_;
  const Machine& machine_;
  Verb verb_;
  Words words_;
  std::size_t at_ = 0;
  std::string unit_;
  Tail tail_;
};

// A value of the meter that is told, or of the first: in its unit, where one is written.
void insist_on_unit(const Machine& machine, const Tail& tail, const std::string& unit) {
  const Meter* meter = tail.meter.empty() ? machine.first_meter() : machine.meter(tail.meter);
  if (unit.empty() || meter == nullptr || is_unit(unit, meter->unit)) return;
  std::vector<std::string> names;
  for (const Meter& other : machine.meters) {
    if (is_unit(unit, other.unit)) names.push_back(other.name);
  }
  wrong("other-unit",
        fmt::format("meter `{}` of {} counts in {}, and this is in {}", meter->name, machine.key, meter->unit, unit),
        fmt::format("say which meter: meter {}", fmt::join(names, " or ")));
}

// `2012` alone may be a year, and `15.06` the fifteenth of June.
void insist_on_plain_value(const Tail& tail) {
  if (!tail.at || tail.at_is_named) return;
  const std::string& text = tail.at_text;
  constexpr std::size_t year = 4;
  const bool is_year = text.size() == year && text.find_first_not_of("0123456789") == std::string::npos &&
                       text >= "1900" && text <= "2199";
  if (is_year && !tail.on) {
    wrong("value-or-day", fmt::format("`{}` may be what the meter showed, or a year", text),
          fmt::format("say at {0}, or on {0}", text));
  }
  const auto point = text.find('.');
  const bool is_day_of_year = point < 3 && text.size() - point == 3 && !tail.on;
  if (is_day_of_year && parse_day_span(fmt::format("2000-{}-{:0>2}", text.substr(point + 1), text.substr(0, point)))) {
    wrong("value-or-day", fmt::format("`{}` may be what the meter showed, or a day without its year", text),
          fmt::format("say at {}, or the whole day", text));
  }
}

// --- Facts -------------------------------------------------------------------------------------------------

Fact fact_about(const Told& told, FactKind kind, const Machine& machine, const std::optional<DaySpan>& on) {
  Fact fact;
  fact.kind = kind;
  fact.machine = machine.key;
  if (!on && !told.on)
    wrong("bad-day", fmt::format("its day is not known: {}", told.no_day), "say the day at its end, as 2026-03-01");
  fact.on = on ? *on : DaySpan(*told.on);
  return fact;
}

void add_value(Fact& fact, const Machine& machine, const Tail& tail) {
  fact.at = tail.at;
  fact.sure = tail.sure;
  fact.meter = tail.meter;
  if (fact.at && fact.meter.empty() && machine.first_meter() != nullptr) fact.meter = machine.first_meter()->name;
}

std::vector<Fact> reading_in(const Told& told, const Machine& machine, Words words) {
  if (words.empty()) {
    wrong("not-understood", fmt::format("nothing is said of {}", machine.key),
          fmt::format("what its meter shows: {} 1250.5", machine.key));
  }
  TailReader reader(told, machine, Verb::reading, words);
  Tail tail;
  try {
    tail = reader.read();
  } catch (const Failure& failure) {
    if (failure.diagnostics().front().code != "not-understood") throw;
    if (verb_of(words)) {
      const std::size_t count = verb_of(words)->second;
      wrong("not-understood", fmt::format("`{}` stands behind the machine", joined(words.first(count))),
            fmt::format("put it before: {} {} {}", joined(words.first(count)), machine.key,
                        joined(words.subspan(count))));
    }
    if (is_number(words[0].text)) {
      wrong("not-understood", fmt::format("`{}` behind the value is not understood", joined(words.subspan(1))),
            fmt::format("say no more than {} {}, and the rest in a line of its own", machine.key, words[0].text));
    }
    wrong("not-understood", fmt::format("`{}` is nothing that a meter of {} shows", joined(words), machine.key),
          fmt::format("begin with what it is: saw {0} {1}, or done {0} TASK", machine.key, joined(words)));
  }
  if (!tail.at)
    wrong("no-value", fmt::format("no value of {} is told", machine.key),
          fmt::format("say what its meter shows: {} 1250.5", machine.key));
  insist_on_unit(machine, tail, reader.unit());
  Fact fact = fact_about(told, FactKind::reading, machine, tail.on);
  add_value(fact, machine, tail);
  return {fact};
}

// Commas stand between tasks; those within a number stay, and those of a note.
std::vector<Word> parted_at_commas(Words words) {
  std::vector<Word> parted;
  bool in_text = false;
  for (const Word& word : words) {
    in_text = in_text || is_word(word, "note") || is_word(word, "by") || !option_of(word).empty();
    const bool comma =
        !in_text && !word.quoted && word.text.size() > 1 && (word.text.ends_with(',') || word.text.ends_with(';'));
    parted.push_back({comma ? word.text.substr(0, word.text.size() - 1) : word.text, word.quoted});
    if (comma) parted.push_back({",", false});
  }
  return parted;
}

bool parts_tasks(const Word& word) {
  return word.text == "," || word.text == "&" || word.text == "+" || is_word(word, "and");
}

// All ways, up to two, in which words are names of tasks one after the other.
class TaskWords {
 public:
  TaskWords(const Fleet& fleet, const Machine& machine, Words words)
      : fleet_(fleet), machine_(machine), words_(words) {}

  // Of the first so many words.
  std::vector<std::vector<TaskTold>> ways(std::size_t count) {
    ways_.clear();
    way_.clear();
    end_ = count;
    from(0);
    return ways_;
  }

 private:
  void from(std::size_t at) {
    constexpr std::size_t enough = 2;
    if (ways_.size() == enough) return;
    if (at == end_ && !way_.empty()) {
      ways_.push_back(way_);
      return;
    }
    constexpr std::size_t longest_name = 8;
    for (std::size_t count = std::min(end_ - at, longest_name); count > 0; --count) {
      const auto task = task_if_told(fleet_, machine_, joined(words_.subspan(at, count)));
      if (!task) continue;
      way_.push_back(*task);
      from(at + count);
      way_.pop_back();
    }
    if (at < end_ && !way_.empty() && parts_tasks(words_[at])) {
      std::size_t next = at;
      while (next < end_ && parts_tasks(words_[next])) ++next;
      if (next < end_) from(next);
    }
  }

  const Fleet& fleet_;
  const Machine& machine_;
  Words words_;
  std::size_t end_ = 0;
  std::vector<TaskTold> way_;
  std::vector<std::vector<TaskTold>> ways_;
};

std::string words_of(const std::vector<TaskTold>& tasks) {
  std::string text;
  for (const TaskTold& task : tasks) {
    text += (text.empty() ? "" : ", ") + task.task + (task.position.empty() ? "" : '@' + task.position);
  }
  return text;
}

struct DoneWords {
  std::vector<TaskTold> tasks;
  Tail tail;
  std::string unit;
};

// Which words are tasks and what stands behind them, where that can be only one thing.
DoneWords done_words(const Told& told, const Machine& machine, Words words) {
  constexpr std::size_t most_words = 60;
  if (words.size() > most_words) wrong("too-long", "the line has too many words", "say it in several lines");
  TaskWords tasks(told.fleet, machine, words);
  std::optional<DoneWords> found;
  std::optional<Diagnostic> tail_is;
  for (std::size_t count = 1; count <= words.size(); ++count) {
    const auto ways = tasks.ways(count);
    if (ways.empty()) continue;
    TailReader reader(told, machine, Verb::done, words.subspan(count));
    try {
      Tail tail = reader.read();
      if (ways.size() > 1 || found) {
        wrong("several-names",
              fmt::format("`{}` may mean {} or {}", joined(words), found ? words_of(found->tasks) : words_of(ways[1]),
                          words_of(ways[0])),
              "write commas between the tasks, hyphens within their names, and `at` before the value");
      }
      found = DoneWords{ways.front(), std::move(tail), reader.unit()};
    } catch (const Failure& failure) {
      if (failure.diagnostics().front().code == "several-names") throw;
      tail_is = failure.diagnostics().front();
      if (tail_is->code == "not-understood") tail_is.reset();
    }
  }
  if (found) return std::move(*found);
  if (tail_is) throw Failure(FailureKind::usage, std::move(*tail_is));
  // What is no task: the words before the first that cannot be part of one.
  std::size_t known = 0;
  for (std::size_t count = 1; count <= words.size(); ++count) {
    if (!tasks.ways(count).empty()) known = count;
  }
  while (known > 0 && known < words.size() && parts_tasks(words[known])) ++known;
  std::size_t end = known;
  while (end < words.size() && !parts_tasks(words[end]) && !is_number(words[end].text) &&
         !is_like_a_day(words[end].text) && option_of(words[end]).empty()) {
    ++end;
  }
  const std::string unknown = joined(words.subspan(known, end - known));
  if (unknown.empty() && known > 0) {
    wrong("not-understood", fmt::format("`{}` behind the tasks is not understood", joined(words.subspan(known))),
          "behind them may stand a value, a day, found worn, by WHO, note TEXT");
  }
  if (unknown.empty()) {
    wrong("no-task", fmt::format("which task was done on {} is not said", machine.key),
          fmt::format("say it behind the machine: done {} TASK", machine.key));
  }
  task_told(told.fleet, machine, unknown);  // says what there is
  wrong("not-understood", fmt::format("`{}` is not understood", joined(words)), std::string(forms));
}

std::vector<Fact> done_in(const Told& told, const Machine& machine, Words words) {
  const std::vector<Word> parted = parted_at_commas(words);
  const DoneWords said = done_words(told, machine, parted);
  insist_on_plain_value(said.tail);
  insist_on_unit(machine, said.tail, said.unit);
  if (!said.tail.meter.empty() && !said.tail.at) {
    wrong("meter-without-value", fmt::format("meter `{}` is named, but not what it showed", said.tail.meter),
          "say the value too");
  }
  Fact fact = fact_about(told, FactKind::service, machine, said.tail.on);
  add_value(fact, machine, said.tail);
  fact.found = said.tail.found;
  fact.by = said.tail.by.empty() ? told.by : said.tail.by;
  fact.note = said.tail.note;
  std::vector<Fact> facts;
  for (const TaskTold& task : said.tasks) {
    fact.task = task.task;
    fact.position = task.position;
    facts.push_back(fact);
  }
  return said.tail.checked ? with_checks(told.fleet, machine, std::move(facts)) : facts;
}

// A day at the end, and the options with dashes; the rest is the worker's own words. `since yesterday` is part of them.
struct OwnWords {
  std::vector<std::string> words;
  std::optional<DaySpan> on;
  std::string note;
  std::string unit;
  std::string position;
};

bool belongs_to_next(const Word& word) {
  constexpr std::array<std::string_view, 9> words{"since", "until", "till", "from", "before",
                                                  "after", "than",  "like", "as"};
  return std::any_of(words.begin(), words.end(), [&](std::string_view one) { return is_word(word, one); });
}

OwnWords own_words(const Told& told, const Machine& machine, Verb verb, Words words) {
  OwnWords own;
  const auto day_of = [&](Words day) {
    if (own.on) wrong("said-twice", "the line says two days", "say one of them");
    own.on = TailReader(told, machine, verb, day).read().on;
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
  const auto is_day = [](const std::string& text) {
    return counts_from_today(text) || (is_like_a_day(text) && (std::count(text.begin(), text.end(), '.') == 2 ||
                                                               std::count(text.begin(), text.end(), '/') == 2 ||
                                                               std::count(text.begin(), text.end(), '-') == 2));
  };
  if (plain.size() > 1 && !plain.back().quoted && is_day(plain.back().text)) {
    const Word& before = plain[plain.size() - 2];
    const bool on = is_word(before, "on");
    if (!belongs_to_next(before)) {
      day_of(plain.last(1));
      plain = plain.first(plain.size() - (on ? 2 : 1));
    }
  }
  for (const Word& word : plain) own.words.push_back(word.text);
  return own;
}

// `restriction=6.2`, with the unit behind it: `restriction = 6,2 kPa`.
Fact measured(const Told& told, const Machine& machine, const OwnWords& own) {
  std::string text;
  for (const std::string& word : own.words) text += (text.empty() ? "" : " ") + word;
  const auto equals = text.find('=');
  const auto from = std::min(text.find_first_not_of(' ', equals + 1), text.size());
  const auto end = std::min(text.find_first_not_of("0123456789.,-", from), text.size());
  std::string unit = text.substr(end);
  if (unit.starts_with(' ')) unit.erase(0, 1);
  if (unit.find(' ') != std::string::npos || unit.find('=') != std::string::npos ||
      (!unit.empty() && !own.unit.empty())) {
    wrong("not-understood", fmt::format("`{}` is not understood behind the value", unit),
          "say one measurement in a line, with its unit: NAME=VALUE UNIT");
  }
  if (!own.note.empty()) wrong("no-note", "a measurement has no note", "say what else was seen in a line of its own");
  Fact fact = fact_about(told, FactKind::measurement, machine, own.on);
  const Fact said = measurement_told(std::string_view(text).substr(0, end));
  fact.name = said.name;
  fact.value = said.value;
  fact.unit = own.unit.empty() ? unit : own.unit;
  fact.position = own.position;
  const auto all = measured_names(told.fleet, machine);
  std::vector<std::string> names;
  for (const MeasuredName& one : all) names.push_back(one.name);
  if (const auto known = name_written(fact.name, names)) {
    fact.name = *known;
    const auto& limit =
        *std::find_if(all.begin(), all.end(), [&](const MeasuredName& one) { return one.name == *known; });
    if (fact.unit.empty()) fact.unit = limit.units.front();
    if (const auto same = name_written(fact.unit, limit.units)) fact.unit = *same;
    if (const auto where = name_written(fact.position, limit.positions); !fact.position.empty() && where)
      fact.position = *where;
  }
  return fact;
}

std::vector<std::string> sign_names(const Fleet& fleet, const Machine& machine) {
  std::vector<std::string> names;
  for (const ListedSign& sign : listed_signs(fleet, machine)) names.push_back(sign.name);
  return names;
}

std::vector<Fact> saw_in(const Told& told, const Machine& machine, Words words) {
  const OwnWords own = own_words(told, machine, Verb::saw, words);
  const bool is_measured = std::any_of(own.words.begin(), own.words.end(),
                                       [](const std::string& word) { return word.find('=') != std::string::npos; });
  if (is_measured) return {measured(told, machine, own)};
  if (!own.unit.empty() || !own.position.empty()) {
    wrong("no-measurement", "a unit or a position belongs to a measurement, and none is told",
          "say a measurement as NAME=VALUE");
  }
  Fact fact = fact_about(told, FactKind::sign, machine, own.on);
  fact.name = sign_told(own.words);
  fact.note = own.note;
  if (auto known = name_written(fact.name, sign_names(told.fleet, machine))) fact.name = std::move(*known);
  return {fact};
}

// Where the note begins: behind a colon, or the word for it.
std::pair<Words, Words> parted_at_note(Words words, bool& at_colon) {
  for (std::size_t i = 0; i < words.size(); ++i) {
    if (words[i].quoted) continue;
    at_colon = words[i].text.ends_with(':');
    if (at_colon) return {words.first(i + 1), words.subspan(i + 1)};
    if (is_word(words[i], "note") || option_of(words[i]) == "note") return {words.first(i), words.subspan(i + 1)};
  }
  return {words, {}};
}

std::vector<Fact> looked_in(const Told& told, const Machine& machine, Words words) {
  bool at_colon = false;
  const auto [head, note] = parted_at_note(words, at_colon);
  std::vector<Word> said(head.begin(), head.end());
  if (at_colon) said.back().text.pop_back();
  if (!said.empty() && said.back().text.empty()) said.pop_back();
  if (note.empty()) {
    wrong("no-note", "what it was is not said",
          fmt::format("say it behind a colon: looked {} {}: a loose clamp, tightened", machine.key, joined(said)));
  }
  std::vector<std::string> names = sign_names(told.fleet, machine);
  const std::vector<std::string> seen = told.seen(machine);
  names.insert(names.end(), seen.begin(), seen.end());
  const Words all(said);
  // The sign ends where what stands behind it can stand there; where that is not clear, a sign that was seen decides.
  std::vector<std::pair<Fact, bool>> ways;
  std::optional<Diagnostic> tail_is;
  for (std::size_t count = 1; count <= all.size(); ++count) {
    Tail tail;
    try {
      tail = TailReader(told, machine, Verb::looked, all.subspan(count)).read();
    } catch (const Failure& failure) {
      if (failure.diagnostics().front().code != "not-understood") tail_is = failure.diagnostics().front();
      continue;
    }
    Fact fact = fact_about(told, FactKind::looked_at, machine, tail.on);
    const auto known = name_written(joined(all.first(count)), names);
    fact.name = known.value_or(joined(all.first(count)));
    fact.note = joined(note);
    fact.found = tail.found.value_or(Found::good);
    fact.by = tail.by.empty() ? told.by : tail.by;
    ways.emplace_back(std::move(fact), known.has_value());
  }
  if (ways.empty() && tail_is) throw Failure(FailureKind::usage, std::move(*tail_is));
  if (ways.empty()) sign_told({});
  const auto is_known = [](const auto& way) { return way.second; };
  const auto known = std::count_if(ways.begin(), ways.end(), is_known);
  if (known > 1)
    wrong("several-names", fmt::format("`{}` may mean several signs", joined(all)), "put the sign into quotes");
  return {(known == 1 ? *std::find_if(ways.begin(), ways.end(), is_known) : ways.front()).first};
}

std::vector<Fact> out_of_use_in(const Told& told, const Machine& machine, Words words) {
  const OwnWords own = own_words(told, machine, Verb::out_of_use, words);
  Fact fact = fact_about(told, FactKind::out_of_use, machine, own.on);
  for (const std::string& word : own.words) fact.note += (fact.note.empty() ? "" : " ") + word;
  if (!own.note.empty()) fact.note += (fact.note.empty() ? "" : "; ") + own.note;
  return {fact};
}

std::vector<Fact> said_by(Verb verb, const Told& told, Words words) {
  std::vector<Word> trimmed(words.begin(), words.end());
  const bool own = verb == Verb::saw || verb == Verb::out_of_use;
  const auto found = machine_in(told.fleet, trimmed);
  if (!own) drop_last_nods(trimmed);
  if (!trimmed.empty() && !trimmed.back().quoted && trimmed.size() > found.words)
    trimmed.back().text = without_stop(trimmed.back().text);
  if (!own) drop_last_nods(trimmed);
  if (found.machine == nullptr) {
    if (trimmed.empty()) wrong("no-machine", "no machine is named", std::string(forms));
    // Its name is what stands before the first figure, else one word.
    const auto figure =
        std::find_if(trimmed.begin(), trimmed.end(), [](const Word& word) { return is_number(word.text); });
    const auto count =
        verb == Verb::reading && figure != trimmed.begin() ? static_cast<std::size_t>(figure - trimmed.begin()) : 1;
    machine_told(told.fleet, joined(Words(trimmed).first(count)));
    wrong("not-understood", "no machine is named", std::string(forms));
  }
  const Words rest = Words(trimmed).subspan(std::min(found.words, trimmed.size()));
  switch (verb) {
    case Verb::reading:
      return reading_in(told, *found.machine, rest);
    case Verb::done:
      return done_in(told, *found.machine, rest);
    case Verb::saw:
      return saw_in(told, *found.machine, rest);
    case Verb::looked:
      return looked_in(told, *found.machine, rest);
    case Verb::out_of_use:
      return out_of_use_in(told, *found.machine, rest);
  }
  return {};
}

// No command, and no machine: what may have been meant.
[[noreturn]] void say_nothing_is_known(const Fleet& fleet, Words words) {
  for (const std::string_view name : not_taken) {
    if (!words.empty() && is_word(words[0], name)) {
      wrong("not-from-messages", fmt::format("`{}` is not taken from messages", name),
            "enter it by the command of that name");
    }
  }
  const auto figure = std::find_if(words.begin(), words.end(), [](const Word& word) { return is_number(word.text); });
  const bool has_value = figure != words.begin() && figure != words.end();
  // The words before the first figure, else one, may be the name of a machine.
  const std::string name = joined(words.first(has_value ? static_cast<std::size_t>(figure - words.begin()) : 1));
  std::vector<std::string> names;
  for (const auto& [verb, meaning] : verbs) names.emplace_back(verb);
  const auto near_verbs = words.size() > 1 ? nearest(folded_name(words[0].text), names) : std::vector<std::string>{};
  const bool near_machine = !machine_named(fleet, name).near.empty();
  if (!near_machine && !near_verbs.empty()) {
    wrong("not-understood", fmt::format("`{}` is no word that begins a message", words[0].text),
          did_you_mean(near_verbs));
  }
  if (near_machine || has_value) machine_told(fleet, name);
  wrong("not-understood", "it begins with no machine, and with no word that says what was done or seen",
        std::string(forms));
}

}  // namespace

bool begins_a_message(const Fleet& fleet, std::string_view text) {
  const auto words = words_of(text);
  if (verb_of(words)) return true;
  try {
    return machine_in(fleet, words).machine != nullptr;
  } catch (const Failure&) {
    return true;  // of several that it may be
  }
}

std::vector<Fact> facts_in(std::string_view line, const Told& told) {
  const std::vector<Word> words = words_of(line);
  const auto verb = verb_of(words);
  const auto machine = machine_in(told.fleet, words);
  if (!verb && machine.machine == nullptr) say_nothing_is_known(told.fleet, words);
  if (!verb) return said_by(Verb::reading, told, words);
  if (machine.machine == nullptr) return said_by(verb->first, told, Words(words).subspan(verb->second));
  // A machine that is called by such a word: what can be read in one way only is taken.
  std::vector<Fact> as_reading;
  try {
    as_reading = said_by(Verb::reading, told, words);
  } catch (const Failure&) {
    return said_by(verb->first, told, Words(words).subspan(verb->second));
  }
  try {
    said_by(verb->first, told, Words(words).subspan(verb->second));
  } catch (const Failure&) {
    return as_reading;
  }
  wrong("not-understood", fmt::format("`{}` is a machine and a command", words[0].text),
        "say reading before what a meter shows");
}

}  // namespace service::entry
