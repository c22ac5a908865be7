#include "routing/triples.h"

#include <algorithm>
#include <map>

namespace service::routing {
namespace {

constexpr double enough = 1.02;  // less than that is not worth a row

// How much is chosen that does both of two jobs; only pairs that stand together in some round.
class Together {
 public:
  Together(const Master& master, std::size_t jobs) : jobs_(jobs), of_two_(jobs * jobs) {
    for (std::size_t c = 0; c < master.columns().size(); ++c) {
      const double share = master.chosen()[c];
      if (share < 1e-6) continue;
      Route set = master.columns()[c].round.route;
      std::sort(set.begin(), set.end());
      set.erase(std::unique(set.begin(), set.end()), set.end());
      for (std::size_t i = 0; i < set.size(); ++i) {
        for (std::size_t j = i + 1; j < set.size(); ++j) {
          of_two_[index(set[i], set[j])] += share;
          for (std::size_t k = j + 1; k < set.size(); ++k) of_three_[{set[i], set[j], set[k]}] += share;
        }
      }
    }
  }

  double two(int a, int b) const { return of_two_[index(a, b)]; }

  // How much is chosen that does at least two of three.
  double of(const Triple& triple) const {
    const auto three = of_three_.find(triple);
    return two(triple[0], triple[1]) + two(triple[0], triple[2]) + two(triple[1], triple[2]) -
           (three == of_three_.end() ? 0 : 2 * three->second);
  }

 private:
  std::size_t index(int a, int b) const { return static_cast<std::size_t>(a) * jobs_ + static_cast<std::size_t>(b); }

  std::size_t jobs_;
  std::vector<double> of_two_;
  std::map<Triple, double> of_three_;
};

}  // namespace

std::vector<Triple> broken_triples(const Master& master, std::size_t jobs, std::size_t most) {
  const Together together(master, jobs);
  std::vector<std::pair<double, Triple>> broken;
  const int count = static_cast<int>(jobs);
  for (int a = 0; a < count; ++a) {
    for (int b = a + 1; b < count; ++b) {
      const double ab = together.two(a, b);
      for (int c = b + 1; c < count; ++c) {
        if (ab + together.two(a, c) + together.two(b, c) <= enough) continue;
        const Triple triple{a, b, c};
        if (const double times = together.of(triple); times > enough && !master.has(triple)) {
          broken.emplace_back(-times, triple);
        }
      }
    }
  }
  std::sort(broken.begin(), broken.end());
  if (broken.size() > most) broken.resize(most);
  std::vector<Triple> triples;
  for (const auto& [times, triple] : broken) triples.push_back(triple);
  return triples;
}

}  // namespace service::routing
