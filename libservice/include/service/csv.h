// CSV as RFC 4180 has it, for whoever writes a list that is opened in a spreadsheet and comes back.
//
// A spreadsheet takes for a formula what begins with = + - @, a tab, CR or LF, or with a full-width = + - @. A cell of
// free text that begins so gets an apostrophe in front, and so does one that has apostrophes before such a beginning;
// whoever reads takes exactly that apostrophe off again. Every other text stands as it is, with the apostrophes that
// it begins with. So any text comes back as it went, and no cell of text starts a formula:
//
//   text     =1+1    '=1+1    ''=1+1    'tis    plain
//   cell    '=1+1   ''=1+1   '''=1+1    'tis    plain
//
// Figures (numbers, days, ids) are no free text: -5 is written -5, and read as that.
#pragma once

#include <span>
#include <string>
#include <string_view>
#include <vector>

#pragma GCC visibility push(default)

namespace service {

// A cell of free text as it goes into a line: behind an apostrophe where it would start a formula, in quotes where it
// holds what parts cells (a comma, semicolon, tab, quote or line break) or where a blank at its end could get lost.
std::string csv_text(std::string_view text);

// The free text of a cell that was read, out of its quotes.
std::string_view text_of_cell(std::string_view cell);

// One line with its end, of cells as they are: from csv_text(), or figures.
std::string csv_line(const std::vector<std::string>& cells, std::string_view end = "\r\n");
std::string csv_line(std::span<const std::string_view> cells, std::string_view end = "\r\n");

}  // namespace service

#pragma GCC visibility pop
