#!/usr/bin/env python3
# The scorer that defines the scores of practice cases: this project's own, free to use, kept as it is so that the
# TypeScript player and report (src/cases) can be held against it (test/cases/play.test.ts).
"""Plays a file of cases against a command that speaks the line mode of README.md, and prints its scores.
  play.py CASES.jsonl [--half even|odd] [--no-slips] [--max 80] [--log OUT.jsonl] -- COMMAND ARG...
Sets of repairs are judged after the faults that no reading shows (`masked`) are forgiven either way."""
import json, subprocess, sys, time

REPAIR = {'batt_discharged': 'charge_battery', 'batt_sulphated': 'battery', 'batt_shorted_cell': 'battery', 'batt_low_capacity': 'battery', 'term_pos': 'terminal_pos', 'term_neg': 'terminal_neg', 'dc_pos_lead': 'dc_plug',
          'reg_ground': 'regulator_ground', 'breaker': 'breaker', 'plug_one_pin': 'stator_plug', 'plug_multi': 'stator_plug', 'stator_open': 'stator', 'stator_gnd_end': 'stator', 'stator_gnd_mid': 'stator', 'stator_turns': 'stator',
          'stator_hot': 'stator', 'rotor_weak': 'rotor', 'reg_diode_open': 'regulator', 'reg_diode_short': 'regulator', 'reg_no_output': 'regulator', 'reg_no_regulation': 'regulator', 'reg_low_setpoint': 'regulator',
          'sense_drop': 'sense_wire', 'parasitic': 'parasitic_draw', 'acc_overload': 'reduce_load', 'undersized_wire': 'dc_wire'}
DEFAULT = {'rpm': '3000', 'lights': 'low', 'temp': 'cold', 'charged': 'False', 'acc': 'True', 'wiggle': 'False', 'loaded': 'False', 'through_plug': 'False', 'probe': 'post'}
UNPLUG = {'stator_ac', 'pin_case_ac', 'ohms_pair', 'mv_pair', 'ohms_case', 'diode'}

def parts(key):
    k, *st = key.split(); return k, {**DEFAULT, **dict(x.split('=', 1) for x in st)}

class Player:
    def __init__(s, case, slips=True):
        s.case, s.have, s.tried, s.minutes, s.n, s.spoiled, s.setup = case, {}, [], 0.0, 0, None, set()
        s.slip = case['truth'].get('slip') if slips else None; s.table = {}
        for k, v in case['readings'].items(): n, st = parts(k); s.table[(n, tuple(sorted(st.items())))] = v
        s.kinds = {}
        for (n, st), v in s.table.items(): s.kinds.setdefault(n, []).append((dict(st), v))
    def lookup(s, key):
        n, st = parts(key); hit = s.table.get((n, tuple(sorted(st.items()))))
        if hit: return hit
        best = None
        for q, v in s.kinds.get(n, []):
            hard = sum(q.get(k) != st.get(k) for k in set(q) | set(st) if k in ('pair', 'pin', 'red', 'black', 'cell', 'what', 'state', 'through_plug', 'loaded'))
            if hard: continue
            d = sum(q.get(k) != st.get(k) for k in set(q) | set(st))
            if best is None or d < best[0]: best = (d, v)
        return best[1] if best else [None, 3]
    def ask(s, key):
        n, st = parts(key); v, mins = s.lookup(key); again = key in s.have
        s.minutes += mins
        for name, need, cost in (('unplug', n in UNPLUG, 6), ('heat', st.get('temp') == 'hot', 15), ('charge', st.get('charged') == 'True' or n == 'capacity_minutes', 20)):
            if need and name not in s.setup: s.setup.add(name); s.minutes += cost
        if again: s.tried.append(key)
        elif isinstance(v, (int, float)) and not isinstance(v, bool):
            s.n += 1
            if s.slip and s.n == s.slip[0]:
                how = s.slip[1]; s.spoiled = key; signed = n in ('batt_amps', 'batt_volts', 'rest_volts', 'keyon_volts', 'crank_volts', 'load_test_volts', 'reg_volts', 'drop_pos', 'drop_neg', 'alt_amps')
                if how == 'reversed' and not signed: how = '/10'
                v = {'x10': v*10, '/10': v/10, 'mode': 0.0 if n in ('stator_ac', 'pin_case_ac', 'ripple') else round(v*2.2, 3), 'contact': v+3 if n.startswith('ohms') else round(v*.7, 3), 'reversed': -v}[how]
        s.have[key] = v

