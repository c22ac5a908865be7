#include "routing/master.h"

#include <algorithm>
#include <cmath>
#include <limits>
#include <map>

#include "routing/linear_program.h"

namespace service::routing {

namespace {

constexpr double nearly_none = 1e-6;  // of a round
constexpr double without_limit = std::numeric_limits<double>::max();

}  // namespace

struct Master::Program {
  std::unique_ptr<LinearProgram> linear = make_linear_program();
  std::map<std::pair<std::size_t, Route>, std::size_t> known;  // by kind and set of jobs: the column
};

int times_counted(const Route& route, const Triple& triple) {
  const auto visits = std::count_if(route.begin(), route.end(),
                                    [&](int job) { return job == triple[0] || job == triple[1] || job == triple[2]; });
  return static_cast<int>(visits / 2);
}

Mills reduced_cost(const Column& column, const Prices& prices) {
  const Route& route = column.round.route;
  Mills reduced = mills * column.round.cost - prices.kinds[column.kind];
  for (const int job : route) reduced -= prices.jobs[static_cast<std::size_t>(job)];
  for (std::size_t t = 0; t < prices.triples.size(); ++t) {
    if (prices.of_triples[t] != 0) reduced -= times_counted(route, prices.triples[t]) * prices.of_triples[t];
  }
  return reduced;
}

bool does_twice(const Route& route) {
  Route sorted = route;
  std::sort(sorted.begin(), sorted.end());
  return std::adjacent_find(sorted.begin(), sorted.end()) != sorted.end();
}

Master::Master(std::size_t jobs, const std::vector<ShiftKind>& kinds)
    : program_(std::make_unique<Program>()), jobs_(jobs), kinds_(kinds.size()) {
  std::vector<double> most(jobs, 1);
  for (const ShiftKind& kind : kinds) most.push_back(kind.multiplicity());
  program_->linear->bound_rows_at_most(most);
}

Master::~Master() = default;

bool Master::add(const Column& column) {
  Route set = column.round.route;
  std::sort(set.begin(), set.end());
  const auto [known, is_new] = program_->known.try_emplace({column.kind, set}, columns_.size());
  if (!is_new) {
    Column& old = columns_[known->second];
    if (old.round.cost <= column.round.cost) return false;
    old = column;
    program_->linear->set_cost(static_cast<int>(known->second), static_cast<double>(column.round.cost));
    return true;
  }
  std::map<int, double> rows;
  for (const int job : column.round.route) ++rows[job];
  rows[static_cast<int>(jobs_ + column.kind)] = 1;
  for (std::size_t t = 0; t < triples_.size(); ++t) {
    if (const int times = times_counted(column.round.route, triples_[t]); times > 0) {
      rows[static_cast<int>(jobs_ + kinds_ + t)] = times;
    }
  }
  std::vector<int> numbers;
  std::vector<double> values;
  for (const auto& [row, value] : rows) {
    numbers.push_back(row);
    values.push_back(value);
  }
  program_->linear->add_column(numbers, values, static_cast<double>(column.round.cost));
  columns_.push_back(column);
  chosen_.push_back(0);  // until it is solved again
  return true;
}

void Master::add(const Triple& triple) {
  std::vector<int> numbers;
  std::vector<double> values;
  for (std::size_t c = 0; c < columns_.size(); ++c) {
    if (const int times = times_counted(columns_[c].round.route, triple); times > 0) {
      numbers.push_back(static_cast<int>(c));
      values.push_back(times);
    }
  }
  program_->linear->add_row(numbers, values, 1);
  triples_.push_back(triple);
}

void Master::ban(std::size_t column) {
  leave_out(column, true);
  Route set = columns_[column].round.route;
  std::sort(set.begin(), set.end());
  program_->known.erase({columns_[column].kind, set});  // the same in another order may be possible
}

void Master::leave_out(std::size_t column, bool out) {
  // Its rows keep it from being chosen more than once: a limit of 1 would only blur the prices.
  program_->linear->set_bounds(static_cast<int>(column), 0, out ? 0 : without_limit);
}

void Master::hold(std::size_t column, bool held) {
  program_->linear->set_least(static_cast<int>(column), held ? 1 : 0);
}

bool Master::has(const Triple& triple) const {
  return std::find(triples_.begin(), triples_.end(), triple) != triples_.end();
}

Prices Master::solve() {
  Prices prices;
  prices.triples = triples_;
  if (columns_.empty()) {  // CLP would fall over it
    prices.jobs.assign(jobs_, 0);
    prices.kinds.assign(kinds_, 0);
    prices.of_triples.assign(triples_.size(), 0);
    chosen_.clear();
    return prices;
  }
  LinearProgram& linear = *program_->linear;
  linear.solve_primal();
  chosen_.assign(linear.chosen(), linear.chosen() + columns_.size());
  const double* duals = linear.prices();
  const auto price = [&](std::size_t row) {
    const double dual = duals[row] * static_cast<double>(mills);
    if (!std::isfinite(dual) || dual >= 0 || dual < -0x1p52) return Mills{0};
    return static_cast<Mills>(std::llround(dual));
  };
  for (std::size_t job = 0; job < jobs_; ++job) prices.jobs.push_back(price(job));
  for (std::size_t kind = 0; kind < kinds_; ++kind) prices.kinds.push_back(price(jobs_ + kind));
  for (std::size_t t = 0; t < triples_.size(); ++t) prices.of_triples.push_back(price(jobs_ + kinds_ + t));
  return prices;
}

std::vector<Column> Master::dive(std::size_t passed_over) const {
  std::vector<Column> held;
  if (columns_.empty()) return held;
  const auto linear = program_->linear->copy();
  for (std::size_t c = 0; c < columns_.size(); ++c) {
    if (does_twice(columns_[c].round.route)) linear->set_most(static_cast<int>(c), 0);
  }
  linear->solve_dual();
  while (linear->solved()) {
    std::vector<std::pair<double, std::size_t>> partly;  // by how little
    for (std::size_t c = 0; c < columns_.size(); ++c) {
      const int column = static_cast<int>(c);
      const double share = linear->chosen()[c];
      if (share < nearly_none || linear->least()[c] > 0) continue;
      if (share < 1 - nearly_none) {
        partly.emplace_back(-share, c);
        continue;
      }
      linear->set_least(column, 1);
      held.push_back(columns_[c]);
    }
    if (partly.empty()) break;
    std::sort(partly.begin(), partly.end());
    const std::size_t next = partly[std::min(passed_over, partly.size() - 1)].second;
    passed_over = 0;
    linear->set_least(static_cast<int>(next), 1);
    held.push_back(columns_[next]);
    linear->solve_dual();
  }
  return held;
}

}  // namespace service::routing
