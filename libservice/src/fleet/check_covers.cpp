// Tasks that cover each other in a ring: doing one would count as doing them all, for ever.
#include <fmt/format.h>

#include <algorithm>
#include <unordered_map>

#include "fleet/draft.h"

namespace service::fleet {
namespace {

class RingFinder {
 public:
  RingFinder(const ScheduleDraft& schedule, Diagnostics& diagnostics)
      : tasks_(schedule.tasks), diagnostics_(diagnostics), states_(tasks_.size(), State::fresh) {
    for (std::size_t i = 0; i < tasks_.size(); ++i) index_.emplace(tasks_[i].task.name, i);
  }

  void find() {
    for (std::size_t i = 0; i < tasks_.size(); ++i) {
      if (states_[i] == State::fresh) walk(i);
    }
  }

 private:
  enum class State { fresh, on_path, done };
  struct Step {
    std::size_t task;
    std::size_t next = 0;  // which of its covered tasks comes next
  };

  // Depth first, with a path of its own: a chain of covers may be longer than the call stack is deep.
  void walk(std::size_t start) {
    enter(start);
    while (!path_.empty()) {
      Step& step = path_.back();
      const std::vector<Mention>& covers = tasks_[step.task].covers;
      if (step.next == covers.size()) {
        states_[step.task] = State::done;
        path_.pop_back();
        continue;
      }
      const Mention& covered = covers[step.next++];
      const auto found = index_.find(covered.name);
      if (found == index_.end()) continue;
      if (states_[found->second] == State::on_path) report(found->second, covered);
      if (states_[found->second] == State::fresh) enter(found->second);
    }
  }

  void enter(std::size_t task) {
    states_[task] = State::on_path;
    path_.push_back({task});
  }

  void report(std::size_t first, const Mention& closing) {
    const auto begin = std::find_if(path_.begin(), path_.end(), [&](const Step& step) { return step.task == first; });
    std::string ring;
    for (auto step = begin; step != path_.end(); ++step) ring += tasks_[step->task].task.name + " covers ";
    ring += tasks_[first].task.name;
    diagnostics_.error(code::ring_of_covers, closing.spot,
                       fmt::format("tasks cover each other in a ring: {}", cleaned(ring)),
                       "let only the larger task cover the smaller ones");
  }

  const std::vector<TaskDraft>& tasks_;
  Diagnostics& diagnostics_;
  std::vector<State> states_;
  std::unordered_map<std::string, std::size_t> index_;
  std::vector<Step> path_;
};

}  // namespace

void check_covers(const Draft& draft, Diagnostics& diagnostics) {
  for (const ScheduleDraft& schedule : draft.schedules) RingFinder(schedule, diagnostics).find();
}

}  // namespace service::fleet
