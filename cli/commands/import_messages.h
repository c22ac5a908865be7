// `import --messages`: pasted text in place of a file of facts.
#pragma once

#include "run.h"

namespace cli {

int import_messages(Context& context);

// Options that belong to --messages, without it: usage.
void insist_on_messages(const Arguments& arguments);

}  // namespace cli
