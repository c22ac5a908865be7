#include "render/help/help.h"
#include "render/shared/json_parts.h"

namespace cli {
namespace {

Json option_as_json(const Option& option) {
  return {{"option", option.name},
          {"value", option.value.empty() ? Json(nullptr) : Json(option.value)},
          {"does", option.does},
          {"repeats", option.repeats}};
}

Json word_as_json(const Word& word) {
  return {{"word", word.name}, {"required", word.required}, {"repeats", word.repeats}};
}

Json command_as_json(const Command& command) {
  Json json{{"command", command.name}, {"summary", command.summary}, {"about", command.about}};
  json["words"] = array_of(command.words, word_as_json);
  json["options"] = array_of(command.options, option_as_json);
  json["formats"] = command.formats;
  return json;
}

}  // namespace

std::string help_as_json(const HelpAnswer& help) {
  Json json{{"commands", Json::array()}};
  for (const Command& command : commands()) {
    if (command.hidden || (help.command != nullptr && help.command != &command)) continue;
    json["commands"].push_back(command_as_json(command));
  }
  json["options"] = array_of(global_options(), option_as_json);
  json["statuses"] = array_of(shared_statuses(), [](const ExitStatus& status) {
    return Json{{"status", status.status}, {"when", status.when}};
  });
  return dumped(json);
}

}  // namespace cli
