#include <utility>

#include "render/due/due.h"
#include "render/shared/json_answers.h"
#include "render/shared/not_to_run.h"

namespace cli {
namespace {

// What stands before the points, and what behind them.
Json before_points(const service::DueList& list) {
  Json json = head_of(*list.fleet, list.as_of, list.scope);
  json["to"] = to_text(list.within);
  json["cautions"] = base_cautions_as_json();
  return json;
}

Json behind_points(const service::DueList& list, const service::NotToRun& stopped,
                   const std::vector<std::string>& cautions, std::size_t left_off) {
  Json json;
  json["seen"] = seen_as_json(list.seen, *list.fleet, stopped);
  json["gaps"] = gaps_as_json(list.gaps, *list.fleet);
  json["not_in_use"] = not_in_use_as_json(list.not_in_use, *list.fleet, stopped);
  json["not_to_run"] = bans_as_json(stopped.bans(), *list.fleet);
  json["caution_sentences"] = sentences_of(cautions);
  json["left_off"] = left_off;
  mark_rows(json, *list.fleet, stopped);
  return json;
}

// How far a row of a list in an answer stands in (`dumped`).
constexpr std::string_view row_indent = "  ";

}  // namespace

Json due_answer(const DueAnswer& due) {
  const service::DueList& list = due.list;
  const service::DueRows rows = due.every();
  const service::NotToRun stopped(list);
  Json json = before_points(list);
  json["points"] =
      array_of(rows.points, [&](const service::Point* point) { return point_as_json(*point, *list.fleet, stopped); });
  Json behind = behind_points(list, stopped, cautions_of(rows.points), rows.left_off);
  for (auto part = behind.begin(); part != behind.end(); ++part) json[part.key()] = std::move(part.value());
  return json;
}

// As it stands in the whole: no text of JSON holds a line break of its own.
std::string point_for_json(const service::Point& point, const service::Fleet& fleet, const service::NotToRun& stopped) {
  const std::string text = dumped(point_as_json(point, fleet, stopped));
  std::string row;
  row.reserve(text.size() + text.size() / 4);
  for (std::size_t begin = 0; begin < text.size();) {
    const std::size_t end = text.find('\n', begin);
    row.append(row_indent).append(text, begin, end - begin);
    begin = end + 1;
    if (begin < text.size()) row += '\n';
  }
  return row;
}

// Two answers, of which the first loses its end and the second its beginning, with the points in between.
void put_json(const DueAnswer& rest, PointTexts& points, const service::Put& put) {
  const service::NotToRun stopped(rest.list);
  const std::string before = dumped(before_points(rest.list));
  const std::string behind = dumped(behind_points(rest.list, stopped, points.cautions(), points.left_off()));
  InBlocks blocks(put);
  blocks(std::string_view(before).substr(0, before.rfind("\n}")));
  blocks(",\n \"points\": [");
  bool first = true;
  points.each([&](std::string_view row) {
    blocks(std::exchange(first, false) ? "\n" : ",\n");
    blocks(row);
  });
  blocks(points.empty() ? "]," : "\n ],");
  blocks(std::string_view(behind).substr(1));
  blocks.flush();
}

}  // namespace cli
