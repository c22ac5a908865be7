// What parts, fluids and labour cost, as far as the fleet says.
#pragma once

#include "service/workload.h"

namespace service::load {

class Prices {
 public:
  explicit Prices(const Fleet& fleet) : fleet_(fleet) {}

  const Part* part(const std::string& key) const;
  std::optional<Amount> of_piece(const std::string& key) const;
  std::optional<Amount> of_fluid(const std::string& key, const std::string& unit) const;

  // Of one service, in hundredths of the currency; what has no price costs nothing here.
  std::int64_t of(const Takings& takings) const;

 private:
  const Fleet& fleet_;
};

// Amount times price, to the nearest hundredth.
std::int64_t money(Amount amount, Amount price);

}  // namespace service::load
