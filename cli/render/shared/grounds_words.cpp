#include "render/shared/grounds_words.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>

#include "render/shared/words.h"

namespace cli {
namespace {

constexpr std::array<const char*, 12> months{"January", "February", "March",     "April",   "May",      "June",
                                             "July",    "August",   "September", "October", "November", "December"};

}  // namespace

std::string busy_months(const service::Grounds& grounds) {
  std::vector<std::string> busy;
  double share = 0;
  for (std::size_t i = 0; i < months.size(); ++i) {
    if (grounds.months.at(i) < 1.5 / 12) continue;
    busy.emplace_back(months.at(i));
    share += grounds.months.at(i);
  }
  if (busy.empty() || busy.size() > 5 || share < 0.4) return "spread over the year";
  return fmt::format("{:.0f} % of it in {}", share * 100, listed(busy, "and"));
}

std::string words_of(const service::Grounds& grounds, const std::string& unit) {
  std::string text;
  if (grounds.gaps == 0) {
    text = "from no readings of its own";
  } else {
    text = fmt::format("from {:.1f} years of readings", grounds.years);
  }
  if (grounds.others > 0) {
    text += fmt::format(" and {} of its kind", service::counted(grounds.others, "other machine", "other machines"));
  }
  if (grounds.expected) text += "; its owner says how much a year";
  if (grounds.expected_seasons) text += grounds.expected ? ", and by season" : "; its owner says how much by season";
  text += fmt::format("; use comes in lumps of about {:.0f} {}", std::max(1.0, grounds.dispersion), unit);
  if (grounds.idle > 0.02) text += fmt::format("; it may be standing idle ({:.0f} %)", grounds.idle * 100);
  return text;
}

}  // namespace cli
