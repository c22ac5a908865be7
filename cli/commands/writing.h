// The one way in which commands write: hand a request to the library, then put into words what came of it.
#pragma once

#include <string>
#include <vector>

#include "render/written/written.h"
#include "service/entry.h"
#include "session.h"

namespace cli {

// Who enters facts: $WHICHEVER_USER, else $USER, else $LOGNAME.
std::string entered_by(const World& world);

// The same with clock and chance.
service::Writer writer_of(const Context& context);

// To be told after each entry: what is in the record now.
void stored(Context& context, const Session& session, const Written& written);

// A request of this command on the session's day, about facts that are known now or found inside the transaction.
service::EntryRequest request_of(const Context& context, const Session& session,
                                 const std::vector<service::Fact>& facts);
service::EntryRequest request_of(const Context& context, const Session& session, const service::Scope& scope,
                                 service::Propose propose);

// Fails as `service::enter` does. `understood`: how a file was read.
Written write(Context& context, const Session& session, service::Record& record, const service::EntryRequest& request,
              std::vector<std::string> understood = {});

// A fact about a machine on the day given by --on, else today.
service::Fact fact_about(const Context& context, const Session& session, service::FactKind kind,
                         const service::Machine& machine);

// --meter, if it is one of the machine's. Fails with usage.
std::string meter_option(const Arguments& arguments, const service::Machine& machine);

// Renders what was written in the format asked for.
void tell(Context& context, const Written& written);

}  // namespace cli
