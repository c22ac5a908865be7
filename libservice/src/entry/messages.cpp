// Which lines of a pasted text are taken, and what each brought about.
#include "service/messages.h"

#include <fmt/format.h>

#include <algorithm>
#include <map>
#include <set>
#include <utility>

#include "entry/healed.h"
#include "entry/message_line.h"
#include "entry/message_lists.h"
#include "entry/message_overheard.h"
#include "entry/message_tail.h"
#include "entry/message_text.h"
#include "entry/message_values.h"
#include "entry/message_voice.h"
#include "entry/message_who.h"
#include "entry/message_words.h"
#include "entry/refused_values.h"
#include "service/spreadsheet.h"
#include "service/telling.h"
#include "service/typed.h"

namespace service {
namespace {

constexpr std::size_t most_lines = 2000;

// A line and what it is to say, before anybody knows what the book holds of it.
struct Draft {
  MessageLine line;
  std::string said;                     // without what the messenger put before it
  std::optional<entry::Stamped> stamp;  // its own, or that of the line above it
  std::size_t block = 0;                // of lines that one stamp holds for
  std::optional<Day> sent_on;
  bool sent_counts = false;   // that is a word such as `Today`, which is another day when the text is read again
  std::string no_day;         // why that is not known, where a stamp stands above
  bool above_stamps = false;  // no stamp stands above it, and one below
  bool names_day = true;      // a day that is the same whenever the text is read
  bool own_day = false;       // it says its day itself
  bool day_counts = false;    // it says `today` or the like
  bool asked_back_for_others = false;  // for what other lines say, and for nothing in itself
  std::vector<Fact> facts;
  std::vector<bool> is_new;  // of these facts: not in the book, and not said before
};

bool is_bad_look(const Fact& fact) { return fact.kind == FactKind::looked_at && found_bad(fact); }

// What is true of a machine that is not in use, or of a sign, until something else ends it.
bool raises(const Fact& fact) {
  return fact.kind == FactKind::sign || fact.kind == FactKind::measurement || fact.kind == FactKind::out_of_use ||
         is_bad_look(fact);
}

template <class Kind, class Is>
bool has_limb(const MachineTask& task, const Is& is) {
  for (const auto* choices : {&task.every, &task.first}) {
    for (const LimbChoice& choice : *choices) {
      const auto* limb = std::get_if<Kind>(&choice.candidates.front());
      if (limb != nullptr && is(*limb)) return true;
    }
  }
  return false;
}

// Whether a service of this task, or of one that it includes, is an answer to what was seen or measured.
bool answers_by_work(const Fleet& fleet, const Machine& machine, const Fact& service, const Fact& raised) {
  for (const std::string& name : done_with(fleet.schedule_of(machine), service.task)) {
    const auto task = task_of(fleet, machine, name);
    if (!task) continue;
    const bool seen =
        (raised.kind == FactKind::sign || is_bad_look(raised)) && has_limb<SignLimb>(*task, [&](const SignLimb& limb) {
          return std::find(limb.signs.begin(), limb.signs.end(), raised.name) != limb.signs.end();
        });
    const bool measured = raised.kind == FactKind::measurement &&
                          has_limb<MeasuredLimb>(*task, [&](const MeasuredLimb& l) { return l.name == raised.name; });
    if (seen || measured) return true;
  }
  return false;
}

// Whether a later fact ends what an earlier one raised.
bool answers(const Fleet& fleet, const Machine& machine, const Fact& later, const Fact& raised) {
  if (raised.kind == FactKind::out_of_use) return later.kind == FactKind::back;
  if (later.kind == FactKind::service) return answers_by_work(fleet, machine, later, raised);
  if (later.kind != FactKind::looked_at || found_bad(later)) return false;
  // A measurement is looked at by its name and its value.
  return raised.kind == FactKind::measurement ? later.name.starts_with(raised.name) : later.name == raised.name;
}

// What takes something off a list, or puts it further down.
bool clears(const Fact& fact) {
  return fact.kind == FactKind::service || (fact.kind == FactKind::looked_at && !found_bad(fact));
}

// Whether the book tells of this already, but for its day. Of what clears something, who did it and what else was said
// of it is left aside, and what one of the two does not say: the office writes the same look down in its own words.
bool same_as_told(Fact book, Fact told) {
  if (!clears(told)) return same_content(book, told);
  for (Fact* fact : {&book, &told}) {
    fact->by.clear();
    fact->note.clear();
    fact->sure = fact->history = false;
  }
  if (!book.at || !told.at) {
    for (Fact* fact : {&book, &told}) {
      fact->at.reset();
      fact->meter.clear();
    }
  }
  if (!book.found || !told.found) book.found = told.found = std::nullopt;
  return same_content(book, told);
}

// The line with a whole date in place of the word that counts from when it is read, or behind it.
std::string with_date(const std::string& said, bool counts, Day day) {
  constexpr std::string_view marks = ".,!";
  const std::vector<entry::message::Word> words = entry::message::words_of(said);
  for (auto word = words.rbegin(); counts && word != words.rend(); ++word) {
    const auto end = word->text.find_last_not_of(marks) + 1;
    const std::string plain = word->text.substr(0, end);
    if (word->quoted || !counts_from_today(plain)) continue;
    std::string dated = said;
    return dated.replace(said.rfind(word->text), word->text.size(), to_text(day));
  }
  const bool stops = entry::message::without_stop(words.back().text) != words.back().text;
  return fmt::format("{} {}", std::string_view(said).substr(0, said.size() - (stops ? 1 : 0)), to_text(day));
}

// Whoever did or entered something that stands in the book, in all of it, as it has the name. Read when somebody is
// named.
class Known {
 public:
  Known(const Record& record, const MessagesAsk& ask, const Writer& writer) : record_(record) {
    add(ask.by);
    add(writer.name);
  }

  std::optional<std::string> called(std::string_view written) {
    if (!is_read_) {
      is_read_ = true;
      const std::vector<Fact> all = record_.facts();
      for (const Fact& fact : unstruck(all)) {
        add(fact.by);
        add(fact.entered_by);
      }
    }
    const auto found = names_.find(folded_name(written));
    return found == names_.end() ? std::nullopt : std::optional(found->second);
  }

 private:
  // `unknown` is whoever entered something and did not say who he is.
  void add(const std::string& name) {
    std::string folded = folded_name(name);
    if (!folded.empty() && folded != "unknown") names_.emplace(std::move(folded), name);
  }

  const Record& record_;
  bool is_read_ = false;
  std::map<std::string, std::string> names_;  // by how they are compared
};

// One of another day, or of no known day, may be of before or after: what is of the same is of an unknown order.
bool is_of_day(const Fact& fact, Day day) { return fact.on.whole_day() && fact.on.first == day; }

// In which order lines were sent: blocks that have a day and a time by those, the others where they stand.
void put_in_order(std::vector<Draft>& drafts) {
  struct Block {
    std::size_t number;
    std::pair<Day, int> sent;
  };
  std::vector<Block> blocks;
  for (const Draft& draft : drafts) {
    const bool is_timed = draft.sent_on && draft.stamp && draft.stamp->second;
    if (!is_timed || (!blocks.empty() && blocks.back().number == draft.block)) continue;
    blocks.push_back({draft.block, {*draft.sent_on, *draft.stamp->second}});
  }
  std::vector<Block> sorted = blocks;
  std::stable_sort(sorted.begin(), sorted.end(), [](const Block& a, const Block& b) { return a.sent < b.sent; });
  std::map<std::size_t, std::size_t> place;
  for (std::size_t i = 0; i < blocks.size(); ++i) place[sorted[i].number] = blocks[i].number;
  const auto place_of = [&](const Draft& draft) {
    const auto at = place.find(draft.block);
    return at == place.end() ? draft.block : at->second;
  };
  std::stable_sort(drafts.begin(), drafts.end(),
                   [&](const Draft& a, const Draft& b) { return place_of(a) < place_of(b); });
}

class Reader {
 public:
  using Somebody = std::function<std::optional<std::string>(std::string_view)>;

  Reader(const Fleet& fleet, const MessagesAsk& ask, Somebody somebody)
      : fleet_(fleet), ask_(ask), somebody_(std::move(somebody)) {}

