#!/usr/bin/env python3
"""Every way to cut small billets by cuts from edge to edge.

Needs Python 3.9 or later and nothing else. Remake the committed file with

    python3 testdata/planner/exact.py testdata/planner/exact.json

The program knows nothing of how the planner searches. It parts a rectangle of whole
units at every whole unit along and across, to any depth, saws every stack at every whole
unit, lays blanks flat or on their side, parts the leaves of a blank that is as long as one part and
as wide as another into as many of a smaller one as they hold, and keeps every count of sets that
can be had.
Sizes, kerfs and zones are whole units, thickness is even, so that a best plan exists on
this grid.
"""
import functools
import json
import random
import sys

COUNT = 300


def instance(number):
    r = random.Random(9000 + number)
    saw = dict(resaw=r.choice([0, 1, 1]), cross=r.choice([0, 1, 1, 2]), rip=r.choice([0, 1, 1]), reface=r.choice([0, 0, 1]),
               far=r.random() < 0.7)
    b = dict(length=r.randint(6, 12), width=r.randint(4, 8), thickness=r.randint(2, 6), trim0=r.choice([0, 0, 1]), trim1=0, zones=[])
    for _ in range(r.choice([0, 0, 1, 2])):
        x, y = r.randint(0, b['length'] - 1), r.randint(0, b['width'] - 1)
        z = dict(x0=x, x1=x + r.randint(1, 2), y0=y, y1=y + 1)
        if r.random() < 0.4:
            z['z0'] = r.randint(0, b['thickness'] - 1)
            z['z1'] = z['z0'] + 1
        b['zones'].append(z)
    if r.random() < 0.3:
        b['pith'] = dict(x=r.randint(-2, b['width'] + 2), z=r.randint(-2, b['thickness'] + 2))
    parts = []
    for _ in range(r.choice([2, 3])):
        p = dict(length=r.randint(2, 7), width=r.randint(2, 5), thickness=r.randint(1, 3), pieces=r.choice([1, 1, 2]), least=0)
        p['ringed'] = 'pith' in b and r.random() < 0.4
        p['worth'] = max(1, p['length'] * p['width'] * p['thickness'] * p['pieces'] * r.randint(2, 8) // 4)
        if r.random() < 0.4:
            p['most'] = r.randint(0, 3)
        if r.random() < 0.3:
            p['least'] = r.randint(0, p.get('most', 3))
        parts.append(p)
    return dict(id=number, saw=saw, billet=b, parts=parts)


def best(inst):
    """Returns the most worth and the fewest sets missing."""
    saw, b, parts = inst['saw'], inst['billet'], inst['parts']
    kinds = len(parts)
    none = (0,) * kinds
    cap = [p.get('most') if p.get('most') is not None else 99 for p in parts]

    def add(x, y):
        return tuple(min(i + j, c) for i, j, c in zip(x, y, cap))

    def dominated(sets):
        # more sets are never worse here: worth is positive and sets beyond a most count for nothing
        out = []
        for s in sorted(sets, key=sum, reverse=True):
            if not any(all(i <= j for i, j in zip(s, t)) for t in out):
                out.append(s)
        return frozenset(out)

    def spoiled(x0, x1, y0, y1, z0, z1):
        for z in b['zones']:
            if z['x0'] < x1 and x0 < z['x1'] and z['y0'] < y1 and y0 < z['y1']:
                if 'z0' not in z or (z['z0'] < z1 and z0 < z['z1']):
                    return True
        p = b.get('pith')
        # a pith on a face or an edge of the billet is not inside it
        return bool(p) and 0 < p['x'] < b['width'] and y0 < p['x'] < y1 and z0 < p['z'] < z1

    def leaf(p, x0, x1, y0, y1, z0):
        z1 = z0 + p['thickness']
        if spoiled(x0, x1, y0, y1, z0, z1):
            return False
        if p['ringed']:
            off = max(0, y0 - b['pith']['x'], b['pith']['x'] - y1)
            return max(abs(z0 - b['pith']['z']), abs(z1 - b['pith']['z'])) <= off  # 45 degrees, both faces
        return True

    step = saw['resaw'] + saw['reface']
    tail = 0 if saw['far'] else saw['resaw']

    def abreast(p, long, wide):
        """How many of a part a leaf is crosscut and ripped into."""
        fit = [o for o in parts if o['length'] <= long and o['width'] <= wide]
        if not any(o['length'] == long for o in fit) or not any(o['width'] == wide for o in fit):
            return 1
        return ((long + saw['cross']) // (p['length'] + saw['cross'])) * ((wide + saw['rip']) // (p['width'] + saw['rip']))

    def stack(x0, x1, y0, y1):
        @functools.lru_cache(None)
        def below(z):
            if z >= b['thickness']:
                return frozenset([none])
            out = set(below(z + 1))
            for k, p in enumerate(parts):
                if p['length'] > x1 - x0 or p['width'] > y1 - y0:
                    continue
                at, good = z, True
                for _ in range(p['pieces']):
                    good = good and at + p['thickness'] + tail <= b['thickness'] and leaf(p, x0, x1, y0, y1, at)
                    at += p['thickness'] + step
                if good:
                    n = abreast(p, x1 - x0, y1 - y0)
                    one = add(none, tuple(n if i == k else 0 for i in range(kinds)))
                    out |= {add(one, s) for s in below(at)}
            return dominated(out)
        return below(0)

    def on_side(x0, x1, y0, y1):
        out = {none}
        for k, p in enumerate(parts):
            if p['length'] > x1 - x0 or p['width'] > b['thickness'] or p['ringed']:
                continue
            n = 1
            while True:
                leaves = n * p['pieces']
                width = leaves * p['thickness'] + (leaves - 1) * step + tail
                if width > y1 - y0:
                    break
                clear = not any(z['x0'] < x0 + p['length'] and x0 < z['x1'] and z['y0'] < y0 + width and y0 < z['y1'] for z in b['zones'])
                q = b.get('pith')
                if q and 0 < q['x'] < b['width'] and 0 < q['z'] and y0 < q['x'] < y0 + width:
                    clear = False
                if 3 * width >= p['width'] and clear:
                    out.add(add(none, tuple(n if i == k else 0 for i in range(kinds))))
                n += 1
        return out

    @functools.lru_cache(None)
    def piece(x0, x1, y0, y1):
        if x1 <= x0 or y1 <= y0:
            return frozenset([none])
        out = set(piece(x0 + 1, x1, y0, y1)) | set(piece(x0, x1, y0 + 1, y1))
        out |= stack(x0, x1, y0, y1) | on_side(x0, x1, y0, y1)
        for c in range(x0 + 1, x1):
            low, high = piece(x0, c, y0, y1), piece(c + saw['cross'], x1, y0, y1)
            out |= {add(s, t) for s in low for t in high}
        for c in range(y0 + 1, y1):
            low, high = piece(x0, x1, y0, c), piece(x0, x1, c + saw['rip'], y1)
            out |= {add(s, t) for s in low for t in high}
        return dominated(out)

    found = None
    for s in piece(b['trim0'], b['length'] - b['trim1'], 0, b['width']):
        short = sum(max(0, p['least'] - n) for p, n in zip(parts, s))
        worth = sum(p['worth'] * n for p, n in zip(parts, s))
        if found is None or (short, -worth) < found:
            found = (short, -worth)
    return -found[1], found[0]


def main():
    out = []
    for i in range(COUNT):
        inst = instance(i)
        inst['worth'], inst['short'] = best(inst)
        out.append(inst)
    with open(sys.argv[1], 'w') as f:
        f.write('[\n' + ',\n'.join(json.dumps(i, separators=(',', ':')) for i in out) + '\n]\n')


if __name__ == '__main__':
    main()
