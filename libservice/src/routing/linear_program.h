// A linear program whose rows bound sums of columns, and which is solved again and again as rows and columns come. The
// only use of CLP stands behind it (`clp.cpp`).
//
// Nothing but this is known of whoever solves it, so that the command need not carry the solver: it loads it when a
// plan is made (`loading`), for the solver's libraries take longer to load than most answers take to work out.
#pragma once

#include <memory>
#include <span>

namespace service::routing {

class LinearProgram {
 public:
  virtual ~LinearProgram() = default;
  virtual std::unique_ptr<LinearProgram> copy() const = 0;

  virtual void bound_rows_at_most(std::span<const double> most) = 0;  // the rows to begin with, without columns yet
  virtual void add_row(std::span<const int> columns, std::span<const double> values, double most) = 0;
  // At least 0, however much; of it each costs so much.
  virtual void add_column(std::span<const int> rows, std::span<const double> values, double cost) = 0;
  virtual void set_cost(int column, double cost) = 0;
  virtual void set_least(int column, double least) = 0;
  virtual void set_most(int column, double most) = 0;
  virtual void set_bounds(int column, double least, double most) = 0;

  virtual void solve_primal() = 0;
  virtual void solve_dual() = 0;
  virtual bool solved() const = 0;

  // Of each column, and of each row.
  virtual const double* chosen() const = 0;
  virtual const double* least() const = 0;
  virtual const double* prices() const = 0;
};

// An empty one that asks for the least cost.
std::unique_ptr<LinearProgram> make_linear_program();

}  // namespace service::routing
