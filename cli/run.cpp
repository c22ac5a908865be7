#include "run.h"

#include <cerrno>
#include <filesystem>
#include <new>

#include "output.h"
#include "render/errors/errors.h"
#include "render/help/help.h"
#include "render/shared/diagnostics.h"
#include "service/base.h"

namespace cli {
namespace {

void say(const std::vector<std::string>& written, const World& world,
         const std::vector<service::Diagnostic>& diagnostics) {
  const std::string command = command_about(fleet_named(written));
  if (wants_json(written)) {
    world.write_error(errors_as_json(diagnostics, command));
  } else {
    // A message that names no place in a file names who says it: cron mixes many voices.
    const bool placed = !diagnostics.empty() && diagnostics.front().place.has_value();
    world.write_error((placed ? "" : "whichever: ") + diagnostics_to_text(diagnostics, command));
  }
}

int answer(const std::vector<std::string>& written, const World& world) {
  const Arguments arguments = parse(written);
  Context context{world, arguments, {}, {}, false};
  int status = 0;
  const auto output = arguments.value("output");
  const bool to_file = output && *output != "-";
  if (to_file) insist_replaceable(world.folder / *output);
  if (arguments.version) {
    context.out = version_text();
  } else if (arguments.help) {
    context.out = help_as_text({arguments.command});
  } else {
    context.look = look_of(world, arguments);
    status = arguments.command->action(context);
  }
  context.progress.clear();
  const std::string_view hint =
      context.stored ? "what was to be recorded is stored; do not enter it again" : "mend that and run it again";
  if (!context.pieces) context.pieces = [&](const Put& put) { put(context.out); };
  if (to_file) {
    write_replacing(world.folder / *output, context.pieces, hint);
  } else {
    write_out(world, context.pieces, hint);
  }
  if (!context.also.empty()) say(written, world, context.also);
  return status;
}

int tell(const std::vector<std::string>& written, const World& world, service::FailureKind kind,
         const std::vector<service::Diagnostic>& diagnostics) {
  say(written, world, diagnostics);
  return static_cast<int>(kind);
}

}  // namespace

int run(const std::vector<std::string>& arguments, const World& world) {
  using service::FailureKind;
  // The texts of exceptions that are not ours are for programmers of other libraries; they are not shown.
  try {
    return answer(arguments, world);
  } catch (const service::Failure& failure) {
    return tell(arguments, world, failure.kind(), failure.diagnostics());
  } catch (const std::bad_alloc&) {
    return tell(arguments, world, FailureKind::io,
                {{"no-memory", "there is not enough memory", "close other programs, or ask about one machine"}});
  } catch (const std::filesystem::filesystem_error&) {
    return tell(arguments, world, FailureKind::io, {{"files", "a file or folder could not be reached", ""}});
  } catch (const std::exception&) {
    return tell(arguments, world, FailureKind::internal,
                {{"bug", "something went wrong inside the program; this is its mistake, not yours",
                  "run it again; where it stays, report the command line and the fleet files"}});
  }
}

}  // namespace cli
