// Which rounds together, as a linear program: each job in at most one, each shift at most one.
#pragma once

#include <memory>
#include <vector>

#include "routing/pricing.h"

namespace service::routing {

// A round that may be chosen, of a kind of shift.
struct Column {
  std::size_t kind = 0;
  Found round;
};

class Master {
 public:
  Master(std::size_t jobs, const std::vector<ShiftKind>& kinds);
  ~Master();
  Master(const Master&) = delete;
  Master& operator=(const Master&) = delete;

  // False where it is there already: the same jobs in the same kind of shift, no dearer.
  bool add(const Column& column);
  void add(const Triple& triple);
  void ban(std::size_t column);  // it is chosen no more, and forgotten
  void leave_out(std::size_t column, bool out);
  void hold(std::size_t column, bool held);  // it is chosen whole
  bool has(const Triple& triple) const;

  // Solves it. Its prices are rounded and none is above 0, so that they prove what they prove whatever it made of it.
  Prices solve();

  // Rounds that fit together: one after the other is held to that of which most is chosen, each time solving anew. Of
  // the first several may be passed over. The program stays as it is.
  std::vector<Column> dive(std::size_t passed_over) const;

  const std::vector<Column>& columns() const { return columns_; }
  const std::vector<double>& chosen() const { return chosen_; }  // of each column, when solved last

 private:
  struct Program;
  std::unique_ptr<Program> program_;
  std::size_t jobs_;
  std::size_t kinds_;
  std::vector<Column> columns_;
  std::vector<Triple> triples_;
  std::vector<double> chosen_;
};

Mills reduced_cost(const Column& column, const Prices& prices);

bool does_twice(const Route& route);  // one of its jobs

// How often a round counts for a triple of jobs.
int times_counted(const Route& route, const Triple& triple);

}  // namespace service::routing
