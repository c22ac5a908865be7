// CLP as a linear program.
#pragma once

#pragma GCC diagnostic push
#pragma GCC diagnostic ignored "-Wconversion"
#pragma GCC diagnostic ignored "-Wpedantic"
#include <ClpSimplex.hpp>
#include <CoinHelperFunctions.hpp>
#pragma GCC diagnostic pop

#include "routing/linear_program.h"

namespace service::routing {

class ClpProgram : public LinearProgram {
 public:
  ClpProgram() {
    clp_.setLogLevel(0);
    clp_.setOptimizationDirection(1);
  }

  std::unique_ptr<LinearProgram> copy() const override { return std::make_unique<ClpProgram>(*this); }

  void bound_rows_at_most(std::span<const double> most) override {
    clp_.resize(static_cast<int>(most.size()), 0);
    for (std::size_t row = 0; row < most.size(); ++row) {
      clp_.setRowBounds(static_cast<int>(row), -COIN_DBL_MAX, most[row]);
    }
  }
  void add_row(std::span<const int> columns, std::span<const double> values, double most) override {
    clp_.addRow(static_cast<int>(columns.size()), columns.data(), values.data(), -COIN_DBL_MAX, most);
  }
  void add_column(std::span<const int> rows, std::span<const double> values, double cost) override {
    clp_.addColumn(static_cast<int>(rows.size()), rows.data(), values.data(), 0, COIN_DBL_MAX, cost);
  }
  void set_cost(int column, double cost) override { clp_.setObjectiveCoefficient(column, cost); }
  void set_least(int column, double least) override { clp_.setColumnLower(column, least); }
  void set_most(int column, double most) override { clp_.setColumnUpper(column, most); }
  void set_bounds(int column, double least, double most) override { clp_.setColumnBounds(column, least, most); }

  void solve_primal() override { clp_.primal(); }
  void solve_dual() override { clp_.dual(); }
  bool solved() const override { return clp_.isProvenOptimal(); }

  const double* chosen() const override { return clp_.primalColumnSolution(); }
  const double* least() const override { return clp_.getColLower(); }
  const double* prices() const override { return clp_.dualRowSolution(); }

 private:
  ClpSimplex clp_;
};

}  // namespace service::routing
