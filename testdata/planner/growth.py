#!/usr/bin/env python3
"""Measures how the planner grows and draws it.

Needs Python 3.9 or later and Go. From the top of the repository:

    python3 testdata/planner/growth.py

Runs BenchmarkPlanGrowth and writes growth.csv and growth.svg beside this file.
Steps and gaps are the same on every machine, times are not.
"""
import csv
import math
import os
import re
import subprocess

HERE = os.path.dirname(os.path.abspath(__file__))
PANELS = [('thickness', 'thickness of one billet, mm; 4 kinds of part'), ('parts', 'kinds of part; one billet, no limits'),
          ('billets', 'billets; 6 kinds, an order list')]


def measure():
    """Returns rows of panel, value, milliseconds, steps, gap in parts of a thousand."""
    out = subprocess.run(['go', 'test', './woodphys/resaw/plan', '-run', '^$', '-bench', '^BenchmarkPlanGrowth$', '-benchtime', '5x'],
                         cwd=os.path.join(HERE, '..', '..'), capture_output=True, text=True, check=True).stdout
    line = re.compile(r'BenchmarkPlanGrowth/(\w+)=(\d+)\S*\s+\d+\s+([0-9.]+) ns/op\s+([0-9.]+) gap/op\s+([0-9.]+) steps/op')
    return [(m[0], int(m[1]), float(m[2]) / 1e6, round(float(m[4])), float(m[3])) for m in line.findall(out)]


def draw(rows):
    """Returns an SVG: milliseconds over each measure, both on scales of powers of ten or plain ones."""
    width, height, left, top, gap = 330, 250, 60, 40, 40
    low, high = -2, 3  # 0.01 ms to 1 s
    out = [f'<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 {3 * width + 2 * gap + 20} {height + 95}" font-family="Georgia, \'DejaVu Serif\', serif" font-size="12" role="img" aria-labelledby="t">',
           '<title id="t">Growth of the planner</title>', '<rect width="100%" height="100%" fill="#fff"/>',
           '<text x="10" y="20" font-size="15">Time of one plan, in milliseconds; a ring: not proven within 20 million steps</text>']
    for n, (panel, label) in enumerate(PANELS):
        mine = [r for r in rows if r[0] == panel]
        x0, w = n * (width + gap) + left, width - left
        most = max(r[1] for r in mine)
        x = lambda v: x0 + w * v / most  # noqa: E731
        y = lambda ms: top + height * (high - max(low, math.log10(ms))) / (high - low)  # noqa: E731
        for p in range(low, high + 1):
            out.append(f'<path d="M{x0} {y(10 ** p):.1f}H{x0 + w}" stroke="#ccc"/><text x="{x0 - 6}" y="{y(10 ** p) + 4:.1f}" text-anchor="end">{10 ** p:g}</text>')
        out.append(f'<path d="M{x0} {top}V{top + height}H{x0 + w}" fill="none" stroke="#000"/>')
        path = ' '.join(f'{x(r[1]):.1f},{y(r[2]):.1f}' for r in mine)
        out.append(f'<polyline points="{path}" fill="none" stroke="#000"/>')
        for r in mine:
            out.append(f'<circle cx="{x(r[1]):.1f}" cy="{y(r[2]):.1f}" r="4" stroke="#000" fill="{"#fff" if r[4] else "#000"}"/>')
        last = -99
        for r in mine:
            if x(r[1]) - last > 22:
                out.append(f'<text x="{x(r[1]):.1f}" y="{top + height + 18}" text-anchor="middle">{r[1]}</text>')
                last = x(r[1])
        out.append(f'<text x="{x0 + w / 2}" y="{top + height + 42}" text-anchor="middle">{label}</text>')
    out.append('</svg>')
    return '\n'.join(out) + '\n'


def main():
    rows = measure()
    with open(os.path.join(HERE, 'growth.csv'), 'w', newline='') as f:
        write = csv.writer(f, lineterminator='\n')
        write.writerow(['measure', 'value', 'milliseconds', 'steps', 'gap_per_mille'])
        write.writerows([a, b, f'{c:.3g}', d, f'{e:.3g}'] for a, b, c, d, e in rows)
    with open(os.path.join(HERE, 'growth.svg'), 'w') as f:
        f.write(draw(rows))


if __name__ == '__main__':
    main()
