#include "backup_day.h"

#include <string>

#include "output.h"
#include "service/overdue_news.h"
#include "today.h"

namespace cli {

void note_backup(Context& context, const std::filesystem::path& folder) {
  const service::Day today = day_in_zone(context.world.milliseconds(), "");
  constexpr unsigned for_its_owner_alone = 0600;
  try {
    service::write_file(folder / service::backed_up_file, service::to_text(today) + '\n', for_its_owner_alone,
                        service::IfThere::replace, "the copy itself is whole; the weekly word will not know of it");
  } catch (const service::Failure& failure) {
    context.also = failure.diagnostics();
    for (service::Diagnostic& diagnostic : context.also) diagnostic.severity = service::Severity::remark;
  }
}

std::optional<service::Day> last_backup(const std::filesystem::path& folder) {
  try {
    const std::string text = read_file(folder / service::backed_up_file);
    return service::parse_day(text.substr(0, text.find('\n'))).value;
  } catch (const service::Failure&) {
    return std::nullopt;
  }
}

}  // namespace cli
