// What both kinds of printed lists share: their rules, and the cautions.
#pragma once

#include <string>
#include <string_view>

#include "render/html/page.h"
#include "service/job_sheet.h"

namespace cli {

// The rules of job sheets and reading lists, behind those that all pages share.
std::string_view paper_rules();

// Every step before the work, in its order.
void add_steps_before(const Element& parent);

void add_tick(const Element& parent);  // a box to tick

// A blank to write in, as wide as its kind (`name`, `value`, `when`); `unit` stands behind it.
void add_blank(const Element& parent, std::string_view unit = {}, std::string_view kind = {});

// What is not known of a meter or hard to believe, below what it showed last.
void add_doubts(const Element& parent, const service::SheetMeter& meter, const std::string& command);

// Text, its blanks for a day or a value drawn as wide as somebody writes.
void say_with_blanks(const Element& parent, std::string_view text);

// A heading and what it stands over.
Element add_section(const Element& parent, std::string_view heading, std::string_view kinds = {});

// A line that is left out where there is nothing to say.
void add_line(const Element& parent, std::string_view name, std::string_view text);

}  // namespace cli