  // In the order in which they were sent.
  std::vector<Draft> read() const {
    std::vector<Draft> drafts;
    std::vector<entry::Stamped> stamps;
    std::vector<std::size_t> not_understood;  // lines that begin like a stamp
    for (entry::PastedLine& pasted : entry::pasted_lines(ask_.text)) {
      Draft draft;
      draft.line.number = pasted.number;
      draft.line.text = std::move(pasted.text);
      if (!pasted.problem.empty()) {
        draft.line.wrong = {{"unreadable", "the line " + pasted.problem, "type it anew"}};
        if (entry::begins_like_a_stamp(draft.line.text)) not_understood.push_back(drafts.size());
      } else {
        auto head = entry::headed(pasted.plain, ask_.today,
                                  [&](std::string_view text) { return entry::begins_a_message(fleet_, text); });
        // What tells of a machine is no divider, though a day stands in the line; nor is a typing slip in its name.
        if (head.looks_like_a_header && !head.not_understood) {
          const auto before = entry::before_machine_told(fleet_, pasted.plain);
          const bool is_none =
              entry::may_begin_a_message(fleet_, pasted.plain) || (before && !entry::has_part_of_a_stamp(*before));
          head.not_understood = !is_none;
        }
        draft.line.sender = std::move(head.sender);
        draft.stamp = std::move(head.sent);
        if (draft.stamp && draft.stamp->names_day) stamps.push_back(*draft.stamp);
        draft.said = std::move(head.rest);
        if (head.not_understood) {
          not_understood.push_back(drafts.size());
          draft.said.clear();
          draft.line.wrong = {{"bad-stamp", "it looks like the stamp of messages, and its day is not understood",
                               "if this is no stamp, take it out; else write its day as 14.06.2026 or 2026-06-14, and "
                               "behind it nothing, or a time and who sent it: 14.06.2026 19:40 M.T.: ...; the lines "
                               "below it have no day without it"}};
        } else if (draft.said.empty()) {
          draft.line.fate = LineFate::heading;
        }
      }
      drafts.push_back(std::move(draft));
    }
    share_stamps(drafts, entry::day_comes_first(stamps), not_understood);
    put_in_order(drafts);
    return drafts;
  }

  bool is_plain_name(std::string_view sender) const {
    return somebody_(sender) || entry::message::is_plain_name(sender);
  }

  // What a line says, read beside what the book knows of its machine.
  void understand(Draft& draft, const std::function<std::vector<std::string>(const Machine&)>& seen) const {
    if (draft.said.empty()) return;
    entry::Told told{fleet_, ask_.today, ask_.on ? ask_.on : ask_.today, "", true, ask_.by, seen, somebody_};
    if (draft.sent_on) {
      told.today = *draft.sent_on;
      told.on = draft.sent_on;
    } else if (!draft.no_day.empty()) {
      told.counts_from_today = false;
      told.no_day = draft.no_day;
      told.on = std::nullopt;
    } else if (ask_.on) {
      told.counts_from_today = false;
    }
    try {
      entry::Said said = entry::said_in(draft.said, told);
      draft.facts = std::move(said.facts);
      const bool by_date = said.names_day && !said.day_counts;
      draft.names_day = by_date || (draft.sent_on ? !draft.sent_counts : ask_.on.has_value());
      draft.own_day = said.names_day;
      draft.day_counts = said.day_counts;
      draft.line.on = draft.facts.front().on;
      draft.line.wrong.clear();
      draft.line.fate = LineFate::taken;
      draft.line.instead.clear();
    } catch (const entry::message::AskedBack& asked) {
      refuse(draft, asked);
      draft.line.instead = asked.facts();
      draft.line.on = asked.facts().front().on;
    } catch (const Failure& failure) {
      refuse(draft, failure);
      if (draft.sent_on && may_be_of_day_sent(draft)) draft.line.on = *draft.sent_on;
    }
    draft.is_new.assign(draft.facts.size(), true);
  }

 private:
  // A message about a machine, in which no other day stands.
  bool may_be_of_day_sent(const Draft& draft) const {
    const auto words = entry::message::words_of(draft.said);
    return entry::may_begin_a_message(fleet_, draft.said) &&
           std::none_of(words.begin(), words.end(),
                        [](const auto& word) { return entry::message::is_like_a_day(word.text); });
  }

  static void refuse(Draft& draft, const Failure& failure) {
    draft.facts.clear();
    draft.line.on.reset();
    draft.line.wrong = failure.diagnostics();
    draft.line.instead.clear();
    draft.line.fate = LineFate::refused;
  }

  // A stamp holds for the lines below it, up to the next. A time alone is of the day above it, else of the one that was
  // told for all, as long as times only rise: behind midnight nobody knows how many days have passed. Below what nobody
  // understood no day is known, and least of all that of an older stamp.
  void share_stamps(std::vector<Draft>& drafts, std::optional<bool> day_comes_first,
                    const std::vector<std::size_t>& not_understood) const {
    Draft above;
    std::size_t block = 0;
    std::optional<entry::Stamped> time;  // the last one of this day
    for (std::size_t i = 0; i < drafts.size(); ++i) {
      Draft& draft = drafts[i];
      const bool is_lost = std::find(not_understood.begin(), not_understood.end(), i) != not_understood.end();
      if (is_lost) {
        ++block;
        above = Draft{};
        above.no_day = fmt::format("line {} looks like a stamp, and is not understood", draft.line.number);
      } else if (draft.stamp) {
        ++block;
        above.stamp = draft.stamp;
        above.line.sender = draft.line.sender;
        if (draft.stamp->names_day) {
          take_day(above, day_comes_first);
        } else {
          take_time(above, time);
        }
        if (draft.stamp->second || draft.stamp->names_day) time = draft.stamp;
      }
      draft.block = block;
      draft.above_stamps = !above.stamp && above.no_day.empty();
      draft.stamp = above.stamp;
      draft.sent_on = above.sent_on;
      draft.sent_counts = above.sent_counts;
      draft.no_day = above.no_day;
      draft.line.sender = above.line.sender;
    }
    const bool any_stamp = std::any_of(drafts.begin(), drafts.end(), [](const Draft& draft) { return !!draft.stamp; });
    for (Draft& draft : drafts) draft.above_stamps = draft.above_stamps && any_stamp;
  }

  // Of two days that a stamp may be, the one that was told for all.
  void take_day(Draft& above, std::optional<bool> day_comes_first) const {
    const auto day = entry::day_of(*above.stamp, day_comes_first);
    const bool is_told =
        !day.value && ask_.on && (ask_.on == above.stamp->day_first || ask_.on == above.stamp->month_first);
    above.sent_on = is_told ? ask_.on : day.value;
    above.sent_counts = above.stamp->counts;
    above.no_day = is_told ? "" : day.problem;
  }

  void take_time(Draft& above, const std::optional<entry::Stamped>& time) const {
    if (!above.sent_on && above.no_day.empty()) {
      above.sent_on = ask_.on;
      if (!ask_.on) {
        above.no_day = fmt::format("the stamp `{}` names none, and none stands above it", above.stamp->text);
      }
    } else if (above.sent_on && time && time->second && *above.stamp->second < *time->second) {
      above.sent_on.reset();
      above.no_day = fmt::format("the time `{}` is earlier than `{}` above it", above.stamp->text, time->text);
    }
  }

  const Fleet& fleet_;
  const MessagesAsk& ask_;
  Somebody somebody_;
};

// The book beside the text: what it holds already, and what of the text it lets through.
class Sorting {
 public:
  Sorting(const std::shared_ptr<const Fleet>& fleet, const MessagesAsk& ask, const Writer& writer, const Reader& reader,
          std::vector<Draft>& drafts)
      : fleet_ptr_(fleet), fleet_(*fleet), ask_(ask), writer_(writer), reader_(reader), drafts_(drafts) {}

  std::vector<Proposal> propose(const Extract& known) {
    lists_.emplace(fleet_ptr_, known, ask_.today, ask_.day_is_given);
    for (const Fact& fact : unstruck(known.facts)) by_machine_[fact.machine].push_back(fact);
    for (Draft& draft : drafts_) {
      reader_.understand(draft, [this](const Machine& machine) { return seen_names(machine); });
    }
    find_what_is_there();
    for (std::size_t i = 0; i < drafts_.size(); ++i) {
      Draft& draft = drafts_[i];
      if (draft.line.fate != LineFate::taken) continue;
      insist_on_a_day(draft);
    }
    insist_on_no_plan();
    insist_on_values_that_agree(known);
    find_what_heals();
    for (Draft& draft : drafts_) insist_on_certainty(draft);
    insist_on_one_voice();
    for (std::size_t i = 0; i < drafts_.size(); ++i) insist_on_what_came_first(i);
    insist_on_one_voice();
    auto proposals = proposed();
    // A line is taken whole or not at all, so what is left is judged again.
    for (bool all_well = false; !all_well; proposals = proposed()) {
      all_well = judge_all(known, proposals);
      if (!all_well) insist_on_one_voice();
    }
    tell_what_is_cleared();
    for (std::size_t i = 0; i < drafts_.size(); ++i) tell_how_to_enter(i);
    for (Draft& draft : drafts_) {
      if (draft.line.fate != LineFate::said_before) continue;
      const Draft& first = line(draft.line.as_line);
      if (first.line.fate != LineFate::refused) continue;
      draft.line.fate = LineFate::refused;
      draft.line.wrong = first.line.wrong;
    }
    return proposals;
  }

