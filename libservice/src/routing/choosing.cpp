#include "routing/choosing.h"

#include <algorithm>

namespace service::routing {
namespace {

constexpr double nearly = 1e-6;

class Chooser {
 public:
  Chooser(std::size_t jobs, const std::vector<ShiftKind>& kinds, const std::vector<Listed>& listed,
          const std::vector<Triple>& triples, Pence better_than, std::size_t most_steps,
          const std::function<bool()>& stop)
      : jobs_(jobs), kinds_(kinds), best_(better_than), steps_left_(most_steps), stop_(stop), master_(jobs, kinds) {
    for (const Triple& triple : triples) master_.add(triple);
    for (std::size_t k = 0; k < listed.size(); ++k) {
      for (const Found& found : listed[k].rounds) master_.add({k, found});
    }
    out_.resize(master_.columns().size());
    held_.resize(master_.columns().size());
  }

  Chosen run() {
    look();
    return {std::move(rounds_), all_};
  }

 private:
  // Is a job done by a kind of shift; else, are two jobs done together; else, is a round chosen.
  struct Question {
    int job = -1;
    int other = -1;
    std::size_t kind = 0;
    std::size_t column = 0;
    bool yes_first = false;
  };

  // Whether a round is out where that is the answer. Between them the answers leave every choice in.
  bool contradicts(std::size_t column, const Question& question, bool yes) const {
    const auto& [kind, round] = master_.columns()[column];
    if (question.job < 0) return column == question.column && !yes;
    const bool does = std::find(round.route.begin(), round.route.end(), question.job) != round.route.end();
    if (question.other < 0) return does && (kind == question.kind) != yes;
    const bool both = std::find(round.route.begin(), round.route.end(), question.other) != round.route.end();
    return yes ? does != both : does && both;
  }

  bool give_up() {
    const std::size_t cost = 1 + out_.size() - out_count_;
    if (steps_left_ < cost || (stop_ && stop_())) steps_left_ = 0;
    if (steps_left_ == 0) return true;
    steps_left_ -= cost;
    return false;
  }

  void look() {
    if (give_up()) {
      all_ = false;
      return;
    }
    const Prices prices = master_.solve();
    take_if_whole();
    const std::size_t mark = taken_out_.size();
    const Mills least = bound(prices);
    if (whole_up(least) < best_) {
      drop_dear(least);
      if (const auto question = to_ask()) {
        for (const bool yes : {question->yes_first, !question->yes_first}) {
          if (steps_left_ > 0) branch(*question, yes);
        }
        all_ = all_ && steps_left_ > 0;
      } else {
        all_ = false;  // whole, and yet not proven by rounded prices
      }
    }
    put_back(mark);
  }

  void branch(const Question& question, bool yes) {
    const std::size_t mark = taken_out_.size();
    if (question.job < 0 && yes) {
      hold(question.column, true);
      look();
      hold(question.column, false);
      return;
    }
    for (std::size_t c = 0; c < out_.size(); ++c) {
      if (!out_[c] && contradicts(c, question, yes)) take_out(c);
    }
    look();
    put_back(mark);
  }

  // From below, in whole numbers: at any prices that are not above 0. Leaves the reduced costs behind, less the least
  // of their kind.
  Mills bound(const Prices& prices) {
    Mills sum = 0;
    for (const Mills price : prices.jobs) sum += price;
    for (const Mills price : prices.of_triples) sum += price;
    std::vector<Mills> least(kinds_.size());
    std::vector<int> held(kinds_.size());
    dearer_.assign(out_.size(), 0);
    for (std::size_t c = 0; c < out_.size(); ++c) {
      if (out_[c]) continue;
      const Column& column = master_.columns()[c];
      dearer_[c] = reduced_cost(column, prices);
      if (held_[c]) {
        sum += dearer_[c];
        ++held[column.kind];
      } else {
        least[column.kind] = std::min(least[column.kind], dearer_[c]);
      }
    }
    for (std::size_t k = 0; k < kinds_.size(); ++k) {
      sum += kinds_[k].multiplicity() * prices.kinds[k] + (kinds_[k].multiplicity() - held[k]) * least[k];
    }
    for (std::size_t c = 0; c < out_.size(); ++c) dearer_[c] -= least[master_.columns()[c].kind];
    return sum;
  }

  void drop_dear(Mills least) {
    for (std::size_t c = 0; c < out_.size(); ++c) {
      if (!out_[c] && !held_[c] && least + dearer_[c] > mills * (best_ - 1)) take_out(c);
    }
  }

  void take_if_whole() {
    Pence cost = 0;
    std::vector<Column> rounds;
    for (std::size_t c = 0; c < out_.size(); ++c) {
      const double share = master_.chosen()[c];
      if (share < nearly) continue;
      if (share < 1 - nearly) return;
      rounds.push_back(master_.columns()[c]);
      cost += rounds.back().round.cost;
    }
    if (cost >= best_) return;
    best_ = cost;
    rounds_ = std::move(rounds);
  }

