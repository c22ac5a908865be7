"""A limit on the size of files (`ulimit -f`). Beyond it the system sends SIGXFSZ, which would end the program."""
STEP = 3000  # not a whole page, so that some writes are cut in the middle
MOST = 200


def sweep(bench):
    runs = 0
    for writing in bench.writings:
        for step in range(MOST):
            folder = bench.set(writing)
            done = bench.run(writing, folder, before=["prlimit", f"--fsize={step * STEP}"])
            runs += 1
            # Where even the old pages may not be written back, the journal has to stay, to do it later.
            bench.look(writing, folder, done, f"files of at most {step * STEP} bytes", may_leave={"record.db-journal"})
            if done.returncode == 0:
                break
        bench.summary.check(done.returncode == 0 and step > 0,
                            f"{writing.title}: exit {done.returncode} at the limit of {step * STEP} bytes")
    return runs