 private:
  const Draft& line(int number) const {
    return *std::find_if(drafts_.begin(), drafts_.end(), [&](const Draft& d) { return d.line.number == number; });
  }

  // What was seen of a machine, in the book or in the text, by the names that a look may answer.
  std::vector<std::string> seen_names(const Machine& machine) const {
    std::set<std::string> names;
    const KeptAsSeen kept(fleet_, machine);
    const auto add = [&](const Fact& fact) {
      if (const auto name = kept.of(fact)) names.insert(name->name);
    };
    if (const auto book = by_machine_.find(machine.key); book != by_machine_.end()) {
      for (const Fact& fact : book->second) add(fact);
    }
    for (const Draft& draft : drafts_) {
      for (const Fact& fact : draft.facts) {
        if (fact.machine == machine.key) add(fact);
      }
    }
    return {names.begin(), names.end()};
  }

  // What the book holds of it: facts that are the same, unstruck, in their order.
  std::vector<std::size_t> equal_in_book(const Fact& fact) const {
    std::vector<std::size_t> found;
    const auto book = by_machine_.find(fact.machine);
    if (book == by_machine_.end()) return found;
    for (std::size_t i = 0; i < book->second.size(); ++i) {
      if (same_content(book->second[i], fact)) found.push_back(i);
    }
    return found;
  }

  bool told_by_this_text(const Fact& fact) const {
    return std::any_of(drafts_.begin(), drafts_.end(), [&](const Draft& draft) {
      return std::any_of(draft.facts.begin(), draft.facts.end(), [&](const Fact& f) { return same_content(f, fact); });
    });
  }

  // What a worker saw must not vanish: answered on the day on which the book last told of it, by something that this
  // text does not tell of, it is taken to be seen anew. Answered on a later day, it is an old message.
  bool answered_since(const Fact& fact, std::size_t last_equal) const {
    const Machine& machine = *fleet_.machine(fact.machine);
    const auto& book = by_machine_.at(fact.machine);
    return raises(fact) &&
           std::any_of(book.begin() + static_cast<std::ptrdiff_t>(last_equal) + 1, book.end(), [&](const Fact& later) {
             return later.on.first <= fact.on.last && answers(fleet_, machine, later, fact) &&
                    !told_by_this_text(later);
           });
  }

  void find_what_is_there() {
    std::map<std::string, std::size_t> taken_for;  // equal facts of the book that a line stands for already
    for (std::size_t i = 0; i < drafts_.size(); ++i) {
      Draft& draft = drafts_[i];
      if (draft.line.fate != LineFate::taken) continue;
      std::size_t there = 0;
      for (std::size_t j = 0; j < draft.facts.size(); ++j) {
        const Fact& fact = draft.facts[j];
        const auto equal = equal_in_book(fact);
        const bool anew = !equal.empty() && answered_since(fact, equal.back());
        std::size_t& used = taken_for[content_key(fact)];
        const int before = said_by_line_before(i, j);
        if (!anew && used < equal.size()) {
          ++used;
          ++there;
          draft.is_new[j] = false;
        } else if (before > 0) {
          draft.is_new[j] = false;
          draft.line.as_line = before;
        } else {
          draft.line.anew = draft.line.anew || anew;
        }
      }
      const bool any_new = std::find(draft.is_new.begin(), draft.is_new.end(), true) != draft.is_new.end();
      if (any_new) continue;
      draft.line.fate = there == draft.facts.size() ? LineFate::already_there : LineFate::said_before;
    }
  }

  // The line that says the same new fact, with nothing behind it that ends what it raised; 0: none.
  int said_by_line_before(std::size_t at, std::size_t which) const {
    const Fact& fact = drafts_[at].facts[which];
    const Machine& machine = *fleet_.machine(fact.machine);
    int before = 0;
    for (std::size_t i = 0; i <= at; ++i) {
      const Draft& draft = drafts_[i];
      for (std::size_t j = 0; j < (i == at ? which : draft.facts.size()); ++j) {
        if (!draft.is_new[j]) continue;
        if (same_content(draft.facts[j], fact)) before = draft.line.number;
        if (raises(fact) && answers(fleet_, machine, draft.facts[j], fact)) before = 0;
      }
    }
    return before;
  }

  // Signs that stand, and the lines that answer them.
  void tell_what_is_cleared() {
    std::map<std::string, std::vector<Fact>> standing;
    const auto add = [&](const Fact& fact, std::vector<Fact>* cleared) {
      std::vector<Fact>& signs = standing[fact.machine];
      const Machine* machine = fleet_.machine(fact.machine);
      if (machine == nullptr) return;
      std::erase_if(signs, [&](const Fact& sign) {
        const bool is_answered = sign.on.first <= fact.on.first && answers(fleet_, *machine, fact, sign);
        if (is_answered && cleared != nullptr &&
            std::none_of(cleared->begin(), cleared->end(), [&](const Fact& one) { return one.name == sign.name; })) {
          cleared->push_back(sign);
        }
        return is_answered;
      });
      if (fact.kind == FactKind::sign || is_bad_look(fact)) signs.push_back(fact);
    };
    for (const auto& [key, facts] : by_machine_) {
      for (const Fact& fact : facts) add(fact, nullptr);
    }
    for (Draft& draft : drafts_) {
      draft.line.clears.clear();
      if (draft.line.fate != LineFate::taken) continue;
      for (std::size_t j = 0; j < draft.facts.size(); ++j) {
        if (draft.is_new[j]) add(draft.facts[j], &draft.line.clears);
      }
    }
  }

  static void refuse(Draft& draft, Diagnostic why) {
    draft.line.fate = LineFate::refused;
    draft.line.wrong = {std::move(why)};
  }

  // The same words a day later: an old message pasted again, or news.
  void insist_on_a_day(Draft& draft) const {
    if (draft.names_day) return;
    constexpr auto week = std::chrono::days{7};
    for (std::size_t j = 0; j < draft.facts.size(); ++j) {
      Fact told = draft.facts[j];
      const auto book = by_machine_.find(told.machine);
      if (!draft.is_new[j] || book == by_machine_.end()) continue;
      const Day today = told.on.first;
      for (const Fact& fact : book->second) {
        const bool lately = fact.on.whole_day() && fact.on.first < today && fact.on.first >= today - week;
        if (!lately) continue;
        told.on = fact.on;
        if (!same_as_told(fact, told)) continue;
        refuse(draft, {"told-lately",
                       fmt::format("the record has the same of {}, and this names no date: it may be the same message",
                                   to_text(fact.on)),
                       told.kind == FactKind::looked_at && draft.said.find(':') != std::string::npos
                           ? fmt::format("where it is not, say its day before the colon, as {}", to_text(today))
                           : fmt::format("where it is not, say its day as a date: {}",
                                         with_date(draft.said, draft.day_counts, today))});
        return;
      }
    }
  }

  bool clears_at(const Draft& draft, std::size_t which) const {
    return draft.is_new[which] && (clears(draft.facts[which]) || heals_.contains({draft.line.number, which}));
  }

  bool clears_anything(const Draft& draft) const {
    for (std::size_t j = 0; j < draft.facts.size(); ++j) {
      if (clears_at(draft, j)) return true;
    }
    return false;
  }

  // Of what clears something: when it was, and that it is so, is certain by where it stands.
  void insist_on_certainty(Draft& draft) {
    if (draft.line.fate != LineFate::taken || !clears_anything(draft)) return;
    if (!draft.names_day && draft.above_stamps) {
      refuse(draft, {"day-not-certain", "it names no day, and stands above the first stamp", "say its day at its end"});
    } else if (!is_plainly_sent(draft)) {
      draft.line.instead = draft.facts;
      refuse(draft, {"no-plain-sender",
                     fmt::format("`{}` stands before it, which is no plain name, and may say that it is not so",
                                 draft.line.sender),
                     "where it is so, send it without that"});
    }
  }

