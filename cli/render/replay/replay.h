// How right the odds were so far.
#pragma once

#include <string>

#include "render/shared/formats.h"
#include "service/outlook.h"

namespace cli {

struct ReplayAnswer {
  service::Replay past;
  service::Day as_of;
};

std::string replay_as_text(const ReplayAnswer& answer, const Look& look);
std::string replay_as_json(const ReplayAnswer& answer);
std::string replay_as_csv(const ReplayAnswer& answer);  // a row a machine, a kind, and all

inline constexpr Format<ReplayAnswer> replay_formats[] = {
    {"text", replay_as_text}, {"json", replay_as_json}, {"csv", replay_as_csv}};

}  // namespace cli
