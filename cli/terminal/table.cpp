#include "terminal/table.h"

#include <algorithm>
#include <numeric>

#include "terminal/width.h"
#include "terminal/wrap.h"

namespace cli {
namespace {

constexpr std::size_t between = 2;

// The widest piece of each column that no line may break.
std::vector<std::size_t> least_widths(const std::vector<Row>& rows, std::size_t columns) {
  std::vector<std::size_t> least(columns);
  for (const Row& row : rows) {
    for (std::size_t i = 0; i < row.size(); ++i) {
      for (const std::string& piece : wrapped_lines(row[i], 1)) least[i] = std::max(least[i], width(piece));
    }
  }
  return least;
}

// Of the first `count` columns; one that is empty in all rows takes no room.
std::size_t taken(const std::vector<std::size_t>& widths, std::size_t count) {
  std::size_t sum = 0;
  for (std::size_t i = 0; i < count; ++i) sum += widths[i] == 0 ? 0 : widths[i] + (sum == 0 ? 0 : between);
  return sum;
}

// Takes from the widest column that still can give, until they fit.
void make_narrower(std::vector<std::size_t>& widths, const std::vector<std::size_t>& least, std::size_t count,
                   std::size_t room) {
  while (taken(widths, count) > room) {
    std::size_t widest = count;
    for (std::size_t i = 0; i < count; ++i) {
      if (widths[i] > least[i] && (widest == count || widths[i] > widths[widest])) widest = i;
    }
    if (widest == count) return;
    --widths[widest];
  }
}

}  // namespace

std::vector<std::size_t> column_widths(const std::vector<Row>& rows) {
  std::vector<std::size_t> widths;
  for (const Row& row : rows) {
    if (row.size() > widths.size()) widths.resize(row.size());
    for (std::size_t i = 0; i < row.size(); ++i) widths[i] = std::max(widths[i], width(row[i]));
  }
  return widths;
}

std::string table(const std::vector<Row>& rows, const std::string& indent, std::size_t columns) {
  std::string text;
  for (const std::string& row : table_rows(rows, indent, columns)) text += row;
  return text;
}

std::vector<std::string> table_rows(const std::vector<Row>& rows, const std::string& indent, std::size_t columns) {
  auto widths = column_widths(rows);
  std::size_t beside = widths.size();
  const std::size_t room = columns > indent.size() ? columns - indent.size() : 0;
  if (columns != 0 && taken(widths, beside) > room) {
    const auto least = least_widths(rows, widths.size());
    while (beside > 1 && taken(least, beside) > room) --beside;
    make_narrower(widths, least, beside, room);
  }
  std::vector<std::string> texts;
  for (const Row& row : rows) {
    std::string& text = texts.emplace_back();
    std::vector<std::vector<std::string>> cells;
    std::size_t lines = 1;
    for (std::size_t i = 0; i < std::min(row.size(), beside); ++i) {
      cells.push_back(width(row[i]) > widths[i] ? wrapped_lines(row[i], widths[i]) : std::vector{row[i]});
      lines = std::max(lines, cells.back().size());
    }
    for (std::size_t line = 0; line < lines; ++line) {
      std::string out = indent;
      for (std::size_t i = 0; i < cells.size(); ++i) {
        if (widths[i] == 0) continue;
        out += padded(line < cells[i].size() ? cells[i][line] : "", widths[i]) + std::string(between, ' ');
      }
      out.erase(out.find_last_not_of(' ') + 1);
      text += out + '\n';
    }
    std::string below;
    for (std::size_t i = beside; i < row.size(); ++i) {
      if (!row[i].empty()) below += (below.empty() ? "" : " · ") + row[i];
    }
    const std::string deeper = indent + "    ";
    if (!below.empty()) text += wrapped(deeper, below, columns, deeper.size());
  }
  return texts;
}

}  // namespace cli