  // What says that it has not come yet, and that more follows: `Planned for tomorrow:`. Empty: nothing does.
  std::string plan_in(const Draft& draft) const {
    if (!is_plainly_sent(draft)) return entry::message::says_not_yet(draft.line.sender) ? draft.line.sender + ':' : "";
    if (draft.line.fate != LineFate::refused) return "";
    const std::string& text = draft.said.empty() ? draft.line.text : draft.said;
    const std::string_view plain = entry::message::without_pictures(text);
    return plain.ends_with(':') && entry::message::says_not_yet(plain) ? std::string(plain) : "";
  }

  // Below such a line, of the same message or of the same sender on that day, nothing has come for certain: asked back,
  // but for what raises something.
  void insist_on_no_plan() {
    const auto is_below = [](const Draft& plan, const Draft& draft) {
      if (plan.block == draft.block) return plan.line.number <= draft.line.number;
      return !plan.line.sender.empty() && folded_name(plan.line.sender) == folded_name(draft.line.sender) &&
             plan.sent_on == draft.sent_on;
    };
    for (std::size_t i = 0; i < drafts_.size(); ++i) {
      const std::string plan = plan_in(drafts_[i]);
      for (std::size_t k = i; !plan.empty() && k < drafts_.size(); ++k) {
        Draft& draft = drafts_[k];
        const bool is_meant = draft.line.fate == LineFate::taken && is_below(drafts_[i], draft) &&
                              std::none_of(draft.facts.begin(), draft.facts.end(), raises);
        // What clears something is asked back anyway, for that line is not taken.
        if (!is_meant || clears_anything(draft)) continue;
        draft.asked_back_for_others = true;
        refuse(draft, {"planned", fmt::format("`{}` stands before it, and may say that it is not so yet", plan),
                       "where it is so already, send it without that"});
      }
    }
  }

  // What the lines say that one meter shows.
  struct Shown {
    std::vector<Draft*> drafts;
    std::vector<entry::LineValue> values;
  };

  std::map<std::pair<std::string, const Meter*>, Shown> shown_by_meter() {
    std::map<std::pair<std::string, const Meter*>, Shown> all;
    for (Draft& draft : drafts_) {
      const bool counts = draft.line.fate == LineFate::taken || draft.line.fate == LineFate::already_there;
      const Fact* const told = counts ? value_told(draft) : nullptr;
      if (told == nullptr) continue;
      const bool is_timed = !draft.own_day && draft.sent_on && draft.stamp && draft.stamp->second;
      Shown& shown = all[{told->machine, meter_of(*told)}];
      shown.drafts.push_back(&draft);
      shown.values.push_back({told->on.first, is_timed ? draft.stamp->second : std::nullopt, *told->at, told->sure});
    }
    return all;
  }

  // Null: it tells none of a day.
  static const Fact* value_told(const Draft& draft) {
    const auto told = std::find_if(draft.facts.begin(), draft.facts.end(),
                                   [](const Fact& fact) { return fact.at && fact.on.whole_day(); });
    return told == draft.facts.end() ? nullptr : &*told;
  }

  const Meter* meter_of(const Fact& fact) const {
    const Machine& machine = *fleet_.machine(fact.machine);
    return fact.meter.empty() ? machine.first_meter() : machine.meter(fact.meter);
  }

  // The book does not say that it is wrong.
  bool may_be_right(const Draft& draft, const Extract& known) const {
    if (draft.line.fate != LineFate::taken) return true;
    const std::vector<Proposal> alone{{*value_told(draft), false, std::nullopt}};
    return judge(fleet_, known.facts, alone, stamp_of(writer_, ask_.origin, alone), ask_.today).refused.empty();
  }

  // On one of the days of these values another meter began to count.
  bool was_changed(const std::string& machine, const Meter* meter, const Shown& shown) const {
    const auto book = by_machine_.find(machine);
    if (book == by_machine_.end()) return false;
    const auto [first, last] = std::minmax_element(shown.values.begin(), shown.values.end(),
                                                   [](const auto& a, const auto& b) { return a.on < b.on; });
    return std::any_of(book->second.begin(), book->second.end(), [&](const Fact& fact) {
      return fact.kind == FactKind::meter_change && meter_of(fact) == meter && fact.on.last >= first->on &&
             fact.on.first <= last->on;
    });
  }

  // Those that cannot all be right, as far as the book does not tell which of them is wrong: the judge does then.
  std::vector<entry::NotCertain> not_certain(const Meter& meter, Shown& shown, const Extract& known) const {
    while (true) {
      std::vector<entry::NotCertain> all = entry::not_certain(meter, shown.values);
      std::set<std::size_t> wrong;
      for (const entry::NotCertain& one : all) {
        for (const std::size_t at : {one.value, one.other}) {
          if (!may_be_right(*shown.drafts[at], known)) wrong.insert(at);
        }
      }
      if (wrong.empty()) return all;
      for (auto at = wrong.rbegin(); at != wrong.rend(); ++at) {
        shown.drafts.erase(shown.drafts.begin() + static_cast<std::ptrdiff_t>(*at));
        shown.values.erase(shown.values.begin() + static_cast<std::ptrdiff_t>(*at));
      }
    }
  }

  // Of two values of a meter that cannot both be right nobody can tell which is wrong, so both are asked back.
  void insist_on_values_that_agree(const Extract& known) {
    auto all = shown_by_meter();
    for (auto& [of, shown] : all) {
      const auto& [machine, meter] = of;
      if (meter == nullptr || shown.values.size() < 2 || was_changed(machine, meter, shown)) continue;
      for (const entry::NotCertain& one : not_certain(*meter, shown, known)) {
        Draft& draft = *shown.drafts[one.value];
        if (draft.line.fate != LineFate::taken) continue;
        draft.line.instead = draft.facts;
        refuse(draft, why_not_certain(machine, *meter, shown, one));
      }
    }
  }

  static Diagnostic why_not_certain(const std::string& machine, const Meter& meter, const Shown& shown,
                                    const entry::NotCertain& one) {
    const auto [first, second] = std::minmax(one.value, one.other);
    const auto value_of = [&](std::size_t at) {
      constexpr int minute = 60;
      const entry::LineValue& value = shown.values[at];
      std::string text =
          fmt::format("{} {}", meter.unit == "h" ? to_text_tenths(value.at) : to_text(value.at), meter.unit);
      if (value.on != shown.values[one.value].on) text += " of " + to_text(value.on);
      if (!value.second) return text;
      return text + fmt::format(" at {:02}:{:02}", *value.second / minute / minute, *value.second / minute % minute);
    };
    const bool falls = apart(meter, shown.values[first], shown.values[second]) == entry::Apart::falls;
    return {
        "values-apart",
        fmt::format("line {} says that meter `{}` of {} shows {}, line {} {}: {}; {}", shown.drafts[first]->line.number,
                    meter.name, machine, value_of(first), shown.drafts[second]->line.number, value_of(second),
                    falls ? "no meter runs backwards" : "more use than the time between them allows",
                    one.alone ? "what else is said of it speaks for the other"
                              : "one of the two is wrong, and nothing tells which"),
        "read the meter again and send what it shows; where a value was read long before it was sent, say its day "
        "behind it"};
  }

  bool is_plainly_sent(const Draft& draft) const {
    return draft.line.sender.empty() || reader_.is_plain_name(draft.line.sender);
  }

  // A sign of the same day in the book, of which nobody knows whether it came before.
  void insist_on_what_came_first(std::size_t at) {
    Draft& draft = drafts_[at];
    if (draft.line.fate != LineFate::taken) return;
    for (std::size_t j = 0; j < draft.facts.size(); ++j) {
      const Fact& answer = draft.facts[j];
      if (!draft.is_new[j] || !may_answer(answer)) continue;
      const Fact* sign = sign_in_book(answer);
      if (sign == nullptr) continue;
      draft.line.instead = draft.facts;
      refuse(draft, {"which-came-first",
                     fmt::format("`{}` of {} was seen the same day, {}, and nobody knows which came first", sign->name,
                                 sign->machine, to_text(sign->on)),
                     "where this came after it, enter it by the command"});
      return;
    }
  }

