#include "usage/slips.h"

#include <algorithm>
#include <string>
#include <vector>

namespace service::usage {
namespace {

constexpr std::string_view digits = "0123456789";

bool is_digit(char c) { return c >= '0' && c <= '9'; }

std::vector<std::string> one_slip_away(const std::string& text) {
  std::vector<std::string> all;
  for (std::size_t i = 0; i < text.size(); ++i) {
    if (!is_digit(text[i])) continue;
    for (const char digit : digits) {
      std::string misread = text;
      misread[i] = digit;
      all.push_back(std::move(misread));
      std::string left_out = text;
      left_out.insert(i, 1, digit);
      all.push_back(std::move(left_out));
    }
    std::string doubled = text;
    doubled.erase(i, 1);
    all.push_back(std::move(doubled));
    if (i + 1 < text.size() && is_digit(text[i + 1])) {
      std::string swapped = text;
      std::swap(swapped[i], swapped[i + 1]);
      all.push_back(std::move(swapped));
    }
  }
  return all;
}

}  // namespace

std::optional<Amount> slip_behind(Amount written, Amount expected, const std::function<bool(Amount)>& fits) {
  std::vector<Amount> candidates;
  for (const std::string& text : one_slip_away(to_text(written))) {
    if (const auto amount = parse_amount(text)) candidates.push_back(*amount);
  }
  if (written.hundredths % 10 == 0) candidates.push_back({written.hundredths / 10});  // the point was missed
  const auto distance = [&](Amount candidate) {
    const std::int64_t off = (candidate - expected).hundredths;
    return off < 0 ? -off : off;
  };
  std::stable_sort(candidates.begin(), candidates.end(), [&](Amount a, Amount b) { return distance(a) < distance(b); });
  for (const Amount candidate : candidates) {
    if (candidate != written && fits(candidate)) return candidate;
  }
  return std::nullopt;
}

}  // namespace service::usage
