// What was taken of messages from the field, line by line, and what came of it.
#pragma once

#include <string>

#include "render/shared/formats.h"
#include "render/written/written.h"
#include "service/messages.h"

namespace cli {

struct MessagesWritten {
  service::Messages messages;
  Written written;  // of all of them together
};

std::string messages_as_text(const MessagesWritten& written, const Look& look);
std::string messages_as_json(const MessagesWritten& written, const std::string& command);

inline constexpr Format<MessagesWritten> messages_formats[] = {{"text", messages_as_text}, {"json", messages_as_json}};

}  // namespace cli