  // What clears something is taken only where no other line of the text may say otherwise. What is refused for that
  // ends nothing any more, so the others are looked at again.
  void insist_on_one_voice() {
    for (bool again = true; again;) {
      for (bool heals = true; heals;) {
        find_what_heals();
        heals = false;
        for (Draft& draft : drafts_) heals = refuse_what_heals(draft) || heals;
        heals = refuse_what_ends_values() || heals;
      }
      again = false;
      for (std::size_t i = 0; i < drafts_.size(); ++i) again = refuse_beside_a_sign(i) || again;
      const auto untaken = entry::untaken_of_one_voice(
          lines_sent(), [&](std::size_t at, std::size_t other) { return speaks_of(drafts_[at], drafts_[other]); });
      const auto machines = machines_of_untaken();
      for (std::size_t i = 0; i < drafts_.size(); ++i) {
        if (untaken[i]) again = refuse_beside(drafts_[i], drafts_[*untaken[i]], machines) || again;
      }
    }
  }

  // What stands where a sender does and is no plain name is not read either.
  std::vector<entry::LineSent> lines_sent() {
    std::vector<entry::LineSent> sent;
    bool any_untaken = false;
    for (const Draft& draft : drafts_) {
      const bool is_plain = is_plainly_sent(draft);
      const bool clears = draft.line.fate == LineFate::taken && clears_anything(draft);
      sent.push_back({draft.line.number, folded_name(draft.line.sender),
                      is_plain && draft.line.fate == LineFate::heading, !is_plain || is_untaken(draft), clears,
                      clears && clears_safety(draft)});
      any_untaken = any_untaken || sent.back().untaken;
    }
    // What a reading takes off the list has to be reckoned, and matters only where anything may speak against it.
    for (std::size_t i = 0; any_untaken && i < drafts_.size(); ++i) {
      if (sent[i].clears || drafts_[i].line.fate != LineFate::taken) continue;
      const entry::TakesOff& off = taken_off_by_reading(drafts_[i]);
      sent[i].clears = off.any;
      sent[i].safety = off.safety;
    }
    return sent;
  }

  const entry::TakesOff& taken_off_by_reading(const Draft& draft) {
    const auto [found, is_first] = off_by_reading_.try_emplace(draft.line.number);
    const Fact& fact = draft.facts.front();
    if (is_first && fact.kind == FactKind::reading) {
      const std::vector<Proposal> alone{{fact, false, std::nullopt}};
      found->second = lists_->taken_off_by(fact, stamp_of(writer_, ask_.origin, alone));
    }
    return found->second;
  }

  // Something of it never waits.
  bool clears_safety(const Draft& draft) const {
    for (std::size_t j = 0; j < draft.facts.size(); ++j) {
      if (clears_at(draft, j) && is_of_safety(draft.facts[j])) return true;
    }
    return false;
  }

  bool is_of_safety(const Fact& fact) const {
    const Machine& machine = *fleet_.machine(fact.machine);
    if (fact.kind == FactKind::looked_at) return is_look_of_safety(fact);
    const Schedule& schedule = fleet_.schedule_of(machine);
    std::vector<std::string> names = done_with(schedule, fact.task);
    names.push_back(fact.task);
    return std::any_of(names.begin(), names.end(), [&](const std::string& name) {
      const NamedTask named = task_named(schedule, name);
      return named.task != nullptr && never_waits(*named.task, named.follow_up);
    });
  }

  // What nobody reads of a line: what stands where its sender does too, where that is no plain name.
  std::vector<std::string> unread(const Draft& draft) const {
    if (draft.said.empty() && is_plainly_sent(draft)) return {draft.line.text};
    if (is_plainly_sent(draft)) return {draft.said};
    return {draft.line.sender, draft.line.sender + ' ' + draft.said};
  }

  const std::vector<entry::Overheard>& overheard(const Draft& draft) {
    const auto [found, is_first] = overheard_.try_emplace(draft.line.number);
    if (is_first) {
      for (const std::string& text : unread(draft)) found->second.emplace_back(fleet_, text);
    }
    return found->second;
  }

  entry::SpeaksOf speaks_of(const Draft& cleared, const Draft& other) {
    using entry::SpeaksOf;
    if (!other.line.wrong.empty() && other.line.wrong.front().code == "unreadable") return SpeaksOf::it;
    const Machine& machine = *fleet_.machine(cleared.facts.front().machine);
    const std::vector<std::string>& things = things_of(cleared);
    SpeaksOf most = SpeaksOf::talk;
    for (const entry::Overheard& heard : overheard(other)) {
      most = std::min(most, heard.speaks_of(machine, things));
    }
    return most;
  }

  const std::vector<std::string>& things_of(const Draft& cleared) const {
    const auto [things, is_first] = things_.try_emplace(cleared.line.number);
    if (is_first) {
      // Of one that is asked back: what it would say.
      const std::vector<Fact>& facts = cleared.facts.empty() ? cleared.line.instead : cleared.facts;
      things->second = things_of(*fleet_.machine(facts.front().machine), facts);
    }
    return things->second;
  }

  // Somebody's own words about a machine, in a line that is taken: what is no name that is known.
  std::string own_words_of(const Fact& said) const {
    const Machine& machine = *fleet_.machine(said.machine);
    if (said.kind == FactKind::out_of_use) return said.note;
    if (said.kind != FactKind::sign && !is_bad_look(said)) return "";
    const bool no_note = said.found && said.note == fmt::format("found {}", to_text(*said.found));
    return (is_listed(machine, said.name) ? "" : said.name + ' ') + (no_note ? "" : said.note);
  }

  // They may be meant of another machine too, which they name, or the work on it.
  bool mentions(const Fact& said, const Fact& answer, const Draft& its) const {
    const std::string words = own_words_of(said);
    if (words.empty()) return false;
    const auto heard = own_words_.try_emplace(words, fleet_, words).first;
    return heard->second.mentions(*fleet_.machine(answer.machine), things_of(its));
  }

  // The words of what is cleared: the work and all that it includes, where, and what was seen or measured.
  std::vector<std::string> things_of(const Machine& machine, const std::vector<Fact>& facts) const {
    std::set<std::string> words;
    const auto add = [&](std::string_view text) {
      for (std::string& word : entry::plain_words(text)) words.insert(std::move(word));
    };
    const auto add_limbs = [&](const MachineTask& task) {
      for (const LimbChoice& choice : task.every) {
        if (const auto* limb = std::get_if<MeasuredLimb>(&choice.candidates.front())) add(limb->name);
        const auto* signs = std::get_if<SignLimb>(&choice.candidates.front());
        for (const std::string& sign : signs != nullptr ? signs->signs : std::vector<std::string>{}) add(sign);
      }
    };
    const Schedule& schedule = fleet_.schedule_of(machine);
    for (const Fact& fact : facts) {
      for (const std::string& text : {fact.task, fact.position, fact.name}) add(text);
      if (fact.kind == FactKind::reading) add("value reading meter hours");
      if (fact.kind != FactKind::service) continue;
      for (const std::string& name : done_with(schedule, fact.task)) {
        add(name);
        if (const auto task = task_of(fleet_, machine, name)) add_limbs(*task);
      }
    }
    return {words.begin(), words.end()};
  }

  // A line that nobody reads may tell of a sign of it.
  bool may_be_named(const Machine& machine) {
    return std::any_of(drafts_.begin(), drafts_.end(), [&](const Draft& draft) {
      if (!is_untaken(draft)) return false;
      const auto& all = overheard(draft);
      return std::any_of(all.begin(), all.end(), [&](const auto& heard) { return heard.may_name(machine); });
    });
  }

  // A line that is not taken may tell of a sign, of whatever time.
  std::set<std::string> machines_of_untaken() const {
    std::set<std::string> machines;
    for (const Draft& draft : drafts_) {
      if (!is_untaken(draft)) continue;
      for (std::string& machine : entry::machines_in(fleet_, draft.said)) machines.insert(std::move(machine));
    }
    return machines;
  }

  // Which new measurements bring a value back within its limit, by their lines.
  void find_what_heals() {
    heals_.clear();
    std::set<std::string> machines;
    for (const Draft& draft : drafts_) {
      const bool measures = draft.line.fate == LineFate::taken && draft.facts.front().kind == FactKind::measurement;
      if (measures) machines.insert(draft.facts.front().machine);
    }
    for (const std::string& machine : machines) find_what_heals(machine);
  }

  // The facts of a machine as they are with what is taken of the text, in the one order.
  struct Together {
    std::vector<Fact> facts;
    std::vector<std::pair<int, std::size_t>> places;  // of each, in the text; of no line: in the book
  };

