"""The benchmark's cell in SimPy: like machines, one robot, first come first served, exponential runs, constant service.

Arguments: machines, mean run, service, time to run, seed. Prints one JSON object: events (machine finishes plus robot
services), seconds of processor time, mean number of machines running.
"""
import json
import random
import sys
import time

import simpy


def main(machines, run_s, service_s, until_s, seed):
    env = simpy.Environment()
    robot = simpy.Resource(env, capacity=1)
    draw = random.Random(seed).expovariate
    counts = {"events": 0, "running": 0.0}

    def machine():
        while True:
            run = draw(1 / run_s)
            yield env.timeout(run)
            counts["events"] += 1
            counts["running"] += run
            with robot.request() as turn:
                yield turn
                yield env.timeout(service_s)
            counts["events"] += 1

    for _ in range(machines):
        env.process(machine())
    start = time.process_time()
    env.run(until_s)
    seconds = time.process_time() - start
    print(json.dumps({
        "version": simpy.__version__,
        "events": counts["events"],
        "seconds": seconds,
        "running": counts["running"] / until_s,
    }))


if __name__ == "__main__":
    main(int(sys.argv[1]), float(sys.argv[2]), float(sys.argv[3]), float(sys.argv[4]), int(sys.argv[5]))
