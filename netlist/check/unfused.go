package check

import (
	"container/heap"
	"fmt"

	"loomwright/netlist"
	"loomwright/schematic"
)

var unfused = Rule{
	ID:    "no fuse between source and wire",
	Title: "Wire that nothing but its own melting protects",
	Help: "From every battery and alternator pole the rule walks on through wires, plugs, joints and contacts, in whatever position, " +
		"diodes in their direction, up to fuses, links and breakers. A short piece from the source to its fuse is allowed, a longer one " +
		"in a sleeve; the diodes within an alternator belong to the source. " +
		"The main cable of a starter is customarily without a fuse and gives a note.",
	Source: "33 CFR 183.455 (from memory)",
	fuses:  true,
	run: func(r *run) {
		z := r.zones()
		for zone := range z.live {
			if z.live[zone] || z.feed(zone).unfused() {
				r.unfusedZone(zone)
			}
		}
	},
}

// stretch is the wire from a source to a node.
type stretch struct {
	mm       float64
	sheathed bool // all of it in a sleeve
	unknown  bool // some of it has no length
	by       int  // branch the node was reached by, -1 at the source
	source   int  // source branch
}

func (r *run) unfusedZone(zone int) {
	z := r.zones()
	reach := r.stretches()
	starter := r.starterCables(zone, reach)
	for _, i := range z.inner[zone] {
		br := &r.n.Branches[i]
		if br.Role != netlist.RoleWire {
			continue
		}
		from, ok := reach[br.A]
		near := br.A
		if to, ok2 := reach[br.B]; !ok || ok2 && to.mm < from.mm {
			from, near, ok = to, br.B, ok2
		}
		if ok {
			r.unfusedWire(i, near, extend(from, r, br), starter[i])
		}
	}
}

func (r *run) unfusedWire(i, near int, s stretch, starter bool) {
	br := &r.n.Branches[i]
	name, limitName := br.Wire.Name, limitUnfused
	if s.sheathed {
		limitName = limitUnfusedTube
	}
	limit, src := r.limit(limitName)
	source := r.n.Branches[s.source].Part
	f := Finding{Severity: Error, Items: []schematic.Key{br.Wire.Key(), source.Key()}, Unit: "mm", Source: src.String(),
		Limit: schematic.Some(limit), Value: schematic.Some(s.mm), Margin: schematic.Some(limit - s.mm),
		Formula: fmt.Sprintf("%s of wire from %s to the far end of %s", mm(s.mm), source.Name, name)}
	switch {
	case s.mm <= limit && !s.unknown:
		return
	case starter:
		f.Severity = Note
		f.Text = fmt.Sprintf("%s leads to the starter without a fuse, as is customary: a short circuit in it draws all %s can give, so keep it short and clear of edges and hot parts.", name, source.Name)
	case s.mm <= limit:
		f.Severity, f.Missing, f.Margin, f.Value = NotAssessed, "the length of wire from "+source.Name+" to its fuse", schematic.Num{}, schematic.Num{}
		f.Text = fmt.Sprintf("%s has no fuse before it; whether it is short enough is not assessed: a length on the way from %s is missing.", name, source.Name)
	default:
		f.Text = fmt.Sprintf("%s has no fuse between it and %s: %s of wire lie unprotected, %s are allowed.", name, source.Name, mm(s.mm), mm(limit))
		f.remedy = func() []Fix { return r.fuseOnTheWay(i, near, limit) }
	}
	r.add(f)
}

// stretches finds the least length of wire from a source to every node that it
// feeds without a fuse (Dijkstra 1959). A missing length counts as nothing and
// is marked.
func (r *run) stretches() map[int]stretch {
	if r.reach != nil {
		return r.reach
	}
	reach := map[int]stretch{}
	r.reach = reach
	z := r.zones()
	q := &nearest{}
	for i := range r.n.Branches {
		if br := &r.n.Branches[i]; br.IsSource() && z.of(br.A) != ground {
			heap.Push(q, near{br.A, stretch{sheathed: br.Element.Type == schematic.ElemBattery, by: -1, source: i}})
		}
	}
	for q.Len() > 0 {
		at := heap.Pop(q).(near)
		if _, done := reach[at.node]; done {
			continue
		}
		reach[at.node] = at.stretch
		for _, i := range r.n.At(at.node) {
			br := &r.n.Branches[i]
			to := br.Other(at.node)
			if _, done := reach[to]; done || z.of(to) == ground || !carriesOn(br) && !(isOneWay(br) && br.A == at.node) {
				continue
			}
			s := extend(at.stretch, r, br)
			s.by = i
			heap.Push(q, near{to, s})
		}
	}
	return reach
}

// extend adds a branch to a stretch.
func extend(s stretch, r *run, br *netlist.Branch) stretch {
	if br.Role != netlist.RoleWire {
		return s
	}
	s.mm += br.Conductor.LengthMM
	s.unknown = s.unknown || br.Conductor.LengthMM <= 0
	s.sheathed = s.sheathed && sleeved(r.doc, br.Wire)
	return s
}

// sleeved reports whether a wire lies in a sleeve all along its route.
func sleeved(d *schematic.Doc, w *schematic.Wire) bool {
	l := d.Loom(w.Loom)
	if l == nil || len(w.Route) == 0 {
		return false
	}
	for _, id := range w.Route {
		if s, ok := l.Segment(id); !ok || s.Sleeve == "" {
			return false
		}
	}
	return true
}

// starterCables returns the branches on the shortest way from a source to the
// starters of a zone.
func (r *run) starterCables(zone int, reach map[int]stretch) map[int]bool {
	on := map[int]bool{}
	for i := range r.n.Branches {
		br := &r.n.Branches[i]
		if br.Role != netlist.RoleElement || br.Element.Load != "starter" || r.zones().of(br.A) != zone {
			continue
		}
		for node := br.A; ; {
			s, ok := reach[node]
			if !ok || s.by < 0 {
				break
			}
			on[s.by] = true
			node = r.n.Branches[s.by].Other(node)
		}
	}
	return on
}

type near struct {
	node int
	stretch
}

type nearest []near

func (q nearest) Len() int { return len(q) }
func (q nearest) Less(i, j int) bool {
	if q[i].mm != q[j].mm {
		return q[i].mm < q[j].mm
	}
	return q[i].node < q[j].node
}
func (q nearest) Swap(i, j int) { q[i], q[j] = q[j], q[i] }
func (q *nearest) Push(x any)   { *q = append(*q, x.(near)) }
func (q *nearest) Pop() any {
	old := *q
	x := old[len(old)-1]
	*q = old[:len(old)-1]
	return x
}
