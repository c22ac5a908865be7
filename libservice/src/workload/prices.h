// What parts, fluids and labour cost, as far as the fleet says.
#pragma once

#include "service/workload.h"

namespace service::load {

class Prices {
 public:
  explicit Prices(const Fleet& fleet) : fleet_(fleet) {}

  const Part* part(const std::string& key) const;
  std::optional<Money> of_piece(const std::string& key) const;
  std::optional<Money> of_fluid(const std::string& key, const std::string& unit) const;

  // Of one service; what has no price costs nothing here.
  Money of(const Resources& resources) const;

 private:
  const Fleet& fleet_;
};

// Amount times price, to the nearest hundredth.
Money cost_of(PartAmount amount, Money price);

}  // namespace service::load
