#!/usr/bin/env python3
"""Random small billets, solved as integer programs by a general-purpose solver.

Needs Python 3.9 or later and CBC (Debian: apt-get install coinor-cbc). Remake
the committed file with

    python3 make.py instances.json

The model here is written from the statement of the problem and knows nothing of
how the planner searches: every cut may lie at every whole unit of length and
width and at every half unit of thickness, not only at normal patterns. Sizes
are whole units, ring angles 45 degrees and slopes of outlines whole, so that a
best plan exists on this grid.
"""
import json
import os
import random
import subprocess
import sys
import tempfile
from fractions import Fraction as F

COUNT = 500
FINE = 100000  # per set missing; above the worth of any plan here


def instance(number):
    r = random.Random(7000 + number)
    saw = dict(resaw=r.choice([0, 1, 1]), cross=r.choice([0, 1, 1, 2]), rip=r.choice([0, 1]),
               reface=r.choice([0, 0, 0, 1]), far=r.random() < 0.7)
    many = number % 4 == 3
    billets = []
    for _ in range(r.choice([2, 3]) if many else 1):
        big = 0 if many else r.choice([0, 1, 2])
        b = dict(length=r.randint(5, 8 + 2 * big), width=r.randint(4, 6 + big), thickness=r.randint(4, 8 + 2 * big),
                 face1=r.choice([0, 0, 1]), far_face=r.choice([0, 0, 1]), trim0=r.choice([0, 0, 1]), trim1=r.choice([0, 0, 1]),
                 zones=[], cup=0, bow=0, twist=0)
        kind = r.randint(0, 9)
        if kind in (0, 1):  # taper in thickness, along or across or both
            if r.random() < 0.7:
                b['thickness_end'] = max(1, b['thickness'] + r.randint(-3, 3))
            if r.random() < 0.7:
                b['thickness_far_edge'] = max(1, b['thickness'] + r.randint(-3, 3))
        if kind == 2:  # outline of slope 1: narrow towards the end or the start
            b['width'] = b['length'] + r.randint(1, 2)
            b['width_end'] = b['width'] - b['length']
            if r.random() < 0.5:
                b['width'], b['width_end'] = b['width_end'], b['width']
            b['thickness'] = min(b['thickness'], 8)
        if kind == 3:
            b['cup'], b['bow'], b['twist'] = r.randint(0, 3), r.randint(0, 3), r.randint(0, 2)
        for _ in range(r.choice([0, 0, 1, 2])):
            x, y = r.randint(0, b['length'] - 1), r.randint(0, b['width'] - 1)
            z = dict(x0=x, x1=x + r.randint(1, 2), y0=y, y1=y + r.randint(1, 2))
            if kind != 3 and r.random() < 0.6:
                z['z0'] = r.randint(0, b['thickness'] - 1)
                z['z1'] = z['z0'] + r.randint(1, 2)
            b['zones'].append(z)
        # Wedge or taper in width together with a pith can contradict each other:
        # then the planner proves less, so they are kept apart here.
        if kind >= 4 and r.random() < 0.5:
            b['pith'] = dict(x=r.randint(-3, b['width'] + 3), z=r.randint(-3, b['thickness'] + 2))
        elif r.random() < 0.3:
            b['ring_angle'] = r.choice([30, 60])
        if r.random() < 0.3:
            b['runout'] = r.choice([10, 30])
        billets.append(b)
    parts = []
    for _ in range(r.randint(2, 4)):
        p = dict(length=r.randint(2, 6), width=r.randint(2, 5), thickness=r.randint(1, 3), pieces=r.choice([1, 1, 2, 2, 3]))
        p['ringed'] = r.random() < 0.35
        p['runout'] = 20 if r.random() < 0.15 else 0
        volume = p['length'] * p['width'] * p['thickness'] * p['pieces']
        p['worth'] = max(1, volume * r.randint(2, 8) // 4)
        p['least'] = 0
        if many or r.random() < 0.45:
            if r.random() < 0.6:
                p['most'] = r.randint(0, 3)
            if r.random() < 0.4:
                p['least'] = r.randint(0, p.get('most', 3))
        parts.append(p)
    return dict(id=number, saw=saw, billets=billets, parts=parts)


def thickness(b, x, y):
    t = F(b['thickness'])
    return t + (b.get('thickness_end', t) - t) * F(x, b['length']) + (b.get('thickness_far_edge', t) - t) * F(y, b['width'])


def width(b, x):
    return F(b['width']) + (b.get('width_end', b['width']) - b['width']) * F(x, b['length'])


def inside(b, z0, z1):
    """Reports whether the pith runs through a leaf, as far as flattening may move it."""
    return z0 < b['pith']['z'] < z1


def clear(b, p, x0, x1, y0, y1, depths):
    """Reports whether leaves of p at depths (from rough face 1) are clear and of good grain."""
    if p['runout'] and ('runout' not in b or b['runout'] < p['runout']):
        return False
    for z0, z1 in depths:
        for z in b['zones']:
            if z['x0'] < x1 and x0 < z['x1'] and z['y0'] < y1 and y0 < z['y1']:
                if 'z0' not in z or (z['z0'] < z1 and z0 < z['z1']):
                    return False
        if 'pith' in b and y0 < b['pith']['x'] < y1 and inside(b, z0, z1):
            return False
        if p['ringed']:
            if 'pith' in b:
                off = max(F(0), y0 - F(b['pith']['x']), F(b['pith']['x']) - y1)
                if max(abs(z0 - b['pith']['z']), abs(z1 - b['pith']['z'])) > off:  # 45 degrees, both faces
                    return False
            elif b.get('ring_angle', 0) < 45:
                return False
    return True


def program(inst):
    """Returns the integer program in LP format."""
    saw, parts = inst['saw'], inst['parts']
    terms, rows, names = [], [], []
    made = [[] for _ in parts]
    for n, b in enumerate(inst['billets']):
        low, high = b['trim0'], b['length'] - b['trim1']
        widest = max(b['width'], b.get('width_end', 0))
        lengths = sorted({p['length'] for p in parts})
        widths = sorted({p['width'] for p in parts})
        cover_x = {}
        uses = {}
        for s in range(low, high):
            for e in range(s + lengths[0], high + 1):
                cover_y = {}
                for x in range(s, e):
                    for l in lengths:
                        if x + l > e:
                            continue
                        for w in widths:
                            for y in range(0, widest - w + 1):
                                if y + w > min(width(b, x), width(b, x + l)):
                                    continue
                                sets = stack(b, saw, parts, x, l, y, w)
                                if not sets:
                                    continue
                                box = (x, l, y, w)
                                v = f'B{n}_{s}_{e}_{x}_{l}_{y}_{w}'
                                names.append(v)
                                uses.setdefault(box, []).append(v)
                                for c in range(y, y + w + saw['rip']):
                                    cover_y.setdefault(c, []).append(v)
                if not cover_y:
                    continue
                v = f'S{n}_{s}_{e}'
                names.append(v)
                for c in range(s, e + saw['cross']):
                    cover_x.setdefault(c, []).append(v)
                for c, vs in cover_y.items():
                    rows.append(' + '.join(vs) + f' - {v} <= 0')
        for vs in cover_x.values():
            rows.append(' + '.join(vs) + ' <= 1')
        for (x, l, y, w), vs in uses.items():
            cover_z = {}
            for p, q, h in stack(b, saw, parts, x, l, y, w):
                v = f'Z{n}_{x}_{l}_{y}_{w}_{p}_{q}'
                names.append(v)
                terms.append(f"{parts[p]['worth']} {v}")
                made[p].append(v)
                for c in range(q, q + h):
                    cover_z.setdefault(c, []).append(v)
            for zs in cover_z.values():
                rows.append(' + '.join(zs) + ' - ' + ' - '.join(vs) + ' <= 0')
    for p, part in enumerate(parts):
        if 'most' in part and made[p]:
            rows.append(' + '.join(made[p]) + f" <= {part['most']}")
        if part['least']:
            terms.append(f'- {FINE} M{p}')
            rows.append(' + '.join(made[p] + [f'M{p}']) + f" >= {part['least']}")
    missing = [f'M{p}' for p, part in enumerate(parts) if part['least']]
    if not terms:
        return None
    out = ['Maximize', ' obj: ' + ' + '.join(terms).replace('+ -', '-'), 'Subject To']
    out += [f' r{i}: {row}' for i, row in enumerate(rows)]
    out += ['Bounds'] + [f' 0 <= {m} <= 1000' for m in missing]
    if names:
        out += ['Binaries'] + [' ' + v for v in names]
    if missing:
        out += ['Generals'] + [' ' + m for m in missing]
    return '\n'.join(out + ['End', ''])


def stack(b, saw, parts, x, l, y, w):
    """Returns the sets that fit in a blank: part, start and height in half units."""
    usable = min(thickness(b, i, j) for i in (x, x + l) for j in (y, y + w))
    loss = F(b['cup']) * F(w, b['width']) ** 2 + F(b['bow']) * F(l, b['length']) ** 2 + F(b['twist']) * F(l, b['length']) * F(w, b['width'])
    usable -= b['face1'] + b['far_face'] + loss
    face = b['face1'] + loss / 2
    out = []
    for p, part in enumerate(parts):
        if part['length'] > l or part['width'] > w:
            continue
        step = part['thickness'] + saw['resaw'] + saw['reface']
        for q in range(0, max(0, int(2 * usable)) + 1):
            starts = [F(q, 2) + i * step for i in range(part['pieces'])]
            end = starts[-1] + part['thickness'] + (0 if saw['far'] else saw['resaw'])
            if end > usable:
                continue
            depths = [(face + a, face + a + part['thickness']) for a in starts]
            if clear(b, part, x, x + l, y, y + w, depths):
                out.append((p, q, 2 * step * part['pieces']))
    return out


def solve(inst):
    text = program(inst)
    least = sum(p['least'] for p in inst['parts'])
    if text is None:
        return 0, least
    with tempfile.TemporaryDirectory() as folder:
        model, answer = os.path.join(folder, 'm.lp'), os.path.join(folder, 'm.sol')
        with open(model, 'w') as f:
            f.write(text)
        run = subprocess.run(['cbc', model, 'ratioGap', '0', 'allowableGap', '0', 'solve', 'solu', answer],
                             capture_output=True, text=True, check=True)
        with open(answer) as f:
            head = f.readline()
        if not head.startswith('Optimal'):
            raise RuntimeError(f"instance {inst['id']}: {head} {run.stdout[-500:]}")
        worth = short = 0
        with open(answer) as f:
            next(f)
            for line in f:
                _, name, value, *_ = line.replace('**', '').split()
                count = round(float(value))
                if name[0] == 'Z':
                    worth += count * inst['parts'][int(name.split('_')[5])]['worth']
                elif name[0] == 'M':
                    short += count
    return worth, short


def main():
    out = []
    for i in range(COUNT):
        inst = instance(i)
        inst['worth'], inst['short'] = solve(inst)
        out.append(inst)
        print(i, inst['worth'], inst['short'], file=sys.stderr)
    with open(sys.argv[1], 'w') as f:
        f.write('[\n' + ',\n'.join(json.dumps(i, separators=(',', ':')) for i in out) + '\n]\n')


if __name__ == '__main__':
    main()
