"""The machines: their kinds, places and first days, as fleet.yaml and register.csv list them."""
import dataclasses
import datetime

from fleets.luck import Luck
from fleets.schedules import kind_name
from fleets.sizes import AS_OF, KINDS

SITES = 20


@dataclasses.dataclass
class Machine:
    number: int
    key: str
    kind: int
    site: int
    first_day: datetime.date
    hours: int      # a thousandth of an hour it works on an even day
    luck: Luck      # what else is drawn of it


def machine(size, number):
    luck = Luck(1_000_003 * (number + 1))
    days = luck.between(365 * size.years[0], 365 * size.years[1])
    return Machine(number, f"m{number + 1:07}", luck.below(KINDS), luck.below(SITES), AS_OF - datetime.timedelta(days),
                   luck.between(*size.hours), luck)


def machine_yaml(it):
    lines = [f"  {it.key}:", f"    name: Machine {it.number + 1}", f"    schedule: {kind_name(it.kind)}", f"    site: site-{it.site + 1:02}",
             f"    in-service: {{on: {it.first_day}, at: 0}}"]
    if it.number % 3 == 0:
        year = it.hours * 365 // 1000
        lines.append(f"    expect: {{per-year: {year}, harvest: {year // 4}}}")
    return "\n".join(lines) + "\n"


REGISTER = "machine,name,schedule,site,in-service,in-service-at,per-year\n"


def register_row(it):
    year = it.hours * 365 // 1000 if it.number % 3 == 0 else ""
    return f"{it.key},Machine {it.number + 1},{kind_name(it.kind)},site-{it.site + 1:02},{it.first_day},0,{year}\n"
