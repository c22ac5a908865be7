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

std::string words_of(const service::BusyMonths& busy) {
  if (busy.months.empty()) return "spread over the year";
  std::vector<std::string> names;
  for (const unsigned month : busy.months) names.emplace_back(months.at(month - 1));
  return fmt::format("{:.0f} % of it in {}", busy.share * 100, listed(names, "and"));
}

std::string words_of(service::UseLately lately, const service::Grounds& grounds, const std::string& unit) {
  if (lately == service::UseLately::as_before) return "";
  return fmt::format("lately {} than the {:.0f} {} a year so far: is the last reading right?",
                     lately == service::UseLately::much_more ? "much more" : "much less", grounds.so_far, unit);
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
  if (grounds.idle.value > 0.02) text += fmt::format("; it may be standing idle ({:.0f} %)", grounds.idle.value * 100);
  return text;
}

}  // namespace cli
