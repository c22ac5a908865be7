// What everybody is told who is sent to a machine, and what a task's own cautions say.
#pragma once

#include <cstddef>
#include <string>
#include <string_view>
#include <vector>

#include "service/due_list.h"
#include "terminal/look.h"

namespace cli {

// Sentences are for reading: on paper and in a mail too they are broken.
std::size_t columns_of(const Look& look);

// For what is taken to the machine: every step in its order, and what comes afterwards.
std::string all_steps(const Look& look);

// The steps alone, where what comes afterwards stands behind the work.
std::string steps_before(const Look& look);

// What comes when the work is done.
std::string afterwards(std::string_view indent, std::size_t columns);

// For a calendar, whose reader stands at the machine with his telephone: every step in a line of its own, and cautions
// likewise (`Mind: ...`). Not wrapped and not cleaned: what writes the calendar does.
std::string steps_in_lines();
std::string cautions_in_lines(const std::vector<std::string>& cautions);

// The base cautions in one line.
std::string in_a_line(const Look& look);

// The foot of a list that sends people to machines: one line, and how it stands in Markdown.
std::string foot_of_list(const Look& look);
std::string foot_of_markdown();

// `mind: hot-fluid, used-oil`; empty where the task has none. What the names stand for, `cautions_in_full` says.
std::string mind_words(const std::vector<std::string>& cautions);

// `hot-fluid: Oil and coolant burn ...`; a sentence of the schedule's own as it stands.
std::string caution_in_full(const std::string& written);

// Each with the sentence that it stands for, wrapped.
std::string cautions_in_full(const std::vector<std::string>& cautions, std::string_view indent, std::size_t columns);

// For the foot of a list of tasks that are taken to the machine: a heading, and each caution of theirs in full.
std::string what_to_mind(const std::vector<std::string>& cautions, const Look& look);

// Under which sign of the text lists a point never waits: `safety`, `by a competent person`.
std::vector<std::string> marks_of(const service::Point& point);

}  // namespace cli
