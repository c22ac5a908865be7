#include "entry/message_tasks.h"

#include <fmt/format.h>

#include <algorithm>

#include "entry/message_overheard.h"
#include "entry/task_positions.h"
#include "service/text.h"

namespace service::entry::message {
namespace {

// A task of a way, and whether all its positions were said to be done.
struct TaskSaid {
  TaskTold task;
  bool all = false;
};
using Way = std::vector<TaskSaid>;

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

// All ways, up to two, in which words are names of tasks one after the other, with positions behind their tasks.
class TaskWords {
 public:
  TaskWords(const Fleet& fleet, const Machine& machine, Words words)
      : fleet_(fleet), machine_(machine), words_(words) {}

  // Of the first so many words.
  std::vector<Way> ways(std::size_t count) {
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
      for (TaskSaid& task : tasks_in(words_.subspan(at, count))) {
        way_.push_back(std::move(task));
        from(at + count);
        way_.pop_back();
      }
    }
    if (at < end_ && !way_.empty() && parts_tasks(words_[at])) {
      std::size_t next = at;
      while (next < end_ && parts_tasks(words_[next])) ++next;
      if (next < end_) from(next);
    }
  }

  // `fork`, `fork@left`, `fork left`, `fork all`; behind `fork left`, `right` alone.
  std::vector<TaskSaid> tasks_in(Words words) const {
    std::vector<TaskSaid> found;
    if (auto task = task_if_told(fleet_, machine_, joined(words))) found.push_back({std::move(*task), false});
    const std::string text = joined(words);
    if (const auto at = text.find('@'); at != std::string::npos && found.empty()) {
      add_at(found, text.substr(0, at), text.substr(at + 1));
    }
    for (std::size_t name = 1; name < words.size(); ++name) {
      add_at(found, joined(words.first(name)), joined(words.subspan(name)));
    }
    if (found.empty() && !way_.empty() && !way_.back().task.position.empty()) {
      add_at(found, way_.back().task.task, text);
    }
    return found;
  }

  void add_at(std::vector<TaskSaid>& found, const std::string& name, std::string_view where) const {
    if (name.find('@') != std::string::npos) return;
    auto task = task_if_told(fleet_, machine_, name);
    if (!task) return;
    const auto positions = positions_of(fleet_, machine_, task->task);
    if (positions.empty()) return;
    for (const std::string_view before : {" ", "at ", "position "}) {
      if (where.starts_with(before)) where.remove_prefix(before.size());
    }
    if (all_told(where, positions.size())) {
      found.push_back({std::move(*task), true});
    } else if (auto position = name_written(where, positions)) {
      found.push_back({{std::move(task->task), std::move(*position)}, false});
    }
  }

  const Fleet& fleet_;
  const Machine& machine_;
  Words words_;
  std::size_t end_ = 0;
  Way way_;
  std::vector<Way> ways_;
};

std::string tasks_in_words(const Way& tasks) {
  std::string text;
  for (const auto& [task, all] : tasks) {
    text += (text.empty() ? "" : ", ") + task.task + (task.position.empty() ? "" : '@' + task.position) +
            (all ? "@all" : "");
  }
  return text;
}

// Where it was done is not guessed: of a task with positions the others would count as done too. `instead`: what stands
// behind it and is no position of it.
void insist_on_positions(const Fleet& fleet, const Machine& machine, const Way& way, const std::string& instead = "") {
  for (const auto& [task, all] : way) {
    const auto positions = positions_of(fleet, machine, task.task);
    if (all || positions.empty() || !task.position.empty()) continue;
    wrong("needs-position",
          instead.empty()
              ? fmt::format("{} of {} has positions, and none is named", task.task, machine.key)
              : fmt::format("{} of {} has positions, and `{}` is none of them", task.task, machine.key, instead),
          "say " + forms_at_positions(task.task, positions));
  }
}

}  // namespace

std::string forms_at_positions(std::string_view name, const std::vector<std::string>& positions) {
  std::string text;
  for (const std::string& position : positions) text += fmt::format("{}@{}, ", name, position);
  return fmt::format("{}or {}@all", text, name);
}

DoneWords done_words(const Told& told, const Machine& machine, Words written) {
  const std::vector<Word> parted = parted_at_commas(written);
  const Words words(parted);
  constexpr std::size_t most_words = 60;
  if (words.size() > most_words) wrong("too-long", "the line has too many words", "say it in several lines");
  TaskWords tasks(told.fleet, machine, words);
  std::optional<std::pair<Way, Tail>> found;
  std::optional<Diagnostic> tail_is;
  for (std::size_t count = 1; count <= words.size(); ++count) {
    const auto ways = tasks.ways(count);
    if (ways.empty()) continue;
    try {
      Tail tail = tail_in(told, machine, Verb::done, words.subspan(count));
      if (ways.size() > 1 || found) {
        wrong("several-names",
              fmt::format("`{}` may mean {} or {}", joined(words),
                          found ? tasks_in_words(found->first) : tasks_in_words(ways[1]), tasks_in_words(ways[0])),
              "write commas between the tasks, hyphens within their names, and `at` before the value");
      }
      found = std::pair{ways.front(), std::move(tail)};
    } catch (const Failure& failure) {
      if (failure.diagnostics().front().code == "several-names") throw;
      tail_is = failure.diagnostics().front();
      if (tail_is->code == "not-understood") tail_is.reset();
    }
  }
  if (found) {
    insist_on_positions(told.fleet, machine, found->first);
    DoneWords said{{}, std::move(found->second)};
    for (TaskSaid& task : found->first) said.tasks.push_back(std::move(task.task));
    return said;
  }
  if (tail_is) throw Failure(FailureKind::usage, std::move(*tail_is));
  // What is no task: the words before the first that cannot be part of one.
  std::size_t known = 0;
  for (std::size_t count = 1; count <= words.size(); ++count) {
    if (!tasks.ways(count).empty()) known = count;
  }
  const Way way = known > 0 ? tasks.ways(known).front() : Way{};
  while (known > 0 && known < words.size() && parts_tasks(words[known])) ++known;
  std::size_t end = known;
  while (end < words.size() && !parts_tasks(words[end]) && !is_number(words[end].text) &&
         !is_like_a_day(words[end].text) && option_of(words[end]).empty() && !is_word(words[end], "by") &&
         !is_word(words[end], "found")) {
    ++end;
  }
  const std::string unknown = joined(words.subspan(known, end - known));
  // What is near to words that say that something was not done is offered to nobody.
  if (!unknown.empty() && may_deny(unknown)) {
    wrong("done-or-not", fmt::format("`{}` may say that it is not done, so nothing of the line is taken", unknown),
          fmt::format("name what was done, and nothing else; a task that includes what was not done is not done; what "
                      "was seen: saw {0} SIGN; where it must not run, out-of-use {0}",
                      machine.key));
  }
  insist_on_positions(told.fleet, machine, way, unknown);
  if (unknown.empty() && known > 0) {
    wrong("not-understood", fmt::format("`{}` behind the tasks is not understood", joined(words.subspan(known))),
          "behind them may stand a value, a day, found worn, by WHO");
  }
  if (unknown.empty()) {
    wrong("no-task", fmt::format("which task was done on {} is not said", machine.key),
          fmt::format("say it behind the machine: done {} TASK", machine.key));
  }
  task_told(told.fleet, machine, unknown);  // says what there is
  wrong("not-understood", fmt::format("`{}` is not understood", joined(words)), std::string(forms));
}

}  // namespace service::entry::message