  Together together(const std::string& machine) const {
    struct Told {
      Fact fact;
      std::pair<int, std::size_t> place;
    };
    std::vector<Told> all;
    if (const auto book = by_machine_.find(machine); book != by_machine_.end()) {
      for (const Fact& fact : book->second) all.push_back({fact, {}});
    }
    for (const Draft& draft : drafts_) {
      for (std::size_t j = 0; j < draft.facts.size(); ++j) {
        const bool counts = draft.line.fate == LineFate::taken && draft.is_new[j] && draft.facts[j].machine == machine;
        if (counts) all.push_back({draft.facts[j], {draft.line.number, j}});
      }
    }
    std::stable_sort(all.begin(), all.end(),
                     [](const Told& a, const Told& b) { return a.fact.on.first < b.fact.on.first; });
    Together both;
    for (Told& told : all) {
      both.facts.push_back(std::move(told.fact));
      both.places.push_back(told.place);
    }
    return both;
  }

  void find_what_heals(const std::string& machine) {
    const auto [facts, places] = together(machine);
    for (entry::Healed& healed : entry::healed_in(fleet_, *fleet_.machine(machine), facts)) {
      const auto place = places[healed.is];
      if (place.first == 0) continue;
      auto& heals = heals_[place];
      const bool never_waits = service::never_waits(*healed.task, nullptr);
      if (!heals.what.task || (never_waits && !service::never_waits(*heals.what.task, nullptr))) {
        heals = {std::move(healed), facts[healed.was]};
      }
    }
  }

  // What is worn does not heal: of what never waits both values are told, and somebody has to say what is so.
  bool refuse_what_heals(Draft& draft) {
    if (draft.line.fate != LineFate::taken) return false;
    for (std::size_t j = 0; j < draft.facts.size(); ++j) {
      const auto found = heals_.find({draft.line.number, j});
      if (found == heals_.end() || !never_waits(*found->second.what.task, nullptr)) continue;
      const auto& [what, was] = found->second;
      const Fact& fact = draft.facts[j];
      const std::string unit = was.unit.empty() ? "" : ' ' + was.unit;
      const std::string task = point_label(what.task->name, what.position);
      refuse(
          draft,
          {"value-heals",
           fmt::format("{} was {}{} on {}, limit {}{}; {}{} would take {} off the list, and nothing says that it was "
                       "renewed",
                       point_label(fact.name, what.position), to_text(*was.value), unit, to_text(was.on),
                       to_text(what.limb.limit), unit, to_text(*fact.value), unit, task),
           fmt::format("where it was renewed, say that before it: done {} {} by WHO; where one of the two is wrong, "
                       "send the right value, or have the wrong one struck",
                       fact.machine, task)});
      return true;
    }
    return false;
  }

  // A check puts nothing in: done at a value at its limit it was renewed or put right, or only looked at.
  bool refuse_what_ends_values() {
    std::set<std::string> machines;
    for (const Draft& draft : drafts_) {
      const bool serves = draft.line.fate == LineFate::taken && draft.facts.front().kind == FactKind::service;
      if (serves) machines.insert(draft.facts.front().machine);
    }
    bool any = false;
    for (const std::string& key : machines) {
      const Machine& machine = *fleet_.machine(key);
      const auto [facts, places] = together(key);
      for (const entry::Ended& ended : entry::ended_in(fleet_, machine, facts)) {
        const auto draft = std::find_if(drafts_.begin(), drafts_.end(), [&](const Draft& each) {
          return each.line.number == places[ended.by].first && each.line.fate == LineFate::taken;
        });
        if (draft == drafts_.end()) continue;
        draft->line.instead = draft->facts;
        refuse(*draft, why_not_ended(machine, ended, facts[ended.was]));
        any = true;
      }
    }
    return any;
  }

  static Diagnostic why_not_ended(const Machine& machine, const entry::Ended& ended, const Fact& was) {
    const std::string unit = was.unit.empty() ? "" : ' ' + was.unit;
    const std::string task = point_label(ended.task->name, ended.position);
    const std::string looked =
        never_waits(*ended.task, nullptr)
            ? fmt::format("where it was only looked at: done {} {} found worn, or found failed", machine.key, task)
            : "where it was only looked at, that value says it all";
    return {"value-ends",
            fmt::format("{} was {}{} on {}, limit {}{}; this would take {} off the list, and may mean that it was "
                        "renewed or put right, or only looked at",
                        point_label(was.name, ended.position), to_text(*was.value), unit, to_text(was.on),
                        to_text(ended.limb.limit), unit, task),
            looked + "; where it was renewed or put right, enter that by the command"};
  }

  // By their stamps, or by their lines in one message. False where nobody can tell.
  static bool sent_before(const Draft& a, const Draft& b) {
    if (a.block == b.block) return a.line.number < b.line.number;
    if (!a.sent_on || !b.sent_on) return false;
    if (*a.sent_on != *b.sent_on) return *a.sent_on < *b.sent_on;
    return a.stamp->second && b.stamp->second && *a.stamp->second < *b.stamp->second;
  }

  static bool is_earlier(const Fact& sign, const Draft& its, const Fact& answer, const Draft& line) {
    if (sign.on.last < answer.on.first) return true;
    return sign.on.first <= answer.on.last && sent_before(its, line);
  }

  // What a line of the text says that may speak against another about its machine.
  enum class Against { nothing, own_words, sign };

  Against speaks_against(const Fact& said, const Draft& its, const Fact& answer, const Draft& line) const {
    if (said.machine != answer.machine) return mentions(said, answer, line) ? Against::own_words : Against::nothing;
    const bool earlier = is_earlier(said, its, answer, line);
    if (said.kind == FactKind::out_of_use) return earlier || said.note.empty() ? Against::nothing : Against::own_words;
    const Machine& machine = *fleet_.machine(said.machine);
    if (is_bad_look(said)) return !earlier && answers(fleet_, machine, answer, said) ? Against::sign : Against::nothing;
    if (said.kind != FactKind::sign) return Against::nothing;
    if (is_listed(machine, said.name)) return earlier ? Against::nothing : Against::sign;
    // The very words that a look answers, said before it, are no others.
    const bool is_it = earlier && answer.kind == FactKind::looked_at && answer.name == said.name;
    return is_it ? Against::nothing : Against::own_words;
  }

  bool is_listed(const Machine& machine, const std::string& sign) const {
    return listed_.try_emplace(machine.key, fleet_, machine).first->second.is_listed(sign);
  }

  bool refuse_beside_a_sign(std::size_t at) {
    Draft& draft = drafts_[at];
    if (draft.line.fate != LineFate::taken) return false;
    for (std::size_t j = 0; j < draft.facts.size(); ++j) {
      if (!clears_at(draft, j)) continue;
      const Fact& answer = draft.facts[j];
      for (const Draft& its : drafts_) {
        for (const Fact& said : its.facts) {
          const Against against = speaks_against(said, its, answer, draft);
          if (against == Against::nothing || its.line.number == draft.line.number) continue;
          draft.line.instead = draft.facts;
          draft.asked_back_for_others = true;
          refuse(draft, why_against(against, said, its, answer, draft));
          return true;
        }
      }
    }
    return false;
  }

  Diagnostic why_against(Against against, const Fact& said, const Draft& its, const Fact& answer,
                         const Draft& line) const {
    const std::string alone = "where it is so all the same, send it alone";
    if (against == Against::own_words) {
      return {"own-words-beside",
              fmt::format("line {} says of {} in its own words `{}`, and may say that it is not so", its.line.number,
                          said.machine, said.kind == FactKind::sign ? said.name : said.note),
              alone};
    }
    const bool is_answer = answers(fleet_, *fleet_.machine(said.machine), answer, said);
    if (!sent_before(line, its) && said.on.first <= answer.on.last) {
      return {"which-came-first",
              fmt::format("`{}` of {} stands in line {}, and nobody knows which came first", said.name, said.machine,
                          its.line.number),
              is_answer ? "say the day of both, or send it alone once somebody has seen to that" : alone};
    }
    std::string when = fmt::format("in line {}", its.line.number);
    if (said.on.first > answer.on.last) {
      when = fmt::format("on {}", to_text(said.on));
    } else if (its.block != line.block) {
      constexpr int minute = 60;
      const int minutes = *its.stamp->second / minute;
      when = *its.sent_on == *line.sent_on ? fmt::format("at {:02}:{:02}", minutes / minute, minutes % minute) : when;
    }
    return {"seen-after", fmt::format("`{}` of {} was seen after it, {}", said.name, said.machine, when),
            is_answer ? "it does not answer that; say it anew once somebody has seen to it" : alone};
  }

