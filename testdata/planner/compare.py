#!/usr/bin/env python3
"""Times the planner and a general-purpose solver on the same integer programs.

Needs what make.py needs and Go. From the top of the repository:

    python3 testdata/planner/compare.py [COUNT]

The planner is timed by TestTimesOfPrograms (the best of five in one process,
building included), CBC by the CPU seconds that it reports itself for solving,
reading of the model left out; these come in hundredths, and one that reports
0.00 counts as 0. Both run one after the other on one processor. The model of
make.py is a plain one; a modeller could find a tighter one.
"""
import json
import os
import re
import statistics
import subprocess
import sys
import tempfile

sys.path.insert(0, os.path.dirname(os.path.abspath(__file__)))
import make  # noqa: E402


def solver_seconds(inst, folder):
    """Returns what CBC says its search took."""
    text = make.program(inst)
    if text is None:
        return None
    model = os.path.join(folder, 'm.lp')
    with open(model, 'w') as f:
        f.write(text)
    run = subprocess.run(['cbc', model, 'ratioGap', '0', 'allowableGap', '0', 'threads', '0', 'solve', 'quit'],
                         capture_output=True, text=True, check=True)
    found = re.findall(r'Total time \(CPU seconds\):\s+([0-9.]+)', run.stdout)
    if not found:  # solved before the search began
        return 0.0
    return float(found[-1])


def main():
    here = os.path.dirname(os.path.abspath(__file__))
    count = int(sys.argv[1]) if len(sys.argv) > 1 else 100
    with open(os.path.join(here, 'instances.json')) as f:
        instances = json.load(f)
    with tempfile.TemporaryDirectory() as folder:
        times = os.path.join(folder, 'times')
        subprocess.run(['go', 'test', './woodphys/resaw/plan', '-count=1', '-run', '^TestTimesOfPrograms$'],
                       cwd=os.path.join(here, '..', '..'), env={**os.environ, 'LATEWOOD_TIMES': times}, check=True, stdout=subprocess.DEVNULL)
        with open(times) as f:
            ours = {int(line.split()[0]): int(line.split()[1]) / 1e9 for line in f}
        ratios, theirs = [], []
        step = max(1, len(instances) // count)
        for inst in instances[::step]:
            seconds = solver_seconds(inst, folder)
            if seconds is None:
                continue
            theirs.append(seconds)
            ratios.append(seconds / ours[inst['id']])
    ratios.sort()
    mine = [ours[i['id']] for i in instances[::step]]
    print(f'{len(ratios)} programs')
    print(f'planner: median {statistics.median(mine) * 1e3:.3f} ms, longest {max(mine) * 1e3:.3f} ms')
    print(f'solver:  median {statistics.median(theirs) * 1e3:.0f} ms, longest {max(theirs) * 1e3:.0f} ms')
    print(f'ratio:   median {statistics.median(ratios):.0f}, quarter {ratios[len(ratios) // 4]:.0f}, three quarters {ratios[3 * len(ratios) // 4]:.0f}; the solver reported 0.00 s in {sum(s == 0 for s in theirs)}')
    if statistics.median(ratios) < 20:
        sys.exit('the median ratio is below 20')


if __name__ == '__main__':
    main()
