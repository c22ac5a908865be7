"""A fleet as a folder: what the command reads, and the same facts, machines and tasks for the comparators."""
import subprocess

from fleets.life import COLUMNS, Life
from fleets.machines import REGISTER, SITES, machine, machine_yaml, register_row
from fleets.schedules import kind_name, kinds_of, schedule_yaml

FLEET = """fleet: Bench {name}
time-zone: UTC
grace: 5%
seasons: {{harvest: {{from: 08-01, to: 09-20}}}}
sites:
{sites}"""
TASKS = "kind,task,safety,hours,months,grace_hours,grace_days\n"


def write_fleet(size, folder):
    """Writes fleet/ (fleet.yaml, schedules/, register.csv), facts.csv, machines.csv and tasks.csv; the number of facts."""
    fleet, kinds = folder / "fleet", kinds_of(size)
    (fleet / "schedules").mkdir(parents=True)
    with (folder / "tasks.csv").open("w", encoding="ascii") as flat:
        flat.write(TASKS)
        for kind, tasks in enumerate(kinds):
            (fleet / "schedules" / f"{kind_name(kind)}.yaml").write_text(schedule_yaml(kind, tasks), encoding="ascii")
            for task in tasks:
                flat.write(f"{kind},{task.key},{int(task.safety)},{task.hours},{task.months},{task.grace_hours},{task.grace_days}\n")
    sites = "".join(f"  site-{n + 1:02}: {{name: Site {n + 1}}}\n" for n in range(SITES))
    with ((fleet / "fleet.yaml").open("w", encoding="ascii") as yaml, (folder / "machines.csv").open("w", encoding="ascii") as flat,
          (folder / "facts.unsorted").open("w", encoding="ascii") as facts):
        yaml.write(FLEET.format(name=size.name, sites=sites))
        flat.write("machine,kind,first_day\n")
        register = (fleet / "register.csv").open("w", encoding="ascii") if size.register else None
        if register:
            register.write(REGISTER)
        else:
            yaml.write("machines:\n")
        written = 0
        for number in range(size.machines):
            it = machine(size, number)
            flat.write(f"{it.key},{it.kind},{it.first_day}\n")
            if register:
                register.write(register_row(it))
            else:
                yaml.write(machine_yaml(it))
            rows = Life(size, it, kinds[it.kind]).lived()
            facts.writelines(rows)
            written += len(rows)
        if register:
            register.close()
    sort_by_day(folder / "facts.unsorted", folder / "facts.csv")
    return written


def sort_by_day(unsorted, path):
    """As a book grows: day by day, all machines together; what is of one day and machine stays in its order."""
    with path.open("w", encoding="ascii") as out:
        out.write(COLUMNS)
        out.flush()
        subprocess.run(["sort", "-s", "-t,", "-k1,1", unsorted], stdout=out, check=True, env={"LC_ALL": "C", "PATH": "/usr/bin:/bin"})
    unsorted.unlink()


def by_kind(folder, to):
    """The same facts in a file for each kind of machine."""
    with (folder / "machines.csv").open(encoding="ascii") as flat:
        next(flat)
        kind_of = dict(row.split(",")[:2] for row in flat)
    paths = {kind: to / f"facts-{kind}.csv" for kind in sorted(set(kind_of.values()))}
    files = {kind: path.open("w", encoding="ascii") for kind, path in paths.items()}
    with (folder / "facts.csv").open(encoding="ascii") as facts:
        head = next(facts)
        for file in files.values():
            file.write(head)
        for row in facts:
            files[kind_of[row.split(",", 3)[2]]].write(row)
    for file in files.values():
        file.close()
    return list(paths.values())