  // Nobody reads the words of a line that is not taken, and they may take back what the others say.
  bool refuse_beside(Draft& draft, const Draft& other, const std::set<std::string>& machines_of_untaken) {
    if (draft.line.fate != LineFate::taken) return false;
    draft.asked_back_for_others = true;
    const std::string& machine = draft.facts.front().machine;
    if (!machines_of_untaken.contains(machine) && !may_be_named(*fleet_.machine(machine))) {
      draft.line.instead = draft.facts;
    }
    refuse(draft, {"untaken-beside",
                   fmt::format("{}line {} is not taken, and may say that it is not so",
                               is_untaken(other) ? "" : "what stands before ", other.line.number),
                   "where it is so, send it alone"});
    return true;
  }

  // What it says is entered by a command, but for one that would answer a sign of which nobody knows that it came
  // before.
  void tell_how_to_enter(std::size_t at) {
    Draft& draft = drafts_[at];
    std::vector<Fact>& instead = draft.line.instead;
    if (draft.line.fate != LineFate::refused) instead.clear();
    const bool is_told = !draft.line.wrong.empty() && draft.line.wrong.front().code == "which-came-first";
    const bool clears_more = std::any_of(instead.begin(), instead.end(), [&](const Fact& answer) {
      const bool in_text = std::any_of(drafts_.begin(), drafts_.end(), [&](const Draft& its) {
        return its.line.number != draft.line.number &&
               std::any_of(its.facts.begin(), its.facts.end(), [&](const Fact& said) {
                 const Against against = speaks_against(said, its, answer, draft);
                 const bool may_be_newer = against != Against::nothing && !is_earlier(said, its, answer, draft);
                 return may_be_newer &&
                        (against == Against::own_words || answers(fleet_, *fleet_.machine(said.machine), answer, said));
               });
      });
      return in_text || (!is_told && may_answer(answer) && sign_in_book(answer) != nullptr);
    });
    if (clears_more) instead.clear();
    for (const Fact& fact : instead) draft.line.who_is_missing = draft.line.who_is_missing || needs_who(fact);
  }

  // Who looked, or did it, is to be said of it.
  bool needs_who(const Fact& fact) const {
    if (!fact.by.empty()) return false;
    const Machine& machine = *fleet_.machine(fact.machine);
    if (fact.kind == FactKind::service) {
      const NamedTask named = task_named(fleet_.schedule_of(machine), fact.task);
      return named.task != nullptr && named.task->competent_person && named.follow_up == nullptr;
    }
    return fact.kind == FactKind::looked_at && is_look_of_safety(fact);
  }

  bool is_look_of_safety(const Fact& fact) const {
    std::vector<Fact> facts;
    if (const auto book = by_machine_.find(fact.machine); book != by_machine_.end()) facts = book->second;
    for (const Draft& draft : drafts_) {
      for (const Fact& told : draft.facts) {
        if (told.machine == fact.machine) facts.push_back(told);
      }
    }
    const auto sign = seen_sign_told(fleet_, *fleet_.machine(fact.machine), facts, fact.name);
    return sign && sign->safety;
  }

  // For something in itself. One that says the same as such a line is none either.
  bool is_untaken(const Draft& draft) const {
    const Draft& is = draft.line.fate == LineFate::said_before ? line(draft.line.as_line) : draft;
    return is.line.fate == LineFate::refused && !is.asked_back_for_others;
  }

  static bool may_answer(const Fact& fact) {
    return (fact.kind == FactKind::service || fact.kind == FactKind::looked_at) && fact.on.whole_day();
  }

  bool would_answer(const Fact& answer, const Fact& raised) const {
    const bool is_named = raised.kind == FactKind::sign || is_bad_look(raised) ||
                          (raised.kind == FactKind::measurement && answer.kind == FactKind::looked_at);
    return is_named && raised.machine == answer.machine && is_of_day(raised, answer.on.first) &&
           answers(fleet_, *fleet_.machine(answer.machine), answer, raised);
  }

  // That stands in the book, and of which this text does not tell.
  const Fact* sign_in_book(const Fact& answer) const {
    const auto book = by_machine_.find(answer.machine);
    if (book == by_machine_.end()) return nullptr;
    const Machine& machine = *fleet_.machine(answer.machine);
    const auto& facts = book->second;
    for (std::size_t i = 0; i < facts.size(); ++i) {
      if (!would_answer(answer, facts[i]) || told_by_this_text(facts[i])) continue;
      const bool is_answered =
          std::any_of(facts.begin() + static_cast<std::ptrdiff_t>(i) + 1, facts.end(),
                      [&](const Fact& later) { return answers(fleet_, machine, later, facts[i]); });
      if (!is_answered) return &facts[i];
    }
    return nullptr;
  }

  // The new facts of the lines that stand, and whose line each is.
  std::vector<Proposal> proposed() {
    std::vector<Proposal> proposals;
    of_.clear();
    for (Draft& draft : drafts_) {
      for (std::size_t j = 0; j < draft.facts.size(); ++j) {
        if (draft.line.fate != LineFate::taken || !draft.is_new[j]) continue;
        proposals.push_back({draft.facts[j], false, std::nullopt});
        of_.push_back(&draft);
      }
    }
    return proposals;
  }

  // A line has no options: what a command says with one, it says in words.
  Diagnostic in_words_of_messages(Diagnostic wrong, const Fact& fact) const {
    const std::string day = fact.on == DaySpan(ask_.today) ? "" : ' ' + to_text(fact.on);
    std::vector<Cure> cures;
    for (Cure& cure : wrong.cures) {
      std::string say;
      if (cure.kind == CureKind::tell_who && fact.kind == FactKind::looked_at) {
        say = fmt::format("say who looked: looked {} {} by WHO found {}{}", fact.machine, fact.name,
                          fact.found ? to_text(*fact.found) : "good", day);
      } else if (cure.kind == CureKind::tell_who) {
        say = fmt::format("say who did it behind the task: done {} {} by WHO{}", fact.machine, fact.task, day);
      } else if (cure.kind == CureKind::other_meter) {
        say = fmt::format(
            "where meter `{0}` shows it, say so: {1} meter {0}", cure.value("meter"),
            fact.kind == FactKind::reading
                ? fmt::format("{} {}", fact.machine, fact.at ? to_text(*fact.at) : "VALUE")
                : fmt::format("done {} {} {}", fact.machine, fact.task, fact.at ? to_text(*fact.at) : "VALUE"));
      }
      if (say.empty()) {
        cures.push_back(std::move(cure));
      } else {
        wrong.hint += (wrong.hint.empty() ? "" : "; ") + say;
      }
    }
    wrong.cures = std::move(cures);
    return wrong;
  }

  // False where a line was refused, so that others may stand otherwise.
  bool judge_all(const Extract& known, const std::vector<Proposal>& proposals) {
    const Stamp stamp = stamp_of(writer_, ask_.origin, proposals);
    auto judgement = judge(fleet_, known.facts, proposals, stamp, ask_.today);
    put_likelier_first(fleet_, known.facts, proposals, stamp, ask_.today, judgement);
    for (std::size_t i = 0; i < judgement.refused.size(); ++i) {
      MessageLine& refused = of_[judgement.refused_rows[i]]->line;
      refused.fate = LineFate::refused;
      const auto said = [&](const Diagnostic& what) { return what.message == judgement.refused[i].message; };
      if (std::any_of(refused.wrong.begin(), refused.wrong.end(), said)) continue;
      const Proposal& proposal = proposals[judgement.refused_rows[i]];
      refused.wrong.push_back(
          in_words_of_messages(beside_the_book(judgement.refused[i], known, proposal), proposal.fact));
    }
    return judgement.refused.empty();
  }

  // What the book alone speaks against is not mended by another line of the text.
  Diagnostic beside_the_book(const Diagnostic& refused, const Extract& known, const Proposal& proposal) const {
    const std::vector<Proposal> alone{proposal};
    const Stamp stamp = stamp_of(writer_, ask_.origin, alone);
    auto judgement = judge(fleet_, known.facts, alone, stamp, ask_.today);
    put_likelier_first(fleet_, known.facts, alone, stamp, ask_.today, judgement);
    const auto same = std::find_if(judgement.refused.begin(), judgement.refused.end(),
                                   [&](const Diagnostic& by_book) { return by_book.code == refused.code; });
    return same == judgement.refused.end() ? refused : *same;
  }