def main(a):
    i = a.index('--'); cmd = a[i+1:]; o = a[:i]; fn = o[0]; opt = lambda k, d=None: o[o.index(k)+1] if k in o else d
    cases = [json.loads(l) for l in open(fn)]
    if opt('--half'): cases = [c for j, c in enumerate(cases) if (j % 2 == 0) == (opt('--half') == 'even')]
    cap = int(opt('--max', 80)); p = subprocess.Popen(cmd, stdin=subprocess.PIPE, stdout=subprocess.PIPE, text=True, bufsize=1); rows = []; lat = []
    log = open(opt('--log'), 'w') if opt('--log') else None
    for c in cases:
        P = Player(c, '--no-slips' not in o); blamed = False; r = {}
        for _ in range(cap):
            t = time.perf_counter()
            p.stdin.write(json.dumps(dict(id=c['id'], nameplate=c['nameplate'], complaint=c['complaint'], readings=P.have, tried=P.tried))+'\n'); p.stdin.flush(); l = p.stdout.readline(); lat.append(time.perf_counter()-t)
            if not l: sys.exit('the command ended early')
            r = json.loads(l)
            if P.spoiled and any(d['key'] == P.spoiled for d in r.get('doubtful', [])): blamed = True
            if not r.get('next'): break
            P.ask(r['next']['key'])
        T = c['truth']; need = set(T['repairs']); free = {REPAIR[f] for f in T['masked']}; do = {x['repair'] for x in r.get('repairs', []) if x.get('do')}
        exact = (do-free) == (need-free); truth = frozenset(T['faults'])-set(T['masked']); cum = 0; inside = False; size = 0; pt = 0
        for s in sorted(r.get('sets', []), key=lambda s: -s['p']):
            same = frozenset(s['faults'])-set(T['masked']) == truth
            if same: pt += s['p']
            if cum < .95: size += 1; inside |= same
            cum += s['p']
        rows.append(dict(id=c['id'], n=len(T['faults']), exact=exact, need=sorted(need), do=sorted(do), masked=T['masked'], minutes=P.minutes, asked=len(P.have)+len(P.tried), inside=inside, size=size, pt=pt, claims=[(x['p'], x['repair'] in need) for x in r.get('repairs', []) if x['repair'] not in free],
                         slip=bool(P.spoiled), blamed=blamed, false_doubt=not P.spoiled and bool(r.get('doubtful'))))
        if log: log.write(json.dumps(dict(rows[-1], readings=P.have, truth=T['detail'], answer=r))+'\n')
    p.stdin.close(); p.wait()
    mean = lambda x: sum(x)/len(x) if x else float('nan')
    for k in sorted({r['n'] for r in rows}): q = [r for r in rows if r['n'] == k]; print(f"{k} faults: repairs exactly right {sum(r['exact'] for r in q)}/{len(q)} = {100*mean([r['exact'] for r in q]):.1f} %, minutes {mean([r['minutes'] for r in q]):.1f}")
    print(f"all {len(rows)}: exact {100*mean([r['exact'] for r in rows]):.1f} %, minutes {mean([r['minutes'] for r in rows]):.1f}, readings {mean([r['asked'] for r in rows]):.1f}")
    print(f"truth in the 95 % set {100*mean([r['inside'] for r in rows]):.1f} %, median size {sorted(r['size'] for r in rows)[len(rows)//2]}, mean p on the truth {mean([r['pt'] for r in rows]):.3f}")
    sound = [r for r in rows if r['n'] == 0]; print(f"sound bikes with a part bought: {sum(bool(r['do']) for r in sound)}/{len(sound)}")
    cl = [x for r in rows for x in r['claims']]; e = 0
    for b in range(10):
        q = [x for x in cl if b/10 <= x[0] < (b+1)/10 or (b == 9 and x[0] == 1)]
        if q: e += len(q)/len(cl)*abs(mean([x[0] for x in q])-mean([x[1] for x in q]))
    hi = [x for x in cl if x[0] >= .99]; print(f"calibration error over repairs {e:.3f} ({len(cl)} claims), overconfidence {mean([x[0]-x[1] for x in cl]):+.3f}; claims of 99 % or more wrong {sum(not x[1] for x in hi)}/{len(hi)}")
    sl = [r for r in rows if r['slip']]; ns = [r for r in rows if not r['slip']]
    print(f"spoiled reading blamed {sum(r['blamed'] for r in sl)}/{len(sl)}, exact there {100*mean([r['exact'] for r in sl]):.1f} %; good readings doubted in {sum(r['false_doubt'] for r in ns)}/{len(ns)} clean cases")
    lat.sort(); print(f"answer ms p50 {1e3*lat[len(lat)//2]:.0f} p95 {1e3*lat[int(len(lat)*.95)]:.0f} max {1e3*lat[-1]:.0f}")
    print(f"score {100*mean([r['exact'] for r in rows]):.1f}")
main(sys.argv[1:])
