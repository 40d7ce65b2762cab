#!/usr/bin/env python3
"""Solves the committed integer programs with a second general-purpose solver.

Needs what make.py needs and GLPK (Debian: apt-get install glpk-utils). From the
top of the repository:

    python3 testdata/planner/confirm.py [SECONDS]

Every program is built anew from its instance and solved by GLPK, which shares no
code with CBC. It fails when an optimum differs from the committed one, or when the
best plan found by the end of SECONDS (60) is better, or the bound is worse.
"""
import json
import os
import re
import subprocess
import sys
import tempfile

sys.path.insert(0, os.path.dirname(os.path.abspath(__file__)))
import make  # noqa: E402


def glpk(inst, folder, seconds):
    """Returns the objective found and whether it is proven; 0 when nothing can be cut."""
    text = make.program(inst)
    if text is None:
        return -make.FINE * sum(p['least'] for p in inst['parts']), True
    model, answer = os.path.join(folder, 'm.lp'), os.path.join(folder, 'm.sol')
    with open(model, 'w') as f:
        f.write(text)
    subprocess.run(['glpsol', '--lp', model, '--cuts', '--tmlim', str(seconds), '-o', answer], capture_output=True, check=True)
    with open(answer) as f:
        report = f.read()
    status = re.search(r'^Status:\s+(.*?)\s*$', report, re.M).group(1)
    found = re.search(r'^Objective:\s+\S+ = (\S+)', report, re.M)
    if status not in ('INTEGER OPTIMAL', 'INTEGER NON-OPTIMAL'):
        return None, False
    return round(float(found.group(1))), status == 'INTEGER OPTIMAL'


def main():
    seconds = int(sys.argv[1]) if len(sys.argv) > 1 else 60
    here = os.path.dirname(os.path.abspath(__file__))
    with open(os.path.join(here, 'instances.json')) as f:
        instances = json.load(f)
    proven, wrong = 0, []
    with tempfile.TemporaryDirectory() as folder:
        for inst in instances:
            want = inst['worth'] - make.FINE * inst['short']
            got, optimal = glpk(inst, folder, seconds)
            proven += optimal
            if got is not None and (got > want or optimal and got != want):
                wrong.append((inst['id'], got, want))
    print(f'{len(instances)} programs, {proven} proven by GLPK, {len(wrong)} differ')
    if wrong:
        sys.exit(f'differ: {wrong[:10]}')


if __name__ == '__main__':
    main()