  std::shared_ptr<const Fleet> fleet_ptr_;
  const Fleet& fleet_;
  const MessagesAsk& ask_;
  const Writer& writer_;
  const Reader& reader_;
  std::vector<Draft>& drafts_;
  std::map<std::string, std::vector<Fact>> by_machine_;
  std::map<int, std::vector<entry::Overheard>> overheard_;  // by line
  mutable std::map<int, std::vector<std::string>> things_;  // by line
  mutable std::map<std::string, entry::Overheard> own_words_;
  std::map<int, entry::TakesOff> off_by_reading_;  // by line
  std::optional<entry::ListsOf> lists_;
  struct Heals {
    entry::Healed what;
    Fact was;
  };
  std::map<std::pair<int, std::size_t>, Heals> heals_;  // by line, and which of its facts
  mutable std::map<std::string, KeptAsSeen> listed_;    // by machine, as far as it was asked
  std::vector<Draft*> of_;
};

// As telephones and word processors save it too.
std::string decoded(const std::string& text) {
  auto plain = from_utf16(text);
  if (!plain) {
    throw Failure(FailureKind::bad_data, {"utf16", "the text is UTF-16 that is cut off or broken", "save it as UTF-8"});
  }
  return std::move(*plain);
}

void insist_on_messages(const std::vector<Draft>& drafts) {
  if (drafts.size() <= most_lines) return;
  throw Failure(FailureKind::bad_data,
                {"too-many-lines",
                 fmt::format("it has {} lines, and more than {} are not read at once", drafts.size(), most_lines),
                 "paste them in parts; a file of facts is no text of messages"});
}

// A line's facts as they were added, with the roll-over that one of them implies before it.
void share_out(std::vector<Draft>& drafts, const Entered& entered) {
  auto next = entered.added.begin();
  for (Draft& draft : drafts) {
    if (draft.line.fate != LineFate::taken) continue;
    auto to_come = std::count(draft.is_new.begin(), draft.is_new.end(), true);
    while (to_come > 0 && next != entered.added.end()) {
      if (next->kind != FactKind::meter_change) --to_come;
      draft.line.facts.push_back(*next++);
    }
  }
}

std::set<FactId> ids_of(const std::vector<Fact>& facts) {
  std::set<FactId> ids;
  for (const Fact& fact : facts) ids.insert(fact.id);
  return ids;
}

bool is_about(const Gap& doubt, const std::set<FactId>& ids) {
  return std::any_of(doubt.facts.begin(), doubt.facts.end(), [&](const FactId& fact) { return ids.contains(fact); });
}

bool is_about(const UntoldValue& untold, const std::vector<Fact>& facts) {
  return std::any_of(facts.begin(), facts.end(), [&](const Fact& fact) {
    const bool named = std::find(untold.tasks.begin(), untold.tasks.end(), fact.task) != untold.tasks.end();
    return fact.kind == FactKind::service && fact.machine == untold.machine && fact.on.first == untold.on && named;
  });
}

// A sign that these facts tell of or look at.
bool is_about(const SeenSign& seen, const std::vector<Fact>& facts, const Fleet& fleet) {
  const KeptAsSeen kept(fleet, *seen.machine);
  return std::any_of(facts.begin(), facts.end(), [&](const Fact& fact) {
    if (fact.machine != seen.machine->key) return false;
    if (fact.id == seen.fact || (fact.kind == FactKind::looked_at && fact.name == seen.sign)) return true;
    const auto name = kept.of(fact);
    return name && name->name == seen.sign;
  });
}

// The answer with what this keeps of it; the lists and what they changed stay the whole's.
template <class Keep>
Entered narrowed(const Entered& whole, std::vector<Fact> added, const Keep& keep) {
  Entered part = whole;
  part.added = std::move(added);
  std::erase_if(part.doubts, [&](const auto& one) { return !keep(one); });
  std::erase_if(part.untold, [&](const auto& one) { return !keep(one); });
  std::erase_if(part.twice, [&](const auto& one) { return !keep(one); });
  std::erase_if(part.seen, [&](const auto& one) { return !keep(one); });
  std::erase_if(part.answered, [&](const auto& one) { return !keep(one); });
  return part;
}

struct IsAbout {
  const std::vector<Fact>& facts;
  std::set<FactId> ids;
  const Fleet& fleet;

  bool operator()(const Gap& doubt) const { return is_about(doubt, ids); }
  bool operator()(const UntoldValue& untold) const { return is_about(untold, facts); }
  // Of two lines that tell of one service the later is told.
  bool operator()(const WrittenTwice& twice) const { return ids.contains(std::max(twice.earlier.id, twice.later.id)); }
  bool operator()(const SeenSign& seen) const { return is_about(seen, facts, fleet); }
};

}  // namespace

std::string_view to_text(LineFate fate) {
  switch (fate) {
    case LineFate::taken:
      return "taken";
    case LineFate::already_there:
      return "already-there";
    case LineFate::said_before:
      return "said-before";
    case LineFate::heading:
      return "heading";
    case LineFate::refused:
      break;
  }
  return "refused";
}

bool is_refused(const MessageLine& line) { return line.fate == LineFate::refused; }

Messages enter_messages(const std::shared_ptr<const Fleet>& fleet, Record& record, const MessagesAsk& asked,
                        const Writer& writer) {
  MessagesAsk ask = asked;
  ask.text = decoded(asked.text);
  Known known_people(record, ask, writer);
  const Reader reader(*fleet, ask, [&](std::string_view written) { return known_people.called(written); });
  std::vector<Draft> drafts = reader.read();
  insist_on_messages(drafts);
  std::set<std::string> machines;
  for (Draft& draft : drafts) {
    reader.understand(draft, [](const Machine&) { return std::vector<std::string>{}; });
    // Those of lines that are not understood too: what was seen of a machine may tell how.
    for (std::string& machine : entry::machines_in(*fleet, draft.said)) machines.insert(std::move(machine));
  }
  EntryRequest request;
  request.origin = ask.origin;
  request.scope.machines.emplace(machines.begin(), machines.end());
  request.today = ask.today;
  request.day_is_given = ask.day_is_given;
  request.dry_run = ask.dry_run;
  request.propose = [&](const Extract& known) { return Sorting(fleet, ask, writer, reader, drafts).propose(known); };
  Messages messages;
  messages.utf16 = is_utf16(asked.text);
  messages.entered = enter(fleet, record, request, writer);
  share_out(drafts, messages.entered);
  for (Draft& draft : drafts) {
    if (draft.line.fate == LineFate::already_there) {
      messages.entered.already_there += static_cast<int>(draft.facts.size());
    }
    for (const Fact& fact : draft.line.facts) {
      const bool seen = fact.kind == FactKind::sign || fact.kind == FactKind::measurement;
      if (seen && !draft.line.near)
        draft.line.near = near_name(*fleet, *fleet->machine(fact.machine), fact.kind, fact.name);
    }
    messages.lines.push_back(std::move(draft.line));
  }
  std::sort(messages.lines.begin(), messages.lines.end(),
            [](const MessageLine& a, const MessageLine& b) { return a.number < b.number; });
  return messages;
}

Entered part_of(const Messages& messages, const MessageLine& line) {
  const Entered& whole = messages.entered;
  const IsAbout is_about_line{line.facts, ids_of(line.facts), whole.is->fleet()};
  Entered part = narrowed(whole, line.facts, is_about_line);
  if (line.facts.empty()) return part;
  // What was there before it: the lines above it too, as far as they are about its machine.
  const std::string& machine = line.facts.front().machine;
  std::vector<Fact> above;
  for (const Fact& fact : whole.added) {
    if (fact.id == line.facts.front().id) break;
    if (fact.machine == machine) above.push_back(fact);
  }
  if (above.empty()) return part;
  above.insert(above.end(), whole.known->begin(), whole.known->end());
  const std::shared_ptr<const Fleet>& fleet = whole.is->fleet_ptr();
  Extract known{std::move(above), kin_of(*fleet, whole.is->scope()), std::nullopt};
  part.was = std::make_shared<const Snapshot>(fleet, std::move(known), whole.today, true, Scope{std::vector{machine}});
  return part;
}

Entered rest_of(const Messages& messages) {
  const std::vector<Fact>& all = messages.entered.added;
  const IsAbout is_about_some{all, ids_of(all), messages.entered.is->fleet()};
  return narrowed(messages.entered, all, [&](const auto& one) { return !is_about_some(one); });
}

}  // namespace service
