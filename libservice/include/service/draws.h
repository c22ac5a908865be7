// Numbers drawn at random, the same ones from the same seed everywhere.
#pragma once

#include <array>
#include <cstddef>
#include <cstdint>
#include <limits>

#pragma GCC visibility push(default)

namespace service {

// The numbers of std::mt19937_64. That works out 312 at once, seed by seed, where a sample path takes a few dozen: here
// each is made when it is drawn.
class Draws {
 public:
  using result_type = std::uint64_t;
  static constexpr result_type min() { return 0; }
  static constexpr result_type max() { return std::numeric_limits<result_type>::max(); }

  explicit Draws(std::uint64_t seed) { words_[0] = seed; }

  result_type operator()() {
    constexpr result_type low = 0x7FFFFFFF;
    if (seeded_ < size) seed_to(next_ + middle + 1);
    const std::size_t after = next_ + 1 < size ? next_ + 1 : 0;
    const std::size_t beyond = next_ < size - middle ? next_ + middle : next_ + middle - size;
    const result_type joined = (words_[next_] & ~low) | (words_[after] & low);
    result_type word = words_[beyond] ^ (joined >> 1U) ^ ((joined & 1U) != 0 ? 0xB5026F5AA96619E9U : 0);
    words_[next_] = word;
    next_ = after;
    word ^= (word >> 29U) & 0x5555555555555555U;
    word ^= (word << 17U) & 0x71D67FFFEDA60000U;
    word ^= (word << 37U) & 0xFFF7EEE000000000U;
    return word ^ (word >> 43U);
  }

 private:
  static constexpr std::size_t size = 312;
  static constexpr std::size_t middle = 156;

  void seed_to(std::size_t count) {
    for (; seeded_ < count && seeded_ < size; ++seeded_) {
      const result_type before = words_[seeded_ - 1];
      words_[seeded_] = 6'364'136'223'846'793'005U * (before ^ (before >> 62U)) + seeded_;
    }
  }

  std::array<result_type, size> words_;
  std::size_t seeded_ = 1;
  std::size_t next_ = 0;
};

}  // namespace service

#pragma GCC visibility pop
