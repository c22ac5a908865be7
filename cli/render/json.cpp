#include "render/json.h"

#include "command_table.h"
#include "render/answers.h"
#include "render/cures.h"
#include "render/overdue/words.h"
#include "render/shared/json_parts.h"
#include "render/written_text.h"

namespace cli {
namespace {

// What difference() compares: enough to say "overdue -> later".
Json side_as_json(const service::Point* point) {
  if (point == nullptr) return nullptr;
  return {{"standing", to_text(point->standing)},
          {"by_estimate", point->by_estimate},
          {"due_on", day_or_null(point->due_on)}};
}

Json change_as_json(const service::PointChange& change) {
  const service::Point& point = change.after != nullptr ? *change.after : *change.before;
  return {{"machine", point.machine->key},
          {"task", point.name},
          {"position", text_or_null(point.position)},
          {"before", side_as_json(change.before)},
          {"after", side_as_json(change.after)}};
}

// Under which heading of the overdue list a point stands, where its standing stays what it was.
Json move_as_json(const service::HeadingChange& move) {
  const auto heading = [](const std::optional<service::OverdueHeading>& of) {
    return of ? Json(service::to_text(*of)) : Json(nullptr);
  };
  return {{"machine", move.point->machine->key},
          {"task", move.point->name},
          {"position", text_or_null(move.point->position)},
          {"before", heading(move.was)},
          {"after", heading(move.is)}};
}

Json option_as_json(const Option& option) {
  return {{"option", option.name},
          {"value", option.value.empty() ? Json(nullptr) : Json(option.value)},
          {"does", option.does},
          {"repeats", option.repeats}};
}

Json diagnostic_as_json(const service::Diagnostic& diagnostic) {
  const auto& place = diagnostic.place;
  return {{"code", diagnostic.code},
          {"message", diagnostic.message},
          {"hint", text_or_null(hint_of(diagnostic))},
          {"file", place ? text_or_null(place->file) : Json(nullptr)},
          {"line", place && place->line > 0 ? Json(place->line) : Json(nullptr)},
          {"column", place && place->column > 0 ? Json(place->column) : Json(nullptr)}};
}

}  // namespace

std::string errors_as_json(std::span<const service::Diagnostic> diagnostics) {
  std::string lines;
  for (const service::Diagnostic& diagnostic : diagnostics) {
    lines += dumped_line({{"error", diagnostic_as_json(diagnostic)}});
  }
  return lines;
}

std::string check_as_json(const Checked& checked) {
  Json json{{"machines", checked.machines ? Json(*checked.machines) : Json(nullptr)},
            {"facts", checked.facts},
            {"findings", Json::array()}};
  for (const service::Diagnostic& finding : checked.findings) {
    Json part = diagnostic_as_json(finding);
    part["severity"] = finding.severity == service::Severity::error ? "error" : "remark";
    json["findings"].push_back(std::move(part));
  }
  return dumped(json);
}

std::string script_as_json(const std::string& shell, const std::string& script) {
  return dumped({{"shell", shell}, {"script", script}});
}

std::string commands_as_json(const Command* one) {
  Json json{{"commands", Json::array()}};
  for (const Command& command : commands()) {
    if (command.hidden || (one != nullptr && one != &command)) continue;
    Json part{{"command", command.name}, {"summary", command.summary}, {"about", command.about}};
    part["words"] = Json::array();
    for (const Word& word : command.words) {
      part["words"].push_back({{"word", word.name}, {"required", word.required}, {"repeats", word.repeats}});
    }
    part["options"] = Json::array();
    for (const Option& option : command.options) part["options"].push_back(option_as_json(option));
    part["formats"] = command.formats;
    json["commands"].push_back(std::move(part));
  }
  json["options"] = Json::array();
  for (const Option& option : global_options()) json["options"].push_back(option_as_json(option));
  json["statuses"] = Json::array();
  for (const ExitStatus& status : shared_statuses()) {
    json["statuses"].push_back({{"status", status.status}, {"when", status.when}});
  }
  return dumped(json);
}

std::string backup_as_json(const std::string& file, int facts) { return dumped({{"backup", file}, {"facts", facts}}); }

std::string written_as_json(const Written& written) {
  const service::Entered& entered = written.entered;
  Json json;
  json["command"] = written.command;
  json["as_of"] = to_text(entered.today);
  json["stored"] = !entered.dry_run && !entered.added.empty();
  json["dry_run"] = entered.dry_run;
  json["already_there"] = entered.already_there;
  json["facts"] = Json::array();
  for (const service::Fact& fact : entered.added) json["facts"].push_back(fact_as_json(fact));
  json["said"] = entered.said;
  json["understood"] = written.understood;
  json["refused"] = written.left_out;
  json["rejects"] = text_or_null(written.rejects);
  json["changes"] = Json::array();
  for (const service::PointChange& change : entered.changes) json["changes"].push_back(change_as_json(change));
  json["moves"] = Json::array();
  for (const service::HeadingChange& move : entered.moves) json["moves"].push_back(move_as_json(move));
  json["undo"] = text_or_null(undo_of(written));
  return dumped(json);
}

std::string history_as_json(const Book& book) {
  Json json{{"machine", book.machine}, {"as_of", to_text(book.as_of)}, {"facts", Json::array()}};
  for (const BookLine& line : book.lines) {
    Json fact = fact_as_json(line.fact);
    fact["usage"] = number_or_null(line.usage);
    fact["struck"] = line.struck;
    fact["struck_because"] = line.struck ? text_or_null(line.struck_because) : Json(nullptr);
    json["facts"].push_back(std::move(fact));
  }
  return dumped(json);
}

std::string made_as_json(const std::string& folder, const std::vector<std::string>& files) {
  return dumped({{"folder", folder}, {"made", files}});
}

}  // namespace cli
