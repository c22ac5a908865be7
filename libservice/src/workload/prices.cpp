#include "workload/prices.h"

#include <algorithm>

namespace service::load {

std::int64_t money(Amount amount, Amount price) { return (amount.hundredths * price.hundredths + 50) / 100; }

const Part* Prices::part(const std::string& key) const {
  const auto found =
      std::find_if(fleet_.parts.begin(), fleet_.parts.end(), [&](const Part& part) { return part.key == key; });
  return found == fleet_.parts.end() ? nullptr : &*found;
}

std::optional<Amount> Prices::of_piece(const std::string& key) const {
  const Part* listed = part(key);
  return listed == nullptr ? std::nullopt : listed->price;
}

std::optional<Amount> Prices::of_fluid(const std::string& key, const std::string& unit) const {
  const Part* listed = part(key);
  return listed == nullptr || listed->unit != unit ? std::nullopt : listed->price;
}

std::int64_t Prices::of(const Takings& takings) const {
  std::int64_t sum = 0;
  for (const auto& [key, pieces] : takings.parts) {
    if (const auto price = of_piece(key)) sum += money(pieces, *price);
  }
  for (const auto& [key, quantity] : takings.fluids) {
    if (const auto price = of_fluid(key, quantity.unit)) sum += money(quantity.amount, *price);
  }
  if (fleet_.costs.hour) sum += (takings.labour_minutes() * fleet_.costs.hour->hundredths + 30) / 60;
  return sum;
}

}  // namespace service::load
