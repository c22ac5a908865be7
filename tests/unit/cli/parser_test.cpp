// The parser against the command table: both orders of global options, and our own words for every mistake.
#include "parser.h"

#include <doctest/doctest.h>
#include <fmt/format.h>

#include "command_table.h"
#include "service/base.h"
#include "unit/cli/place.h"

namespace {

using Words = std::vector<std::string>;

// What is said about a command line that must be refused.
std::string refusal(const Words& words) {
  try {
    cli::parse(words);
  } catch (const service::Failure& failure) {
    CHECK(static_cast<int>(failure.kind()) == 64);
    const auto& diagnostic = failure.diagnostics().front();
    return diagnostic.message + " | " + diagnostic.hint;
  }
  return "accepted";
}

}  // namespace

TEST_CASE("global options work before and after the command") {
  for (const auto& option : cli::global_options()) {
    // A format must be one that the command writes, and colours are three words; any other text is text.
    const std::string value = option.name == "format" ? "json" : option.name == "color" ? "never" : "x";
    const std::string name = "--" + std::string(option.name);
    for (const Words& words :
         {Words{name, value, "due"}, Words{"due", name, value}, Words{"due", fmt::format("{}={}", name, value)}}) {
      const auto arguments = cli::parse(words);
      REQUIRE(arguments.command != nullptr);
      CHECK(arguments.command->name == "due");
      CHECK(arguments.value(option.name).value_or("none") == value);
    }
  }
}

TEST_CASE("colours are three words, wherever the option stands") {
  for (const char* word : {"auto", "always", "never"}) {
    CHECK(cli::parse({"due", "--color", word}).value("color").value_or("none") == word);
  }
  const std::string refused = "`--color sometimes` is not understood | write auto, always or never";
  CHECK(refusal({"due", "--color", "sometimes"}) == refused);
  CHECK(refusal({"--color=sometimes", "reading", "loader", "5"}) == refused);
}

TEST_CASE("words and repeated options arrive in order") {
  const auto arguments = cli::parse({"done", "loader", "--by", "A B", "engine-oil", "tyre@front-left", "--checked"});
  CHECK(arguments.command->name == "done");
  CHECK(fmt::format("{}", fmt::join(arguments.words, "|")) == "loader|engine-oil|tyre@front-left");
  CHECK(arguments.value("by").value_or("") == "A B");
  CHECK(arguments.has("checked"));
  CHECK_FALSE(arguments.has("dry-run"));
  const auto due = cli::parse({"due", "--machine", "a", "--all", "--machine", "b"});
  CHECK(fmt::format("{}", fmt::join(due.values("machine"), "|")) == "a|b");
  CHECK(due.words.empty());
}

TEST_CASE("a machine may have the name of a command") {
  const auto arguments = cli::parse({"reading", "due", "5"});
  CHECK(arguments.command->name == "reading");
  CHECK(arguments.words.front() == "due");
}

TEST_CASE("mistyped names are answered with the nearest ones") {
  CHECK(refusal({"deu"}).find("did you mean `due`") != std::string::npos);
  CHECK(refusal({"readin", "loader", "5"}).find("`reading`") != std::string::npos);
  CHECK(refusal({"due", "--machin", "x"}).find("did you mean `--machine`") != std::string::npos);
  CHECK(refusal({"due", "--format", "jsn"}).find("did you mean `json`") != std::string::npos);
  CHECK(refusal({"--flet", "x", "due"}).find("`--fleet`") != std::string::npos);
}

TEST_CASE("malformed command lines are usage errors in our own words") {
  const std::vector<Words> malformed{
      {},
      {"nonsense"},
      {"-x"},
      {"--"},
      {"due", "-x"},
      {"due", "--nonsense"},
      {"check", "extra"},
      {"due", "--within"},
      {"due", "--machine"},
      {"due", "--all=yes"},
      {"due", "--within", "3d", "--within", "4d"},
      {"due", "--as-of", "2026-01-01", "--as-of", "2026-01-02"},
      {"due", "--format", "xml"},
      {"reading"},
      {"reading", "loader"},
      {"reading", "loader", "5", "6"},
      {"reading", "loader", "5", "--by", "me"},
      {"done", "loader"},
      {"done", "loader", "engine-oil", "--at"},
      {"saw", "loader"},
      {"meter-change"},
      {"strike"},
      {"undo", "x", "y"},
      {"history"},
      {"import"},
      {"export", "x"},
      {"export", "--format", "text"},
      {"new"},
      {"new", "a", "b"},
      {"help", "due", "why"},
  };
  for (const Words& words : malformed) {
    const std::string line = fmt::format("{}", fmt::join(words, " "));
    CAPTURE(line);
    const std::string said = refusal(words);
    CHECK(said != "accepted");
    CHECK(said.find("| ") + 2 < said.size());  // a hint every time
    for (const char* theirs : {"CLI", "ubcommand", "argument", "RunTimeError", "ositional"}) {
      CHECK(said.find(theirs) == std::string::npos);
    }
  }
}

TEST_CASE("an option never takes the next option for its value") {
  cli_test::Place place;
  place.furnish();
  for (const char* line : {"saw loader leak --note --dry-run", "due --machine --all", "due --output= --all",
                           "done loader hoses --by= --dry-run", "due --color mauve", "undo --color mauve"}) {
    CAPTURE(std::string(line));
    CHECK(place.run(line) == 64);
    CHECK_FALSE(place.err.empty());
  }
  REQUIRE(place.run("export") == 0);
  CHECK(place.out.find("leak") == std::string::npos);
  CHECK(place.run("saw loader leak --note=--dry-run") == 0);  // said in one word it is meant
  CHECK(place.run("due --all --machine pump --format json") == 0);
}

TEST_CASE("help and version need nothing else to be right") {
  CHECK(cli::parse({"--help"}).help);
  CHECK(cli::parse({"-h"}).help);
  CHECK(cli::parse({"reading", "--help"}).help);
  CHECK(cli::parse({"reading", "-h"}).command->name == "reading");
  CHECK(cli::parse({"--version"}).version);
}

TEST_CASE("errors are JSON as soon as JSON is asked for") {
  CHECK(cli::wants_json({"deu", "--format", "json"}));
  CHECK(cli::wants_json({"--format=json", "due", "--nonsense"}));
  CHECK_FALSE(cli::wants_json({"due", "--format", "csv"}));
  CHECK_FALSE(cli::wants_json({"due", "--", "--format=json"}));
}

TEST_CASE("the command table keeps its own rules") {
  for (const auto& command : cli::commands()) {
    const std::string name(command.name);
    CAPTURE(name);
    CHECK(command.summary.size() <= 60);
    CHECK_FALSE(command.about.empty());
    CHECK(bool(command.action));
    CHECK(command.formats.empty() == (name == "mail"));  // a message is a message
    for (const auto& option : command.options) {
      CHECK(option.does.size() <= 60);
      for (const auto& global : cli::global_options()) CHECK(option.name != global.name);
    }
    for (std::size_t i = 0; i + 1 < command.words.size(); ++i) CHECK_FALSE(command.words[i].repeats);
    CHECK(bool(cli::find_command(command.name) == &command));
  }
  CHECK(cli::find_command("nonsense") == nullptr);
}
