#include "render/shared/grounds_words.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cmath>

#include "render/shared/words.h"

namespace cli {
namespace {

constexpr std::array<const char*, 12> months{"January", "February", "March",     "April",   "May",      "June",
                                             "July",    "August",   "September", "October", "November", "December"};

std::string years_words(double years) {
  constexpr int months_a_year = 12;
  const auto months = std::lround(years * months_a_year);
  if (months >= months_a_year) return fmt::format("{:.1f} years", years);
  return months < 1 ? "less than a month" : service::counted(months, "month", "months");
}

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

std::string words_of(const service::OddUse& odd) {
  const std::string words = words_of(odd.lately, odd.grounds, service::cleaned(odd.meter->unit));
  return odd.machine->meters.size() > 1 ? fmt::format("{}: {}", service::cleaned(odd.meter->name), words) : words;
}

std::string words_of(const service::Grounds& grounds, const std::string& unit) {
  std::vector<std::string> sources;
  if (grounds.readings == 1) sources.emplace_back("one reading");
  if (grounds.readings > 1) {
    sources.push_back(fmt::format("{} readings over {}", grounds.readings, years_words(grounds.years)));
  }
  if (grounds.readings > 0 && grounds.start) sources.emplace_back("its first day");
  if (grounds.readings == 0) sources.emplace_back("no readings of its own");
  if (grounds.others > 0) {
    sources.push_back(service::counted(grounds.others, "other machine", "other machines") + " of its kind");
  }
  std::string text = "from " + listed(sources, "and");
  constexpr double young_years = 1.0 / 3;
  if (grounds.readings > 0 && grounds.years < young_years) {
    text += fmt::format("; a book this young ({}) tells its days in wide spans", years_words(grounds.years));
  }
  if (grounds.expected) text += "; its owner says how much a year";
  if (grounds.expected_seasons) text += grounds.expected ? ", and by season" : "; its owner says how much by season";
  text += fmt::format("; use comes in lumps of about {:.0f} {}", std::max(1.0, grounds.dispersion), unit);
  if (grounds.idle.value > 0.02) text += fmt::format("; it may be standing idle ({:.0f} %)", grounds.idle.value * 100);
  return text;
}

}  // namespace cli
