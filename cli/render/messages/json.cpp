#include "render/messages/by_command.h"
#include "render/messages/messages.h"
#include "render/shared/sign_words.h"
#include "render/written/json_of.h"

namespace cli {
namespace {

Json near_as_json(const service::MessageLine& line, service::Day today, const std::string& command) {
  if (!line.near) return nullptr;
  return {{"name", line.near->name},
          {"measured", line.near->measured},
          {"command", command_to_say(*line.near, line.facts[line.near_fact], today, command)}};
}

Json wrong_as_json(const service::MessageLine& line, const service::Diagnostic& wrong, const std::string& command) {
  Json json = diagnostic_as_json(wrong, command);
  if (!line.instead.empty()) json["hint"] = hint_of_line(line, wrong, command);
  return json;
}

Json line_as_json(const service::MessageLine& line, service::Day today, const std::string& command) {
  return {
      {"line", line.number},
      {"text", service::cleaned(line.text)},
      {"fate", to_text(line.fate)},
      {"sender", text_or_null(line.sender)},
      {"on", line.on ? Json(to_text(*line.on)) : Json(nullptr)},
      {"facts", array_of(line.facts, [](const service::Fact& fact) { return to_text(fact.id); })},
      {"as_line", line.as_line > 0 ? Json(line.as_line) : Json(nullptr)},
      {"anew", line.anew},
      {"near", near_as_json(line, today, command)},
      {"wrong",
       array_of(line.wrong, [&](const service::Diagnostic& wrong) { return wrong_as_json(line, wrong, command); })},
      {"asks", array_of(line.asks, [&](const service::Diagnostic& ask) { return diagnostic_as_json(ask, command); })},
      {"clears", array_of(line.clears, [](const service::Fact& sign) {
         return Json{{"sign", service::cleaned(sign.name)}, {"on", to_text(sign.on)}};
       })}};
}

}  // namespace

std::string messages_as_json(const MessagesWritten& written, const std::string& command) {
  Json json = json_of(written.written, command);
  json["lines"] = array_of(written.messages.lines, [&](const service::MessageLine& line) {
    return line_as_json(line, written.messages.entered.today, command);
  });
  return dumped(json);
}

}  // namespace cli
