#include <algorithm>
#include <iterator>

#include "render/due/due.h"

namespace cli {
namespace {

// Of a list that holds all of its points.
std::string whole(const DueAnswer& due, const LongFormat& format) {
  PointTexts points(format.write, due.first);
  points.add(due.list);
  points.put_in_order();
  std::string text;
  format.put(due, points, [&](std::string_view piece) { text += piece; });
  return text;
}

}  // namespace

const LongFormat* long_due_format(std::string_view name) {
  const auto* const found = std::find_if(std::begin(long_due_formats), std::end(long_due_formats),
                                         [&](const LongFormat& format) { return format.name == name; });
  return found == std::end(long_due_formats) ? nullptr : found;
}

std::string due_as_json(const DueAnswer& due) { return whole(due, *long_due_format("json")); }
std::string due_as_csv(const DueAnswer& due) { return whole(due, *long_due_format("csv")); }

}  // namespace cli
