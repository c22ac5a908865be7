#!/usr/bin/python3
"""The due list by pandas, vectorised, from the same CSV.   usage: due_pandas.py FOLDER AS-OF overdue|all"""
import sys

TITLE = "pandas"


def command(place, rows):
    return [place.python_with_pandas, __file__, place.text, place.as_of, rows]


def main():
    import numpy
    import pandas

    folder, as_of, rows = sys.argv[1], numpy.datetime64(sys.argv[2], "D"), sys.argv[3]
    tasks = pandas.read_csv(f"{folder}/tasks.csv")
    machines = pandas.read_csv(f"{folder}/machines.csv", dtype={"machine": "string"})
    facts = pandas.read_csv(f"{folder}/facts.csv", usecols=["on", "kind", "machine", "at", "task", "last", "first"],
                            dtype={"on": str, "kind": "category", "machine": "category", "task": "category"})
    # Of a month or a year its first day.
    short = facts["on"].str.len() < 10
    facts.loc[short, "on"] = (facts.loc[short, "on"] + "-01-01").str[:10]
    facts["day"] = pandas.to_datetime(facts["on"], format="%Y-%m-%d").to_numpy().astype("M8[D]")
    facts = facts[(facts["day"].to_numpy().astype("M8[D]") <= as_of) & facts["kind"].isin(["reading", "service", "meter-change"])]
    facts = facts.sort_values(["machine", "day"], kind="stable")
    change = (facts["last"].fillna(0) - facts["first"].fillna(0)) * 100
    facts["usage"] = (facts["at"] * 100).round() + change.groupby(facts["machine"], observed=True).cumsum().round()
    facts["exact"] = facts["usage"].where(~short.reindex(facts.index)).ffill()
    facts["usage"] = facts["usage"].fillna(facts["exact"])  # a service without a value: that of its day's reading
    reading = facts[facts["kind"] == "reading"].drop_duplicates("machine", keep="last").set_index("machine")["usage"]
    done = facts[facts["kind"] == "service"].drop_duplicates(["machine", "task"], keep="last")[["machine", "task", "day", "usage"]]
    done = done.astype({"machine": "string", "task": str})
    points = machines.merge(tasks, on="kind").merge(done, on=["machine", "task"], how="left")
    first_day = pandas.to_datetime(points["first_day"], format="%Y-%m-%d")
    fitted_on = points["day"].fillna(first_day).to_numpy().astype("M8[D]")
    known = points["machine"].map(dict(zip(reading.index.astype(str), reading))).fillna(0).astype("int64").to_numpy()
    used = known - points["usage"].fillna(0).astype("int64").to_numpy()
    interval = points["hours"].to_numpy() * 100
    by_hours, by_months, safety = interval > 0, points["months"].to_numpy() > 0, points["safety"].to_numpy() == 1
    left = interval - used
    grace = numpy.where(safety, 0, numpy.where(points["grace_hours"] > 0, points["grace_hours"] * 100, interval * 5 // 100))
    month = fitted_on.astype("M8[M]")
    due_month = month + points["months"].to_numpy()
    last = (due_month + 1).astype("M8[D]") - 1
    due_by = numpy.minimum(due_month.astype("M8[D]") + (fitted_on - month.astype("M8[D]")), last)
    days = (due_by - fitted_on).astype("int64")
    grace_days = numpy.where(safety, 0, numpy.where(points["grace_days"] > 0, points["grace_days"], days * 5 // 100))
    days_left = (due_by - as_of).astype("int64")
    overdue = (by_hours & (left < -grace)) | (by_months & (-days_left > grace_days))
    due = (by_hours & (left <= 0)) | (by_months & (days_left <= 0))
    answer = pandas.DataFrame({
        "machine": points["machine"], "task": points["task"], "safety": safety, "standing": numpy.where(overdue, "overdue", numpy.where(due, "due", "")),
        "used": numpy.where(by_hours, used / 100, numpy.nan), "left": numpy.where(by_hours, left / 100, numpy.nan), "fitted_on": fitted_on,
        "calendar_due_on": numpy.where(by_months, due_by, numpy.datetime64("NaT")),
        "calendar_left_days": pandas.array(numpy.where(by_months, days_left, 0), dtype="Int64")})
    answer.loc[~by_months, "calendar_left_days"] = pandas.NA
    if rows == "overdue":
        answer = answer[overdue]
    answer = answer.sort_values(["safety", "left"], ascending=[False, True]).drop(columns="safety")
    answer.to_csv(sys.stdout, index=False, float_format="%.2f")


if __name__ == "__main__":
    main()
