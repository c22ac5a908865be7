// Every command, one file each. They put their answer into the context and return the exit status.
#pragma once

namespace cli {

struct Context;

int due(Context& context);
int why(Context& context);
int reading(Context& context);
int done(Context& context);
int saw(Context& context);
int looked(Context& context);
int meter_change(Context& context);
int find_out(Context& context);
int forecast(Context& context);
int season(Context& context);
int workload(Context& context);
int parts(Context& context);
int sheet(Context& context);
int report(Context& context);
int visits(Context& context);
int rounds(Context& context);
int put_off(Context& context);
int lay_up(Context& context);
int out_of_use(Context& context);
int back(Context& context);
int count(Context& context);
int strike(Context& context);
int undo(Context& context);
int history(Context& context);
int import_facts(Context& context);
int export_facts(Context& context);
int check(Context& context);
int mail(Context& context);
int merge(Context& context);
int backup(Context& context);
int new_fleet(Context& context);
int completion(Context& context);
int complete(Context& context);
int help(Context& context);

}  // namespace cli
