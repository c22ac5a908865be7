// The one way in which commands write: propose, judge, append in one transaction, then say what changed.
#pragma once

#include <functional>
#include <string>
#include <string_view>
#include <vector>

#include "render/answers.h"
#include "session.h"

namespace cli {

using Propose = std::function<std::vector<service::Proposal>(const std::vector<service::Fact>& known)>;

struct Errand {
  std::string origin;                        // what the facts are said to come from: the command, or `import FILE`
  service::Scope scope;                      // what is read to judge by
  Propose propose;                           // called inside the transaction
  std::vector<std::string> understood = {};  // how a file was read
  bool skip_bad = false;                     // store what is right, and leave what is refused to the caller
};

// Who enters facts: $WHICHEVER_USER, else $USER, else $LOGNAME.
std::string entered_by(const World& world);

// Fails with what the judge refuses: bad_data, or usage where only a name was mistyped. Nothing is stored then.
Written write(Context& context, const Session& session, service::Record& record, const Errand& errand);

// A fact about a machine on the day given by --on, else today.
service::Fact fact_about(const Context& context, const Session& session, service::FactKind kind,
                         const service::Machine& machine);

// --meter, if it is one of the machine's. Fails with usage.
std::string meter_option(const Arguments& arguments, const service::Machine& machine);

// Renders what was written in the format asked for.
void tell(Context& context, const Written& written);

}  // namespace cli