  std::optional<Question> to_ask() const {
    if (const auto question = of_kinds()) return question;
    if (const auto question = of_pairs()) return question;
    std::optional<Question> question;
    double evenly = nearly;
    for (std::size_t c = 0; c < out_.size(); ++c) {
      const double is = master_.chosen()[c];
      if (out_[c] || held_[c] || std::min(is, 1 - is) <= evenly) continue;
      evenly = std::min(is, 1 - is);
      question = {-1, -1, 0, c, true};
    }
    return question;
  }

  // What is told least clearly by what is chosen now, of what could be otherwise.
  std::optional<Question> of_kinds() const {
    std::vector<double> share(jobs_ * kinds_.size());
    std::vector<std::size_t> last(jobs_, kinds_.size());  // kind that may do it
    std::vector<bool> several(jobs_);
    for (std::size_t c = 0; c < out_.size(); ++c) {
      if (out_[c]) continue;
      const Column& column = master_.columns()[c];
      for (const int number : column.round.route) {
        const auto job = static_cast<std::size_t>(number);
        share[job * kinds_.size() + column.kind] += master_.chosen()[c];
        several[job] = several[job] || (last[job] != kinds_.size() && last[job] != column.kind);
        last[job] = column.kind;
      }
    }
    std::optional<Question> question;
    double evenly = nearly;
    for (std::size_t i = 0; i < share.size(); ++i) {
      const std::size_t job = i / kinds_.size();
      if (!several[job] || std::min(share[i], 1 - share[i]) <= evenly) continue;
      evenly = std::min(share[i], 1 - share[i]);
      question = {static_cast<int>(job), -1, i % kinds_.size(), 0, share[i] >= 0.5};
    }
    return question;
  }

  std::optional<Question> of_pairs() const {
    std::vector<double> share(jobs_ * jobs_);
    std::vector<std::size_t> rounds(jobs_);          // in which a job is
    std::vector<std::size_t> of_two(jobs_ * jobs_);  // and two of them
    for (std::size_t c = 0; c < out_.size(); ++c) {
      if (out_[c]) continue;
      const auto& route = master_.columns()[c].round.route;
      for (const int a : route) {
        ++rounds[static_cast<std::size_t>(a)];
        for (const int b : route) {
          const std::size_t pair = static_cast<std::size_t>(a) * jobs_ + static_cast<std::size_t>(b);
          share[pair] += master_.chosen()[c];
          ++of_two[pair];
        }
      }
    }
    std::optional<Question> question;
    double evenly = nearly;
    for (std::size_t a = 0; a < jobs_; ++a) {
      for (std::size_t b = a + 1; b < jobs_; ++b) {
        const std::size_t pair = a * jobs_ + b;
        if (rounds[a] == of_two[pair] && rounds[b] == of_two[pair]) continue;  // together wherever they are
        if (std::min(share[pair], 1 - share[pair]) <= evenly) continue;
        evenly = std::min(share[pair], 1 - share[pair]);
        question = {static_cast<int>(a), static_cast<int>(b), 0, 0, share[pair] >= 0.5};
      }
    }
    return question;
  }

  void take_out(std::size_t column) {
    if (out_[column]) return;
    out_[column] = true;
    ++out_count_;
    taken_out_.push_back(column);
    master_.leave_out(column, true);
  }

  void put_back(std::size_t mark) {
    for (; taken_out_.size() > mark; taken_out_.pop_back()) {
      out_[taken_out_.back()] = false;
      --out_count_;
      master_.leave_out(taken_out_.back(), false);
    }
  }

  void hold(std::size_t column, bool held) {
    held_[column] = held;
    master_.hold(column, held);
  }

  std::size_t jobs_;
  const std::vector<ShiftKind>& kinds_;
  Pence best_;
  std::size_t steps_left_;
  const std::function<bool()>& stop_;
  Master master_;
  std::vector<bool> out_;   // by column
  std::vector<bool> held_;  // likewise
  std::size_t out_count_ = 0;
  std::vector<std::size_t> taken_out_;
  std::vector<Mills> dearer_;
  std::optional<std::vector<Column>> rounds_;
  bool all_ = true;
};

}  // namespace

Chosen choose(std::size_t jobs, const std::vector<ShiftKind>& kinds, const std::vector<Listed>& listed,
              const std::vector<Triple>& triples, Pence better_than, std::size_t most_steps,
              const std::function<bool()>& stop) {
  return Chooser(jobs, kinds, listed, triples, better_than, most_steps, stop).run();
}

}  // namespace service::routing
